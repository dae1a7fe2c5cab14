//! Many files at once, good and bad: each stands for itself, the page stays at hand, and nothing is lost.

use crate::visit::Visit;
use beatwalk::homework::{Answered, Ask, Assignment, Homework};
use beatwalk::synth::Demo;
use std::fmt::Write;
use std::time::{Duration, Instant};

/// Files that are no recording, each in its own way.
const BAD: [(&str, &[u8]); 5] = [
    ("worksheet.pdf", b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj\n<<>>\n"),
    ("words.txt", b"only words, and no row of numbers\n"),
    ("nothing.csv", b""),
    ("cut.zip", b"PK\x03\x04\x14\x00\x00\x00\x08\x00cut"),
    ("cut.beatwalk.json", b"{\"beatwalk\": \"reading\", \"version\": 3, \"work\": {"),
];

/// Twelve seconds of the invented resting recording, with a first line of its own for each file.
fn recording(number: usize) -> Vec<u8> {
    let whole = Demo::Resting.recording().unwrap();
    let rate = whole.rate.hz();
    let mut text = format!("# file {number}\ntime (s),lead I (mV)\n");
    for (row, value) in whole.samples.iter().take((12.0 * rate) as usize).enumerate() {
        writeln!(text, "{:.3},{value:.4}", row as f64 / rate).unwrap();
    }
    text.into_bytes()
}

/// Waits for a number that a script returns, longer than for a single thing.
fn wait_for_count(visit: &Visit, script: &str, wanted: usize) {
    let began = Instant::now();
    loop {
        let now = visit.run(script, Vec::new()).as_u64().unwrap_or_default() as usize;
        if now == wanted {
            return;
        }
        let waited = began.elapsed();
        assert!(waited < Duration::from_secs(240), "{now} of {wanted} after {waited:?}: {script}");
        std::thread::sleep(Duration::from_millis(200));
    }
}

fn drop_all(visit: &Visit, files: &[(String, Vec<u8>)]) {
    let zone = visit.find("button", "Choose files…").at(0.5, 0.5);
    let named: Vec<(&str, &[u8])> =
        files.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice())).collect();
    visit.drop_bytes(zone, &named);
}

/// Five hundred files on the class desk, each fifth of them bad.
#[test]
fn five_hundred_files_good_and_bad() {
    const FILES: usize = 500;
    let visit = Visit::to_beatwalk();
    visit.find("button", "Investigations").click();
    visit.find_containing("button", "Class desk").click();
    let files: Vec<(String, Vec<u8>)> = (0..FILES)
        .map(|number| match number % 5 {
            4 => {
                let (name, bytes) = BAD[number / 5 % BAD.len()];
                (format!("{number}-{name}"), bytes.to_vec())
            }
            _ => (format!("Q{number}-rest.csv"), recording(number)),
        })
        .collect();
    drop_all(&visit, &files);
    let rows = "return document.querySelectorAll('.class__rows tbody tr').length";
    wait_for_count(&visit, rows, FILES / 5 * 4);
    let refused = "return document.querySelectorAll('.notice--problem li').length";
    wait_for_count(&visit, refused, FILES / 5);
    // The page is whole: the lesson goes on.
    visit.find("button", "Open a recording").click();
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.leave_in_peace();
}

/// What a student with this number hands in: every second answer to a measured task is right.
fn hand_in(assignment: &Assignment, number: usize) -> Vec<u8> {
    let mut homework = Homework::of(assignment);
    homework.student = format!("Q-{number}");
    for task in &assignment.tasks {
        let answer = match &task.ask {
            Ask::Measure { .. } | Ask::Number { .. } => Answered::Number("64".to_owned()),
            Ask::Choice { options, .. } => Answered::Choice(number % options.len()),
            Ask::Text { .. } => Answered::Text(format!("Answer {number}: voltage, not force.")),
            Ask::Points { .. } => continue,
        };
        homework.answers.insert(task.key.clone(), answer);
    }
    homework.hand_in("2026-11-25T08:00:00Z".to_owned()).unwrap().into_bytes()
}

/// Two hundred hand-ins, some of them broken: all others are marked, and the page stays at hand.
#[test]
fn two_hundred_hand_ins_are_marked() {
    const HAND_INS: usize = 200;
    let own =
        std::fs::read_to_string("demo/assignments/one-beat-at-rest-en.beatwalk.json").unwrap();
    let assignment = Assignment::from_json(&own).unwrap();
    let visit = Visit::to_beatwalk();
    visit.find("button", "Homework").click();
    visit.find("button", "Mark homework").click();
    visit.wait_for_text("First bring your copy of the assignment");
    let mut files: Vec<(String, Vec<u8>)> = (0..HAND_INS)
        .map(|number| {
            let mut bytes = hand_in(&assignment, number);
            if number % 20 == 7 {
                bytes.truncate(bytes.len() / 2);
            }
            (format!("hand-in-{number}.beatwalk.json"), bytes)
        })
        .collect();
    files.push(("own.beatwalk.json".to_owned(), own.into_bytes()));
    drop_all(&visit, &files);
    let rows = "return document.querySelectorAll('.hand-ins__table tbody tr').length";
    wait_for_count(&visit, rows, HAND_INS - 10);
    let refused = "return document.querySelectorAll('.notice--problem li').length";
    wait_for_count(&visit, refused, 10);
    visit.find("button", "Q-199").click();
    visit.wait_for_text("Answer 199: voltage, not force.");
    visit.leave_in_peace();
}
