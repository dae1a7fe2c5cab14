//! Reads recordings outside the browser: one JSON object a line for each.
//!
//! ```text
//! cargo run --release --example read -- [--signal NAME] [--from SECONDS] [--to SECONDS] FILE...
//! ```
//!
//! The very library that the page runs opens the file and reads its beats; nothing is computed
//! here. A record of several files is named by its header (`.hea`) or its signal file (`.dat`); the
//! files it names and the annotation files beside it come along. All times are in seconds from the
//! first sample of the file, also with `--from`. Under `median`, `expanded_uncertainty` has k = 2: sampling
//! and scatter (JCGM 100:2008). A file that can't be read gives an object with
//! `file` and `error`, and the exit status is 2 in the end.

mod read {
    pub(crate) mod arguments;
    pub(crate) mod files;
    pub(crate) mod line;
}

use beatwalk::analysis;
use beatwalk::formats::{Choices, Format, Opened, Opening, open};
use beatwalk::signal::{Recording, SampleSpan};
use read::arguments::Arguments;
use read::files;
use read::line::{Line, Refusal};
use std::io::Write;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = match Arguments::from_environment() {
        Ok(arguments) => arguments,
        Err(error) => {
            eprintln!("{error}\n{}", Arguments::USAGE);
            return ExitCode::from(2);
        }
    };
    let mut status = ExitCode::SUCCESS;
    let mut output = std::io::stdout().lock();
    for file in &arguments.files {
        let lines = lines(file, &arguments).unwrap_or_else(|error| {
            status = ExitCode::from(2);
            vec![serde_json::to_string(&Refusal { file, error: &error })]
        });
        for line in lines {
            let written = line.map_err(Into::into).and_then(|line| writeln!(output, "{line}"));
            if let Err(error) = written {
                eprintln!("{file}: {error}");
                return ExitCode::from(2);
            }
        }
    }
    status
}

/// The lines that a file comes to, or why it can't be read.
fn lines(file: &str, arguments: &Arguments) -> Result<Vec<serde_json::Result<String>>, String> {
    let files = files::with_partners(file)?;
    let opening = open(&files, &Choices::default(), &mut ())
        .map_err(|error| format!("{error}. {}", error.remedy()))?;
    let opened = match opening {
        Opening::Ready(opened) => opened,
        Opening::NeedsRate(needs) => {
            return Ok(vec![serde_json::to_string(&Line::without_rate(file, &needs))]);
        }
    };
    let chosen = chosen(&opened, arguments.signal.as_deref())?;
    chosen
        .into_iter()
        .map(|trace| {
            let (part, first) = part(trace, arguments)?;
            let reading = analysis::read(&part, &mut ());
            Ok(serde_json::to_string(&Line::new(file, &opened, &part, first, &reading)))
        })
        .collect()
}

/// The traces asked for: those of that name, else the one that looks like the wanted ECG. Of a
/// text file every run.
fn chosen<'a>(opened: &'a Opened, signal: Option<&str>) -> Result<Vec<&'a Recording>, String> {
    let Some(name) = signal else {
        let is_wanted = |place| opened.format == Format::Text || place == opened.suggested;
        let traces = opened.traces.iter().enumerate();
        return Ok(traces.filter(|(place, _)| is_wanted(*place)).map(|(_, trace)| trace).collect());
    };
    let named: Vec<&Recording> =
        opened.traces.iter().filter(|trace| trace.name.eq_ignore_ascii_case(name)).collect();
    if named.is_empty() {
        let names: Vec<&str> = opened.traces.iter().map(|trace| trace.name.as_str()).collect();
        return Err(format!("there is no signal \"{name}\"; there are: {}", names.join(", ")));
    }
    Ok(named)
}

/// The part between `--from` and `--to`, and the sample at which it begins.
fn part(trace: &Recording, arguments: &Arguments) -> Result<(Recording, usize), String> {
    let length = trace.samples.len();
    let from = arguments.from.map_or(0, |from| trace.rate.nearest(from).get());
    let to = arguments.to.map_or(length, |to| trace.rate.nearest(to).get().min(length));
    if from >= to {
        let seconds = trace.duration().seconds();
        return Err(format!("there is nothing between these times; the trace lasts {seconds} s"));
    }
    Ok((trace.part(SampleSpan::new(from, to)), from))
}

#[cfg(test)]
mod tests {
    use super::*;
    use beatwalk::signal::Seconds;
    use serde_json::Value;

    fn read(file: &str, arguments: &Arguments) -> Result<Vec<Value>, String> {
        let path = format!("{}/tests/data/{file}", env!("CARGO_MANIFEST_DIR"));
        let lines = lines(&path, arguments)?;
        Ok(lines.iter().map(|line| serde_json::from_str(line.as_ref().unwrap()).unwrap()).collect())
    }

    #[test]
    fn a_record_is_found_from_its_header_and_from_its_signal_file() {
        for file in ["field-cases/o16.hea", "field-cases/o16.dat"] {
            let lines = read(file, &Arguments::default()).unwrap();
            let [line] = lines.as_slice() else { panic!("{lines:?}") };
            assert_eq!((&line["format"], &line["signal"]), (&"wfdb".into(), &"lead I".into()));
            assert_eq!((&line["rate_hz"], &line["samples"]), (&250.0.into(), &2501.into()));
        }
    }

    #[test]
    fn a_part_keeps_the_time_of_the_file() {
        let whole = read("ludb/1.hea", &Arguments::default()).unwrap().remove(0);
        let (from, to) = (Some(Seconds::new(2.0)), Some(Seconds::new(9.0)));
        let arguments = Arguments { from, to, ..Arguments::default() };
        let part = read("ludb/1.hea", &arguments).unwrap().remove(0);
        assert_eq!(part["samples"], 3500);
        let seconds = |line: &Value| -> Vec<f64> {
            line["beats_s"].as_array().unwrap().iter().map(|beat| beat.as_f64().unwrap()).collect()
        };
        let near = |beat: f64| seconds(&whole).iter().any(|other| (other - beat).abs() < 0.02);
        assert!(seconds(&part).into_iter().all(|beat| (2.0..9.0).contains(&beat) && near(beat)));
        let arguments = Arguments { from: Some(Seconds::new(60.0)), ..Arguments::default() };
        assert!(read("ludb/1.hea", &arguments).is_err());
    }

    #[test]
    fn a_signal_is_chosen_by_name() {
        let arguments = Arguments { signal: Some("v5".to_owned()), ..Arguments::default() };
        assert_eq!(read("mitdb/100.dat", &arguments).unwrap()[0]["signal"], "V5");
        let error = read("field-cases/o16.hea", &arguments).unwrap_err();
        assert_eq!(error, "there is no signal \"v5\"; there are: lead I");
    }

    #[test]
    fn what_can_not_be_read_says_what_to_do() {
        let error = read("mitdb/100.atr", &Arguments::default()).unwrap_err();
        assert!(error.ends_with("Drop 100.hea together with 100.atr."), "{error}");
        assert!(read("no-such-file.csv", &Arguments::default()).is_err());
    }
}
