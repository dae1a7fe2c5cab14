//! The page in one file, opened from a disk: the whole lesson with nothing beside it and nobody to ask.

use crate::session::Session;
use crate::visit::Visit;
use beatwalk::words::Language;

#[test]
fn a_lesson_from_a_memory_stick() {
    let visit = Visit::to_one_file();
    assert_eq!(visit.run("return location.protocol", Vec::new()), "file:");
    for language in [Language::English, Language::Spanish] {
        let session = Session::begin(&visit, language);
        session.read_beats();
        session.walk_and_save();
        session.investigate();
    }
    visit.leave_in_peace();
}

#[test]
fn work_is_kept_there_or_the_page_says_that_it_is_not() {
    let mut visit = Visit::to_one_file();
    let session = Session::begin(&visit, Language::English);
    session.read_beats();
    session.button("page.screen.results").click();
    visit.find_containing("textbox", "Code").fill("Q-31");
    visit.wait_for("what the foot says", || {
        let foot = visit.run("return document.querySelector('footer').innerText", Vec::new());
        let foot = foot.as_str().unwrap_or_default().to_owned();
        (foot.contains("Work is kept") || foot.contains("does not let Beatwalk keep")).then_some(())
    });
    let foot = visit.run("return document.querySelector('footer').innerText", Vec::new());
    // Storing is gathered for a moment before it is written.
    std::thread::sleep(std::time::Duration::from_millis(600));
    visit.close_and_come_back();
    if foot.as_str().unwrap_or_default().contains("Work is kept") {
        visit.wait_for_text("7500 samples");
        Session::begin(&visit, Language::English).button("page.screen.results").click();
        let code = || visit.find_containing("textbox", "Code").value();
        visit.wait_for("the code", || (code() == "Q-31").then_some(()));
    }
    visit.leave_in_peace();
}

#[test]
fn it_can_reach_nobody_by_any_way() {
    let visit = Visit::to_one_file();
    Session::begin(&visit, Language::English);
    let blocked = visit.run(crate::sealed::WAYS_OUT, vec!["https://example.invalid/".into()]);
    assert_eq!(blocked, serde_json::json!(["connect-src", "img-src", "script-src", "style-src"]));
    visit.forget_console_errors();
    visit.leave_in_peace();
}
