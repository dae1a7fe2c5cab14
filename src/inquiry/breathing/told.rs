//! Breathing in words: a summary for those who can't see the drawing, what to say beside the numbers, and the
//! rows of its tables.

use super::{Breath, Breathing, Swing, ToldBy, Trail, WhyNoSwing};
use crate::inquiry::stats::{Estimate, Moments};
use crate::words::{Language, Phrase, decimal, figure, phrase, say, say_with};

/// What can't be given.
const DASH: &str = "–";

/// One row of the table of breaths.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BreathLine {
    /// Its number, from 1.
    pub number: String,
    /// Where it starts, s.
    pub from: String,
    /// Where it ends, s.
    pub to: String,
    /// The longest interval less the shortest, ms.
    pub rr: String,
    /// The highest rate less the lowest, 1/min.
    pub rate: String,
    /// Whether it counts, and if not why.
    pub counts: String,
}

impl ToldBy {
    /// How breaths were told, to be said beside each result.
    pub fn said(self) -> Phrase {
        let Self::Estimate(estimate) = self else {
            return Phrase::message(match self {
                Self::Marks => "breathing.told_by.marks",
                Self::Timer => "breathing.told_by.timer",
                Self::Channel | Self::Estimate(_) => "breathing.told_by.channel",
            });
        };
        let (clear, windows) = (estimate.clear, estimate.windows);
        let rate = Phrase::number(estimate.per_minute(), 1);
        match estimate.trail {
            Trail::ComplexSize => {
                phrase!("breathing.told_by.estimate_size", clear, windows, rate)
            }
            Trail::Level => phrase!("breathing.told_by.estimate_level", clear, windows, rate),
        }
    }
}

impl Breathing {
    /// What the drawing shows, in a few sentences.
    pub fn summary(&self, language: Language) -> String {
        let ends = self.course.points.first().zip(self.course.points.last());
        let seconds = ends.map_or(0.0, |(first, last)| (last.at - first.at).seconds());
        let (breaths, counted) = (self.breaths.len(), self.rr_ms.n);
        let rate = Phrase::number(self.rate.mean, 1);
        let pace = Phrase::number(self.breaths_per_minute(), 1);
        let seconds = Phrase::number(seconds, 0);
        phrase!("breathing.chart.summary", seconds, breaths, counted, rate, pace).in_words(language)
    }

    /// What has to be said beside the numbers.
    pub fn words(&self) -> Vec<Phrase> {
        let mut said = vec![self.told_by.said()];
        let breaths = self.breaths.len() - self.rr_ms.n;
        let intervals = self.intervals_left_out;
        if breaths > 0 || intervals > 0 {
            said.push(phrase!("breathing.words.left_out", breaths, intervals));
        }
        let beats = Phrase::number(self.beats_per_breath, 1);
        let percent = Phrase::number(100.0 * self.part_seen(), 0);
        said.extend([
            phrase!("breathing.words.part_seen", beats, percent),
            phrase!("breathing.words.never_zero"),
            phrase!("breathing.words.meaning"),
            phrase!("breathing.words.why"),
        ]);
        said
    }

    /// The numbers: name and value.
    pub fn rows(&self, language: Language) -> Vec<(String, String)> {
        let name = |key: &str| say(language, &format!("breathing.table.{key}")).into_owned();
        vec![
            (name("rr"), with_interval(language, self.rr_ms, self.mean_rr(), 0)),
            (name("rate"), with_interval(language, self.rate, self.mean_rate(), 1)),
            (name("ratio"), figure(language, self.ratio(), 2)),
            (name("breaths_per_minute"), figure(language, self.breaths_per_minute(), 1)),
            (name("beats_per_breath"), figure(language, self.beats_per_breath, 1)),
        ]
    }

    /// The heads of the table of breaths.
    pub fn heads(language: Language) -> [String; 6] {
        ["breath", "from", "to", "rr", "rate", "counts"]
            .map(|key| say(language, &format!("breathing.table.{key}")).into_owned())
    }

    /// Every breath.
    pub fn lines(&self, language: Language) -> Vec<BreathLine> {
        let breaths = self.breaths.iter().enumerate();
        breaths.map(|(place, &(breath, swing))| line(language, place + 1, breath, swing)).collect()
    }
}

fn line(
    language: Language,
    number: usize,
    breath: Breath,
    swing: Result<Swing, WhyNoSwing>,
) -> BreathLine {
    let value = |value: fn(&Swing) -> f64, decimals| {
        swing.map_or_else(|_| DASH.to_owned(), |swing| figure(language, value(&swing), decimals))
    };
    let counts = match swing {
        Ok(_) => say(language, "breathing.table.yes").into_owned(),
        Err(why) => {
            let why = why.said();
            phrase!("breathing.table.left_out", why).in_words(language)
        }
    };
    BreathLine {
        number: number.to_string(),
        from: decimal(language, breath.start.seconds(), 1),
        to: decimal(language, breath.end.seconds(), 1),
        rr: value(Swing::rr_ms, 0),
        rate: value(Swing::rate, 1),
        counts,
    }
}

/// A mean with its interval, spread and count.
fn with_interval(
    language: Language,
    moments: Moments,
    interval: Option<Estimate>,
    decimals: usize,
) -> String {
    let write = |value: f64| decimal(language, value, decimals);
    let (Some(interval), Some(spread)) = (interval, moments.deviation) else {
        return write(moments.mean);
    };
    let [value, low, high] = [interval.value, interval.low, interval.high].map(write);
    let (spread, n) = (write(spread), moments.n.to_string());
    let places =
        [("value", &*value), ("low", &*low), ("high", &*high), ("spread", &*spread), ("n", &*n)];
    say_with(language, "breathing.table.with_interval", &places)
}
