//! What a class chooses before it reads a heartbeat: the trace, the part, the scale, the notes; and a
//! wrong guess that is corrected once for all files like it.

use crate::visit::{Key, Screen, Visit};
use std::path::Path;

fn drop_on(visit: &Visit, name: &str, bytes: &[u8]) {
    visit.drop_bytes(visit.find("button", "Choose a file…").at(0.5, 0.5), &[(name, bytes)]);
}

fn drop_data(visit: &Visit, path: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data").join(path);
    visit.drop_files(visit.find("button", "Choose a file…").at(0.5, 0.5), &[&path]);
}

/// What the page says for a fact, such as `Height of R`.
fn fact(visit: &Visit, name: &str) -> String {
    let script = "const head = [...document.querySelectorAll('dt')]\
        .find(it => it.innerText === arguments[0]); return head?.nextElementSibling.innerText";
    visit.run(script, vec![name.into()]).as_str().unwrap_or_default().to_owned()
}

fn wait_for_fact(visit: &Visit, name: &str, fits: impl Fn(&str) -> bool) -> String {
    visit.wait_for(&format!("a fitting {name:?}"), || {
        Some(fact(visit, name)).filter(|value| fits(value))
    })
}

/// Waits until the browser has written everything: changes are gathered for a fifth of a second.
fn wait_until_kept(visit: &Visit) {
    std::thread::sleep(std::time::Duration::from_millis(600));
    visit.wait_for_text("Work is kept in this browser");
}

#[test]
fn files_as_sensors_write_them_open_at_once() {
    let visit = Visit::to_beatwalk();
    // Rows, rate and beats as built into the files; see tests/data/field-cases/README.md.
    for (file, samples, rate, beats) in [
        ("field-cases/o01-semicolon-comma.csv", "1600 samples", "200.00 Hz", "9"),
        ("field-cases/o04-utf16le-bom.txt", "1500 samples", "250.00 Hz", "7"),
        ("field-cases/o20-multirate-plus.edf", "2000 samples", "250.00 Hz", "9"),
        ("archive/one.zip", "550 samples", "250.00 Hz", "3"),
    ] {
        visit.find("button", "Open a recording").click();
        drop_data(&visit, file);
        visit.wait_for_text(samples);
        wait_for_fact(&visit, "Sampling", |said| said == rate);
        wait_for_fact(&visit, "Found", |said| said == beats);
    }
    visit.leave_in_peace();
}

#[test]
fn a_trace_is_chosen_by_its_picture() {
    let visit = Visit::to_beatwalk();
    // Two runs in one file: its time starts anew in the middle.
    drop_data(&visit, "field-cases/o13-time-restarts.csv");
    visit.wait_for_text("Which trace do you want?");
    let runs: Vec<String> =
        visit.names("button").into_iter().filter(|name| name.contains(" Hz, ")).collect();
    assert_eq!(runs.len(), 2, "{runs:?}");
    assert!(runs[0].contains("run 1 suggested"), "the longer one: {runs:?}");
    let pressed = |name: &str| visit.find("button", name).attribute("aria-pressed");
    assert_eq!(pressed(&runs[0]).as_deref(), Some("true"));
    wait_for_fact(&visit, "Found", |beats| beats == "7");
    visit.find("button", &runs[1]).press(Key::Enter);
    wait_for_fact(&visit, "Found", |beats| beats == "8");
    assert_eq!(pressed(&runs[1]).as_deref(), Some("true"));
    // Each picture shows a trace: not all of its pixels are the same.
    let drawn = "return [...document.querySelectorAll('.picker canvas')].map(canvas => {
        const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
        return new Set(new Uint32Array(data.buffer)).size;
    })";
    visit.wait_for("both pictures", || {
        let inks = visit.run(drawn, Vec::new());
        let inks = inks.as_array()?;
        inks.iter().all(|inks| inks.as_u64() > Some(1)).then_some(())
    });
    visit.leave_in_peace();
}

