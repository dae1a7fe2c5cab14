//! A breath, and the two ways in which breaths are told by hand: marks at in and out, or a timer.

use super::no_breathing::NoBreathing;
use crate::inquiry::marked::{mark_texts, moments_marked, words_of};
use crate::signal::{Recording, Seconds};

/// One breath, from a start to the next; moments count from the first sample.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Breath {
    /// Where it starts: with breathing in, unless only breathing out was marked or nobody knows.
    pub start: Seconds,
    /// When breathing out begins, where that is known.
    pub out: Option<Seconds>,
    /// Where the next one starts.
    pub end: Seconds,
}

impl Breath {
    /// How long it takes.
    pub fn length(self) -> Seconds {
        self.end - self.start
    }

    /// Whether a moment lies in it.
    pub fn holds(self, moment: Seconds) -> bool {
        self.start <= moment && moment < self.end
    }
}

/// Which marks stand for breathing in and out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BreathMarks {
    /// The text of the marks at which a breath starts.
    pub start: String,
    /// The text of the marks at which breathing out begins, if there are any.
    pub out: Option<String>,
}

/// Breathing by a timer that was followed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paced {
    /// When the first breath in began, from the first sample.
    pub from: Seconds,
    /// How long each breath in takes.
    pub inward: Seconds,
    /// How long each breath out takes.
    pub outward: Seconds,
}

impl Paced {
    /// Six breaths a minute, at which the rate rises and falls most (common practice).
    pub const fn slow(from: Seconds) -> Self {
        Self { from, inward: Seconds::new(5.0), outward: Seconds::new(5.0) }
    }

    /// The whole breaths up to the end of a recording.
    pub(super) fn breaths(self, until: Seconds) -> Vec<Breath> {
        let length = (self.inward + self.outward).seconds();
        let count = (until - self.from).seconds() / length;
        let is_breath = length > 0.5
            && self.inward.seconds() > 0.0
            && self.from.seconds() >= 0.0
            && count.is_finite();
        if !is_breath {
            return Vec::new();
        }
        // A breath that ends with the last sample is whole, whatever rounding says.
        (0..(count + 1e-9) as u32)
            .map(|number| {
                let start = self.from + Seconds::new(f64::from(number) * length);
                let end = start + Seconds::new(length);
                Breath { start, out: Some(start + self.inward), end }
            })
            .collect()
    }
}

impl BreathMarks {
    /// The marks that look like in and out by their words, in English or Spanish; or the only text there is.
    /// `None` where a student has to say.
    pub fn likely(recording: &Recording) -> Option<Self> {
        let texts = mark_texts(recording);
        let first = |says: fn(&str) -> bool| {
            texts.iter().find(|known| words_of(&known.text).iter().any(|word| says(word)))
        };
        let (start, out) = (first(says_in), first(says_out));
        let text = |known: &crate::inquiry::MarkText| known.text.clone();
        match (start, out, &texts[..]) {
            (Some(start), out, _) => Some(Self { start: text(start), out: out.map(text) }),
            (None, Some(out), _) => Some(Self { start: text(out), out: None }),
            (None, None, [only]) => Some(Self { start: text(only), out: None }),
            _ => None,
        }
    }

    /// The breaths between marks; one with another number of marks for out than one has none.
    pub(super) fn breaths(&self, recording: &Recording) -> Result<Vec<Breath>, NoBreathing> {
        let starts = moments_marked(recording, &self.start);
        if starts.is_empty() {
            return Err(NoBreathing::NoMarks);
        }
        let outs = self.out.as_deref().map(|text| moments_marked(recording, text));
        let outs = outs.unwrap_or_default();
        let breaths = starts.windows(2).filter_map(|pair| {
            let &[start, end] = pair else { return None };
            let bare = Breath { start, out: None, end };
            let mut within = outs.iter().filter(|&&out| bare.holds(out));
            let out = within.next().copied().filter(|_| within.next().is_none());
            (end > start).then_some(Breath { out, ..bare })
        });
        Ok(breaths.collect())
    }
}

fn says_in(word: &str) -> bool {
    matches!(word, "in" | "inward" | "dentro" | "adentro")
        || word.starts_with("inh")
        || word.starts_with("insp")
}

fn says_out(word: &str) -> bool {
    matches!(word, "out" | "outward" | "fuera" | "afuera")
        || ["exh", "exp", "esp"].iter().any(|start| word.starts_with(start))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inquiry::invented;

    fn marked(moments: &[(f64, &str)]) -> Recording {
        let recording = invented::flat(100.0, 60.0);
        Recording { marks: invented::marks(&recording, moments), ..recording }
    }

    #[test]
    fn marks_make_breaths() {
        let recording =
            marked(&[(1.0, "In"), (3.0, "out"), (6.0, "in"), (11.0, "in"), (12.0, "out")]);
        let marks = BreathMarks::likely(&recording).unwrap();
        let breaths = marks.breaths(&recording).unwrap();
        let told: Vec<_> = breaths
            .iter()
            .map(|b| (b.start.seconds(), b.out.map(Seconds::seconds), b.end.seconds()))
            .collect();
        assert_eq!(told, [(1.0, Some(3.0), 6.0), (6.0, None, 11.0)]);
    }

    #[test]
    fn likely_marks_are_known_in_both_languages_or_by_being_the_only_ones() {
        let likely = |texts: &[&str]| {
            let moments: Vec<(f64, &str)> =
                texts.iter().enumerate().map(|(at, &text)| (at as f64, text)).collect();
            BreathMarks::likely(&marked(&moments)).map(|marks| (marks.start, marks.out))
        };
        let some = |a: &str, b: Option<&str>| Some((a.to_owned(), b.map(str::to_owned)));
        assert_eq!(
            likely(&["start", "Breathe in", "breathe out"]),
            some("Breathe in", Some("breathe out"))
        );
        assert_eq!(likely(&["inspira", "espira"]), some("inspira", Some("espira")));
        assert_eq!(likely(&["exhale", "exhale"]), some("exhale", None));
        assert_eq!(likely(&["button", "button"]), some("button", None));
        assert_eq!(likely(&["a", "b"]), None);
        assert_eq!(likely(&[]), None);
    }

    #[test]
    fn half_a_breath_is_none() {
        let half = marked(&[(1.0, "in"), (3.0, "out")]);
        let marks = BreathMarks::likely(&half).unwrap();
        assert_eq!(marks.breaths(&half), Ok(Vec::new()));
        assert_eq!(marks.breaths(&marked(&[])), Err(NoBreathing::NoMarks));
    }

    #[test]
    fn a_timer_gives_whole_breaths_only() {
        let breaths = Paced::slow(Seconds::new(2.0)).breaths(Seconds::new(32.0));
        assert_eq!(breaths.len(), 3);
        assert_eq!((breaths[2].start.seconds(), breaths[2].end.seconds()), (22.0, 32.0));
        for bad in [0.0, -5.0, f64::NAN, f64::INFINITY] {
            let (inward, outward) = (Seconds::new(bad), Seconds::new(0.1));
            let paced = Paced { from: Seconds::new(0.0), inward, outward };
            assert!(paced.breaths(Seconds::new(60.0)).is_empty(), "{bad}");
            let early = Paced::slow(Seconds::new(-1e300));
            assert!(early.breaths(Seconds::new(60.0)).is_empty());
        }
    }
}
