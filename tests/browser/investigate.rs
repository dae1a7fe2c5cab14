//! Investigations: from the card to the conclusion, with recordings of the invented class.

use crate::accessible::{everywhere, expect_none};
use crate::pictures::whole_of;
use crate::visit::Visit;
use std::path::{Path, PathBuf};

fn recordings() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/recordings")
}

fn begin(visit: &Visit, investigation: &str) {
    visit.find("button", "Investigations").click();
    visit.find_containing("button", investigation).click();
    visit.wait_for_text("Before anybody begins");
}

/// Takes invented recordings for so many places, one after another.
pub(crate) fn take_invented(visit: &Visit, places: usize) {
    take_by(visit, INVENTED, places);
}

/// The same by the button's name in another language.
pub(crate) fn take_by(visit: &Visit, name: &str, places: usize) {
    let empty = |visit: &Visit| visit.names("button").iter().filter(|it| *it == name).count();
    for _ in 0..places {
        let before = empty(visit);
        visit.find("button", name).click();
        visit.wait_for("a place filled", || (empty(visit) + 1 == before).then_some(()));
    }
}

const INVENTED: &str = "Take an invented one";

#[test]
fn a_recovery_is_compared_with_rest_written_up_and_kept() {
    let mut visit = Visit::to_beatwalk();
    begin(&visit, "Rest and recovery after exercise");
    visit.wait_for_text("Sit and settle");
    take_invented(&visit, 2);
    visit.wait_for_text("TP segment shortened most");
    // 76 + 62 exp(-t/38 s): the row of the time constant, as the file says it.
    let row = "return [...document.querySelectorAll('tr')]\
        .find(it => it.innerText.includes('time constant')).innerText";
    let told = visit.run(row, Vec::new()).as_str().unwrap_or_default().to_owned();
    let tau: f64 = told
        .split_once('\t')
        .and_then(|(_, value)| value.split_whitespace().next()?.parse().ok())
        .unwrap_or_else(|| panic!("no number in {told:?}"));
    assert!((30.0..46.0).contains(&tau), "{told}");
    visit.find_containing("textbox", "How high was the rate").fill("About 138, then 90.");
    visit.find_containing("textbox", "Code").fill("Q03");
    whole_of(&visit, "recovery");

    let table = visit.downloaded("recovery.csv", || {
        visit.find("button", "Save the numbers (CSV)").click();
    });
    let table = String::from_utf8(table).unwrap();
    assert!(table.contains("Q03,recovery,curve_time_constant,s,"), "{table}");
    let document = visit.downloaded("recovery.beatwalk.json", || {
        visit.find("button", "Save this work").click();
    });

    visit.reload();
    visit.find("button", "Investigations").click();
    visit.wait_for_text("TP segment shortened most");
    let written = visit.find_containing("textbox", "How high was the rate").value();
    assert_eq!(written, "About 138, then 90.");

    // The same document in a browser that never saw it.
    visit.leave_in_peace();
    visit = Visit::to_beatwalk();
    let zone = visit.find("button", "Choose a file…").at(0.5, 0.5);
    visit.drop_bytes(zone, &[("recovery.beatwalk.json", &document)]);
    visit.wait_for_text("TP segment shortened most");
    visit.leave_in_peace();
}

#[test]
fn breathing_is_told_from_the_trace_and_by_a_timer() {
    let visit = Visit::to_beatwalk();
    begin(&visit, "Breathing and the heart rate");
    visit.wait_for_text("Breathe gently, not deeply");
    take_invented(&visit, 2);
    visit.wait_for_text("Breaths a minute");
    whole_of(&visit, "breathing");
    visit.find("combobox", "How breaths are told").choose("by the timer");
    visit.find("textbox", "The first breath in began at (s)");
    visit.leave_in_peace();
}

