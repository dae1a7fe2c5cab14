//! The rhythm: every RR interval, which of them count, and how much they vary.
//!
//! Variability after the Task Force 1996 (Eur Heart J 17:354): SDNN is the standard deviation of the
//! intervals that count (here with n - 1), RMSSD the root of the mean square of the differences between
//! neighbours, NN50 the number of those differences above 50 ms (strictly), pNN50 its share. The share
//! is of the differences, which is the commoner of the two ways; the Task Force has it of the intervals.
//!
//! An interval counts when both of its beats do and nothing is missing between them: that is the
//! artefact rule. A difference counts when both of its intervals do and follow each other. Values from
//! less than five minutes must not be compared with published ones for five minutes (ibid.).

use super::reading::{Beat, Standing, WhySetAside};
use super::series::BeatSeries;
use crate::signal::{BeatsPerMinute, Milliseconds, SampleIndex};

/// NN50 counts differences above this, ms: 50, and as much more as a sum of fractions may be off.
const FIFTY: f64 = 50.0 + 1e-6;

/// The rhythm of a trace.
#[derive(Clone, Debug, PartialEq)]
pub struct Rhythm {
    /// From each beat to the next, in order.
    pub intervals: Vec<RrInterval>,
    /// How they vary; `None` with fewer than two that count.
    pub variability: Option<Variability>,
}

/// From one R to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RrInterval {
    /// The R it begins at.
    pub from: SampleIndex,
    /// The R it ends at.
    pub to: SampleIndex,
    /// How long it is.
    pub rr: Milliseconds,
    /// Why it is left out, if it is.
    pub left_out: Option<WhyLeftOut>,
}

/// Why an interval does not count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhyLeftOut {
    /// One of its beats is set aside.
    Beat(WhySetAside),
    /// Something is missing between its beats, or can't be used.
    Hole,
}

/// How much the intervals that count vary.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Variability {
    /// How many intervals count.
    pub n: usize,
    /// Their mean.
    pub mean_rr: Milliseconds,
    /// Their standard deviation, with n - 1.
    pub sdnn: Milliseconds,
    /// How many differences between neighbours count.
    pub differences: usize,
    /// The root of their mean square; `None` without any.
    pub rmssd: Option<Milliseconds>,
    /// How many of them are above 50 ms.
    pub nn50: usize,
}

impl RrInterval {
    /// The rate that this interval alone stands for.
    pub fn rate(self) -> BeatsPerMinute {
        BeatsPerMinute::new(60_000.0 / self.rr.milliseconds())
    }

    /// Its length, if it counts.
    pub fn counted(self) -> Option<Milliseconds> {
        self.left_out.is_none().then_some(self.rr)
    }
}

impl Variability {
    /// The rate of the mean interval: beats by the time they took, as counting them gives.
    pub fn mean_rate(self) -> BeatsPerMinute {
        BeatsPerMinute::new(60_000.0 / self.mean_rr.milliseconds())
    }

    /// The share of the differences that is above 50 ms, from 0 to 1; `None` without any.
    pub fn pnn50(self) -> Option<f64> {
        (self.differences > 0).then(|| self.nn50 as f64 / self.differences as f64)
    }

    fn of(intervals: &[RrInterval]) -> Option<Self> {
        let counted: Vec<f64> =
            intervals.iter().filter_map(|rr| Some(rr.counted()?.milliseconds())).collect();
        let n = counted.len();
        if n < 2 {
            return None;
        }
        let mean = counted.iter().sum::<f64>() / n as f64;
        let squares: f64 = counted.iter().map(|rr| (rr - mean).powi(2)).sum();
        let differences: Vec<f64> = intervals
            .windows(2)
            .filter_map(|pair| match pair {
                [a, b] => Some((b.counted()? - a.counted()?).milliseconds()),
                _ => None,
            })
            .collect();
        let mean_square = differences.iter().map(|d| d * d).sum::<f64>() / differences.len() as f64;
        Some(Self {
            n,
            mean_rr: Milliseconds::new(mean),
            sdnn: Milliseconds::new((squares / (n - 1) as f64).sqrt()),
            differences: differences.len(),
            rmssd: (!differences.is_empty()).then(|| Milliseconds::new(mean_square.sqrt())),
            nn50: differences.iter().filter(|difference| difference.abs() > FIFTY).count(),
        })
    }
}

/// The rhythm of the beats of a trace.
pub fn rhythm(series: BeatSeries<'_>) -> Rhythm {
    let apart = series.recording().rate.interval().to_milliseconds().milliseconds();
    let intervals: Vec<RrInterval> = series
        .beats()
        .windows(2)
        .filter_map(|pair| match pair {
            [a, b] => {
                let samples = b.r.get().checked_sub(a.r.get()).filter(|&samples| samples > 0)?;
                let rr = Milliseconds::new(samples as f64 * apart);
                Some(RrInterval { from: a.r, to: b.r, rr, left_out: why_left_out(series, a, b) })
            }
            _ => None,
        })
        .collect();
    Rhythm { variability: Variability::of(&intervals), intervals }
}

fn why_left_out(series: BeatSeries<'_>, a: &Beat, b: &Beat) -> Option<WhyLeftOut> {
    let aside = |beat: &Beat| match beat.standing {
        Standing::Counts => None,
        Standing::SetAside(why) => Some(WhyLeftOut::Beat(why)),
    };
    let hole = || series.is_broken_between(a.r, b.r).then_some(WhyLeftOut::Hole);
    hole().or_else(|| aside(a)).or_else(|| aside(b))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::{Hole, HoleCause, Recording, SampleRate, SampleSpan, VoltageUnit};

    fn beat(r: usize) -> Beat {
        Beat::at(SampleIndex::new(r))
    }

    fn recording() -> Recording {
        Recording {
            name: String::new(),
            rate: SampleRate::new(1000.0).unwrap(),
            unit: VoltageUnit::Millivolt,
            samples: vec![0.0; 9000].into(),
            holes: vec![Hole { span: SampleSpan::new(5000, 5200), cause: HoleCause::NoRows }],
            marks: Vec::new(),
        }
    }

    #[test]
    fn what_is_left_out_says_why_and_parts_the_differences() {
        let mut beats = [500, 1300, 2110, 2500, 3710, 4520, 5360, 6170].map(beat);
        beats[3].standing = Standing::SetAside(WhySetAside::Early);
        let recording = recording();
        let rhythm = rhythm(BeatSeries::new(&recording, &beats, &[]));
        let why: Vec<_> = rhythm.intervals.iter().map(|rr| rr.left_out).collect();
        let early = Some(WhyLeftOut::Beat(WhySetAside::Early));
        assert_eq!(why, [None, None, early, early, None, Some(WhyLeftOut::Hole), None]);
        // 800 and 810 are neighbours; 810 before the hole and 810 after it are not.
        let found = rhythm.variability.unwrap();
        assert_eq!((found.n, found.differences, found.nn50), (4, 1, 0));
        assert_eq!(found.rmssd.map(Milliseconds::milliseconds), Some(10.0));
        assert_eq!(rhythm.intervals[0].rate().per_minute(), 75.0);
    }

    #[test]
    fn one_interval_does_not_vary() {
        let recording = recording();
        let of = |beats: &[Beat]| rhythm(BeatSeries::new(&recording, beats, &[]));
        assert_eq!(of(&[beat(0), beat(800)]).variability, None);
        assert!(of(&[]).intervals.is_empty());
    }
}
