//! Beats corrected by hand, by keys, mouse and finger; what the page then says is what the same library
//! measures natively.

use crate::visit::{Key, Point, Screen, Visit};
use beatwalk::analysis::{BeatEdits, Reading, closest, crest, read, read_corrected, rhythm};
use beatwalk::chart::{Frame, Palette, Projection, Viewport};
use beatwalk::formats::{self, Choices, Opening, SourceFile};
use beatwalk::signal::{Envelope, Recording, SampleIndex, SampleSpan, Seconds};
use beatwalk::synth::Demo;
use beatwalk::words::{Language, figure};

/// The resting demo, opened and read natively.
fn resting() -> (Recording, Reading) {
    let demo = Demo::ALL.into_iter().find(|demo| demo.file_name().contains("q03-rest")).unwrap();
    let file =
        SourceFile { name: demo.file_name().to_owned(), bytes: demo.csv().unwrap().into_bytes() };
    let Ok(Opening::Ready(opened)) = formats::open(&[file], &Choices::default(), &mut ()) else {
        panic!("the demo opens")
    };
    let recording = opened.traces[opened.suggested].clone();
    let reading = read(&recording, &mut ());
    (recording, reading)
}

/// The mean RR interval of a corrected reading, as the page writes it.
fn mean_rr(recording: &Recording, edits: &BeatEdits) -> String {
    let reading = read_corrected(recording, edits, &mut ());
    let found = rhythm(reading.series(recording)).variability.unwrap();
    format!("Mean RR\n{} ms", figure(Language::English, found.mean_rr.milliseconds(), 1))
}

/// Opens the resting demo and takes up correcting.
fn start(visit: &Visit, beats: usize) {
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text(&format!("Found\n{beats}"));
    visit.find("button", "Correct beats…").click();
    visit.wait_for_text("No beat chosen.");
}

const CHART: &str = "Trace of the recording, correcting beats";

#[test]
fn beats_are_corrected_by_keyboard_and_stay_corrected() {
    let (recording, reading) = resting();
    let visit = Visit::to_beatwalk();
    let n = reading.beats.len();
    start(&visit, n);
    visit.sketch("correct-laptop");
    // The line stands in the middle of the first ten seconds; the next beat is taken.
    let middle = recording.rate.nearest(Seconds::new(5.0));
    let next = reading.beats.iter().position(|beat| beat.r > middle).unwrap();
    let (taken, moved) = (reading.beats[next].r, reading.beats[next + 2].r);
    visit.find("application", CHART).press(Key::Down);
    visit.wait_for_text(&format!("Beat {} of {n}", next + 1));
    visit.press(Key::Delete);
    let mut edits = BeatEdits::default();
    edits.take_away(taken);
    visit.wait_for_text("taken away.");
    visit.wait_for_text(&format!("Beats now\n{}", n - 1));
    visit.wait_for_text("By hand\n1 (1 taken away)");
    let without = mean_rr(&recording, &edits);
    visit.wait_for_text(&without);
    // Taken back, and done again.
    visit.press_with(Key::Control, 'z');
    visit.wait_for_text("Taken back.");
    visit.wait_for_text(&mean_rr(&recording, &BeatEdits::default()));
    visit.press_with(Key::Control, 'y');
    visit.wait_for_text(&without);
    // Two beats on, one is moved by three samples.
    visit.press_times(Key::Down, 2);
    visit.press_times(Key::Right, 3);
    edits.shift(moved, moved.offset(3));
    visit.wait_for_text("By hand\n2 (1 moved, 1 taken away)");
    visit.wait_for_text("moved by you");
    visit.wait_for_text(&mean_rr(&recording, &edits));
    // Where the line stands without a beat, one is added on the crest nearby.
    let free = moved.offset(100);
    visit.press(Key::Escape);
    visit.press_times(Key::Right, 97);
    visit.wait_for_text(&format!(
        "The line stands at {:.3} s",
        recording.rate.time_of(free).seconds()
    ));
    visit.press(Key::Enter);
    edits.add(crest(&recording, free, reading.polarity), closest(recording.rate));
    visit.wait_for_text("By hand\n3 (1 added, 1 moved, 1 taken away)");
    visit.wait_for_text("added by you");
    let corrected = mean_rr(&recording, &edits);
    visit.wait_for_text(&corrected);
    visit.sketch("correct-three");
    visit.wait_for_text("Work is kept in this browser");
    visit.reload();
    visit.wait_for_text("By hand\n3 (1 added, 1 moved, 1 taken away)");
    visit.wait_for_text(&corrected);
    // All as the detector had it.
    visit.find("button", "All as found").click();
    visit.wait_for_text("All beats are as the detector found them.");
    visit.wait_for_text(&mean_rr(&recording, &BeatEdits::default()));
    visit.leave_in_peace();
}

/// Where a sample lies on the trace that shows the first ten seconds.
fn place_of(visit: &Visit, recording: &Recording, at: SampleIndex) -> Point {
    let chart = visit.find("application", CHART);
    let size = |name: &str| {
        let script = format!("return arguments[0].querySelector('canvas').{name}");
        chart.run(&script).as_f64().unwrap()
    };
    let (width, height) = (size("clientWidth"), size("clientHeight"));
    let rate = recording.rate;
    let span = SampleSpan::new(0, rate.count(Seconds::new(10.0)));
    let viewport = Viewport::stretch(&Envelope::new(recording.samples.clone()), rate, span);
    let frame = Frame::of_trace(width, height, &Palette::LIGHT);
    chart.at(Projection::new(viewport, frame).x_of(at, rate) / width, 0.5)
}

#[test]
fn beats_are_dragged_by_mouse_and_added_by_finger() {
    let (recording, reading) = resting();
    let visit = Visit::to_beatwalk();
    let n = reading.beats.len();
    start(&visit, n);
    let beat = reading.beats[4].r;
    let from = place_of(&visit, &recording, beat);
    visit.click_at(from);
    visit.wait_for_text(&format!("Beat 5 of {n}"));
    visit.drag(from, from.moved(12.0, 0.0));
    visit.wait_for_text("1 (1 moved)");
    visit.sketch("correct-moved");
    // One drag is one correction.
    visit.find("button", "Undo").click();
    visit.wait_for_text("All beats are as the detector found them.");
    // A drag beside a beat moves the trace, not a beat.
    let between = SampleIndex::new(usize::midpoint(beat.get(), reading.beats[5].r.get()));
    let off = place_of(&visit, &recording, between);
    visit.click_at(off);
    visit.wait_for_text("No beat chosen.");
    visit.use_screen(Screen::Phone);
    visit.find("button", "Tap to add").click();
    visit.wait_for_text("Tap the trace where a beat is missing.");
    let after = SampleIndex::new(beat.get() + closest(recording.rate) + 30);
    visit.tap(place_of(&visit, &recording, after));
    visit.wait_for_text(&format!("Beats now\n{}", n + 1));
    visit.wait_for_text("1 (1 added)");
    visit.sketch("correct-phone");
    // Where a beat stands there is no room for another.
    visit.tap(place_of(&visit, &recording, beat));
    visit.wait_for_text("Two beats can't be nearer than 200 ms.");
    visit.leave_in_peace();
}
