//! WCAG 2.2 AA on every screen, at every size, in both languages: axe-core finds nothing.

use crate::visit::{Key, Screen, Visit};
use beatwalk::lesson::{Choice, Question, Step};
use beatwalk::words::Language;
use serde_json::json;

const AXE: &str = include_str!("axe/axe.min.js");

/// The rules of WCAG up to 2.2, level AA, and what axe-core calls best practice.
const RULES: [&str; 6] = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/// Runs the rules on the page as it is. A violation names its rule, its place and the remedy.
fn violations(visit: &Visit, what: &str) -> Vec<String> {
    if visit.run("return typeof axe", Vec::new()) == "undefined" {
        visit.add_program(AXE);
    }
    let script = "return axe.run(document, { runOnly: arguments[0], resultTypes: ['violations'] })\
        .then(found => found.violations.flatMap(rule => rule.nodes.map(node =>\
            `${rule.id}: ${node.target}: ${node.failureSummary}`)))";
    let found: Vec<String> = serde_json::from_value(visit.run(script, vec![json!(RULES)])).unwrap();
    found.into_iter().map(|one| format!("{what}: {one}")).collect()
}

/// As a student at a small laptop, on a phone, and as a room sees it; in each language.
pub(crate) fn everywhere(visit: &Visit, what: &str) -> Vec<String> {
    let mut found = Vec::new();
    for screen in Screen::ALL {
        visit.use_screen(screen);
        found.extend(violations(visit, &format!("{what}, {}", screen.name())));
    }
    visit.use_screen(Screen::Projector);
    visit.find("button", "Projector view").click();
    found.extend(violations(visit, &format!("{what}, projector view")));
    visit.find("button", "Projector view").click();
    visit.use_screen(Screen::Laptop);
    visit.find("combobox", "Language").choose("Español");
    found.extend(violations(visit, &format!("{what}, in Spanish")));
    visit.find("combobox", "Idioma").choose("English");
    found
}

#[test]
fn every_screen_is_accessible() {
    let visit = Visit::to_beatwalk();
    let mut found = Vec::new();
    let zone = visit.find("button", "Choose a file…").at(0.5, 0.5);
    found.extend(everywhere(&visit, "open"));
    visit.drop_bytes(zone, &[("words.csv", b"only words\n")]);
    visit.wait_for_text("no row of numbers was found");
    found.extend(everywhere(&visit, "a problem"));
    visit.drop_bytes(zone, &[("values.csv", b"ecg\n1\n2\n3\n2\n1\n2\n3\n2\n1\n2\n3\n2\n")]);
    visit.find_containing("textbox", "Samples a second");
    visit.unfold();
    found.extend(everywhere(&visit, "a missing rate"));
    open_resting(&visit);
    visit.unfold();
    found.extend(everywhere(&visit, "see"));
    walk_to_r(&visit);
    visit.find("button", "Results").click();
    visit.wait_for_text("Typical at rest");
    visit.unfold();
    found.extend(everywhere(&visit, "results"));
    visit.as_printed(true);
    found.extend(violations(&visit, "results, printed"));
    expect_none(visit, &found);
}

#[test]
fn the_cards_before_a_recording_are_accessible() {
    let visit = Visit::to_beatwalk();
    visit.find("button", "Prepare the recording, card by card").click();
    visit.wait_for_text("0 of 7 cards done");
    let card = visit.names("checkbox").remove(0);
    visit.find("checkbox", &card).press(Key::Space);
    let mut found = everywhere(&visit, "prepare");
    visit.as_printed(true);
    found.extend(violations(&visit, "prepare, printed"));
    expect_none(visit, &found);
}

