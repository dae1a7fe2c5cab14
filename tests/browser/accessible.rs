//! WCAG 2.2 AA on every screen, at every size, in both languages: axe-core finds nothing.

use crate::visit::{Key, Screen, Visit};
use serde_json::json;

const AXE: &str = include_str!("axe/axe.min.js");

/// The rules of WCAG up to 2.2, level AA, and what axe-core calls best practice.
const RULES: [&str; 6] = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/// Runs the rules on the page as it is. A violation names its rule, its place and the remedy.
fn violations(visit: &Visit, what: &str) -> Vec<String> {
    if visit.run("return typeof axe", Vec::new()) == "undefined" {
        // In the page's own scope, where a script of the driver has none that lasts.
        visit.run(
            "const it = document.createElement('script'); it.textContent = arguments[0];\
            document.head.append(it)",
            vec![AXE.into()],
        );
    }
    let script = "return axe.run(document, { runOnly: arguments[0], resultTypes: ['violations'] })\
        .then(found => found.violations.flatMap(rule => rule.nodes.map(node =>\
            `${rule.id}: ${node.target}: ${node.failureSummary}`)))";
    let found: Vec<String> = serde_json::from_value(visit.run(script, vec![json!(RULES)])).unwrap();
    found.into_iter().map(|one| format!("{what}: {one}")).collect()
}

/// As a student at a small laptop, on a phone, and as a room sees it; in each language.
fn everywhere(visit: &Visit, what: &str) -> Vec<String> {
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
    found.extend(everywhere(&visit, "open"));
    let zone = visit.find("button", "Choose a file…").at(0.5, 0.5);
    visit.drop_bytes(zone, &[("words.csv", b"only words\n")]);
    visit.wait_for_text("no row of numbers was found");
    found.extend(everywhere(&visit, "a problem"));
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.unfold();
    found.extend(everywhere(&visit, "see"));
    visit.find("button", "Walk one beat").click();
    found.extend(everywhere(&visit, "choose a beat"));
    visit.find("button", "Next").click();
    visit.find_any("slider").press(Key::Left);
    visit.press(Key::Enter);
    visit.press(Key::Left);
    visit.press(Key::Enter);
    visit.find("button", "Show me").click();
    visit.unfold();
    found.extend(everywhere(&visit, "walk"));
    visit.find("button", "Results").click();
    visit.wait_for_text("Typical at rest");
    visit.unfold();
    found.extend(everywhere(&visit, "results"));
    assert!(found.is_empty(), "{}", found.join("\n"));
    visit.leave_in_peace();
}
