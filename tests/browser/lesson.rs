//! The main job, from a dropped record to a saved reading, as a student does it without a mouse.

use crate::visit::{Key, Screen, Visit};
use beatwalk::analysis::{self, Reading};
use beatwalk::formats::{self, Choices, Opening, SourceFile};
use beatwalk::lesson::{Step, suggest_beat};
use beatwalk::signal::{Landmark, Landmarks, Recording};
use std::path::{Path, PathBuf};

/// MIT-BIH record 100 (Moody & Mark 2001, IEEE Eng Med Biol 20(3):45; PhysioNet, ODC-By 1.0).
const RECORD: [&str; 3] = ["100.hea", "100.dat", "100.atr"];

fn record_files() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/mitdb");
    RECORD.iter().map(|name| folder.join(name)).collect()
}

/// The same record read natively by the same library: what the page has to agree with.
fn read_natively() -> (Recording, Reading) {
    let files: Vec<SourceFile> = record_files()
        .iter()
        .map(|path| SourceFile {
            name: path.file_name().unwrap().to_string_lossy().into_owned(),
            bytes: std::fs::read(path).unwrap(),
        })
        .collect();
    let Ok(Opening::Ready(opened)) = formats::open(&files, &Choices::default(), &mut ()) else {
        panic!("the record does not open natively");
    };
    let recording = opened.traces[opened.suggested].clone();
    let reading = analysis::read(&recording, &mut ());
    (recording, reading)
}

/// Opens the record by dropping its files, and waits until its beats are found.
fn open_record(visit: &Visit, reading: &Reading) {
    let files = record_files();
    let paths: Vec<&Path> = files.iter().map(PathBuf::as_path).collect();
    let zone = visit.find("button", "Choose a file…").at(0.5, 0.5);
    visit.drop_files(zone, &paths);
    visit.wait_for_text("650000 samples");
    visit.wait_for_text(&format!("Found\n{}", reading.beats.len()));
}

/// Moves the mark of this step by arrow keys, by ten samples and then by one, and checks it.
fn place_by_keyboard(visit: &Visit, at: usize) {
    visit.find_any("slider").press(Key::Right);
    let now = || mark_now(visit);
    let start = visit.wait_for("a mark in the middle of the view", now);
    let (key, away) = if at < start { (Key::Left, start - at) } else { (Key::Right, at - start) };
    visit.press_times(key, away);
    visit.wait_for("the mark at its place", || (now() == Some(at)).then_some(()));
    visit.press(Key::Enter);
}

fn walk_by_keyboard(visit: &Visit, landmarks: Landmarks) {
    for landmark in Step::ALL.into_iter().filter_map(Step::landmark) {
        visit.find("button", "Next").press(Key::Enter);
        match landmarks.at(landmark) {
            Some(at) => place_by_keyboard(visit, at.get()),
            None => {
                visit.find("button", "It is not here").press(Key::Enter);
            }
        }
        visit.wait_for_text("Electrically");
    }
    visit.find("button", "Next").press(Key::Enter);
}

/// What the row of the results table with this name says.
fn row(visit: &Visit, name: &str) -> String {
    let script = "const head = [...document.querySelectorAll('tbody th')]\
        .find(it => it.innerText.includes(arguments[0])); return head.parentElement.innerText";
    visit.run(script, vec![name.into()]).as_str().unwrap_or_default().to_owned()
}

/// The student's QRS and the app's, side by side, are the same.
fn expect_both(visit: &Visit, qrs_ms: &str) {
    let row = row(visit, "QRS");
    let both = |cells: &[&str]| matches!(cells, [own, computed, ..] if own == computed && own.starts_with(qrs_ms));
    let cells: Vec<&str> = row.split('\t').skip(1).collect();
    assert!(both(&cells), "{row:?} does not say {qrs_ms} ms twice");
}

#[test]
fn a_record_is_walked_by_keyboard_saved_and_still_there_after_a_reload() {
    let (recording, reading) = read_natively();
    let chosen = reading.beats[suggest_beat(&recording, &reading).unwrap()];
    let mut visit = Visit::to_beatwalk();
    open_record(&visit, &reading);

    visit.find("button", "Walk one beat").press(Key::Enter);
    visit.wait_for_text("Choose a beat to walk");
    walk_by_keyboard(&visit, chosen.landmarks);

    // The table shows what the marks measure: on the analysis's own points, what the analysis measured.
    visit.wait_for_text("Typical at rest");
    let qrs = chosen.landmarks.between(Landmark::QrsOnset, Landmark::QrsEnd).unwrap();
    let qrs_ms = format!("{:.1}\u{a0}±", qrs as f64 * 1000.0 / recording.rate.hz());
    expect_both(&visit, &qrs_ms);
    visit.find_containing("textbox", "Code").fill("Q-31");

    // Everything can be taken away.
    let document = visit.downloaded("100.beatwalk.json", || {
        visit.find("button", "Save this work").press(Key::Enter);
    });
    let document: serde_json::Value = serde_json::from_slice(&document).unwrap();
    assert_eq!(document["beatwalk"], "reading");
    let csv = visit.downloaded("100-results.csv", || {
        visit.find("button", "Results as CSV").press(Key::Enter);
    });
    assert!(String::from_utf8(csv).unwrap().contains(",qrs,ms,"));
    let svg = visit.downloaded("100-cycle.svg", || {
        visit.find("button", "Save as SVG").press(Key::Enter);
    });
    assert!(svg.starts_with(b"<svg"));
    let png = visit.downloaded("100-cycle.png", || {
        visit.find("button", "Save as PNG").press(Key::Enter);
    });
    assert!(png.starts_with(b"\x89PNG"));

    // The work is there after a reload, and after the browser was closed.
    visit.wait_for_text("Work is kept in this browser");
    visit.reload();
    visit.wait_for_text("Typical at rest");
    expect_both(&visit, &qrs_ms);
    visit.close_and_come_back();
    visit.wait_for_text("Typical at rest");
    assert_eq!(visit.find_containing("textbox", "Code").value(), "Q-31");

    visit.leave_in_peace();
}

