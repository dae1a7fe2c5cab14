//! When the beats come: at rest, on the way down after exercise, with each breath.
//!
//! rate(t) = resting + rise·exp(−t/τ) (a single exponential, a teaching model of recovery), and
//! RR(t) = 60/rate(t) + slow and fast wavering + depth·sin(2π f t) with each breath. Every beat
//! takes the interval that holds at its moment. Before time 0 the rate is that of time 0.

use super::random::Random;
use super::spectrum::RrSpectrum;
use crate::signal::{BeatsPerMinute, Hertz, Seconds};

/// The shortest and longest interval a beat may take, in seconds: 240 and 20 beats a minute.
const INTERVALS: std::ops::RangeInclusive<f64> = 0.25..=3.0;

/// How long before time 0 the beats begin, so that the model has settled.
const LEAD: f64 = 8.0;

/// One beat: when, and the rate the heart is at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beat {
    /// The moment of R, counted from the first sample; negative before it.
    pub r: Seconds,
    /// The rate without the wavering, which shapes the waves.
    pub pace: BeatsPerMinute,
}

/// What the heart rate does in the long run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Base {
    /// It stays.
    Steady(BeatsPerMinute),
    /// It falls after exercise that ended at time 0.
    Recovery {
        /// Where it ends up.
        resting: BeatsPerMinute,
        /// How far above that it begins.
        rise: BeatsPerMinute,
        /// After this time 37 % of the rise is left.
        time_constant: Seconds,
    },
}

/// How each breath draws the beats together and apart: respiratory sinus arrhythmia.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Breathing {
    /// How often.
    pub frequency: Hertz,
    /// By how much the interval grows and shrinks.
    pub depth: Seconds,
}

/// Everything that decides when beats come.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pace {
    /// The rate in the long run.
    pub base: Base,
    /// The wavering: its spectrum and the spread of the interval.
    pub wavering: Option<(RrSpectrum, Seconds)>,
    /// Breathing in and out.
    pub breathing: Option<Breathing>,
}

impl Base {
    /// The rate at a moment.
    pub fn rate_at(self, moment: Seconds) -> BeatsPerMinute {
        match self {
            Self::Steady(rate) => rate,
            Self::Recovery { resting, rise, time_constant } => {
                let part = (-moment.seconds().max(0.0) / time_constant.seconds()).exp();
                resting + BeatsPerMinute::new(rise.per_minute() * part)
            }
        }
    }
}

impl Pace {
    /// The same rate for ever, without any wavering.
    pub const fn steady(rate: BeatsPerMinute) -> Self {
        Self { base: Base::Steady(rate), wavering: None, breathing: None }
    }

    /// The beats from some seconds before time 0 to the first one after `end`.
    pub fn beats(&self, end: Seconds, random: &mut Random) -> Vec<Beat> {
        let series = self.wavering.map_or_else(Vec::new, |(spectrum, spread)| {
            spectrum.series(spread, end + Seconds::new(2.0 * LEAD), random)
        });
        let wavering = |moment: f64| {
            let place = ((moment + LEAD) * RrSpectrum::SAMPLED_AT.hertz()).round();
            series.get(place as usize).copied().unwrap_or(0.0)
        };
        let breathing = |moment: f64| {
            self.breathing.map_or(0.0, |Breathing { frequency, depth }| {
                depth.seconds() * (std::f64::consts::TAU * frequency.hertz() * moment).sin()
            })
        };
        let mut beats = Vec::new();
        let mut moment = -LEAD;
        loop {
            let pace = self.base.rate_at(Seconds::new(moment));
            beats.push(Beat { r: Seconds::new(moment), pace });
            if moment > end.seconds() {
                return beats;
            }
            let interval = 60.0 / pace.per_minute() + wavering(moment) + breathing(moment);
            moment += interval.clamp(*INTERVALS.start(), *INTERVALS.end());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked example `hrr-01`: 75 + 95 e^(-t/60).
    #[test]
    fn recovery_is_the_exponential() {
        let base = Base::Recovery {
            resting: BeatsPerMinute::new(75.0),
            rise: BeatsPerMinute::new(95.0),
            time_constant: Seconds::new(60.0),
        };
        let times = [0.0, 15.0, 30.0, 45.0, 60.0, 90.0, 120.0, 180.0, 240.0, 300.0];
        let rates =
            [170.0, 148.986, 132.62, 119.875, 109.949, 96.1974, 87.8569, 79.7298, 76.74, 75.6401];
        for (time, rate) in times.into_iter().zip(rates) {
            let found = base.rate_at(Seconds::new(time)).per_minute();
            assert!((found - rate).abs() <= 1e-3, "{found}, not {rate} at {time} s");
        }
        let beats = Pace { base, wavering: None, breathing: None }
            .beats(Seconds::new(120.0), &mut Random::new(1));
        for pair in beats.windows(2).filter(|pair| pair[0].r.seconds() >= 0.0) {
            let found = 60.0 / (pair[1].r - pair[0].r).seconds();
            let expected = base.rate_at(pair[0].r).per_minute();
            assert!((found - expected).abs() < 1e-9, "{found}, not {expected}");
        }
    }

    #[test]
    fn each_breath_draws_the_beats_together_and_apart() {
        let pace = Pace {
            breathing: Some(Breathing { frequency: Hertz::new(0.1), depth: Seconds::new(0.1) }),
            ..Pace::steady(BeatsPerMinute::new(75.0))
        };
        let beats = pace.beats(Seconds::new(100.0), &mut Random::new(1));
        let intervals: Vec<f64> =
            beats.windows(2).map(|pair| (pair[1].r - pair[0].r).seconds()).collect();
        let longest = intervals.iter().copied().fold(0.0, f64::max);
        let shortest = intervals.iter().copied().fold(9.0, f64::min);
        assert!(
            (longest - 0.9).abs() < 0.01 && (shortest - 0.7).abs() < 0.01,
            "{shortest} to {longest}"
        );
    }

    #[test]
    fn a_seed_decides_the_beats() {
        let pace = Pace {
            wavering: Some((RrSpectrum::default(), Seconds::new(0.04))),
            ..Pace::steady(BeatsPerMinute::new(68.0))
        };
        let beats = |seed| pace.beats(Seconds::new(30.0), &mut Random::new(seed));
        assert_eq!(beats(4), beats(4));
        assert_ne!(beats(4), beats(5));
    }

    #[test]
    fn no_pace_stops_the_clock() {
        let wild = Pace {
            wavering: Some((RrSpectrum::default(), Seconds::new(50.0))),
            ..Pace::steady(BeatsPerMinute::new(60.0))
        };
        let beats = wild.beats(Seconds::new(20.0), &mut Random::new(2));
        assert!(beats.windows(2).all(|pair| (pair[1].r - pair[0].r).seconds() >= 0.25));
    }
}
