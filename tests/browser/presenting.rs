//! Before a room: large letters, the presenter's keys, nobody's name; and in another language.

use crate::visit::{Key, Screen, Visit};

/// The smallest letters on the page that anybody sees, in CSS pixels, and what they say.
fn smallest_text(visit: &Visit) -> (f64, String) {
    let script = "const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);\
        let smallest = [1000, ''];\
        for (let node = walker.nextNode(); node; node = walker.nextNode()) {\
            const box = node.parentElement;\
            const area = box.getBoundingClientRect();\
            const hidden = area.width < 2 || area.height < 2 || !box.checkVisibility({\
                visibilityProperty: true, contentVisibilityAuto: true });\
            if (!node.textContent.trim() || hidden) continue;\
            const size = parseFloat(getComputedStyle(box).fontSize);\
            if (size < smallest[0]) smallest = [size, node.textContent.trim()];\
        }\
        return smallest;";
    serde_json::from_value(visit.run(script, Vec::new())).unwrap()
}

fn expect_legible(visit: &Visit) {
    let (size, text) = smallest_text(visit);
    assert!(size >= 28.0, "{size} px: {text}");
}

/// The text of a part, also where keys or pointers are not told of.
fn text_of(visit: &Visit, id: &str) -> String {
    let script = "return document.getElementById(arguments[0])?.textContent ?? ''";
    visit.run(script, vec![id.into()]).as_str().unwrap().to_owned()
}

fn summary(visit: &Visit) -> String {
    text_of(visit, "chart-summary")
}

#[test]
fn a_room_is_led_by_the_presenters_keys() {
    let visit = Visit::to_beatwalk();
    visit.use_screen(Screen::Projector);
    let zone = visit.find("button", "Choose a file…").at(0.5, 0.5);
    let rows = (0..2500).map(|row| {
        let time = f64::from(row) / 250.0;
        let beat = (time % 0.8 - 0.4) / 0.02;
        format!("{time:.3},{:.3}\n", (-beat * beat).exp())
    });
    let text: String = std::iter::once("time (s),ECG (mV)\n".to_owned()).chain(rows).collect();
    visit.drop_bytes(zone, &[("grace-hopper.csv", text.as_bytes())]);
    visit.wait_for_text("grace-hopper.csv");
    visit.wait_for_text("Found\n12");
    visit.find("button", "Projector view").click();
    visit.wait_for_text("not shown to the room");
    // Nothing that a room could see, hear read out or find in a picture.
    let page = || visit.run("return document.documentElement.outerHTML", Vec::new()).to_string();
    assert!(!page().contains("grace"), "{}", page());
    expect_legible(&visit);
    visit.sketch("present-see");

    visit.press(Key::PageDown);
    visit.find("heading", "Choose a beat to walk");
    visit.press(Key::PageDown);
    visit.wait_for("the step of R", || summary(&visit).contains("beat").then_some(()));
    assert!(!summary(&visit).contains("R at"), "{}", summary(&visit));
    visit.type_text("r");
    visit.wait_for("the point that was found", || summary(&visit).contains("R at").then_some(()));
    let shown = summary(&visit);
    expect_legible(&visit);
    visit.sketch("present-walk");
    visit.type_text("h");
    visit.wait_for("no points", || (summary(&visit) != shown).then_some(()));
    visit.press(Key::PageUp);
    visit.find("heading", "Choose a beat to walk");

    visit.find("button", "Results").click();
    visit.wait_for_text("Typical at rest");
    assert!(visit.is_absent("textbox", "Code or first name (as your teacher says)"));
    assert!(!page().contains("grace"), "{}", page());
    expect_legible(&visit);
    let hidden = "return [...document.querySelectorAll('.cover')]\
        .every(cell => getComputedStyle(cell).visibility === 'hidden')";
    assert_eq!(visit.run(hidden, Vec::new()), true);
    visit.type_text("h");
    visit.wait_for("the values", || (visit.run(hidden, Vec::new()) == false).then_some(()));
    visit.leave_in_peace();
}

#[test]
fn the_final_check_gives_nothing_away_to_a_room() {
    let visit = Visit::to_beatwalk();
    visit.use_screen(Screen::Projector);
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.find("button", "Walk one beat").click();
    let keys = |says: &str| {
        visit.wait_for(says, || text_of(&visit, "walk-keys").contains(says).then_some(()));
    };
    keys("Enter goes on");
    visit.find("button", "Next").click();
    keys("Enter checks it");
    visit.find("button", "Begin the final check").click();
    keys("Nothing is checked until the end");
    visit.find("button", "Projector view").click();
    visit.find_any("slider").press(Key::Right);
    visit.wait_for("the mark", || summary(&visit).contains("being placed").then_some(()));
    visit.type_text("r");
    visit.wait_for("no mark", || (!summary(&visit).contains("being placed")).then_some(()));
    let gives_away = |told: &str| told.contains("Points") || told.contains("beat");
    assert!(!gives_away(&summary(&visit)), "revealed: {}", summary(&visit));
    visit.type_text("h");
    assert!(!gives_away(&summary(&visit)), "covered: {}", summary(&visit));
    // Once it is marked, what the room sees is the beat of the check.
    visit.type_text("h");
    for place in 0..11 {
        if place > 0 {
            visit.find("button", "Next").press(Key::Enter);
        }
        visit.find("button", "It is not here").press(Key::Enter);
    }
    visit.find("button", "Mark all points").press(Key::Enter);
    visit.wait_for_text("0 of 11 right");
    visit.type_text("r");
    visit.wait_for("its points", || summary(&visit).contains("Points found").then_some(()));
    visit.leave_in_peace();
}

#[test]
fn a_room_reads_no_names_in_a_problem() {
    let visit = Visit::to_beatwalk();
    visit.use_screen(Screen::Projector);
    visit.find("button", "Projector view").click();
    let zone = visit.find("button", "Choose a file…").at(0.5, 0.5);
    visit.drop_bytes(zone, &[("grace-hopper.csv", b"Grace Hopper\n")]);
    visit.wait_for_text("no row of numbers was found");
    let page = || visit.run("return document.documentElement.outerHTML", Vec::new()).to_string();
    assert!(!page().to_lowercase().contains("grace"), "{}", page());
    visit.wait_for_text("the file");
    expect_legible(&visit);
    visit.find("button", "Projector view").click();
    visit.wait_for_text("Grace Hopper");
    visit.wait_for_text("grace-hopper.csv");
    visit.leave_in_peace();
}

#[test]
fn the_page_speaks_spanish_without_a_reload() {
    let visit = Visit::to_beatwalk();
    visit.drop_bytes(
        visit.find("button", "Choose a file…").at(0.5, 0.5),
        &[("vacio.csv", b"time,ecg\n")],
    );
    visit.wait_for_text("no row of numbers was found");
    visit.run("window.stayed = true", Vec::new());
    visit.find("combobox", "Language").choose("Español");
    visit.wait_for_text("no se encontró ninguna fila de números");
    assert_eq!(visit.run("return document.documentElement.lang", Vec::new()), "es");
    assert_eq!(visit.run("return window.stayed", Vec::new()), true);
    visit.reload();
    visit.find("combobox", "Idioma").choose("English");
    visit.find("combobox", "Language");
    visit.leave_in_peace();
}
