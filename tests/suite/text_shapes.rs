//! One invented trace in every shape a logger may give it: each has to come back sample for sample.
//!
//! A shape is a text made here, and what has to be read from it: for each trace its rate, its samples,
//! and what its name has to hold. Spellings of one kind stand together in one list.

use beatwalk::formats::{Choices, Opened, Opening, SourceFile, open};
use beatwalk::signal::{Recording, VoltageUnit};

const ROWS: usize = 900;
const HZ: f64 = 250.0;

/// Writes minutes, seconds and milliseconds.
type Clock = fn(usize, usize, usize) -> String;
/// Writes the time of a row.
type Stamp = fn(usize) -> String;

/// Thousandths of a millivolt: a beat a second, with a little roughness.
fn trace(rows: usize, hz: f64, height: f64) -> Vec<i32> {
    let bell = |t: f64, at: f64, width: f64| (-0.5 * ((t - at) / width).powi(2)).exp();
    let sample = |row: usize| {
        let t = (row as f64 / hz) % 1.0;
        let rough = (row * 7919 % 13) as f64 - 6.0;
        (1000.0 * height * (bell(t, 0.3, 0.012) + 0.25 * bell(t, 0.55, 0.04)) + rough) as i32
    };
    (0..rows).map(sample).collect()
}

fn millivolts(trace: &[i32]) -> Vec<String> {
    trace.iter().map(|value| format!("{:.3}", f64::from(*value) / 1000.0)).collect()
}

fn seconds(rows: usize, hz: f64) -> Vec<String> {
    (0..rows).map(|row| format!("{:.3}", row as f64 / hz)).collect()
}

/// Columns side by side; a column that ends early is empty below.
fn table(columns: &[Vec<String>], delimiter: &str) -> String {
    let rows = columns.iter().map(Vec::len).max().unwrap_or(0);
    let empty = String::new();
    let row = |row: usize| {
        let cells = columns.iter().map(|column| column.get(row).unwrap_or(&empty).as_str());
        cells.collect::<Vec<_>>().join(delimiter) + "\n"
    };
    (0..rows).map(row).collect()
}

fn read(text: &str) -> Result<Opened, String> {
    let file = SourceFile { name: "shape.csv".to_owned(), bytes: text.as_bytes().to_vec() };
    match open(&[file], &Choices::default(), &mut ()) {
        Ok(Opening::Ready(opened)) => Ok(opened),
        Ok(Opening::NeedsRate(_)) => Err("no rate".to_owned()),
        Err(error) => Err(error.to_string()),
    }
}

/// What is wrong with a trace, if anything.
fn difference(found: &Recording, hz: f64, samples: &[i32], name: &str) -> Option<String> {
    let wanted: Vec<f32> =
        samples.iter().map(|value| (f64::from(*value) / 1000.0) as f32).collect();
    if (found.rate.hz() / hz - 1.0).abs() > 1e-6 {
        return Some(format!("{} Hz", found.rate.hz()));
    }
    if !found.name.contains(name) {
        return Some(format!("is called {}", found.name));
    }
    let close = |(a, b): (&f32, &f32)| (a - b).abs() < 2e-6;
    if found.samples.len() != wanted.len() || !found.samples.iter().zip(&wanted).all(close) {
        return Some(format!("{} samples, or other ones", found.samples.len()));
    }
    None
}

