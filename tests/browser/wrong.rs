//! A whole walk gone wrong: each point missed twice, each question answered by its belief, each flaw
//! taken for another. The page says at every turn what the same library says natively.

use crate::visit::{Key, Visit};
use beatwalk::analysis::{self, Reading};
use beatwalk::lesson::{
    Answer, Choice, Command, Evidence, Grip, Hint, Lesson, Question, Step, Verdict, feedback,
    judge, suggest_beat, worked,
};
use beatwalk::report::Understood;
use beatwalk::signal::{Landmark, Landmarks, Recording, SampleIndex, SampleRate};
use beatwalk::synth::Demo;
use beatwalk::words::Language;

const ENGLISH: Language = Language::English;

/// The same lesson, taken natively.
struct Twin<'a> {
    evidence: Evidence<'a>,
    lesson: Lesson,
}

impl Twin<'_> {
    fn apply(&mut self, command: Command) {
        self.lesson.apply(command, self.evidence).unwrap();
    }

    fn place(&mut self, landmark: Landmark, at: usize) {
        self.apply(Command::Place { landmark, at: SampleIndex::new(at), grip: Grip::Fresh });
        self.apply(Command::Check(landmark));
    }

    fn feedback(&self, landmark: Landmark) -> String {
        let placement = self.lesson.session().placement(landmark).unwrap();
        feedback(placement, self.rate(), ENGLISH).unwrap()
    }

    fn rate(&self) -> SampleRate {
        self.evidence.recording.rate
    }
}

fn resting() -> (Recording, Reading) {
    let recording = Demo::Resting.recording().unwrap();
    let reading = analysis::read(&recording, &mut ());
    (recording, reading)
}

/// Two places that are wrong for a point and right for no other: one farther off, one nearer.
fn wrong_places(landmark: Landmark, found: &Landmarks, rate: SampleRate) -> [usize; 2] {
    let point = found.at(landmark).unwrap();
    let places = (20..=50).flat_map(|by| [-by, by]).map(|by| point.offset(by));
    let lost: Vec<usize> = places
        .filter(|&at| {
            let verdict = judge(landmark, Answer::At(at), found, rate);
            matches!(verdict, Verdict::Off { hint: Hint::Look, .. })
        })
        .map(SampleIndex::get)
        .collect();
    [*lost.last().unwrap(), lost[0]]
}

/// Moves the mark by arrow keys and checks it.
fn place(visit: &Visit, at: usize) {
    visit.find_any("slider").press(Key::Right);
    let now =
        || -> Option<usize> { visit.find_any("slider").attribute("aria-valuenow")?.parse().ok() };
    let start = visit.wait_for("a mark", now);
    let key = if at < start { Key::Left } else { Key::Right };
    visit.press_times(key, at.abs_diff(start));
    visit.wait_for("the mark at its place", || (now() == Some(at)).then_some(()));
    visit.press(Key::Enter);
}

/// Takes a question for what it goes against, then for the other wrong answer.
fn answer_wrong(visit: &Visit, twin: &mut Twin<'_>, question: Question) {
    for wrong in [Choice::Belief, Choice::Other] {
        let words = question.words(ENGLISH);
        let (_, answer) = words.choices.iter().find(|(one, _)| *one == wrong).unwrap();
        visit.find("button", &answer.text).press(Key::Enter);
        visit.wait_for_text(&format!("Not so. Read why, then choose again. {}", answer.why));
        twin.apply(Command::Answer { question, choice: wrong });
    }
}

/// The rows of the table of how the marks were found: tries, and whether the answer was shown.
fn tries(visit: &Visit) -> Vec<(String, String)> {
    let script = "const table = [...document.querySelectorAll('h2')]\
        .find(it => it.innerText === 'How the marks were found').parentElement;\
        return [...table.querySelectorAll('tbody tr')]\
        .map(row => [row.cells[2].innerText, row.cells[4].innerText])";
    serde_json::from_value(visit.run(script, Vec::new())).unwrap()
}

#[test]
fn a_whole_walk_goes_wrong_and_the_results_say_so() {
    let (recording, reading) = resting();
    let evidence = Evidence { recording: &recording, reading: &reading };
    let beat = reading.beats[suggest_beat(&recording, &reading).unwrap()];
    let mut twin = Twin { evidence, lesson: Lesson::default() };
    twin.apply(Command::ChooseBeat(beat.r));
    let visit = Visit::to_beatwalk();
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.find("button", "Walk one beat").click();

    for landmark in Step::ALL.into_iter().filter_map(Step::landmark) {
        visit.find("button", "Next").press(Key::Enter);
        let [far, near] = wrong_places(landmark, &beat.landmarks, twin.rate());
        place(&visit, far);
        twin.place(landmark, far);
        let first = twin.feedback(landmark);
        assert!(!first.contains("ms away"), "{first}");
        visit.wait_for_text(&first);
        assert!(visit.is_absent("button", "Show me"), "{landmark:?}: shown after one try");
        place(&visit, near);
        twin.place(landmark, near);
        let second = twin.feedback(landmark);
        assert!(second.contains("ms away") && second.contains("worked answer"), "{second}");
        visit.wait_for_text(&second);

        visit.find("button", "Show me").press(Key::Enter);
        twin.apply(Command::Reveal(landmark));
        let placement = twin.lesson.session().placement(landmark).unwrap().clone();
        visit.wait_for_text(&worked(&placement, &beat.landmarks, twin.rate(), ENGLISH));
        visit.wait_for_text("Electrically");
        answer_wrong(&visit, &mut twin, Question::of(Step::Place(landmark)));
        if landmark == Landmark::QrsOnset {
            visit.sketch("wrong-walk");
        }
    }

    visit.find("button", "Begin the final check").press(Key::Enter);
    twin.apply(Command::StartCheck);
    for (place, landmark) in Step::ALL.into_iter().filter_map(Step::landmark).enumerate() {
        if place > 0 {
            visit.find("button", "Next").press(Key::Enter);
        }
        visit.find("button", "It is not here").press(Key::Enter);
        twin.apply(Command::NotHere(landmark));
    }
    visit.find("button", "Mark all points").press(Key::Enter);
    twin.apply(Command::MarkCheck);
    visit.wait_for_text("0 of 11 right");

    visit.find("button", "To the results").press(Key::Enter);
    for line in Understood::of(twin.lesson.session(), twin.rate(), ENGLISH).scores {
        visit.wait_for_text(&line);
    }
    visit.wait_for_text("0 of 13 answered right");
    let tries = tries(&visit);
    assert_eq!(tries.len(), 11);
    assert!(
        tries.iter().all(|(tries, shown)| tries == "2" && shown == "worked answer seen"),
        "{tries:?}"
    );
    visit.sketch("wrong-results");
    visit.leave_in_peace();
}