#[test]
fn a_file_of_many_signals_stays_quick_and_draws_what_is_seen() {
    let rows = (0..2000).map(|row| {
        let cells =
            (0..64).map(|signal| format!("{:.3}", f64::from(row * (signal + 1) % 97) / 97.0));
        format!("{:.3},{}\n", f64::from(row) / 250.0, cells.collect::<Vec<_>>().join(","))
    });
    let names: Vec<String> = (0..64).map(|signal| format!("lead {signal} (mV)")).collect();
    let csv = format!("t (s),{}\n{}", names.join(","), rows.collect::<String>());
    let visit = Visit::to_beatwalk();
    drop_on(&visit, "many.csv", csv.as_bytes());
    visit.wait_for_text("Which trace do you want?");
    let entries = visit.names("button").into_iter().filter(|name| name.contains(" Hz, ")).count();
    assert!(entries > 50, "{entries} signals");
    let drawn = "return [...document.querySelectorAll('.picker canvas')].filter(canvas => {
        const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width || 1, canvas.height || 1);
        return data.some(it => it > 0);
    }).length";
    let drawn = || visit.run(drawn, Vec::new()).as_u64().unwrap_or_default();
    visit.wait_for("the first pictures", || (drawn() > 0).then_some(()));
    assert!(drawn() < 20, "{} pictures were drawn, but nobody sees them", drawn());
}

#[test]
fn counts_become_millivolts_once_the_class_says_how() {
    let visit = Visit::to_beatwalk();
    drop_data(&visit, "field-cases/o11-adc-counts.csv");
    let counts = wait_for_fact(&visit, "Height of R", |said| said.contains("counts"));
    // The question is open by itself; nonsense is refused with what to write instead.
    visit.find("combobox", "Bits of the converter").choose("10");
    visit.find("textbox", "Range of the converter (V)").fill("5");
    visit.find("textbox", "Gain: how many times the sensor amplifies").fill("0");
    visit.wait_for_text("write a number above 0, such as 1000");
    assert!(!visit.find("button", "Show millivolts").is_enabled());
    visit.find("textbox", "Gain: how many times the sensor amplifies").fill("1000");
    visit.wait_for_text("1 mV is 204.8 units.");
    // The file was made with 122 counts for a millivolt, around 515.
    visit.find("combobox", "I know").choose("how many units 1 mV is");
    visit.find("textbox", "1 mV is so many units").fill("0,122");
    visit.wait_for_text("A heart makes about 1 mV at the skin.");
    visit.find("textbox", "1 mV is so many units").fill("122");
    visit.find("button", "Show millivolts").click();
    let millivolts = wait_for_fact(&visit, "Height of R", |said| said.contains("mV"));
    let number = |said: &str| said.split(' ').next().unwrap().parse::<f64>().unwrap();
    let height = number(&millivolts);
    assert!((height - number(&counts) / 122.0).abs() < 0.01, "{counts} became {millivolts}");
    assert!((0.8..1.4).contains(&height), "{height} mV");
    visit.wait_for_text("millivolts (mV)");
    // It is kept with the work, and can be taken back.
    wait_until_kept(&visit);
    visit.reload();
    visit.find("button", "See the trace").click();
    wait_for_fact(&visit, "Height of R", |said| said == millivolts);
    visit.find("button", "Take the scale away").click();
    wait_for_fact(&visit, "Height of R", |said| said == counts);
    // The next file of the sensor needs only a look.
    visit.find("button", "Open a recording").click();
    drop_data(&visit, "field-cases/o11-adc-counts.csv");
    visit.wait_for_text("Filled in as last time.");
    visit.find("button", "Show millivolts").click();
    wait_for_fact(&visit, "Height of R", |said| said == millivolts);
    visit.leave_in_peace();
}

