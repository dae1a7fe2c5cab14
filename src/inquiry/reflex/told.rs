//! The reflex in words: summaries for those who can't see the drawings, what to say beside the numbers, and the
//! rows of its table.

use super::{ReflexSettings, Reflexes, Response, Tap};
use crate::inquiry::stats::Moments;
use crate::signal::VoltageUnit;
use crate::words::{Language, Phrase, decimal, figure, phrase, say, say_with, with_uncertainty};

/// What can't be given.
const DASH: &str = "–";

/// One row of the table of taps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TapLine {
    /// Its number, from 1, or that it is the mean.
    pub tap: String,
    /// When, s.
    pub at: String,
    /// From the tap to the onset, ms.
    pub latency: String,
    /// How long the answer lasts, ms.
    pub duration: String,
    /// The mean of the rectified EMG.
    pub rectified: String,
    /// The root mean square.
    pub rms: String,
    /// From the lowest to the highest sample.
    pub peak_to_peak: String,
    /// Why there is no answer; empty for one.
    pub note: String,
}

impl ReflexSettings {
    /// The rule in a sentence.
    pub fn said(&self) -> Phrase {
        let exact = |time: crate::signal::Milliseconds| Phrase::exact(time.milliseconds());
        let deviations = Phrase::exact(self.deviations);
        let (hold, skip, until) = (exact(self.hold), exact(self.skip), exact(self.until));
        phrase!("reflex.settings.rule", deviations, hold, skip, until)
    }
}

impl Reflexes {
    /// What the drawing of one tap shows; `None` for a tap that is not there.
    pub fn summary_of(&self, place: usize, language: Language) -> Option<String> {
        let Tap { baseline, response, .. } = self.taps.get(place)?;
        let tap = place + 1;
        let said = match (response, baseline) {
            (Ok(response), Some(baseline)) => {
                let line = self.amount(baseline.line);
                let latency = Phrase::number(response.latency.milliseconds(), 1);
                let duration = Phrase::number(response.duration.milliseconds(), 1);
                phrase!("reflex.chart.summary_one", tap, line, latency, duration)
            }
            (Err(why), _) => {
                let why = why.said();
                phrase!("reflex.chart.summary_none", tap, why)
            }
            (Ok(_), None) => return None,
        };
        Some(said.in_words(language))
    }

    /// What the drawing of all taps over each other shows.
    pub fn summary(&self, language: Language) -> String {
        let taps = self.responses().count() + self.silent();
        match self.latency_ms {
            Some(Moments { n, mean, .. }) => {
                let latency = Phrase::number(mean, 1);
                phrase!("reflex.chart.summary_all", taps, latency, n).in_words(language)
            }
            None => phrase!("reflex.chart.summary_all_silent", taps).in_words(language),
        }
    }

    /// What has to be said beside the numbers.
    pub fn words(&self) -> Vec<Phrase> {
        let (taps, answers) = (self.taps.len(), self.responses().count());
        let (silent, left_out) = (self.silent(), self.left_out());
        let mut said = vec![
            self.settings.said(),
            phrase!("reflex.words.counted", taps, answers, silent, left_out),
        ];
        if self.is_coarse {
            said.push(phrase!("reflex.words.coarse"));
        }
        said.extend([
            phrase!("reflex.words.trigger"),
            phrase!("reflex.words.electrical"),
            phrase!("reflex.words.voluntary"),
            phrase!("reflex.words.amplitude"),
            phrase!("reflex.words.same_taps"),
            phrase!("reflex.words.no_diagnosis"),
        ]);
        said
    }

    /// The heads of the table of taps.
    pub fn heads(&self, language: Language) -> [String; 8] {
        let unit = self.unit_words(language);
        ["tap", "at", "latency", "duration", "rectified", "rms", "peak_to_peak", "note"]
            .map(|key| say_with(language, &format!("reflex.table.{key}"), &[("unit", &unit)]))
    }

    /// Every tap, and the means of the answers with half of their 95 % intervals.
    pub fn lines(&self, language: Language) -> Vec<TapLine> {
        let taps = self.taps.iter().enumerate();
        let mut lines: Vec<TapLine> =
            taps.map(|(place, tap)| self.line(language, place + 1, tap)).collect();
        let mean = |moments: Option<Moments>, decimals: usize| {
            moments.map_or_else(
                || DASH.to_owned(),
                |moments| match moments.mean_interval() {
                    Some(interval) => {
                        with_uncertainty(language, interval.value, interval.half_width())
                    }
                    None => figure(language, moments.mean, decimals),
                },
            )
        };
        lines.push(TapLine {
            tap: say(language, "reflex.table.mean").into_owned(),
            at: String::new(),
            latency: self.mean_latency().map_or_else(
                || mean(self.latency_ms, 1),
                |mean| with_uncertainty(language, mean.value, mean.half_width()),
            ),
            duration: mean(self.duration_ms, 1),
            rectified: self.mean_amount(language, self.rectified_mean),
            rms: self.mean_amount(language, self.rms),
            peak_to_peak: String::new(),
            note: String::new(),
        });
        lines
    }

    fn line(&self, language: Language, number: usize, tap: &Tap) -> TapLine {
        let of = |value: &dyn Fn(&Response) -> String| {
            tap.response.as_ref().map_or_else(|_| DASH.to_owned(), value)
        };
        let amount = |value: f64| self.amount(value).in_words(language);
        TapLine {
            tap: number.to_string(),
            at: decimal(language, tap.at.seconds(), 3),
            latency: of(&|one| {
                let off = one.latency_uncertainty.milliseconds();
                with_uncertainty(language, one.latency.milliseconds(), off)
            }),
            duration: of(&|one| decimal(language, one.duration.milliseconds(), 1)),
            rectified: of(&|one| amount(one.rectified_mean)),
            rms: of(&|one| amount(one.rms)),
            peak_to_peak: of(&|one| amount(one.peak_to_peak)),
            note: match tap.response {
                Ok(_) => String::new(),
                Err(why) => why.said().in_words(language),
            },
        }
    }

    fn mean_amount(&self, language: Language, moments: Option<Moments>) -> String {
        let Some(moments) = moments else { return DASH.to_owned() };
        let mean = self.amount(moments.mean).in_words(language);
        match moments.mean_interval() {
            Some(interval) => {
                let half = self.amount(interval.half_width()).in_words(language);
                format!("{mean}\u{a0}±\u{a0}{half}")
            }
            None => mean,
        }
    }

    /// An amplitude with the decimals that its unit warrants.
    fn amount(&self, value: f64) -> Phrase {
        Phrase::number(value, if self.unit == VoltageUnit::Counts { 1 } else { 3 })
    }

    /// The unit of amplitudes.
    pub fn unit_words(&self, language: Language) -> String {
        let key = match self.unit {
            VoltageUnit::Millivolt => "chart.axis.millivolt",
            VoltageUnit::Counts => "chart.axis.counts",
            VoltageUnit::Unstated => "reflex.table.plain_unit",
        };
        say(language, key).into_owned()
    }
}
