//! Correcting the beats that were found: adding, moving, taking away, leaving out and counting in.
//!
//! Views send a [`BeatCommand`]; [`BeatEditor::apply`] is the one place that carries it out, on the
//! [`BeatEdits`] that are kept with the work. Commands are in samples of the part that is worked on, the
//! edits in samples of the recording as opened, so that another part leaves them where they are.
//!
//! A beat that is added goes to its crest; one that is moved stays exactly where it is put. No two beats
//! are nearer than the detector allows, and a beat never passes its neighbour.

use super::undo::{Change, History};
use super::{Evidence, Grip};
use crate::analysis::{Beat, BeatEdits, Standing, WhySetAside, closest, crest};
use crate::signal::SampleIndex;

/// One thing a student asks for about the beats; a beat is named by its R.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BeatCommand {
    /// Put a beat on the crest near this sample.
    Add(SampleIndex),
    /// Move a beat.
    Move {
        /// Which one.
        beat: SampleIndex,
        /// Where to.
        to: SampleIndex,
        /// Whether this goes on with the last movement.
        grip: Grip,
    },
    /// Take a beat away: it is none.
    TakeAway(SampleIndex),
    /// Leave a beat out of averages.
    LeaveOut(SampleIndex),
    /// Count a beat in averages.
    Count(SampleIndex),
    /// Take all corrections back at once.
    PutAllBack,
    /// Take the last correction back.
    Undo,
    /// Do again what was taken back.
    Redo,
}

/// What was done, and where; `None` where that is not in the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BeatDeed {
    /// A beat was added.
    Added {
        /// Where it stands.
        at: SampleIndex,
        /// How many samples its crest lies after the place that was asked for.
        off: isize,
    },
    /// A beat was moved to this place.
    Moved(SampleIndex),
    /// A beat was taken away.
    TakenAway(SampleIndex),
    /// A beat is left out of averages.
    LeftOut(SampleIndex),
    /// A beat counts.
    Counted(SampleIndex),
    /// All corrections were taken back.
    AllPutBack,
    /// The last correction was taken back.
    Undone(Option<SampleIndex>),
    /// A correction was made again.
    Redone(Option<SampleIndex>),
}

/// Why a correction was not made; nothing has changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BeatRefusal {
    /// The place is outside the recording, or in a stretch without data.
    NothingRecordedThere,
    /// Another beat is nearer than two beats can be.
    TooNear,
    /// No beat stands there.
    NoBeatThere,
    /// The signal around the beat can't be used.
    Flawed,
    /// Nothing was corrected.
    NothingCorrected,
    /// There is nothing to take back.
    NothingToUndo,
    /// There is nothing to do again.
    NothingToRedo,
}

impl BeatRefusal {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::NothingRecordedThere,
        Self::TooNear,
        Self::NoBeatThere,
        Self::Flawed,
        Self::NothingCorrected,
        Self::NothingToUndo,
        Self::NothingToRedo,
    ];

    /// The key of its message.
    pub const fn key(self) -> &'static str {
        match self {
            Self::NothingRecordedThere => "beats.refusal.nothing_recorded_there",
            Self::TooNear => "beats.refusal.too_near",
            Self::NoBeatThere => "beats.refusal.no_beat_there",
            Self::Flawed => "beats.refusal.flawed",
            Self::NothingCorrected => "beats.refusal.nothing_corrected",
            Self::NothingToUndo => "beats.refusal.nothing_to_undo",
            Self::NothingToRedo => "beats.refusal.nothing_to_redo",
        }
    }
}

/// One correction: all edits before and after it, and where it was made, in samples as opened.
#[derive(Clone, Debug, PartialEq)]
struct Correction {
    before: BeatEdits,
    after: BeatEdits,
    at: SampleIndex,
    /// Where the beat stood that was moved; `None` for other corrections.
    from: Option<SampleIndex>,
}

impl Change for Correction {
    fn reversed(self) -> Self {
        Self { before: self.after, after: self.before, ..self }
    }

    fn changes_nothing(&self) -> bool {
        self.before == self.after
    }

    /// Both move the same beat.
    fn joined(&self, next: &Self) -> Option<Self> {
        (self.from.is_some() && next.from == Some(self.at)).then(|| Self {
            before: self.before.clone(),
            from: self.from,
            ..next.clone()
        })
    }
}

/// Corrects beats, and knows what can be taken back.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BeatEditor {
    history: History<Correction>,
}

impl BeatEditor {
    /// Whether a correction can be taken back.
    pub const fn can_undo(&self) -> bool {
        self.history.can_undo()
    }

    /// Whether a correction that was taken back can be made again.
    pub const fn can_redo(&self) -> bool {
        self.history.can_redo()
    }

