//! Where the waves of each beat begin, peak and end, in one lead.
//!
//! The method is wavelet delineation after Martínez et al. 2004, IEEE Trans Biomed Eng 51:570, with
//! their quadratic-spline wavelet carried over to any sampling rate ([`wavelet`]). Limbs of a wave
//! are modulus maxima, its peak is the zero crossing between two of them, and its boundaries lie
//! where the slope has run out. Some things differ, because annotated records showed them better:
//!
//! - A QRS complex ends where the slope *stays* low for a moment, not at the first low sample: small
//!   q and s waves are not cut off.
//! - What is slower than the beats is filtered out first, forward and back.
//! - The trace is cut at the complexes before P and T are looked for, so that a steep QRS does not
//!   leak into the wide wavelets.
//! - Beats of like shape are averaged, [`BLOCK`] at a time ([`ensemble`]). Half of what is measured on
//!   a beat is its own, half is shared; and a P wave is only taken for one when the beats agree on
//!   it. In atrial fibrillation they do not, and there is none.
//!
//! A point is left out when it can't be measured: no wave, a wave run into its neighbour, a hole in
//! the recording, the end of the trace. Samples are taken as finite (the contract of [`Recording`]);
//! beats outside the trace get no points. Above 1000 Hz edges are placed on a grid of at least
//! 500 Hz; peaks of the QRS complex always on the trace itself.

mod columns;
mod deflection;
mod ensemble;
mod evidence;
mod names;
mod p_wave;
mod qrs;
mod t_wave;
#[cfg(test)]
mod tests;
mod wavelet;

use super::reading::Polarity;
use crate::signal::{Landmark, Landmarks, Recording, SampleIndex, VoltageUnit};
use deflection::Wave;
use evidence::Trace;
use qrs::Complex;

/// The most beats that are averaged with each other: about half a minute, in which a posture or an
/// electrode rarely changes.
const BLOCK: usize = 32;

const P_POINTS: [Landmark; 3] = [Landmark::POnset, Landmark::PPeak, Landmark::PEnd];
const T_POINTS: [Landmark; 3] = [Landmark::TOnset, Landmark::TPeak, Landmark::TEnd];

/// The points of each beat, in the order of `r`.
///
/// `r` are the peaks of R, or the deepest points of complexes that only go down, in order. In a trace
/// that is upside down, Q, R and S are named as if it were turned over; P and T are found either way.
pub fn delineate(recording: &Recording, r: &[SampleIndex], polarity: Polarity) -> Vec<Landmarks> {
    let trace = Trace::of(recording);
    let complexes = qrs::complexes(&trace, r);
    let t_waves = t_wave::t_waves(&trace, &complexes);
    let smallest = smallest_wave(recording.unit, &complexes);
    let p_waves = p_wave::p_waves(&trace, &complexes, &t_waves, smallest);
    let mut beats = Vec::with_capacity(r.len());
    for (place, &r) in r.iter().enumerate() {
        let mut points = Landmarks::default();
        let complex = complexes.get(place).copied().flatten();
        if let Some(complex) = complex.filter(|complex| !is_broken(recording, &trace, complex)) {
            let (onset, end) = (trace.back(complex.onset).min(r), trace.back(complex.end).max(r));
            points.set(Landmark::QrsOnset, Some(onset));
            points.set(Landmark::QrsEnd, Some(end));
            names::name(recording, r, onset, end, polarity, &mut points);
            let at = |waves: &[Option<Wave>]| waves.get(place).copied().flatten();
            for (landmark, at) in whole(recording, &trace, at(&p_waves), P_POINTS) {
                // A sample that joins several can reach over the first of the complex.
                points.set(landmark, Some(at.min(onset)));
            }
            let t = at(&t_waves).filter(|t| t.size >= smallest);
            for (landmark, at) in whole(recording, &trace, t, T_POINTS) {
                points.set(landmark, Some(at));
            }
        }
        beats.push(points);
    }
    beats
}

/// The least size of a wave that is more than a wiggle of the line.
///
/// Where the unit is known, a wavelet modulus of 3 µV: a wave of some 10 µV, below the 20 to 30 µV
/// at which a wave becomes one for the CSE (Eur Heart J 1985 6:815) and IEC 60601-2-51, both from
/// memory, since beats are averaged. Else the same in proportion to a QRS of usual steepness.
fn smallest_wave(unit: VoltageUnit, complexes: &[Option<Complex>]) -> f64 {
    if unit == VoltageUnit::Millivolt {
        return 0.003;
    }
    let mut steepness: Vec<f64> = complexes.iter().flatten().map(|c| c.steepness).collect();
    steepness.sort_unstable_by(f64::total_cmp);
    0.01 * steepness.get(steepness.len() / 2).copied().unwrap_or(0.0)
}

/// Whether nothing was recorded somewhere in a complex.
fn is_broken(recording: &Recording, trace: &Trace, complex: &Complex) -> bool {
    recording.is_broken_between(trace.back(complex.onset), trace.back(complex.end))
}

/// The points of a wave, in the recording's samples; none when a hole touches it.
fn whole(
    recording: &Recording,
    trace: &Trace,
    wave: Option<Wave>,
    names: [Landmark; 3],
) -> Vec<(Landmark, SampleIndex)> {
    let places = wave.map_or([None; 3], |wave| [wave.onset, Some(wave.peak), wave.end]);
    let points: Vec<(Landmark, SampleIndex)> = names
        .into_iter()
        .zip(places)
        .filter_map(|(name, place)| Some((name, trace.back(place?))))
        .collect();
    match (points.first(), points.last()) {
        (Some(first), Some(last)) if !recording.is_broken_between(first.1, last.1) => points,
        _ => Vec::new(),
    }
}

/// Splits beats into blocks of about the same length, none longer than [`BLOCK`].
fn blocks<T>(beats: &[T]) -> impl Iterator<Item = &[T]> {
    let count = beats.len().div_ceil(BLOCK).max(1);
    beats.chunks(beats.len().div_ceil(count).max(1))
}
