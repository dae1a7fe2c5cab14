//! What is said about something that is wrong with the signal.

use crate::analysis::{Finding, FindingKind};
use crate::signal::SampleRate;
use crate::words::{Language, figure, say, say_with};

/// What is said about a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FindingWords {
    /// A word for the place on the trace.
    pub word: String,
    /// What it means.
    pub what: String,
    /// How many seconds it concerns; `None` when it concerns the whole trace.
    pub affected: Option<String>,
    /// What to do before recording again.
    pub remedy: String,
}

impl FindingWords {
    /// What is said about a finding in a trace of a rate.
    pub fn of(finding: &Finding, rate: SampleRate, language: Language) -> Self {
        let key = |part: &str| format!("findings.{}.{part}", finding.kind.key());
        let (mains, seen) = match finding.kind {
            FindingKind::MainsHum(mains) => (mains, mains),
            FindingKind::FoldedHum { mains, seen } => (mains, seen),
            _ => (f64::NAN, f64::NAN),
        };
        let places =
            [("mains", &*figure(language, mains, 1)), ("seen", &*figure(language, seen, 1))];
        let samples: usize = finding.spans.iter().map(|span| span.len()).sum();
        let affected = (samples > 0).then(|| {
            let seconds = figure(language, samples as f64 / rate.hz(), 1);
            say_with(language, "findings.affected", &[("seconds", &seconds)])
        });
        Self {
            word: say(language, &key("word")).into_owned(),
            what: say_with(language, &key("what"), &places),
            affected,
            remedy: say(language, &key("remedy")).into_owned(),
        }
    }

    /// What it means, where, and what to do, as one text.
    pub fn sentences(&self) -> String {
        let parts = [Some(&self.what), self.affected.as_ref(), Some(&self.remedy)];
        parts.into_iter().flatten().map(String::as_str).collect::<Vec<_>>().join(" ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::Severity;
    use crate::signal::SampleSpan;

    #[test]
    fn every_kind_has_its_words() {
        for kind in FindingKind::ALL {
            let finding = Finding { kind, severity: Severity::Remark, spans: Vec::new() };
            let words =
                FindingWords::of(&finding, SampleRate::new(250.0).unwrap(), Language::English);
            for text in [&words.what, &words.remedy] {
                assert!(text.ends_with('.') && !text.contains("findings."), "{kind:?}: {text}");
            }
            assert!(!words.word.contains('.'), "{kind:?}: {}", words.word);
        }
    }

    #[test]
    fn a_hum_names_its_frequency_and_a_stretch_its_length() {
        let rate = SampleRate::new(100.0).unwrap();
        let words = |kind, spans| {
            let finding = Finding { kind, severity: Severity::Limits, spans };
            FindingWords::of(&finding, rate, Language::English).sentences()
        };
        let hum = words(FindingKind::FoldedHum { mains: 60.0, seen: 40.0 }, Vec::new());
        assert!(hum.contains("60 Hz") && hum.contains("40 Hz") && hum.contains("battery"));
        let tremor = words(FindingKind::Tremor, vec![SampleSpan::new(0, 250)]);
        assert!(tremor.contains("2.5 s"), "{tremor}");
    }
}