#[test]
fn a_part_is_used_and_the_whole_comes_back() {
    let visit = Visit::to_beatwalk();
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.unfold();
    visit.find("button", "Choose a part…").click();
    let (start, end) = ("Start of the part", "End of the part");
    let seconds = |name| -> f64 {
        let said = visit.find("slider", name).attribute("aria-valuetext").unwrap();
        said.trim_end_matches(" seconds").parse().unwrap()
    };
    // By mouse: the handle at the left edge of the strip a quarter of the way to the right.
    let handle = visit.find("slider", start).at(0.0, 0.5).moved(22.0, 0.0);
    let quarter = visit.find("slider", start).at(0.25, 0.5);
    visit.drag(handle, quarter);
    let dragged = seconds(start);
    assert!((6.0..9.0).contains(&dragged), "dragged to {dragged} s of 30");
    // By finger, a little further.
    visit.use_screen(Screen::Phone);
    let strip = visit.find("slider", start);
    let finger = strip.at(0.0, 0.5).moved(20.0, 0.0);
    let (left, right) = (finger.x, strip.at(1.0, 0.5).x - 20.0);
    let held = finger.moved((right - left) * dragged / 30.0, 0.0);
    visit.touch_drag(held, held.moved((right - left) * 0.1, 0.0));
    let touched = seconds(start);
    assert!((touched - dragged - 3.0).abs() < 0.7, "from {dragged} to {touched} s by finger");
    visit.use_screen(Screen::Laptop);
    // By keys, and as a number; the ends keep apart.
    visit.find("slider", end).press(Key::PageDown);
    assert!(seconds(end) < 28.0, "{}", seconds(end));
    visit.find("textbox", "To (s)").fill("2");
    visit.press(Key::Tab);
    assert!((seconds(end) - seconds(start) - 1.0).abs() < 0.02, "never shorter than a second");
    visit.find("textbox", "To (s)").fill("20,5");
    visit.press(Key::Tab);
    visit.find("textbox", "From (s)").fill("10.5");
    visit.press(Key::Tab);
    visit.find("button", "Use this part").click();
    visit.wait_for_text("Used: 10.50 s to 20.50 s of 30.0 s.");
    visit.wait_for_text("10.0 s, 2500 samples");
    let beats: u32 = wait_for_fact(&visit, "Found", |said| !said.is_empty()).parse().unwrap();
    assert!((9..13).contains(&beats), "{beats} beats in 10 s at 64 a minute");
    wait_until_kept(&visit);
    visit.reload();
    visit.find("button", "See the trace").click();
    visit.wait_for_text("10.0 s, 2500 samples");
    visit.unfold();
    visit.find("button", "Use the whole recording").click();
    visit.wait_for_text("Found\n32");
    visit.leave_in_peace();
}

#[test]
fn a_note_by_hand_is_kept_shown_and_taken_away() {
    let visit = Visit::to_beatwalk();
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.unfold();
    let summary = || {
        let text =
            visit.run("return document.getElementById('chart-summary').textContent", Vec::new());
        text.as_str().unwrap_or_default().to_owned()
    };
    visit.find("button", "Add a note…").click();
    visit.find("button", "start of exercise").click();
    visit.find("button", "Put the note here").click();
    visit.wait_for_text("Notes: 1.");
    visit.find("textbox", "What happened?").fill("coughed");
    visit.press(Key::Enter);
    visit.press(Key::Escape);
    assert_eq!(visit.focused().text(), "Add a note…", "the keyboard is back where it was");
    visit.wait_for("both notes on the trace", || {
        let said = summary();
        (said.contains("start of exercise at 5.00 s") && said.contains("coughed")).then_some(())
    });
    wait_until_kept(&visit);
    visit.reload();
    visit.find("button", "See the trace").click();
    visit.unfold();
    visit.wait_for_text("Notes: 2.");
    visit.find_containing("button", "Take away coughed").click();
    visit.wait_for_text("Notes: 1.");
    visit.wait_for("one note on the trace", || {
        let said = summary();
        (said.contains("start of exercise") && !said.contains("coughed")).then_some(())
    });
    visit.leave_in_peace();
}

#[test]
fn a_wrong_guess_is_corrected_once_for_all_files_like_it() {
    let visit = Visit::to_beatwalk();
    let guessed = include_bytes!("../data/field-cases/o09-ms-unlabelled.csv");
    drop_on(&visit, "group-1.csv", guessed);
    wait_for_fact(&visit, "Unit", |unit| unit == "not said in the file");
    visit.unfold();
    visit.find("combobox", "Voltage is counted in").choose("microvolts");
    wait_for_fact(&visit, "Unit", |unit| unit == "millivolts (mV)");
    visit.wait_for_text("Files like this one will be read this way from now on.");
    wait_until_kept(&visit);
    visit.reload();

    // Another group's file from the same sensor, on another day.
    visit.find("button", "Open a recording").click();
    drop_on(&visit, "group-2.csv", guessed);
    visit.wait_for_text("group-2.csv");
    wait_for_fact(&visit, "Unit", |unit| unit == "millivolts (mV)");
    visit.wait_for_text("Read the way you corrected a file like this before.");
    visit.find("button", "Forget that correction").click();
    wait_for_fact(&visit, "Unit", |unit| unit == "not said in the file");
    assert!(visit.is_absent("button", "Forget that correction"));

    visit.find("button", "Open a recording").click();
    drop_on(&visit, "group-3.csv", guessed);
    visit.wait_for_text("group-3.csv");
    wait_for_fact(&visit, "Unit", |unit| unit == "not said in the file");
    visit.leave_in_peace();
}