/// Where the mark of this step stands.
fn mark_now(visit: &Visit) -> Option<usize> {
    visit.find_any("slider").attribute("aria-valuenow")?.parse().ok()
}

/// Moves the mark of this step with fingers alone: taps on the trace, then on the buttons beside it.
fn place_by_touch(visit: &Visit, at: usize) {
    let trace = visit.find_any("slider");
    let tapped = |across: f64| {
        let before = mark_now(visit);
        visit.tap(trace.at(across, 0.5));
        visit.wait_for("a mark where the finger was", || {
            mark_now(visit).filter(|&now| Some(now) != before)
        }) as f64
    };
    let (left, right) = (tapped(0.4), tapped(0.7));
    let across = 0.4 + 0.3 * (at as f64 - left) / (right - left);
    tapped(across);
    let away = at as isize - mark_now(visit).unwrap() as isize;
    assert!(away.abs() < 12, "{away} samples away after a tap");
    let name = if away < 0 { "Una muestra antes" } else { "Una muestra después" };
    let button = visit.find("button", name);
    for _ in 0..away.abs() {
        visit.tap(button.at(0.5, 0.5));
    }
    visit.wait_for("the mark at its place", || (mark_now(visit) == Some(at)).then_some(()));
    visit.tap(visit.find("button", "Comprobar").at(0.5, 0.5));
}

#[test]
fn a_record_is_walked_with_fingers_on_a_phone_in_spanish() {
    let (recording, reading) = read_natively();
    let chosen = reading.beats[suggest_beat(&recording, &reading).unwrap()];
    let visit = Visit::to_beatwalk();
    open_record(&visit, &reading);
    visit.use_screen(Screen::Phone);
    visit.find("combobox", "Language").choose("Español");
    let tap = |name: &str| visit.tap(visit.find("button", name).at(0.5, 0.5));
    tap("Recorrer un latido");
    visit.find("heading", "Elige un latido para recorrerlo");
    for landmark in Step::ALL.into_iter().filter_map(Step::landmark) {
        tap("Siguiente");
        match chosen.landmarks.at(landmark) {
            Some(at) => place_by_touch(&visit, at.get()),
            None => tap("No está aquí"),
        }
        visit.wait_for_text("En lo eléctrico");
    }
    // The row of points scrolls along; the one that is placed stays in sight.
    let in_sight = "const stone = document.querySelector('.walk__stone[aria-current]');\
        const box = stone.getBoundingClientRect();\
        return box.left >= 0 && box.right <= innerWidth && stone.innerText.startsWith('Fin de T')";
    visit.wait_for("the last point in sight", || {
        (visit.run(in_sight, Vec::new()) == true).then_some(())
    });
    tap("Siguiente");
    visit.wait_for_text("Típico en reposo");
    let qrs = chosen.landmarks.between(Landmark::QrsOnset, Landmark::QrsEnd).unwrap();
    let qrs_ms = format!("{:.1}\u{a0}±", qrs as f64 * 1000.0 / recording.rate.hz());
    expect_both(&visit, &qrs_ms.replace('.', ","));
    visit.leave_in_peace();
}

/// Opens the resting demo, puts a mark somewhere for R and has it checked.
fn try_one_mark(visit: &Visit) {
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.find("button", "Walk one beat").click();
    visit.find("button", "Next").click();
    visit.find_any("slider").press(Key::Right);
    visit.find("button", "Check").click();
}

#[test]
fn saved_work_opens_in_a_browser_that_has_never_seen_it() {
    let saved = {
        let visit = Visit::to_beatwalk();
        try_one_mark(&visit);
        visit.find("button", "Results").click();
        visit.downloaded("quillmere-10k-q03-resting.beatwalk.json", || {
            visit.find("button", "Save this work").click();
        })
    };
    let visit = Visit::to_beatwalk();
    let zone = visit.find("button", "Choose a file…").at(0.5, 0.5);
    visit.drop_bytes(zone, &[("from-home.beatwalk.json", &saved)]);
    // It opens at the very step where it was left.
    visit.wait_for_text("Put the mark");
    visit.find("button", "R peak (tried)");
    visit.find("button", "See the trace").click();
    visit.wait_for_text("quillmere-10k-q03-resting.csv");
    visit.leave_in_peace();
}

#[test]
fn opening_another_recording_loses_no_work() {
    let visit = Visit::to_beatwalk();
    try_one_mark(&visit);
    visit.find("button", "Open a recording").click();
    visit.find_containing("button", "Q-07").click();
    visit.wait_for_text("swapped-arms.csv");
    visit.reload();
    visit.find("button", "Open a recording").click();
    visit.find("button", "Bring that work back").click();
    visit.wait_for_text("Put the mark");
    visit.find("button", "R peak (tried)");
    visit.leave_in_peace();
}
