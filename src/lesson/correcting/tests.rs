use super::*;
use crate::lesson::example;
use crate::signal::{Hole, HoleCause, SampleSpan};

/// Three invented beats with R at 278, 1078 and 1878, a millisecond apart each sample, in a part that
/// begins with sample 5000. Gives what each command did, and where the beats stand in the end.
fn after(commands: &[BeatCommand]) -> (Vec<Result<BeatDeed, BeatRefusal>>, Vec<usize>) {
    let (mut recording, mut reading) = example::of_beats(3);
    recording.holes = vec![Hole { span: SampleSpan::new(1500, 1600), cause: HoleCause::NoValue }];
    let mut edits = BeatEdits::default();
    let mut editor = BeatEditor::default();
    let deeds = commands
        .iter()
        .map(|&command| {
            let evidence = Evidence { recording: &recording, reading: &reading };
            let deed = editor.apply(command, &mut edits, 5000, evidence);
            let on_part = edits.on(SampleSpan::new(5000, 5000 + recording.samples.len()));
            reading = reading.until_read_again(&on_part, recording.rate);
            deed
        })
        .collect();
    (deeds, reading.beats.iter().map(|beat| beat.r.get()).collect())
}

const fn at(sample: usize) -> SampleIndex {
    SampleIndex::new(sample)
}

const fn shift(beat: usize, to: usize, grip: Grip) -> BeatCommand {
    BeatCommand::Move { beat: at(beat), to: at(to), grip }
}

#[test]
fn beats_are_added_moved_and_taken_away() {
    let (deeds, beats) = after(&[
        BeatCommand::Add(at(678)),
        shift(1078, 1090, Grip::Fresh),
        BeatCommand::TakeAway(at(1878)),
    ]);
    assert_eq!(deeds[0], Ok(BeatDeed::Added { at: at(678), off: 0 }));
    assert_eq!(deeds[1..], [Ok(BeatDeed::Moved(at(1090))), Ok(BeatDeed::TakenAway(at(1878)))]);
    assert_eq!(beats, [278, 678, 1090]);
}

#[test]
fn what_cannot_be_is_refused_with_the_reason() {
    use BeatRefusal::{NoBeatThere, NothingRecordedThere, NothingToUndo, TooNear};
    let refused = [
        (BeatCommand::Add(at(1270)), TooNear),
        (BeatCommand::Add(at(1550)), NothingRecordedThere),
        (BeatCommand::Add(at(9999)), NothingRecordedThere),
        (BeatCommand::TakeAway(at(1079)), NoBeatThere),
        (shift(1078, 1550, Grip::Fresh), NothingRecordedThere),
        (BeatCommand::PutAllBack, BeatRefusal::NothingCorrected),
        (BeatCommand::Undo, NothingToUndo),
    ];
    for (command, why) in refused {
        assert_eq!(after(&[command]), (vec![Err(why)], vec![278, 1078, 1878]), "{command:?}");
    }
}

#[test]
fn a_beat_stops_before_its_neighbour() {
    let (deeds, beats) = after(&[shift(278, 2000, Grip::Fresh), shift(878, 879, Grip::Fresh)]);
    assert_eq!(deeds, [Ok(BeatDeed::Moved(at(878))), Err(BeatRefusal::TooNear)]);
    assert_eq!(beats, [878, 1078, 1878]);
    assert_eq!(after(&[shift(1878, 9999, Grip::Fresh)]).1, [278, 1078, 2400]);
}

#[test]
fn a_whole_drag_is_taken_back_at_once() {
    let drag = [
        shift(1078, 1080, Grip::Fresh),
        shift(1080, 1090, Grip::Held),
        shift(1090, 1100, Grip::Held),
    ];
    let (deeds, beats) = after(&[&drag[..], &[BeatCommand::Undo]].concat());
    assert_eq!(deeds[3], Ok(BeatDeed::Undone(Some(at(1100)))));
    assert_eq!(beats, [278, 1078, 1878]);
    let again = after(&[&drag[..], &[BeatCommand::Undo, BeatCommand::Redo]].concat());
    assert_eq!(again.1, [278, 1100, 1878]);
}

#[test]
fn all_are_put_back_at_once_and_that_can_be_taken_back_too() {
    let two = [BeatCommand::Add(at(678)), BeatCommand::LeaveOut(at(1078))];
    let back = after(&[&two[..], &[BeatCommand::PutAllBack]].concat());
    assert_eq!(back.1, [278, 1078, 1878]);
    let undone = after(&[&two[..], &[BeatCommand::PutAllBack, BeatCommand::Undo]].concat());
    assert_eq!(undone.1, [278, 678, 1078, 1878]);
}
