//! A whole homework: a teacher sets it, a student does it without a network in another browser, the teacher
//! marks it.

use crate::accessible::everywhere;
use crate::visit::{Key, Visit, let_it_be_written};
use serde_json::Value;

/// Opens the screen on which a teacher works.
fn to_screen(visit: &Visit, name: &str) {
    visit.find("button", "Homework").click();
    visit.find("button", name).click();
    visit.wait_for_text(name);
}

/// A teacher sets a homework on an invented recording; gives back both copies.
fn set(visit: &Visit) -> (Vec<u8>, Vec<u8>) {
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.find("button", "Open a recording").click();
    to_screen(visit, "Set homework");
    visit.find("textbox", "Title").fill("One beat at rest");
    visit.find("textbox", "Instructions").fill("Work alone. <b>Take your time.</b>");
    visit.find_containing("button", "Add quillmere-10k-q03-resting.csv").click();
    visit.find("button", "Points to place").click();
    fill_last(visit, "Place the points of one beat.");
    visit.find("button", "A measured number").click();
    fill_last(visit, "How fast does the heart beat?");
    visit
        .find("combobox", "Or a question of the lesson, with its answers")
        .choose("What does the P wave itself show?");
    visit.find("button", "Add this question").click();
    visit.find("button", "A short text").click();
    fill_last(visit, "Why is the trace not the contraction?");
    visit.find_containing("textbox", "What you look for").fill("It is electrical.");
    let theirs = visit.downloaded("one-beat-at-rest.beatwalk.json", || {
        visit.find("button", "Save for students").press(Key::Enter);
    });
    let own = visit.downloaded("one-beat-at-rest-with-answers.beatwalk.json", || {
        visit.find("button", "Save my copy, with the answers").press(Key::Enter);
    });
    (theirs, own)
}

/// Fills the text of the last task.
fn fill_last(visit: &Visit, text: &str) {
    let script = "const it = [...document.querySelectorAll('.tasks__task')].at(-1)\
        .querySelector('textarea'); it.value = arguments[0];\
        it.dispatchEvent(new Event('input', { bubbles: true }))";
    visit.run(script, vec![text.into()]);
}

#[test]
fn set_done_without_a_network_and_marked() {
    let teacher = Visit::to_beatwalk();
    let (theirs, own) = set(&teacher);
    teacher.run("scrollTo(0, 0)", vec![]);
    teacher.picture("set-laptop");
    let found = everywhere(&teacher, "setting");
    assert!(found.is_empty(), "{found:#?}");
    teacher.leave_in_peace();
    let said: Value = serde_json::from_slice(&theirs).unwrap();
    assert_eq!(said["beatwalk"], "assignment");
    let text = String::from_utf8(theirs.clone()).unwrap();
    assert!(
        !text.contains("It is electrical") && !text.contains("\"right\""),
        "answers given away"
    );

    // Another browser, without a network from here on.
    let mut student = Visit::to_beatwalk();
    // From the first visit on the browser keeps the page.
    student.wait_for_text("This page also opens without a network");
    student.go_offline();
    let zone = student.find("button", "Choose a file…").at(0.5, 0.5);
    student.drop_bytes(zone, &[("homework.beatwalk.json", &theirs)]);
    student.wait_for_text("Take your time");
    assert_eq!(student.run("return document.querySelectorAll('.tasks b').length", vec![]), 0);
    student.find_containing("textbox", "Code or first name").fill("Q-12");
    student.picture("homework-laptop");
    student.find_containing("button", "To the trace:").click();
    student.wait_for_text("Choose a beat to walk");
    student.find("button", "Next").click();
    student.find_any("slider").press(Key::Right);
    student.press(Key::Enter);
    student.find("button", "Back to the tasks").click();
    student.wait_for_text("not complete yet");
    student.find_containing("textbox", "Your answer").fill("64,5");
    student.run(
        "document.querySelectorAll('.tasks input[type=radio]')[0].click();\
        const it = document.querySelector('.tasks textarea'); it.value = 'Voltage is not force.';\
        it.dispatchEvent(new Event('input', { bubbles: true }))",
        vec![],
    );
    student.wait_for_text("3 of 4 tasks answered. Still to do: 1.");

    // The lid is closed and opened again: everything is there.
    student.wait_for_text("Work is kept in this browser");
    let_it_be_written();
    student.go_online();
    student.close_and_come_back();
    student.wait_for_text("3 of 4 tasks answered. Still to do: 1.");
    assert_eq!(student.find_containing("textbox", "Code or first name").value(), "Q-12");
    let hand_in = student.downloaded("one-beat-at-rest-q-12.beatwalk.json", || {
        student.find("button", "Save the file to hand in").press(Key::Enter);
    });
    let found = everywhere(&student, "homework");
    assert!(found.is_empty(), "{found:#?}");
    student.leave_in_peace();

    // The teacher marks it, among a broken file and the same hand-in altered.
    let altered = String::from_utf8(hand_in.clone()).unwrap().replace("64,5", "99");
    let teacher = Visit::to_beatwalk();
    to_screen(&teacher, "Mark homework");
    let zone = teacher.find("button", "Choose files…").at(0.5, 0.5);
    teacher.drop_bytes(
        zone,
        &[
            ("a.json", &hand_in),
            ("own.json", &own),
            ("broken.json", b"{\"beatwalk\": \"hand_in\", \"ver"),
            ("altered.json", altered.as_bytes()),
        ],
    );
    teacher.wait_for_text("changed after it was handed in");
    teacher.wait_for_text("broken.json");
    teacher.run("scrollTo(0, 0)", vec![]);
    teacher.picture("hand-ins-laptop");
    teacher.find("button", "Task 4").click();
    teacher.wait_for_text("Look for: It is electrical.");
    teacher.wait_for_text("Voltage is not force.");
    teacher.sketch("hand-ins-task");
    teacher.find_containing("textbox", "Points (of 1)").fill("1");
    teacher.find_containing("textbox", "Comment").fill("Well said.");
    let marks = teacher.downloaded("one-beat-at-rest-marks.csv", || {
        teacher.find("button", "Marks as CSV").press(Key::Enter);
    });
    let marks = String::from_utf8(marks).unwrap();
    assert!(marks.contains("Q-12") && marks.contains("Well said."), "{marks}");
    let feedback = teacher.downloaded("one-beat-at-rest-feedback.html", || {
        teacher.find("button", "Feedback for all, a sheet each").press(Key::Enter);
    });
    assert!(String::from_utf8(feedback).unwrap().contains("Well said."));
    // Marking goes on after a reload.
    let_it_be_written();
    teacher.reload();
    to_screen(&teacher, "Mark homework");
    teacher.wait_for_text("changed after it was handed in");
    teacher.find("button", "Q-12").click();
    assert_eq!(teacher.find_containing("textbox", "Comment").value(), "");
    let found = everywhere(&teacher, "marking");
    assert!(found.is_empty(), "{found:#?}");
    teacher.leave_in_peace();
}
