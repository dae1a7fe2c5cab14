//! What a class drops on the page: good files, bad files, and files that need a question.

use crate::visit::{Key, Visit, Zooming};
use beatwalk::synth::Demo;
use std::path::Path;

fn drop_on(visit: &Visit, name: &str, bytes: &[u8]) {
    visit.drop_bytes(visit.find("button", "Choose a file…").at(0.5, 0.5), &[(name, bytes)]);
}

#[test]
fn a_bad_file_says_why_and_what_was_open_stays() {
    let visit = Visit::to_beatwalk();
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("7500 samples");
    let bad: [(&str, &[u8]); 5] = [
        ("empty.csv", b""),
        ("worksheet.pdf", b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj\n<<>>\nendobj\n"),
        ("header-only.csv", b"time (s),lead I (mV)\n"),
        ("words.txt", b"we forgot\nto press record\n"),
        ("half.beatwalk.json", b"{\"beatwalk\":\"reading\",\"version\":1,"),
    ];
    for (name, bytes) in bad {
        visit.find("button", "Open a recording").click();
        drop_on(&visit, name, bytes);
        visit.wait_for_text("What you had open is still here.");
        visit.find("button", "Got it").click();
        visit.wait_for("the notice gone", || visit.is_absent("button", "Got it").then_some(()));
        visit.find_containing("button", "See the trace").click();
        visit.wait_for_text("quillmere-10k-q03-resting.csv");
    }
    visit.leave_in_peace();
}

#[test]
fn a_header_without_its_signal_file_names_the_missing_one() {
    let visit = Visit::to_beatwalk();
    let header =
        std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/mitdb/100.hea"))
            .unwrap();
    drop_on(&visit, "100.hea", &header);
    visit.wait_for_text("100.dat");
    visit.find("button", "Got it");
}

#[test]
fn numbers_without_a_rate_get_a_question_first() {
    let visit = Visit::to_beatwalk();
    let column = include_bytes!("../data/field-cases/o08-one-column-no-rate.csv");
    drop_on(&visit, "o08.csv", column);
    visit.wait_for_text("How fast did the sensor sample?");
    assert!(!visit.find("button", "Use this rate").is_enabled());
    visit.find("textbox", "Samples a second (Hz)").fill("250");
    visit.press(Key::Enter);
    visit.wait_for_text("2500 samples");
    visit.wait_for_text("Found\n12");
    visit.leave_in_peace();
}

#[test]
fn what_is_corrected_before_the_rate_is_given_counts_too() {
    let visit = Visit::to_beatwalk();
    let column = include_bytes!("../data/field-cases/o08-one-column-no-rate.csv");
    drop_on(&visit, "o08.csv", column);
    visit.wait_for_text("How fast did the sensor sample?");
    visit.run("document.querySelectorAll('details').forEach(it => it.open = true)", Vec::new());
    visit.find("combobox", "Voltage is counted in").choose("millivolts");
    visit.wait_for("the question again", || {
        visit.is_absent("progressbar", "").then(|| visit.find("button", "Use this rate"))
    });
    visit.find("textbox", "Samples a second (Hz)").fill("250");
    visit.press(Key::Enter);
    visit.wait_for_text("2500 samples");
    visit.wait_for_text("millivolts (mV)");
    visit.leave_in_peace();
}

#[test]
fn pasted_numbers_open_like_a_file() {
    let visit = Visit::to_beatwalk();
    let csv = std::fs::read_to_string(
        Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/recordings/quillmere-10k-q03-resting.csv"),
    )
    .unwrap();
    visit.find_any("group");
    visit.run("document.querySelector('details').open = true", Vec::new());
    let area = visit.find("textbox", "Rows of numbers, with or without a heading");
    area.run("arguments[0].focus()");
    visit.paste(&csv);
    visit.find("button", "Open the pasted text").click();
    visit.wait_for_text("7500 samples");
    // And on the page itself, without looking for a field.
    let second: Vec<&str> = csv.lines().take(2002).collect();
    visit.find("button", "Farther").click();
    visit.paste(&second.join("\n"));
    visit.wait_for_text("2000 samples");
    visit.leave_in_peace();
}

#[test]
fn a_file_dropped_on_the_trace_opens_too() {
    let visit = Visit::to_beatwalk();
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("7500 samples");
    let trace = visit.find("application", "Trace of the recording").at(0.5, 0.5);
    visit.drop_bytes(
        trace,
        &[("o28.csv", include_bytes!("../data/field-cases/o28-three-beats.csv"))],
    );
    visit.wait_for_text("550 samples");
    visit.wait_for_text("too few clear beats");
    visit.leave_in_peace();
}

#[test]
fn what_was_understood_can_be_corrected() {
    let visit = Visit::to_beatwalk();
    let stamps = include_bytes!("../data/field-cases/o09-ms-unlabelled.csv");
    drop_on(&visit, "o09.csv", stamps);
    visit.wait_for_text("250.00 Hz");
    visit.run("document.querySelectorAll('details').forEach(it => it.open = true)", Vec::new());
    visit.find("combobox", "Voltage is counted in").choose("microvolts");
    visit.wait_for_text("millivolts (mV)");
    visit.leave_in_peace();
}

#[test]
fn every_demo_recording_opens_and_an_upside_down_one_can_be_turned() {
    let visit = Visit::to_beatwalk();
    visit.find_containing("button", "Q-03 at rest");
    let demos: Vec<String> =
        visit.names("button").into_iter().filter(|name| name.starts_with("Q-")).collect();
    assert_eq!(demos.len(), 5);
    for demo in &demos {
        visit.find("button", "Open a recording").click();
        visit.find("button", demo).click();
        visit.wait_for_text("Is the trace usable?");
        visit.wait_for("the beats", || visit.is_absent("progressbar", "").then_some(()));
    }
    visit.find("button", "Open a recording").click();
    visit.find_containing("button", "Q-07").click();
    let turn = visit.find("button", "Turn the trace over");
    assert_eq!(turn.attribute("aria-pressed").as_deref(), Some("false"));
    turn.click();
    visit.wait_for_text("The recording itself is unchanged.");
    visit.leave_in_peace();
}

#[test]
fn the_trace_moves_by_keys_mouse_wheel_and_fingers() {
    let visit = Visit::to_beatwalk();
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    let summary = || {
        let text =
            visit.run("return document.getElementById('chart-summary').textContent", Vec::new());
        text.as_str().unwrap_or_default().to_owned()
    };
    let changed = |what: &str, act: &dyn Fn()| {
        let before = summary();
        act();
        visit.wait_for(what, || (summary() != before).then_some(()));
    };
    let trace = visit.find("application", "Trace of the recording");
    let middle = trace.at(0.5, 0.5);
    changed("zoomed by key", &|| {
        trace.press(Key::Add);
    });
    changed("beat by beat", &|| visit.press_times(Key::Right, 12));
    visit.wait_for_text("Beat 12 of 32");
    changed("dragged", &|| visit.drag(middle, middle.moved(-200.0, 0.0)));
    changed("zoomed by wheel", &|| visit.wheel(middle, 0.0, 240.0, Zooming::No));
    changed("pinched", &|| visit.pinch(middle, 60.0, 200.0));
    changed("whole again", &|| {
        visit.find("button", "Whole trace").click();
    });
    changed("on paper", &|| {
        visit.find("button", "Paper scale").click();
    });
    visit.leave_in_peace();
}

#[test]
fn a_file_too_large_is_refused_before_it_is_read() {
    // A file with nothing in it but its size: two gigabytes that need no disk.
    let path =
        std::env::temp_dir().join(format!("beatwalk-{}-two-gigabytes.csv", std::process::id()));
    std::fs::File::create(&path).unwrap().set_len(2 << 30).unwrap();
    let visit = Visit::to_beatwalk();
    visit.choose_files(&[&path]);
    visit.wait_for_text("these files have 2048 MB; at most 300 MB can be read at once");
    visit.leave_in_peace();
    std::fs::remove_file(&path).unwrap();
}

#[test]
fn saved_work_opens_from_a_packed_file_too() {
    use std::io::Write;
    let saved = include_bytes!("../data/saved/version-1.beatwalk.json");
    let mut packer = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::fast());
    packer.write_all(saved).unwrap();
    let packed = packer.finish().unwrap();
    let visit = Visit::to_beatwalk();
    let zone = visit.find("button", "Choose a file…").at(0.5, 0.5);
    visit.drop_bytes(zone, &[("homework.beatwalk.json.gz", &packed)]);
    visit.wait_for_text("Put the mark");
    visit.leave_in_peace();
}

/// The program has no tables of older encodings: the browser's own decoder reads them.
#[test]
fn a_head_in_an_older_encoding_is_read() {
    let mut text = String::from("時間(秒),心電図(mV)\n");
    let recording = Demo::Resting.recording().unwrap();
    for (row, value) in recording.samples.iter().enumerate() {
        text.push_str(&format!("{:.3},{value:.4}\n", row as f64 / recording.rate.hz()));
    }
    let (bytes, _, _) = encoding_rs::SHIFT_JIS.encode(&text);
    let visit = Visit::to_beatwalk();
    drop_on(&visit, "shindenzu.csv", &bytes);
    visit.wait_for_text("Found\n32");
    visit.unfold();
    visit.wait_for_text("心電図");
    visit.wait_for_text("Shift_JIS");
}
