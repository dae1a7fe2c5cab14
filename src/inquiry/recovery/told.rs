//! A recovery in words: a summary for those who can't see the drawing, and the rows of its tables.
//!
//! What has no number has its reason in its place.

use super::cycle_change::{Change, shortened_most};
use super::no_number::NoNumber;
use super::{EARLY, Fitted, Recovery, TypicalBeat};
use crate::lesson::Sampled;
use crate::signal::Landmark;
use crate::words::{Language, Phrase, decimal, figure, phrase, say, say_with, with_uncertainty};

/// What can't be given.
const DASH: &str = "–";

/// One row of the table of the cycle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChangeLine {
    /// What, with its unit.
    pub quantity: String,
    /// At rest.
    pub rest: String,
    /// In early recovery.
    pub recovery: String,
    /// Recovery less rest.
    pub difference: String,
    /// The same in percent.
    pub percent: String,
}

impl Recovery {
    /// What the drawing shows, in a few sentences.
    pub fn summary(&self, language: Language) -> String {
        let whole = |value: f64| Phrase::number(value, 0);
        let tenth = |value: f64| Phrase::number(value, 1);
        let Some((from, to)) = self.course.ends() else {
            return say(language, "recovery.summary.empty").into_owned();
        };
        let (from, to) = (whole(from.seconds()), whole(to.seconds()));
        let points = &self.course.points;
        let left_out = points.iter().filter(|point| point.left_out.is_some()).count();
        let n = points.len();
        let mut told = vec![phrase!("recovery.summary.course", from, to, n, left_out)];
        if let Ok(resting) = &self.resting {
            let (rate, spread) = (tenth(resting.value), tenth(resting.spread));
            told.push(phrase!("recovery.summary.resting", rate, spread));
        }
        if let Ok(peak) = &self.peak {
            let (rate, at) = (whole(peak.rate.per_minute()), whole(peak.at.seconds()));
            told.push(phrase!("recovery.summary.peak", rate, at));
        }
        for one in &self.drops {
            let Ok((rate, drop)) = one.drop else { continue };
            let (after, rate) = (whole(one.after.seconds()), whole(rate.per_minute()));
            let drop = whole(drop.value);
            told.push(phrase!("recovery.summary.drop", after, rate, drop));
        }
        told.push(match &self.curve {
            Ok(curve) => {
                let (resting, rise) =
                    (tenth(curve.resting.estimate.value), tenth(curve.rise.estimate.value));
                let time = curve.time_constant.estimate;
                let (tau, low, high) = (tenth(time.value), tenth(time.low), tenth(time.high));
                phrase!("recovery.summary.curve", resting, rise, tau, low, high)
            }
            Err(why) => why.said(),
        });
        let told: Vec<String> = told.iter().map(|one| one.in_words(language)).collect();
        told.join(" ")
    }

    /// The numbers of the rate: name and value, or the reason why there is none. One reason for the whole curve
    /// stands in one row.
    pub fn rows(&self, language: Language) -> Vec<(String, String)> {
        let name = |key: &str| say(language, &format!("recovery.table.{key}")).into_owned();
        let or_why = |value: Result<String, NoNumber>| {
            value.unwrap_or_else(|why| why.said().in_words(language))
        };
        let resting = self.resting.map(|resting| {
            let places = [
                (
                    "value",
                    &*with_uncertainty(language, resting.value, resting.expanded_uncertainty),
                ),
                ("spread", &*figure(language, resting.spread, 1)),
                ("n", &*resting.n.to_string()),
            ];
            say_with(language, "recovery.table.spread", &places)
        });
        let peak = self.peak.map(|peak| {
            with_uncertainty(language, peak.rate.per_minute(), peak.expanded_uncertainty)
        });
        let mut rows =
            vec![(name("resting_rate"), or_why(resting)), (name("peak_rate"), or_why(peak))];
        for one in &self.drops {
            let after = figure(language, one.after.seconds(), 0);
            let drop =
                one.drop.map(|(_, drop)| with_uncertainty(language, drop.value, drop.half_width()));
            let name = say_with(language, "recovery.table.drop", &[("after", &after)]);
            rows.push((name, or_why(drop)));
        }
        let curve = match &self.curve {
            Ok(curve) => curve,
            Err(why) => {
                rows.push((name("time_constant"), why.said().in_words(language)));
                return rows;
            }
        };
        let fitted = |fitted: Fitted| fitted.estimate.in_words(1, language);
        let used = [("n", &*curve.n.to_string()), ("left_out", &*curve.left_out.to_string())];
        rows.extend([
            (name("curve_resting"), fitted(curve.resting)),
            (name("curve_rise"), fitted(curve.rise)),
            (name("time_constant"), fitted(curve.time_constant)),
            (name("half_time"), figure(language, curve.half_time(), 1)),
            (name("scatter"), figure(language, curve.scatter, 1)),
            (name("r_squared"), figure(language, curve.r_squared, 3)),
            (name("left_out"), say_with(language, "recovery.table.used_and_left", &used)),
        ]);
        rows
    }

