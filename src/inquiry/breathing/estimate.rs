//! Breathing estimated from the trace itself: the complexes grow and shrink as the chest moves the heart and
//! the electrodes.
//!
//! After Moody, Mietus, Goldberger and Mark 1985 (Comput Cardiol 12:113, from memory). Two trails are looked
//! at, beat by beat: the size of the QRS complex, as the root mean square about the chord between its
//! surroundings, and the level of that chord. The RR intervals themselves are never used, since their rise and
//! fall is what is to be measured.
//!
//! The trace is cut into windows of about [`WINDOW`], and in each the frequency is looked for that is clear
//! ([`clear_frequency`]). A window counts when its frequency is within [`AGREES`] of the median of all; unless more
//! than half of the windows count there is no estimate. The clearer trail is resampled and band-passed about the
//! median frequency, and cut at its bottoms; nobody knows whether a bottom is in or out. Beats far off (4 robust
//! deviations) are not used.

use super::breath::Breath;
use super::no_breathing::NoBreathing;
use super::sine::{Series, clear_frequency};
use super::turns::breaths_of;
use crate::analysis::{Beat, Filter, Standing, median};
use crate::inquiry::stretch::Stretch;
use crate::signal::{Hertz, Recording, SampleRate, Seconds};

/// About how long a window is, s.
const WINDOW: f64 = 30.0;
/// The shortest recording, s.
const SHORTEST: f64 = 20.0;
/// How far a window may be from the median frequency, as a part of it.
const AGREES: f64 = 0.25;
/// A value further from the median than so many robust deviations is not used.
const FAR: f32 = 4.0;
/// The trail is drawn anew at so many values a second.
const DRAWN_AT: f64 = 4.0;
/// Half of the stretch about R in which the complex lies, and where its surroundings end, s.
const COMPLEX: Seconds = Seconds::new(0.050);
const AROUND: Seconds = Seconds::new(0.070);

/// An estimate of breathing, and how sure it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BreathEstimate {
    /// What grew and shrank.
    pub trail: Trail,
    /// The median frequency of the windows in which breathing is clear.
    pub frequency: Hertz,
    /// In how many windows it is clear.
    pub clear: usize,
    /// How many windows there are.
    pub windows: usize,
}

/// What an estimate follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trail {
    /// The size of the QRS complex.
    ComplexSize,
    /// The level of the line about it.
    Level,
}

impl BreathEstimate {
    /// Breaths a minute.
    pub fn per_minute(&self) -> f64 {
        60.0 * self.frequency.hertz()
    }
}

/// The breaths of a trace by its own complexes, in the windows in which they are clear.
pub(super) fn breaths_by(
    stretch: &Stretch<'_>,
) -> Result<(BreathEstimate, Vec<Breath>), NoBreathing> {
    let seconds = stretch.span.len() as f64 / stretch.evidence.recording.rate.hz();
    if seconds < SHORTEST {
        return Err(NoBreathing::TooShort { seconds, needed: SHORTEST });
    }
    let trails = [Trail::ComplexSize, Trail::Level].map(|trail| {
        let series = series(stretch.evidence.recording, stretch.beats(), trail);
        let windows = windows(&series, seconds);
        (trail, series, agreeing(windows))
    });
    let clear = |windows: &[Window]| windows.iter().filter(|one| one.frequency.is_some()).count();
    // Of two that are equally clear the size comes first: a sensor may take the level away.
    let best = trails.into_iter().reduce(|a, b| if clear(&b.2) > clear(&a.2) { b } else { a });
    let (trail, series, windows) = best.ok_or(NoBreathing::NotClear)?;
    let frequencies = windows.iter().filter_map(|one| one.frequency).map(|hertz| hertz as f32);
    let count = clear(&windows);
    let middle = median(frequencies).filter(|_| 2 * count > windows.len());
    let frequency = f64::from(middle.ok_or(NoBreathing::NotClear)?);
    let mut breaths = breaths_of_series(&series, frequency);
    breaths.retain(|breath| {
        let middle = f64::midpoint(breath.start.seconds(), breath.end.seconds());
        windows.iter().any(|one| one.frequency.is_some() && one.from <= middle && middle < one.to)
    });
    let frequency = Hertz::new(frequency);
    Ok((BreathEstimate { trail, frequency, clear: count, windows: windows.len() }, breaths))
}

/// The windows, of which only those near the median frequency keep theirs.
fn agreeing(windows: Vec<Window>) -> Vec<Window> {
    let frequencies = windows.iter().filter_map(|one| one.frequency).map(|hertz| hertz as f32);
    let middle = median(frequencies).map_or(0.0, f64::from);
    let agrees = |hertz: &f64| (hertz - middle).abs() <= AGREES * middle;
    let only = |one: Window| Window { frequency: one.frequency.filter(agrees), ..one };
    windows.into_iter().map(only).collect()
}