#[test]
fn every_tray_over_the_trace_is_accessible() {
    let visit = Visit::to_beatwalk();
    open_resting(&visit);
    let mut found = Vec::new();
    visit.find("button", "Correct beats…").click();
    visit.find("application", "Trace of the recording, correcting beats").press(Key::Down);
    visit.press(Key::Right);
    visit.wait_for_text("moved by you");
    found.extend(everywhere(&visit, "correcting beats"));
    visit.find("button", "Measure by hand").click();
    visit.find("slider", "Left leg");
    visit.unfold();
    found.extend(everywhere(&visit, "calipers"));
    visit.find("button", "Add a note…").click();
    visit.find("textbox", "What happened?");
    found.extend(everywhere(&visit, "a note"));
    visit.find("button", "Choose a part…").click();
    visit.find("slider", "Start of the part");
    found.extend(everywhere(&visit, "a part"));
    visit.find("combobox", "Smoothing").choose("moving average");
    visit.wait_for_text("Noise between beats went down by");
    visit.unfold();
    found.extend(everywhere(&visit, "quietened"));
    expect_none(visit, &found);
}

#[test]
fn the_walk_is_accessible_with_heart_and_questions() {
    let visit = Visit::to_beatwalk();
    open_resting(&visit);
    visit.find("button", "Walk one beat").click();
    let mut found = everywhere(&visit, "choose a beat");
    visit.find("button", "Next").click();
    found.extend(everywhere(&visit, "a point to place"));
    try_twice(&visit);
    found.extend(everywhere(&visit, "a point that was missed"));
    visit.find("button", "Show me").click();
    visit.wait_for_text("What is electrical, what is mechanical?");
    visit.unfold();
    visit.find("slider", "Moment of the cycle");
    // Once more for what the heart itself folds away.
    visit.unfold();
    found.extend(everywhere(&visit, "the heart"));
    let words = Question::TallIsStrong.words(Language::English);
    for (choice, answer) in &words.choices {
        if *choice == Choice::Other {
            continue;
        }
        visit.find("button", &answer.text).click();
        visit.wait_for_text(&answer.why);
        visit.unfold();
        found.extend(everywhere(&visit, &format!("the question, {choice:?}")));
    }
    expect_none(visit, &found);
}

#[test]
fn the_final_check_is_accessible() {
    let visit = Visit::to_beatwalk();
    open_resting(&visit);
    visit.find("button", "Walk one beat").click();
    visit.find("button", "Begin the final check").click();
    visit.wait_for_text("which you have not walked");
    visit.find_any("slider").press(Key::Right);
    visit.unfold();
    let mut found = everywhere(&visit, "the final check");
    let points = Step::ALL.into_iter().filter(|step| step.landmark().is_some()).count();
    for place in 0..points {
        if place > 0 {
            visit.find("button", "Next").press(Key::Enter);
        }
        visit.find("button", "It is not here").press(Key::Enter);
    }
    visit.find("button", "Mark all points").click();
    visit.wait_for_text("0 of 11 right");
    let script = "document.querySelectorAll('.check__flaw').forEach(flaw => {\
        flaw.querySelectorAll('fieldset').forEach(set => set.querySelector('input').click());\
        setTimeout(() => flaw.querySelector('.button--main').click(), 100) })";
    visit.run(script, Vec::new());
    visit.wait_for_text("The analysis finds");
    visit.unfold();
    found.extend(everywhere(&visit, "the final check, marked"));
    expect_none(visit, &found);
}

fn open_resting(visit: &Visit) {
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.unfold();
}

/// Places R wrong twice.
fn try_twice(visit: &Visit) {
    visit.find_any("slider").press(Key::Left);
    for key in [Key::Enter, Key::Left, Key::Enter] {
        visit.press(key);
    }
    visit.find("button", "Show me");
}

/// To R, with its worked answer.
fn walk_to_r(visit: &Visit) {
    visit.find("button", "Walk one beat").click();
    visit.find("button", "Next").click();
    try_twice(visit);
    visit.find("button", "Show me").click();
}

pub(crate) fn expect_none(visit: Visit, violations: &[String]) {
    assert!(violations.is_empty(), "{}", violations.join("\n"));
    visit.leave_in_peace();
}
