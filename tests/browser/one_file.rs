//! The page in one file, opened from a disk: the whole lesson with nothing beside it and nobody to ask.

use crate::session::Session;
use crate::visit::{Visit, let_it_be_written};
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
fn work_is_kept_between_openings() {
    let mut visit = Visit::to_one_file();
    let session = Session::begin(&visit, Language::English);
    session.read_beats();
    session.button("page.screen.results").click();
    visit.find_containing("textbox", "Code").fill("Q-31");
    let_it_be_written();
    visit.close_and_come_back();
    visit.wait_for_text("7500 samples");
    Session::begin(&visit, Language::English).button("page.screen.results").click();
    let code = || visit.find_containing("textbox", "Code").value();
    visit.wait_for("the code", || (code() == "Q-31").then_some(()));
    visit.leave_in_peace();
}

#[test]
fn where_a_browser_keeps_nothing_for_a_file_the_page_says_so() {
    let visit = Visit::to_one_file();
    visit.before_each_page("Object.defineProperty(window, 'indexedDB', { value: undefined })");
    visit.reload();
    let session = Session::begin(&visit, Language::English);
    session.read_beats();
    session.wait_for("page.keeping.refused");
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