/// The trail of the beats that count, without those far off.
fn series(recording: &Recording, beats: &[Beat], trail: Trail) -> Series {
    let counted = beats.iter().filter(|beat| beat.standing == Standing::Counts);
    let all: Vec<(f64, f32)> = counted
        .filter_map(|beat| {
            let value = follow(recording, beat.r.get(), trail)?;
            Some((recording.rate.time_of(beat.r).seconds(), value as f32))
        })
        .collect();
    let Some(middle) = median(all.iter().map(|one| one.1)) else { return Vec::new() };
    let distance = median(all.iter().map(|one| (one.1 - middle).abs())).unwrap_or_default();
    let near = all.into_iter().filter(|one| (one.1 - middle).abs() <= FAR * 1.4826 * distance);
    near.map(|(at, value)| (at, f64::from(value))).collect()
}

/// The value of one beat; `None` too near an end.
fn follow(recording: &Recording, r: usize, trail: Trail) -> Option<f64> {
    let inner = recording.rate.count(COMPLEX);
    let outer = recording.rate.count(AROUND).max(inner + 1);
    let part = |from: usize, to: usize| recording.samples.get(from..=to);
    let mean = |part: &[f32]| {
        part.iter().map(|&value| f64::from(value)).sum::<f64>() / part.len().max(1) as f64
    };
    let before = mean(part(r.checked_sub(outer)?, r.checked_sub(inner)?)?);
    let after = mean(part(r + inner, r + outer)?);
    if trail == Trail::Level {
        return Some(f64::midpoint(before, after));
    }
    let complex = part(r.checked_sub(inner)?, r + inner)?;
    let steps = (2 * inner).max(1) as f64;
    let squares = complex.iter().enumerate().map(|(at, &value)| {
        let chord = before + (after - before) * at as f64 / steps;
        (f64::from(value) - chord).powi(2)
    });
    Some((squares.sum::<f64>() / complex.len() as f64).sqrt())
}

/// A window of the trail and the frequency that is clear in it.
struct Window {
    from: f64,
    to: f64,
    frequency: Option<f64>,
}

fn windows(series: &[(f64, f64)], seconds: f64) -> Vec<Window> {
    let Some((&first, &last)) = series.first().zip(series.last()) else { return Vec::new() };
    let count = (seconds / WINDOW).round().max(1.0) as usize;
    let length = (last.0 - first.0) / count as f64;
    (0..count)
        .map(|number| {
            let from = first.0 + length * number as f64;
            let to = if number + 1 == count { f64::INFINITY } else { from + length };
            let place = |moment: f64| series.partition_point(|one| one.0 < moment);
            let inside = series.get(place(from)..place(to)).unwrap_or_default();
            Window { from, to, frequency: clear_frequency(inside) }
        })
        .collect()
}

/// The trail on an even grid, band-passed about a frequency, from bottom to bottom.
fn breaths_of_series(series: &[(f64, f64)], frequency: f64) -> Vec<Breath> {
    let (Some(first), Some(last)) = (series.first(), series.last()) else { return Vec::new() };
    let Ok(rate) = SampleRate::new(DRAWN_AT) else { return Vec::new() };
    let count = rate.count(Seconds::new(last.0 - first.0));
    let grid: Vec<f32> = (0..=count)
        .map(|step| first.0 + step as f64 / DRAWN_AT)
        .map(|moment| between(series, moment) as f32)
        .collect();
    let (low, high) = (Hertz::new(0.6 * frequency), Hertz::new(1.5 * frequency));
    let curve = Filter::band_pass(rate, low, high).apply(&grid);
    let later = Seconds::new(first.0);
    let breaths = breaths_of(&curve, rate).into_iter();
    // Nobody knows which turn is in and which is out.
    breaths
        .map(|one| Breath { start: one.start + later, out: None, end: one.end + later })
        .collect()
}

/// The value of the series at a moment, on a straight line between two.
fn between(series: &[(f64, f64)], moment: f64) -> f64 {
    let place = series.partition_point(|one| one.0 < moment);
    let (before, after) = (series.get(place.saturating_sub(1)), series.get(place));
    match (before, after) {
        (Some(a), Some(b)) if b.0 > a.0 => a.1 + (b.1 - a.1) * (moment - a.0) / (b.0 - a.0),
        (Some(one), _) | (_, Some(one)) => one.1,
        _ => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn no_series_makes_it_panic(
            values in proptest::collection::vec((any::<f64>(), any::<f64>()), 0..60),
        ) {
            let mut values = values;
            values.sort_by(|a, b| a.0.total_cmp(&b.0));
            let _ = windows(&values, 60.0);
        }
    }
}