#[test]
fn a_reflex_is_found_at_its_taps_and_a_path_gives_a_speed() {
    let visit = Visit::to_beatwalk();
    begin(&visit, "The stretch reflex of a leg muscle");
    take_invented(&visit, 2);
    visit.wait_for_text("Mean latency");
    visit.wait_for_text("Against plain taps");
    visit.find_containing("textbox", "From the muscle to the cord").fill("0.6");
    visit.wait_for_text("Speed round the arc:");
    visit.find_containing("textbox", "deviations").fill("40");
    visit.wait_for_text("k has to lie from 1 to 20");
    visit.find_containing("textbox", "deviations").fill("4");
    visit.wait_for_text("Speed round the arc:");
    whole_of(&visit, "reflex");
    visit.leave_in_peace();
}

#[test]
fn conditions_of_one_person_are_compared_beat_by_beat() {
    let visit = Visit::to_beatwalk();
    begin(&visit, "Posture and other conditions");
    take_invented(&visit, 2);
    visit.wait_for_text("Each beat");
    visit.find_containing("textbox", "First condition").fill("lying");
    visit.wait_for_text("Second condition less");
    whole_of(&visit, "conditions");
    visit.leave_in_peace();
}

#[test]
fn the_class_desk_takes_what_fits_and_says_what_does_not() {
    let visit = Visit::to_beatwalk();
    visit.find("button", "Investigations").click();
    visit.find_containing("button", "Class desk").click();
    let zone = visit.find("button", "Choose files…").at(0.5, 0.5);
    let rest = std::fs::read(recordings().join("quillmere-10k-q03-resting.csv")).unwrap();
    let stairs = std::fs::read(recordings().join("quillmere-10k-q03-after-stairs.csv")).unwrap();
    let mut files: Vec<(String, &[u8])> = Vec::new();
    for code in 1..=7 {
        files.push((format!("Q{code}-rest.csv"), &rest));
        files.push((format!("Q{code}-stairs.csv"), &stairs));
    }
    files.push(("Q8-rest.csv".to_owned(), &rest));
    files.push(("worksheet.pdf".to_owned(), b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj\n<<>>\n"));
    let named: Vec<(&str, &[u8])> =
        files.iter().map(|(name, bytes)| (name.as_str(), *bytes)).collect();
    visit.drop_bytes(zone, &named);
    visit.wait_for_text("worksheet.pdf");
    visit.wait_for("fifteen rows", || {
        let rows = "return document.querySelectorAll('.class__rows tbody tr').length";
        (visit.run(rows, Vec::new()) == 15).then_some(())
    });
    visit.wait_for_text("Paired t-test");
    visit.find("combobox", "Compare by").choose("SDNN (ms)");
    whole_of(&visit, "class");
    let table = visit.downloaded("pooled.csv", || {
        visit.find("button", "Save the table (CSV)").click();
    });
    let table = String::from_utf8(table).unwrap();
    assert_eq!(table.lines().count(), 16, "{table}");
    assert!(table.contains("Q7,stairs,Q7-stairs.csv,180.000,"), "{table}");
    visit.leave_in_peace();
}

#[test]
fn investigations_are_accessible() {
    let visit = Visit::to_beatwalk();
    visit.find("button", "Investigations").click();
    visit.wait_for_text("One heartbeat is the start");
    let mut found = everywhere(&visit, "investigations");
    for (investigation, places) in
        [("Rest and recovery", 2), ("Breathing and", 1), ("The stretch reflex", 1), ("Posture", 2)]
    {
        visit.find_containing("button", investigation).click();
        take_invented(&visit, places);
        visit.unfold();
        found.extend(everywhere(&visit, investigation));
        visit.find("button", "Other investigations").click();
    }
    visit.find_containing("button", "Class desk").click();
    let zone = visit.find("button", "Choose files…").at(0.5, 0.5);
    let rest = recordings().join("quillmere-10k-q03-resting.csv");
    visit.drop_files(zone, &[&rest]);
    visit.wait_for_text("Who is where");
    found.extend(everywhere(&visit, "class desk"));
    expect_none(visit, &found);
}
