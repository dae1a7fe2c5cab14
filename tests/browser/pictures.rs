//! The pictures in README.md: every screen at three sizes.
//!
//! Taken on every run, so that each screen is drawn at each size; kept in `demo/images/` only with
//! `BEATWALK_PICTURES=1`.

use crate::investigate::take_invented;
use crate::visit::{Key, Paper, Screen, Visit};

/// Pictures for README.md.
fn pictures_of(visit: &Visit, what: &str) {
    on_each_screen(visit, what, Visit::picture);
}

/// Pictures to look at while working on the page.
fn sketches_of(visit: &Visit, what: &str) {
    on_each_screen(visit, what, Visit::sketch);
}

/// Shows the page as it is on each screen of a class; the teacher's projector in its own view.
fn on_each_screen(visit: &Visit, what: &str, take: impl Fn(&Visit, &str)) {
    for screen in Screen::ALL {
        visit.use_screen(screen);
        let projected = visit.find("button", "Projector view").attribute("aria-pressed");
        if (screen == Screen::Projector) != (projected.as_deref() == Some("true")) {
            visit.find("button", "Projector view").click();
        }
        take(visit, &format!("{what}-{}", screen.name()));
    }
    visit.find("button", "Projector view");
    visit.use_screen(Screen::Laptop);
}

fn scroll_to(visit: &Visit, title: &str) {
    let script = "[...document.querySelectorAll('h2, summary')]\
        .find(it => it.innerText === arguments[0]).scrollIntoView()";
    visit.run(script, vec![title.into()]);
}

#[test]
fn the_screens_at_three_sizes() {
    let visit = Visit::to_beatwalk();
    pictures_of(&visit, "open");
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    pictures_of(&visit, "see");
    visit.find("button", "Walk one beat").click();
    visit.find("button", "Next").click();
    visit.find_any("slider").press(Key::Left);
    visit.press_times(Key::Left, 8);
    visit.press(Key::Enter);
    visit.press(Key::Left);
    visit.press(Key::Enter);
    visit.find("button", "Show me").click();
    pictures_of(&visit, "walk");
    visit.find("button", "Results").click();
    visit.wait_for_text("Typical at rest");
    pictures_of(&visit, "results");
    visit.unfold();
    scroll_to(&visit, "QTc by four formulas, and when each misleads");
    sketches_of(&visit, "results-corrected");
    visit.leave_in_peace();
}

#[test]
fn what_changed_at_three_sizes() {
    let visit = Visit::to_beatwalk();
    visit.find("button", "Investigations").click();
    visit.find_containing("button", "Rest and recovery").click();
    take_invented(&visit, 2);
    visit.wait_for_text("TP segment shortened most");
    scroll_to(&visit, "What changed");
    pictures_of(&visit, "changed");
    visit.leave_in_peace();
}

/// The places where a student chooses: several runs, a scale, a part and notes.
#[test]
fn choosing_at_three_sizes() {
    let visit = Visit::to_beatwalk();
    let data = |name: &str| {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data");
        let zone = visit.find("button", "Choose a file…").at(0.5, 0.5);
        visit.drop_files(zone, &[&folder.join(name)]);
    };
    data("field-cases/o13-time-restarts.csv");
    visit.wait_for_text("Found\n7");
    sketches_of(&visit, "choose-run");
    visit.unfold();
    scroll_to(&visit, "How the file was read: check and correct");
    sketches_of(&visit, "choose-layout");
    visit.find("button", "Open a recording").click();
    data("field-cases/o11-adc-counts.csv");
    visit.wait_for_text("Found\n11");
    scroll_to(&visit, "Heights in millivolts");
    sketches_of(&visit, "choose-scale");
    visit.unfold();
    visit.find("button", "Add a note…").click();
    visit.find("button", "tap").click();
    visit.find("button", "Put the note here").click();
    sketches_of(&visit, "choose-note");
    visit.find("button", "Choose a part…").click();
    sketches_of(&visit, "choose-part");
    visit.leave_in_peace();
}

/// The screens between those of README.md, whole, and none of them wider than the screen.
#[test]
fn the_rest_at_three_sizes() {
    let visit = Visit::to_beatwalk();
    visit.find("button", "Prepare the recording, card by card").click();
    whole_of(&visit, "prepare");
    visit.find("button", "Close").click();
    whole_of(&visit, "open");
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    whole_of(&visit, "see");
    visit.find("button", "Correct beats…").click();
    visit.find("application", "Trace of the recording, correcting beats").press(Key::Down);
    whole_of(&visit, "correct");
    visit.find("button", "Measure by hand").click();
    whole_of(&visit, "calipers");
    visit.find("button", "Done").click();
    visit.find("button", "Walk one beat").click();
    whole_of(&visit, "choose");
    visit.find("button", "Next").click();
    visit.find_any("slider").press(Key::Left);
    for key in [Key::Enter, Key::Left, Key::Enter] {
        visit.press(key);
    }
    whole_of(&visit, "walk");
    visit.find("button", "Show me").click();
    visit.unfold();
    visit.find("slider", "Moment of the cycle");
    whole_of(&visit, "heart");
    visit.find_containing("button", "Nothing about strength").click();
    whole_of(&visit, "question");
    visit.find("button", "Begin the final check").click();
    visit.wait_for_text("Invented recording 1");
    whole_of(&visit, "check");
    for place in 0..11 {
        if place > 0 {
            visit.find("button", "Next").press(Key::Enter);
        }
        visit.find("button", "It is not here").press(Key::Enter);
    }
    visit.find("button", "Mark all points").click();
    whole_of(&visit, "check-marked");
    visit.find("button", "To the results").click();
    visit.wait_for_text("Typical at rest");
    whole_of(&visit, "results");
    visit.sheets("results", Paper::A4);
    visit.leave_in_peace();
}

/// The whole page on each screen, to look at; it never scrolls sideways.
pub(crate) fn whole_of(visit: &Visit, what: &str) {
    on_each_screen(visit, &format!("whole-{what}"), |visit, name| {
        visit.sketch_whole(name);
        // Named by what sticks out, so that it is found.
        let overhang = "const page = document.documentElement;\
            if (page.scrollWidth <= page.clientWidth) return [];\
            return [...document.querySelectorAll('body *')]\
                .filter(it => it.getBoundingClientRect().right > page.clientWidth + 1)\
                .filter(it => !it.parentElement.closest('.scroll-x, .app__steps'))\
                .map(it => it.tagName + '.' + it.className + ' ' + it.innerText?.slice(0, 30)).slice(0, 12)";
        let out = visit.run(overhang, Vec::new());
        assert_eq!(out, serde_json::json!([]), "{name} scrolls sideways");
    });
}