/// Fails with a line for each text that does not read as the traces.
fn check<'a>(texts: impl IntoIterator<Item = (&'a str, String)>, wanted: &[(f64, &[i32], &str)]) {
    let mut wrong = Vec::new();
    for (shape, text) in texts {
        match read(&text) {
            Err(error) => wrong.push(format!("{shape}: {error}")),
            Ok(opened) if opened.traces.len() != wanted.len() => {
                wrong.push(format!("{shape}: {} traces", opened.traces.len()));
            }
            Ok(opened) => {
                for (found, (hz, samples, name)) in opened.traces.iter().zip(wanted) {
                    let said = difference(found, *hz, samples, name);
                    wrong.extend(said.map(|said| format!("{shape}: {said}")));
                    if found.unit != VoltageUnit::Millivolt {
                        wrong.push(format!("{shape}: in {:?}", found.unit));
                    }
                }
            }
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

#[test]
fn heads_in_many_spellings() {
    let samples = trace(ROWS, HZ, 1.0);
    let rows = table(&[seconds(ROWS, HZ), millivolts(&samples)], ",");
    let heads = [
        "t_s,ecg_mv",
        "Time (sec),ECG (millivolts)",
        "t/s,U/mV",
        "Zeit / s,Spannung / mV",
        "Tiempo (segundos),Voltaje (mV)",
        "Temps (secondes),Tension (mV)",
        "Tempo (secondi),Tensione (mV)",
        "Время (с),Напряжение (мВ)",
        "time <s>,ecg <mVolts>",
        "seconds,mV",
        "t in Sekunden,EKG in Millivolt",
        "\"time, s\",\"lead I, right to left, mV\"",
        "time,ecg\ns,mV",
        "[s],[mV]",
        "time,ecg\n(s),(mV)\n----,----",
        "s,mV\n\ntime (s),ecg (mV)",
    ];
    let texts = heads.map(|head| (head, format!("{head}\n{rows}")));
    check(texts, &[(HZ, &samples, "")]);
}

#[test]
fn rates_in_many_phrases() {
    let samples = trace(ROWS, HZ, 1.0);
    let rows = table(&[millivolts(&samples)], ",");
    let phrases = [
        "# fs=250",
        "# 250 S/s",
        "# SR 250",
        "# sampling frequency = 2.5e2 Hz",
        "# 1 sample every 4 ms",
        "# timebase 4 ms/sample",
        "# 0.25 kHz",
        "# 250 data points per second",
        "# samples/second: 250",
        "# Filter: 0.5-40 Hz, 50 Hz notch; sampling 250 Hz",
        "# 2026-03-02 recorded at 250 Hz with 12 bit",
        "# Pulse: 72 bpm, rate: 250 Hz",
        "Abtastrate;250",
        "Частота дискретизации: 250 Гц",
        "Fréquence d'échantillonnage : 250 Hz",
        "{\"sampling_rate\": 250, \"channels\": [1]}",
    ];
    let above = phrases.map(|phrase| (phrase, format!("{phrase}\nECG (mV)\n{rows}")));
    let below = ["# sampling rate: 250 Hz", "Sampling rate: 250 Hz"];
    let below = below.map(|phrase| ("below", format!("ECG (mV)\n{rows}{phrase}\n")));
    check(above.into_iter().chain(below), &[(HZ, &samples, "ECG")]);
    for phrase in ["notch 50 Hz", "heart rate 72", "12 bit", "channel 1: ECG", "3 channels"] {
        let error = read(&format!("# {phrase}\nECG (mV)\n{rows}")).unwrap_err();
        assert_eq!(error, "no rate", "{phrase}");
    }
}

#[test]
fn times_in_many_spellings() {
    let samples = trace(ROWS, HZ, 1.0);
    let clock = |row: usize| {
        let (second, milli) = (58 + row * 4 / 1000, row * 4 % 1000);
        (second / 60, second % 60, milli)
    };
    let spellings: [(&str, Clock); 10] = [
        ("time of day", |m, s, ms| format!("09:{m:02}:{s:02}.{ms:03}")),
        ("in brackets", |m, s, ms| format!("[09:{m:02}:{s:02}.{ms:03}]")),
        ("with a colon", |m, s, ms| format!("09:{m:02}:{s:02}:{ms:03}")),
        ("minutes", |m, s, ms| format!("{m}:{s:02}.{ms:03}")),
        ("ISO 8601", |m, s, ms| format!("2026-03-02T09:{m:02}:{s:02}.{ms:03}Z")),
        ("ISO 8601 basic", |m, s, ms| format!("20260302T09{m:02}{s:02}.{ms:03}")),
        ("with a zone", |m, s, ms| format!("2026-03-02 09:{m:02}:{s:02}.{ms:03}+01:00")),
        ("after noon", |m, s, ms| format!("3/2/2026 1:{m:02}:{s:02}.{ms:03} PM")),
        ("month in letters", |m, s, ms| format!("2-Mar-2026 09:{m:02}:{s:02}.{ms:03}")),
        ("in quotes", |m, s, ms| format!("'09:{m:02}:{s:02}.{ms:03}'")),
    ];
    let texts = spellings.map(|(name, spell)| {
        let times = (0..ROWS).map(|row| {
            let (minutes, seconds, millis) = clock(row);
            spell(minutes, seconds, millis)
        });
        let rows = table(&[times.collect(), millivolts(&samples)], ";");
        (name, format!("time;ecg (mV)\n{rows}"))
    });
    check(texts, &[(HZ, &samples, "ecg")]);
    let numbers: [(&str, Stamp); 7] = [
        ("(ms)", |row| (row * 4).to_string()),
        ("(ms) from an epoch", |row| (1_772_442_845_000 + row * 4).to_string()),
        ("(us)", |row| (row * 4000).to_string()),
        ("(us) of 32 bit", |row| ((4_294_000_000 + row * 4000) % 4_294_967_296).to_string()),
        ("(s) before 0", |row| format!("{:.3}", row as f64 * 0.004 - 2.0)),
        ("(s) in powers", |row| format!("{:.6e}", row as f64 * 0.004)),
        ("(s) on every tenth row", |row| match row % 10 {
            0 => format!("{:.3}", row as f64 * 0.004),
            _ => String::new(),
        }),
    ];
    let texts = numbers.map(|(name, number)| {
        let rows = table(&[(0..ROWS).map(number).collect(), millivolts(&samples)], ",");
        let unit = name.split_inclusive(')').next().unwrap_or_default();
        (name, format!("time {unit},ecg (mV)\n{rows}"))
    });
    check(texts, &[(HZ, &samples, "ecg")]);
}

#[test]
fn row_numbers_are_no_time() {
    let samples = trace(ROWS, HZ, 1.0);
    let numbers: Vec<String> = (0..ROWS).map(|row| row.to_string()).collect();
    let columns = [numbers, seconds(ROWS, HZ), millivolts(&samples)];
    let heads =
        [",time (s),ecg (mV)", "Unnamed: 0,time (s),ecg (mV)", "\"\",\"time_s\",\"ecg_mV\""];
    let texts = heads.map(|head| (head, format!("{head}\n{}", table(&columns, ","))));
    let short = ("one name too few", format!("time_s ecg_mV\n{}", table(&columns, " ")));
    check(texts.into_iter().chain([short]), &[(HZ, &samples, "ecg")]);
}

#[test]
fn runs_one_below_the_other() {
    let (rest, work) = (trace(600, HZ, 1.0), trace(500, HZ, 0.7));
    let first = table(&[seconds(600, HZ), millivolts(&rest)], ",");
    let second = table(&[seconds(500, HZ), millivolts(&work)], ",");
    let head = "time (s),ecg (mV)\n";
    let between = ["", "\n\n", head, "------\n", "Rate: 250 Hz\n\n"];
    let texts = between.map(|text| (text, format!("{head}{first}{text}{second}")));
    check(texts, &[(HZ, &rest, "run 1"), (HZ, &work, "run 2")]);
    let between = ["Run 2: work\n", "\nRun 2: work\ntime (s),ecg (mV)\n", "# Run 2: work\n"];
    let texts = between.map(|text| (text, format!("Run 1: rest\n{head}{first}{text}{second}")));
    check(texts, &[(HZ, &rest, "Run 1: rest"), (HZ, &work, "Run 2: work")]);
    let words = format!("# lying\n{head}{first}# standing\n{second}");
    check([("words", words)], &[(HZ, &rest, "lying"), (HZ, &work, "standing")]);
    // Without a time, or where it goes on, only words part two runs.
    let fast = trace(700, 500.0, 0.8);
    let (first, second) = (table(&[millivolts(&rest)], ","), table(&[millivolts(&fast)], ","));
    let untimed =
        format!("Run 1\nRate: 250 Hz\nECG (mV)\n{first}\nRun 2\nRate: 500 Hz\nECG (mV)\n{second}");
    check([("untimed", untimed)], &[(HZ, &rest, "Run 1"), (500.0, &fast, "Run 2")]);
}

#[test]
fn runs_side_by_side_keep_their_own_time() {
    let (rest, work) = (trace(600, HZ, 1.0), trace(900, 500.0, 0.7));
    let columns = [seconds(600, HZ), millivolts(&rest), seconds(900, 500.0), millivolts(&work)];
    let rows = table(&columns, ",");
    let heads = [
        "time (s),ecg (mV),time (s),ecg (mV)",
        "Run 1: time (s),Run 1: ecg (mV),Run 2: time (s),Run 2: ecg (mV)",
        "t1 (s),I1 (mV),t2 (s),I2 (mV)",
        "time (s),ecg (mV),time (s).1,ecg (mV).1",
        "x,ecg (mV),x,ecg (mV)",
    ];
    let texts = heads.map(|head| (head, format!("{head}\n{rows}")));
    check(texts, &[(HZ, &rest, ""), (500.0, &work, "")]);
    let named = format!("at rest,,after work,\n{}\n{rows}", heads[0]);
    check([("named above", named)], &[(HZ, &rest, "at rest"), (500.0, &work, "after work")]);
}

#[test]
fn rows_of_several_samples_are_unrolled() {
    for width in [4, 5, 10, 25] {
        let samples = trace(150 * width, HZ, 1.0);
        let cells = millivolts(&samples);
        let rows: String = cells
            .chunks(width)
            .enumerate()
            .map(|(row, cells)| format!("{},{}\n", row * width * 4, cells.join(",")))
            .collect();
        let numbered =
            |stem: &str| (0..width).map(|at| format!(",{stem}{at} (mV)")).collect::<String>();
        let texts = [
            ("v0", format!("time (ms){}\n{rows}", numbered("v"))),
            ("sample 0", format!("time (ms){}\n{rows}", numbered("sample "))),
            ("values", format!("# unit: mV\ntime (ms),values\n{rows}")),
        ];
        check(texts, &[(HZ, &samples, "")]);
    }
    // Leads of one heart are as many signals, whatever they are called.
    for hz in [50.0, 100.0, 250.0] {
        let leads: Vec<Vec<i32>> =
            (1..=6).map(|lead| trace(ROWS, hz, f64::from(lead) * 0.2)).collect();
        let mut columns = vec![seconds(ROWS, hz)];
        columns.extend(leads.iter().map(|lead| millivolts(lead)));
        let rows = table(&columns, ",");
        let heads = ["ch", "V"]
            .map(|stem| (1..=6).map(|lead| format!(",{stem}{lead} (mV)")).collect::<String>());
        let texts = heads.iter().map(|head| (head.as_str(), format!("time (s){head}\n{rows}")));
        let wanted: Vec<(f64, &[i32], &str)> =
            leads.iter().map(|lead| (hz, lead.as_slice(), "")).collect();
        check(texts, &wanted);
    }
}
