//! Work is never lost: two tabs, storage that is full or denied.

use crate::visit::{Key, Visit, let_it_be_written};

fn open_resting(visit: &Visit) {
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.find("button", "Results").click();
    visit.wait_for_text("Typical at rest");
}

/// What stands in the field for the code, on the results.
fn code(visit: &Visit) -> String {
    visit.find("button", "Results").click();
    visit.find_containing("textbox", "Code").value()
}

/// Two tabs at once keep what is done in each; what a closed tab left behind is offered.
#[test]
fn two_tabs_keep_their_own_work() {
    let visit = Visit::to_beatwalk();
    open_resting(&visit);
    visit.find_containing("textbox", "Code").fill("first");
    visit.wait_for_text("Work is kept in this browser");
    let_it_be_written();
    let first = visit.open_tab();
    visit.wait_for_text("Your recording");
    visit.find_containing("button", "Q-07").click();
    visit.wait_for_text("Found");
    visit.find("button", "Results").click();
    visit.find_containing("textbox", "Code").fill("second");
    let_it_be_written();
    visit.reload();
    assert_eq!(code(&visit), "second");
    visit.close_tab(&first);
    visit.reload();
    assert_eq!(code(&visit), "first");
    visit.find("button", "Open a recording").click();
    visit.wait_for_text("Work from another tab is kept in this browser too.");
    visit.find("button", "Go on with it here").press(Key::Enter);
    assert_eq!(code(&visit), "second");
    visit.leave_in_peace();
}

/// Without room left the page says so, offers a file, and keeps again once there is room.
#[test]
fn storage_that_is_full_is_said_and_recovers() {
    let visit = Visit::to_beatwalk();
    visit.limit_storage(Some(1));
    open_resting(&visit);
    visit.find_containing("textbox", "Code").fill("no room");
    visit.wait_for_text("This browser has no room left");
    let saved = visit.downloaded("beatwalk.beatwalk.json", || {
        visit.find("button", "Save what I have").press(Key::Enter);
    });
    assert!(String::from_utf8(saved).unwrap().contains("no room"));
    visit.limit_storage(None);
    visit.find_containing("textbox", "Code").fill("again");
    visit.wait_for("the notice gone", || {
        visit.is_absent("button", "Save what I have").then_some(())
    });
    let_it_be_written();
    visit.reload();
    assert_eq!(code(&visit), "again");
    visit.leave_in_peace();
}

/// A browser that denies its storage is told apart, and everything else works.
#[test]
fn storage_that_is_denied_is_said() {
    let visit = Visit::to_beatwalk();
    visit.before_each_page(
        "indexedDB.open = () => { throw new DOMException('no', 'SecurityError') }",
    );
    visit.reload();
    open_resting(&visit);
    visit.wait_for_text("This browser does not let Beatwalk keep your work");
    let saved = visit.downloaded("beatwalk.beatwalk.json", || {
        visit.find("button", "Save what I have").press(Key::Enter);
    });
    assert!(saved.starts_with(b"{"));
    visit.leave_in_peace();
}
