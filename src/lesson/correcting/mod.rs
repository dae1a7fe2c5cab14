//! Correcting the beats that were found: adding, moving, taking away, leaving out and counting in.
//!
//! Views send a [`BeatCommand`]; [`BeatEditor::apply`] is the one place that carries it out, on the
//! [`BeatEdits`] that are kept with the work. Commands are in samples of the part that is worked on, the
//! edits in samples of the recording as opened, so that another part leaves them where they are.
//!
//! A beat that is added goes to its crest; one that is moved stays exactly where it is put. No two beats
//! are nearer than the detector allows, and a beat never passes its neighbour.

mod command;
#[cfg(test)]
mod tests;

pub use command::{BeatCommand, BeatDeed, BeatRefusal};

use super::undo::{Change, History};
use super::{Evidence, Grip};
use crate::analysis::{Beat, BeatEdits, Standing, WhySetAside, closest, crest};
use crate::signal::SampleIndex;

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
