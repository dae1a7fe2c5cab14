//! How good a beat is to read, and why: what a student sees while choosing one.
//!
//! The grade is that of [`Grades`]; the reasons are what the analysis knows of this one beat. A flaw of
//! the whole trace, such as a hum, tells no beat from another and is left to the findings.

use super::beat::spoilt_by;
use super::{Evidence, FindingWords, aside_words};
use crate::analysis::{FindingKind, Grade, Grades, Standing, WhySetAside};
use crate::signal::Landmark;
use crate::words::{Language, decimal, say, say_with};

/// How good one beat is to read.
#[derive(Clone, Debug, PartialEq)]
pub struct BeatGrade {
    /// What it is good for.
    pub grade: Grade,
    /// Its correlation with the typical beat; `None` where there is nothing to compare.
    pub likeness: Option<f32>,
    /// How many of the points can be measured in it.
    pub points: usize,
    /// Why averages leave it out; `None` when they count it.
    pub set_aside: Option<WhySetAside>,
    /// What is wrong with the trace within this beat.
    pub flaws: Vec<FindingKind>,
}

impl BeatGrade {
    /// Looks at the beat at this place in `reading.beats`; `None` when there is none.
    pub fn of(place: usize, evidence: Evidence<'_>) -> Option<Self> {
        let beat = evidence.reading.beats.get(place)?;
        let grades = Grades::of(evidence.recording, evidence.reading);
        let flaws = spoilt_by(beat, evidence.reading).map(|finding| finding.kind).collect();
        let set_aside = match beat.standing {
            Standing::Counts => None,
            Standing::SetAside(why) => Some(why),
        };
        Some(Self {
            grade: grades.beat(place),
            likeness: grades.likeness.get(place).copied().flatten(),
            points: beat.landmarks.iter().count(),
            set_aside,
            flaws,
        })
    }

    /// Whether every wave of it can be placed: it is clear, it counts, and nothing lies over it.
    pub fn is_clean(&self) -> bool {
        self.grade == Grade::Clear && self.set_aside.is_none() && self.flaws.is_empty()
    }

    /// What it is good for, in a sentence.
    pub fn sentence(&self, language: Language) -> String {
        let key = match self.grade {
            _ if self.is_clean() => "choosing.clean",
            Grade::Clear => "choosing.clear",
            Grade::Usable => "choosing.usable",
            Grade::Poor => "choosing.poor",
        };
        say(language, key).into_owned()
    }

    /// Why, a sentence each.
    pub fn reasons(&self, evidence: Evidence<'_>, language: Language) -> Vec<String> {
        let likeness = match self.likeness {
            Some(likeness) => {
                let value = decimal(language, likeness.into(), 2);
                say_with(language, "choosing.likeness", &[("likeness", &value)])
            }
            None => say(language, "choosing.not_compared").into_owned(),
        };
        let (points, all) = (self.points.to_string(), Landmark::ALL.len().to_string());
        let points = say_with(language, "choosing.points", &[("points", &points), ("all", &all)]);
        let set_aside = self.set_aside.map(|why| {
            say_with(language, "choosing.left_out", &[("why", &aside_words(why, language))])
        });
        let findings = evidence.reading.findings.iter();
        let flaws = findings.filter(|finding| self.flaws.contains(&finding.kind)).map(|finding| {
            let words = FindingWords::of(finding, evidence.recording.rate, language);
            say_with(language, "choosing.flawed", &[("word", &words.word)])
        });
        [likeness, points].into_iter().chain(set_aside).chain(flaws).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{Finding, Severity};
    use crate::lesson::example;
    use crate::signal::SampleSpan;

    #[test]
    fn the_reasons_name_what_lies_over_the_beat() {
        let (recording, mut reading) = example::of_beats(4);
        reading.findings.push(Finding {
            kind: FindingKind::Tremor,
            severity: Severity::Limits,
            spans: vec![SampleSpan::new(900, 1000)],
        });
        reading.beats[2].standing = Standing::SetAside(WhySetAside::Early);
        let evidence = Evidence { recording: &recording, reading: &reading };
        let grade = BeatGrade::of(1, evidence).unwrap();
        assert_eq!((grade.points, &*grade.flaws), (11, &[FindingKind::Tremor][..]));
        assert_eq!(grade.likeness, None, "there is no typical beat in this example");
        let reasons = grade.reasons(evidence, Language::English);
        assert!(reasons.iter().any(|reason| reason.contains("tremor")), "{reasons:?}");
        let other = BeatGrade::of(2, evidence).unwrap();
        assert_eq!(other.set_aside, Some(WhySetAside::Early));
        assert!(!other.is_clean() && BeatGrade::of(9, evidence).is_none());
    }
}