    /// What shortened most and why, in sentences: the numbers, the electrical event, the mechanical one. Empty
    /// while one of the conditions has no typical beat.
    pub fn why_shortened(&self, language: Language) -> Vec<String> {
        let Ok(changes) = self.changes() else { return Vec::new() };
        let Some((in_ms, in_percent)) = shortened_most(&changes) else {
            return vec![say(language, "recovery.shortened.none").into_owned()];
        };
        let ms = in_ms.difference.map_or(0.0, |by| by.value);
        let (ms, percent) = (
            decimal(language, ms, 0),
            decimal(language, in_percent.percent.unwrap_or_default(), 0),
        );
        let (name, other) = (in_ms.quantity.name(language), in_percent.quantity.name(language));
        let same = in_ms.quantity == in_percent.quantity;
        let key = if same { "recovery.shortened.same" } else { "recovery.shortened.two" };
        let places = [("name", &*name), ("ms", &ms), ("other", &other), ("percent", &percent)];
        let mut told = vec![say_with(language, key, &places)];
        let both = [in_ms.quantity, in_percent.quantity];
        for quantity in both.into_iter().take(if same { 1 } else { 2 }) {
            for event in ["electrical", "mechanical"] {
                let key = format!("recovery.why.{}.{event}", quantity.key());
                told.push(say(language, &key).into_owned());
            }
        }
        told
    }
}

impl TypicalBeat {
    /// Which beats it is made of.
    pub fn which_beats(&self, language: Language) -> String {
        let moment = |seconds| decimal(language, seconds, 1);
        let (from, to) = (moment(self.from.seconds()), moment(self.to.seconds()));
        let n = self.beat.n.to_string();
        say_with(language, "recovery.which_beats", &[("n", &n), ("from", &from), ("to", &to)])
    }

    /// That of recovery only the first beats are used.
    pub fn early(language: Language) -> String {
        let seconds = figure(language, EARLY.seconds(), 0);
        say_with(language, "recovery.early", &[("seconds", &seconds)])
    }
}

impl Change {
    /// The row of the table.
    pub fn line(&self, language: Language) -> ChangeLine {
        let one = |value: Option<Sampled>| {
            value.map_or_else(
                || DASH.to_owned(),
                |one| with_uncertainty(language, one.value, one.expanded_uncertainty),
            )
        };
        let percent = self.percent.map(|percent| figure(language, percent, 1));
        ChangeLine {
            quantity: format!("{} ({})", self.quantity.name(language), self.quantity.unit()),
            rest: one(self.rest),
            recovery: one(self.recovery),
            difference: one(self.difference),
            percent: percent.unwrap_or_else(|| DASH.to_owned()),
        }
    }
}

/// What two typical beats over each other show.
pub fn overlay_summary(rest: &TypicalBeat, recovery: &TypicalBeat, language: Language) -> String {
    let (rest_n, recovery_n) = (rest.beat.n, recovery.beat.n);
    let mut told = vec![phrase!("recovery.overlay.summary", rest_n, recovery_n).in_words(language)];
    for landmark in [Landmark::POnset, Landmark::QrsOnset, Landmark::QrsEnd, Landmark::TEnd] {
        let after_r = |typical: &TypicalBeat| {
            let beat = &typical.beat;
            let (at, r) = (beat.landmarks.at(landmark), beat.landmarks.at(Landmark::R));
            at.zip(r).map_or_else(
                || DASH.to_owned(),
                |(at, r)| decimal(language, at.minus(r) as f64 * 1000.0 / beat.rate.hz(), 0),
            )
        };
        let name = say(language, &format!("chart.landmark.{}", landmark.key()));
        let (rest, recovery) = (after_r(rest), after_r(recovery));
        let places = [("name", &*name), ("rest", &rest), ("recovery", &recovery)];
        told.push(say_with(language, "recovery.overlay.point", &places));
    }
    told.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inquiry::CycleQuantity;

    #[test]
    fn every_part_that_may_shorten_has_its_two_reasons() {
        for part in CycleQuantity::PARTS {
            for event in ["electrical", "mechanical"] {
                let key = format!("recovery.why.{}.{event}", part.key());
                for language in Language::ALL {
                    assert!(!say(language, &key).ends_with(&key), "there is no message {key}");
                }
            }
        }
    }
}
