//! Questions after each point and the final check, as a student meets them.

use crate::visit::{Key, Screen, Visit, let_it_be_written};
use beatwalk::analysis::{self, Reading};
use beatwalk::lesson::{Choice, Question, Step, suggest_beat};
use beatwalk::signal::{Landmark, Landmarks, Recording};
use beatwalk::synth::Demo;
use beatwalk::words::Language;

/// The resting recording of the invented class, read natively.
fn resting() -> (Recording, Reading) {
    let recording = Demo::Resting.recording().unwrap();
    let reading = analysis::read(&recording, &mut ());
    (recording, reading)
}

/// Opens it and walks to the choice of a beat.
fn open_walk(visit: &Visit) {
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.find("button", "Walk one beat").click();
    visit.wait_for_text("Choose a beat to walk");
}

/// Takes pictures to look at: on a laptop and on a phone.
fn sketch(visit: &Visit, what: &str) {
    for screen in [Screen::Phone, Screen::Laptop] {
        visit.use_screen(screen);
        visit.sketch(&format!("{what}-{}", screen.name()));
    }
}

/// Moves the mark of this point by arrow keys; the slider has the keys already or is given them.
fn place_by_keyboard(visit: &Visit, at: usize) {
    visit.find_any("slider").press(Key::Right);
    let now =
        || -> Option<usize> { visit.find_any("slider").attribute("aria-valuenow")?.parse().ok() };
    let start = visit.wait_for("a mark in the middle of the view", now);
    let (key, away) = if at < start { (Key::Left, start - at) } else { (Key::Right, at - start) };
    visit.press_times(key, away);
    visit.wait_for("the mark at its place", || (now() == Some(at)).then_some(()));
}

/// The text of an answer, as the page has it.
fn text(question: Question, choice: Choice) -> String {
    let words = question.words(Language::English);
    let (_, said) = words.choices.iter().find(|(one, _)| *one == choice).unwrap();
    said.text.to_string()
}

fn why(question: Question, choice: Choice) -> String {
    let words = question.words(Language::English);
    let (_, said) = words.choices.iter().find(|(one, _)| *one == choice).unwrap();
    said.why.to_string()
}

#[test]
fn a_question_is_answered_wrong_then_right_and_kept() {
    let (recording, reading) = resting();
    let beat = reading.beats[suggest_beat(&recording, &reading).unwrap()];
    let mut visit = Visit::to_beatwalk();
    open_walk(&visit);
    visit.wait_for_text("A clean beat: good for placing every wave.");
    visit.wait_for_text("This is the beat that Beatwalk suggests.");
    sketch(&visit, "choose-beat");
    visit.find("button", "Next").click();
    place_by_keyboard(&visit, beat.r.get());
    visit.press(Key::Enter);
    visit.wait_for_text("What is electrical, what is mechanical?");

    let question = Question::of(Step::Place(Landmark::R));
    visit.find("button", &text(question, Choice::Belief)).press(Key::Enter);
    visit.wait_for_text(&why(question, Choice::Belief));
    visit.find("button", &text(question, Choice::Right)).press(Key::Enter);
    visit.wait_for_text(&why(question, Choice::Right));
    sketch(&visit, "question");

    visit.find("button", "Results").click();
    visit.wait_for_text("1 of 13 answered right, 0 of them at the first try");
    visit.wait_for_text("Questions still open");
    let_it_be_written();
    visit.close_and_come_back();
    // It opens where it was left; the answer stands there with its explanation.
    visit.wait_for_text(&why(question, Choice::Right));
    visit.find("button", "Results").click();
    visit.wait_for_text("1 of 13 answered right, 0 of them at the first try");
    sketch(&visit, "understood");
    visit.leave_in_peace();
}

/// Answers every point of the check: on the analysis's own places, but for one that is far off.
fn answer_all(visit: &Visit, landmarks: Landmarks, far_off: Landmark) {
    for (place, landmark) in Step::ALL.into_iter().filter_map(Step::landmark).enumerate() {
        if place > 0 {
            visit.find("button", "Next").press(Key::Enter);
        }
        match landmarks.at(landmark) {
            Some(at) if landmark == far_off => place_by_keyboard(visit, at.get() + 20),
            Some(at) => place_by_keyboard(visit, at.get()),
            None => {
                visit.find("button", "It is not here").press(Key::Enter);
            }
        }
    }
}

#[test]
fn the_final_check_is_placed_by_keyboard_and_marked_together() {
    let (_, reading) = resting();
    let visit = Visit::to_beatwalk();
    open_walk(&visit);
    visit.find("button", "Begin the final check").press(Key::Enter);
    visit.wait_for_text("which you have not walked");
    assert!(!visit.find("button", "Mark all points").is_enabled());
    let script = "return document.querySelector('.walk__card .soft').innerText";
    let said = visit.run(script, Vec::new()).as_str().unwrap_or_default().to_owned();
    let number: usize =
        said.split(|sign: char| !sign.is_ascii_digit()).find_map(|it| it.parse().ok()).unwrap();
    let beat = reading.beats[number - 1];

    answer_all(&visit, beat.landmarks, Landmark::R);
    sketch(&visit, "check-placing");
    visit.wait_for_text("Every point has an answer");
    visit.find("button", "Mark all points").press(Key::Enter);
    visit.wait_for_text("10 of 11 right");
    // Twenty samples at 250 Hz.
    visit.wait_for_text("R peak\t+80\t8\tnot yet");
    sketch(&visit, "check-marked");

    // The first flawed recording: a right flaw and a remedy that does not help.
    let choose = |legend: &str, text: &str| {
        let script = "const group = [...document.querySelectorAll('fieldset')]\
            .find(it => it.innerText.startsWith(arguments[0]));\
            [...group.querySelectorAll('label')]\
            .find(it => it.innerText.includes(arguments[1])).click()";
        visit.run(script, vec![legend.into(), text.into()]);
    };
    choose("Which flaw", "Hum");
    choose("What do you do", "wider range");
    let script = "document.querySelector('.check__flaw').scrollIntoView()";
    visit.run(script, Vec::new());
    sketch(&visit, "check-flaw");
    visit.run("document.querySelector('.check__flaw .button--main').click()", Vec::new());
    visit.wait_for_text("The analysis finds this flaw here too: Hum");
    visit.wait_for_text("What you would do does not help here");
    sketch(&visit, "check-flaw-said");

    visit.find("button", "To the results").press(Key::Enter);
    visit.wait_for_text("1 of 1 named, the right remedy for 0 of 1");
    visit.leave_in_peace();
}
