//! The cards before a recording: opened from the first screen, ticked, printed, closed.

use crate::visit::{Key, Paper, Screen, Visit};

fn open_cards(visit: &Visit) {
    visit.find("button", "Prepare the recording, card by card").press(Key::Enter);
    visit.wait_for_text("0 of 7 cards done");
}

#[test]
fn a_class_goes_through_the_cards_by_keyboard() {
    let visit = Visit::to_beatwalk();
    open_cards(&visit);
    assert_eq!(visit.focused().text(), "Before you record");
    let cards = visit.names("checkbox");
    assert_eq!(cards.len(), 7);
    for (place, card) in cards.iter().enumerate() {
        visit.find("checkbox", card).press(Key::Space);
        if place < 6 {
            visit.wait_for_text(&format!("{} of 7 cards done", place + 1));
        }
    }
    visit.wait_for_text("You can record now");
    visit.find("checkbox", &cards[2]).press(Key::Space);
    visit.wait_for_text("6 of 7 cards done");

    // Each drawing is told to those who can't see it, and the electrodes stand in a table.
    let drawings = visit.names("img");
    assert_eq!(drawings.len(), 7, "{drawings:?}");
    visit.find("img", "Where the three electrodes go");
    let row = "return [...document.querySelectorAll('td')].find(it => it.innerText === 'LA (black)')\
        .parentElement.innerText";
    assert_eq!(visit.run(row, Vec::new()), "positive (+)\tleft forearm\tLA (black)\tL (yellow)");

    visit.find("button", "Close").press(Key::Enter);
    visit.find("button", "Choose a file…");
    visit.leave_in_peace();
}

#[test]
fn all_cards_fit_one_sheet_in_each_language() {
    let visit = Visit::to_beatwalk();
    open_cards(&visit);
    for language in ["English", "Español"] {
        visit.find_any("combobox").choose(language);
        for paper in Paper::ALL {
            let sheets = visit.sheets(&format!("prepare-{}", &language[..2]), paper);
            assert_eq!(sheets, 1, "{language} on {paper:?}");
        }
    }
    visit.leave_in_peace();
}

#[test]
fn the_cards_at_three_sizes() {
    let visit = Visit::to_beatwalk();
    open_cards(&visit);
    for screen in Screen::ALL {
        visit.use_screen(screen);
        visit.sketch(&format!("prepare-{}", screen.name()));
        visit.run("scrollTo(0, innerHeight * 0.85)", Vec::new());
        visit.sketch(&format!("prepare-{}-below", screen.name()));
        visit.run("scrollTo(0, 0)", Vec::new());
        let overhang =
            "const page = document.documentElement; return page.scrollWidth - page.clientWidth";
        assert_eq!(visit.run(overhang, Vec::new()), 0, "{screen:?} scrolls sideways");
    }
    visit.leave_in_peace();
}