    /// Carries out a command on the edits. `first`: with which sample of the recording as opened the
    /// part begins that `evidence` is about.
    ///
    /// # Errors
    /// [`BeatRefusal`] when it can't be done; nothing has changed then.
    pub fn apply(
        &mut self,
        command: BeatCommand,
        edits: &mut BeatEdits,
        first: usize,
        evidence: Evidence<'_>,
    ) -> Result<BeatDeed, BeatRefusal> {
        let opened = |at: SampleIndex| SampleIndex::new(first + at.get());
        let on_part = |at: SampleIndex| {
            let at = SampleIndex::new(at.get().checked_sub(first)?);
            (at.get() < evidence.recording.samples.len()).then_some(at)
        };
        let near = closest(evidence.recording.rate);
        let mut after = edits.clone();
        let mut from = None;
        let mut how = Grip::Fresh;
        let (deed, at) = match command {
            BeatCommand::Undo => {
                let change = self.history.undo().ok_or(BeatRefusal::NothingToUndo)?;
                *edits = change.after;
                return Ok(BeatDeed::Undone(on_part(change.at)));
            }
            BeatCommand::Redo => {
                let change = self.history.redo().ok_or(BeatRefusal::NothingToRedo)?;
                *edits = change.after;
                return Ok(BeatDeed::Redone(on_part(change.at)));
            }
            BeatCommand::PutAllBack => {
                if edits.is_empty() {
                    return Err(BeatRefusal::NothingCorrected);
                }
                after = BeatEdits::default();
                (BeatDeed::AllPutBack, SampleIndex::new(0))
            }
            BeatCommand::Add(asked) => {
                let at = place_for_one_more(asked, evidence)?;
                after.add(opened(at), near);
                (BeatDeed::Added { at, off: at.minus(asked) }, at)
            }
            BeatCommand::Move { beat, to, grip } => {
                let to = place_between_neighbours(beat, to, evidence)?;
                after.shift(opened(beat), opened(to));
                (from, how) = (Some(opened(beat)), grip);
                (BeatDeed::Moved(to), to)
            }
            BeatCommand::TakeAway(beat) => {
                find(beat, evidence)?;
                after.take_away(opened(beat));
                (BeatDeed::TakenAway(beat), beat)
            }
            BeatCommand::LeaveOut(beat) => {
                find(beat, evidence)?;
                after.leave_out(opened(beat));
                (BeatDeed::LeftOut(beat), beat)
            }
            BeatCommand::Count(beat) => {
                let (_, found) = find(beat, evidence)?;
                if found.standing == Standing::SetAside(WhySetAside::Unclear) {
                    return Err(BeatRefusal::Flawed);
                }
                after.count(opened(beat));
                (BeatDeed::Counted(beat), beat)
            }
        };
        let before = std::mem::replace(edits, after.clone());
        self.history.note(Correction { before, after, at: opened(at), from }, how);
        Ok(deed)
    }
}

/// A beat by its R: its place among all, and the beat.
fn find(r: SampleIndex, evidence: Evidence<'_>) -> Result<(usize, &Beat), BeatRefusal> {
    let beats = &evidence.reading.beats;
    let place = beats.binary_search_by_key(&r, |beat| beat.r);
    let found = place.ok().and_then(|place| Some((place, beats.get(place)?)));
    found.ok_or(BeatRefusal::NoBeatThere)
}

/// The crest near a sample, where one more beat has room.
fn place_for_one_more(
    asked: SampleIndex,
    Evidence { recording, reading }: Evidence<'_>,
) -> Result<SampleIndex, BeatRefusal> {
    recorded(asked, Evidence { recording, reading })?;
    let at = crest(recording, asked, reading.polarity);
    let near = |beat: &Beat| beat.r.minus(at).unsigned_abs() < closest(recording.rate);
    if reading.beats.iter().any(near) { Err(BeatRefusal::TooNear) } else { Ok(at) }
}

/// Where a beat comes to stand that is moved: no further than its neighbours allow.
fn place_between_neighbours(
    beat: SampleIndex,
    to: SampleIndex,
    evidence: Evidence<'_>,
) -> Result<SampleIndex, BeatRefusal> {
    let (place, _) = find(beat, evidence)?;
    let Evidence { recording, reading } = evidence;
    let near = closest(recording.rate) as isize;
    let neighbour = |place: Option<usize>| Some(reading.beats.get(place?)?.r);
    let last = SampleIndex::new(recording.samples.len().saturating_sub(1));
    let low = neighbour(place.checked_sub(1)).map_or(SampleIndex::new(0), |r| r.offset(near));
    let high = neighbour(Some(place + 1)).map_or(last, |r| r.offset(-near));
    // Beats that were found nearer to each other than that may stay, but come no nearer.
    let at = to.max(low.min(beat)).min(high.max(beat));
    if at == beat && to != beat {
        return Err(BeatRefusal::TooNear);
    }
    recorded(at, evidence)?;
    Ok(at)
}

fn recorded(at: SampleIndex, Evidence { recording, .. }: Evidence<'_>) -> Result<(), BeatRefusal> {
    let is_there = at.get() < recording.samples.len() && recording.hole_at(at).is_none();
    if is_there { Ok(()) } else { Err(BeatRefusal::NothingRecordedThere) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::example;
    use crate::signal::{Hole, HoleCause, SampleSpan};

    /// Three invented beats with R at 278, 1078 and 1878, a millisecond apart each sample, in a part that
    /// begins with sample 5000. Gives what each command did, and where the beats stand in the end.
    fn after(commands: &[BeatCommand]) -> (Vec<Result<BeatDeed, BeatRefusal>>, Vec<usize>) {
        let (mut recording, mut reading) = example::of_beats(3);
        recording.holes =
            vec![Hole { span: SampleSpan::new(1500, 1600), cause: HoleCause::NoValue }];
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
}
