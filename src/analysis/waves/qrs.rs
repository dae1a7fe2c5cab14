//! Where each QRS complex begins and ends.
//!
//! The complex is the stretch around R in which the trace is steep. From its steepest sample one walks
//! outwards until the slope has stayed low for a moment: low against the complex, or against the
//! noise of the line, whichever is more. The shares were chosen on half of the LUDB and QT database
//! records in `tests/data`; Martínez 2004 gives 0.05 and 0.07 for the beginning.

use super::deflection::limbs;
use super::ensemble::{Ensemble, Fit};
use super::evidence::{Evidence, Trace};
use crate::signal::SampleIndex;

/// The wavelet's scale, s: between the paper's 2² and 2³ at 250 Hz.
const SCALE: f64 = 0.020;
/// How far around R a complex is looked at, s.
const REACH: f64 = 0.4;
/// How far before and after R a complex can go on, s.
const LONGEST: (f64, f64) = (0.12, 0.15);
/// How far from R the steepest sample may lie, s.
const NEAR: f64 = 0.08;
/// The slope, against the steepest, below which it counts as low before and after the complex.
const LOW: (f64, f64) = (0.04, 0.053);
/// The same against the noise: the modulus that this part of the samples around R stay below, few enough
/// that at a fast rate they lie between the waves.
const CALMEST: f64 = 0.12;
const ABOVE_NOISE: f64 = 9.0;
/// When after R the slope of ST is measured, s, at its calmest quarter, and how much steeper than that a
/// complex is: where ST rises straight into T, the slope of the line after the complex is not zero.
const ST: (f64, f64) = (0.08, 0.2);
const ST_CALMEST: f64 = 0.25;
const ABOVE_ST: f64 = 3.0;
/// And the most that may count as low for it, against the steepest.
const ST_LOW: f64 = 0.2;
/// For how long the slope must stay low before and after the complex, s.
const CALM: (f64, f64) = (0.013, 0.024);
/// How far around R complexes are compared, s.
const COMPARED: f64 = 0.06;
/// How far R may lie off in one beat, s.
const JITTER: f64 = 0.012;
/// The least correlation, and the least and greatest height, of a complex of the usual shape.
const USUAL: (f64, f64, f64) = (0.8, 0.5, 2.0);

/// One QRS complex, in samples of the trace.
#[derive(Clone, Copy, Debug)]
pub(super) struct Complex {
    /// Its first sample.
    pub(super) onset: usize,
    /// Its last sample.
    pub(super) end: usize,
    /// Where it is laid over the others: R, moved to where the complexes match best.
    pub(super) anchor: isize,
    /// Whether it looks like most of its neighbours.
    pub(super) is_usual: bool,
    /// The modulus at its steepest sample.
    pub(super) steepness: f64,
}

/// The complex of each beat; `None` where the trace is flat, or does not reach.
pub(super) fn complexes(trace: &Trace, r: &[SampleIndex]) -> Vec<Option<Complex>> {
    super::blocks(r).flat_map(|block| complexes_of_block(trace, block)).collect()
}

fn complexes_of_block(trace: &Trace, r: &[SampleIndex]) -> Vec<Option<Complex>> {
    let reach = trace.count(REACH);
    let mut beats: Vec<(Option<Evidence>, bool)> = r
        .iter()
        .map(|&r| {
            let around = |r: usize| {
                trace.evidence(r.saturating_sub(reach), r + reach + 1, SCALE, r as isize)
            };
            (trace.place(r).map(around), true)
        })
        .collect();
    let mut shared = None;
    // The second round measures against an average that odd beats no longer spoil.
    for _ in 0..2 {
        let compared = trace.count(COMPARED) as isize;
        shared = usual_complex(&beats, compared);
        let Some(shared) = &shared else { break };
        for (beat, is_usual) in &mut beats {
            let fit = |beat: &Evidence| {
                shared.fit(beat, -compared, compared, trace.count(JITTER) as isize)
            };
            *is_usual = false;
            if let Some(beat) = beat {
                let Fit { shift, share, likeness } = fit(beat);
                *is_usual = likeness > USUAL.0 && share > USUAL.1 && share < USUAL.2;
                beat.anchor += if *is_usual { shift } else { 0 };
            }
        }
    }
    let shared = shared.and_then(|_| usual_complex(&beats, trace.count(0.75 * REACH) as isize));
    beats
        .into_iter()
        .zip(r)
        .map(|((beat, is_usual), &r)| {
            let (beat, r) = (beat?, trace.place(r)?);
            match &shared {
                Some(shared) if is_usual => edges(trace, &shared.blend(&beat), r, true),
                _ => edges(trace, &beat, r, false),
            }
        })
        .collect()
}

fn usual_complex(beats: &[(Option<Evidence>, bool)], reach: isize) -> Option<Ensemble> {
    let usual: Vec<&Evidence> =
        beats.iter().filter(|beat| beat.1).filter_map(|beat| beat.0.as_ref()).collect();
    Ensemble::of(&usual, -reach, reach)
}

fn edges(trace: &Trace, beat: &Evidence, r: usize, is_usual: bool) -> Option<Complex> {
    let r = r.checked_sub(beat.from)?;
    let start = r.saturating_sub(trace.count(LONGEST.0));
    let stop = (r + trace.count(LONGEST.1)).min(beat.values.len());
    let steepest = limbs(&beat.values, start..stop)
        .into_iter()
        .filter(|limb| limb.at.abs_diff(r) <= trace.count(NEAR))
        .max_by(|a, b| a.slope.abs().total_cmp(&b.slope.abs()))?;
    let steepness = steepest.slope.abs();
    let noise = ABOVE_NOISE * calm_modulus(&beat.values, CALMEST);
    let last_steep =
        |from: usize, samples: &mut dyn Iterator<Item = usize>, low: f64, calm: f64| {
            let low = (low * steepness).max(noise.min(0.5 * steepness));
            let mut last = from;
            for at in samples {
                if beat.values.get(at).is_some_and(|value| value.abs() > low) {
                    last = at;
                }
                if at.abs_diff(last) as f64 > calm * trace.rate {
                    break;
                }
            }
            last
        };
    // R belongs to the complex, however rounded it is.
    let (first, last) = (steepest.at.min(r), steepest.at.max(r));
    let onset = last_steep(first, &mut (start..first).rev(), LOW.0, CALM.0);
    let count = beat.values.len();
    let st = (r + trace.count(ST.0)).min(count)..(r + trace.count(ST.1)).min(count);
    let st = ABOVE_ST * calm_modulus(&beat.values[st], ST_CALMEST);
    let low = (st / steepness).min(ST_LOW).max(LOW.1);
    let end = last_steep(last, &mut (last..stop), low, CALM.1);
    Some(Complex {
        onset: beat.from + onset,
        end: beat.from + end,
        anchor: beat.anchor,
        is_usual,
        steepness,
    })
}

/// The modulus that a part of some values stays below; 0 of none.
fn calm_modulus(values: &[f64], part: f64) -> f64 {
    let mut moduli: Vec<f64> = values.iter().map(|value| value.abs()).collect();
    let place = (part * moduli.len() as f64) as usize;
    if place >= moduli.len() {
        return 0.0;
    }
    *moduli.select_nth_unstable_by(place, f64::total_cmp).1
}
