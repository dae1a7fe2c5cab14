//! Naming a flaw: which one a stretch has, and what to do before recording again.
//!
//! The recordings are those of the invented class; what is right is what the analysis finds in the
//! stretch, so a stretch with several flaws has several right answers.

use super::super::Evidence;
use crate::analysis::{Finding, FindingKind};
use crate::signal::{SampleSpan, Seconds};
use crate::words::{Language, say};
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// A flaw that can be seen on a stretch of trace.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Flaw {
    /// An even ripple from the mains.
    Hum,
    /// The whole line rises and falls slowly.
    Wander,
    /// Uneven fuzz from muscles.
    Tremor,
    /// Tops or bottoms are cut off.
    Clipped,
    /// Flat, or stuck at an end of the range.
    NoContact,
    /// The electrodes of the two arms are swapped.
    UpsideDown,
}

impl Flaw {
    /// All of them, as they are offered.
    pub const ALL: [Self; 6] =
        [Self::Tremor, Self::UpsideDown, Self::Hum, Self::NoContact, Self::Wander, Self::Clipped];

    /// The flaw that a finding is; `None` for what a look at the trace does not tell.
    pub const fn of(kind: FindingKind) -> Option<Self> {
        match kind {
            FindingKind::MainsHum(_) | FindingKind::FoldedHum { .. } => Some(Self::Hum),
            FindingKind::BaselineWander => Some(Self::Wander),
            FindingKind::Tremor => Some(Self::Tremor),
            FindingKind::Clipped => Some(Self::Clipped),
            FindingKind::Flat | FindingKind::Stuck => Some(Self::NoContact),
            FindingKind::Inverted => Some(Self::UpsideDown),
            FindingKind::Noisy
            | FindingKind::Motion
            | FindingKind::Coarse
            | FindingKind::LowRate
            | FindingKind::TooShort
            | FindingKind::NoBeats
            | FindingKind::Muscle => None,
        }
    }

    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Hum => "hum",
            Self::Wander => "wander",
            Self::Tremor => "tremor",
            Self::Clipped => "clipped",
            Self::NoContact => "no_contact",
            Self::UpsideDown => "upside_down",
        }
    }

    /// What it looks like.
    pub fn name(self, language: Language) -> Cow<'static, str> {
        say(language, &format!("check.flaw.{}.name", self.key()))
    }

    /// What to do about it before recording again.
    pub fn remedy(self, language: Language) -> Cow<'static, str> {
        say(language, &format!("check.flaw.{}.remedy", self.key()))
    }
}

/// A recording with a flaw, of the invented class.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Specimen {
    /// A loose lead beside a mains adapter.
    Noisy,
    /// The electrodes of the two arms are swapped.
    SwappedArms,
}

impl Specimen {
    /// All of them, in the order in which they are shown.
    pub const ALL: [Self; 2] = [Self::Noisy, Self::SwappedArms];

    /// The name that the recording has in the invented class.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Noisy => "noisy",
            Self::SwappedArms => "swapped_arms",
        }
    }
}

/// What a student says about a stretch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FlawGuess {
    /// Of which recording.
    pub specimen: Specimen,
    /// Which flaw it has.
    pub flaw: Flaw,
    /// The flaw whose remedy was chosen.
    pub remedy: Flaw,
}

/// A guess beside what the analysis found. It is made once.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FlawAnswer {
    /// What the student said.
    pub guess: FlawGuess,
    /// The flaws that the analysis found in the stretch.
    pub found: Vec<Flaw>,
}

impl FlawAnswer {
    /// Whether the stretch has the flaw that was named.
    pub fn names_one(&self) -> bool {
        self.found.contains(&self.guess.flaw)
    }

    /// Whether the remedy helps against a flaw that the stretch has.
    pub fn remedies_one(&self) -> bool {
        self.found.contains(&self.guess.remedy)
    }
}

/// How much of a recording is shown: enough beats to see what comes back and what does not.
const SHOWN: Seconds = Seconds::new(4.0);

/// The stretch of a flawed recording that is shown: where the gravest flaw with a place begins, or the
/// middle when the flaws concern the whole trace.
pub fn flawed_stretch(Evidence { recording, reading }: Evidence<'_>) -> SampleSpan {
    let samples = recording.samples.len();
    let length = recording.rate.count(SHOWN).min(samples);
    let flaws = reading.findings.iter().filter(|finding| Flaw::of(finding.kind).is_some());
    let placed = flaws.filter_map(|finding| finding.spans.first()).next();
    let start = placed.map_or(samples / 2, |span| span.start().get()).min(samples - length);
    SampleSpan::new(start, start + length)
}

/// The findings of a recording that concern a stretch and can be seen on it.
pub fn flaws_in<'a>(
    stretch: SampleSpan,
    evidence: Evidence<'a>,
) -> impl Iterator<Item = (Flaw, &'a Finding)> {
    evidence.reading.findings.iter().filter_map(move |finding| {
        let concerns =
            finding.spans.is_empty() || finding.spans.iter().any(|span| span.overlaps(stretch));
        Flaw::of(finding.kind).filter(|_| concerns).map(|flaw| (flaw, finding))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::Severity;
    use crate::lesson::example;

    #[test]
    fn the_stretch_shows_the_gravest_flaw_that_has_a_place() {
        let (recording, mut reading) = example::of_beats(20);
        let found = |kind, spans| Finding { kind, severity: Severity::Limits, spans };
        reading.findings.push(found(FindingKind::MainsHum(50.0), Vec::new()));
        let whole = flawed_stretch(Evidence { recording: &recording, reading: &reading });
        assert_eq!(whole.range(), 8000..12_000);
        reading.findings.push(found(FindingKind::Tremor, vec![SampleSpan::new(2000, 3000)]));
        reading.findings.push(found(FindingKind::Clipped, vec![SampleSpan::new(9000, 9100)]));
        reading.findings.push(found(FindingKind::LowRate, Vec::new()));
        let evidence = Evidence { recording: &recording, reading: &reading };
        let stretch = flawed_stretch(evidence);
        assert_eq!(stretch.range(), 2000..6000);
        let flaws: Vec<Flaw> = flaws_in(stretch, evidence).map(|(flaw, _)| flaw).collect();
        assert_eq!(flaws, [Flaw::Hum, Flaw::Tremor]);
    }

    #[test]
    fn every_flaw_has_its_words_in_every_language() {
        for (flaw, language) in
            Flaw::ALL.into_iter().flat_map(|flaw| Language::ALL.map(|language| (flaw, language)))
        {
            for text in [flaw.name(language), flaw.remedy(language)] {
                assert!(text.len() > 10 && !text.contains("flaw."), "{flaw:?}: {text}");
            }
        }
    }
}
