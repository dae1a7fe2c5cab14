//! Limbs of waves, the deflections they make, and where a limb runs out.

use super::evidence::Evidence;
use std::ops::Range;

/// Where the trace rises or falls fastest: a modulus maximum of its transform.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Limb {
    /// Which value of the transform.
    pub(super) at: usize,
    /// The value there: above zero where the trace rises.
    pub(super) slope: f64,
}

/// A hill or a valley: two neighbouring limbs of opposite sense.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Deflection {
    /// The way in.
    pub(super) first: Limb,
    /// The way out.
    pub(super) second: Limb,
    /// The zero crossing between them.
    pub(super) peak: usize,
}

/// Where a wave lies, in samples of the trace.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Wave {
    /// Where it begins; `None` when it has no beginning of its own.
    pub(super) onset: Option<usize>,
    /// Its top.
    pub(super) peak: usize,
    /// Where it ends; `None` when that can't be seen.
    pub(super) end: Option<usize>,
    /// See [`Deflection::size`].
    pub(super) size: f64,
}

/// A change of slope that is only rounding, against the slope of the limb.
const ROUNDING: f64 = 1e-9;

/// Which way to walk from a limb.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Towards {
    Earlier,
    Later,
}

/// The modulus maxima inside a range, not at its ends.
pub(super) fn limbs(transform: &[f64], range: Range<usize>) -> Vec<Limb> {
    let end = range.end.min(transform.len());
    let part = transform.get(range.start..end).unwrap_or_default();
    part.windows(3)
        .enumerate()
        .filter(|(_, three)| three[1].abs() > three[0].abs() && three[1].abs() >= three[2].abs())
        .map(|(index, three)| Limb { at: range.start + index + 1, slope: three[1] })
        .collect()
}

/// The hills and valleys inside a range.
///
/// A slope may slacken and steepen again without turning. Its limb is the one nearest to the peak that
/// is no mere shoulder: that has at least the part `shoulder` of the slope of the steepest on its side.
pub(super) fn deflections(
    transform: &[f64],
    range: Range<usize>,
    shoulder: f64,
) -> Vec<Deflection> {
    let limbs = limbs(transform, range);
    let runs: Vec<&[Limb]> = limbs.chunk_by(|one, next| one.slope * next.slope > 0.0).collect();
    runs.windows(2)
        .filter_map(|pair| {
            let first = main_limb(pair[0].iter().rev(), shoulder)?;
            let second = main_limb(pair[1].iter(), shoulder)?;
            let rising = first.slope.signum();
            let after = (first.at..=second.at).find(|&at| transform[at] * rising <= 0.0);
            let after = after.unwrap_or(second.at);
            let before = after.saturating_sub(1);
            let nearer = transform[before].abs() < transform[after].abs();
            Some(Deflection { first, second, peak: if nearer { before } else { after } })
        })
        .collect()
}

fn main_limb<'a>(run: impl Iterator<Item = &'a Limb> + Clone, shoulder: f64) -> Option<Limb> {
    let steepest = run.clone().map(|limb| limb.slope.abs()).fold(0.0, f64::max);
    run.copied().find(|limb| limb.slope.abs() >= shoulder * steepest)
}

impl Deflection {
    /// How much of a wave it is: the slope of its gentler limb, and a little of the steeper one.
    pub(super) fn size(&self) -> f64 {
        let (first, second) = (self.first.slope.abs(), self.second.slope.abs());
        first.min(second) + 0.15 * first.max(second)
    }

    /// How far its peak lies from where the trace comes to in the end, against how far its last limb goes:
    /// about 1 for a hill on the line, 0 for a valley between two hills.
    pub(super) fn lift(&self, transform: &[f64]) -> f64 {
        let after = transform.get(self.peak..).unwrap_or_default();
        let foot = foot(transform, self.second, 0.1, Towards::Later);
        let limb: f64 = after.iter().take(foot.saturating_sub(self.peak) + 1).sum();
        if limb == 0.0 { 0.0 } else { after.iter().sum::<f64>() / limb }
    }

    /// Whether it points the same way as another.
    pub(super) fn points_like(&self, other: &Self) -> bool {
        self.first.slope * other.first.slope > 0.0
    }

    /// The wave with these boundaries, given as values of the transform.
    ///
    /// An onset in the first value has no place: the wave has grown out of what lies before.
    pub(super) fn wave(&self, beat: &Evidence, onset: usize, end: Option<usize>) -> Wave {
        Wave {
            onset: (onset > 0).then_some(beat.from + onset),
            peak: beat.from + self.peak,
            end: end.map(|end| beat.from + end),
            size: self.size(),
        }
    }
}

/// Where a limb runs out: the first value that is no more than `share` of its own, or from which the
/// slope grows again.
pub(super) fn foot(transform: &[f64], limb: Limb, share: f64, towards: Towards) -> usize {
    let sense = limb.slope.signum();
    let limit = share * limb.slope.abs();
    let mut at = limb.at;
    while let Some(here) = transform.get(at) {
        let next = match towards {
            Towards::Earlier => at.checked_sub(1),
            Towards::Later => Some(at + 1),
        };
        let Some((next, there)) = next.and_then(|next| Some((next, transform.get(next)?))) else {
            break;
        };
        if here * sense <= limit || (there - here) * sense > ROUNDING * limb.slope.abs() {
            break;
        }
        at = next;
    }
    at
}

/// Where the tangent to the steepest part of a wave's last limb meets the line after the wave
/// (Lepeschkin and Surawicz 1952, Circulation 6:378).
///
/// The transform is a slope, and its sum the fall of the trace: the limb falls as far as the trace does
/// until its slope is down to `calm` of the steepest, and the tangent falls as far with the steepest
/// slope throughout. For a bell of standard deviation σ that is 2σ after its peak.
///
/// `None` where the transform ends before the line begins.
pub(super) fn tangent_end(transform: &[f64], limb: Limb, calm: f64) -> Option<usize> {
    let line = foot(transform, limb, calm, Towards::Later);
    if line + 1 >= transform.len() {
        return None;
    }
    let all: f64 = transform.get(limb.at..=line).unwrap_or_default().iter().sum();
    let fall = all - limb.slope / 2.0;
    let run = (fall / limb.slope).max(0.0).round() as usize;
    Some((limb.at + run).min(line))
}

/// A bell of height 1 around zero, one unit wide.
pub(super) fn bell(distance: f64) -> f64 {
    (-0.5 * distance * distance).exp()
}

/// The deflection with the highest score.
pub(super) fn best(
    deflections: Vec<Deflection>,
    score: impl Fn(&Deflection) -> f64,
) -> Option<Deflection> {
    deflections.into_iter().max_by(|a, b| score(a).total_cmp(&score(b)))
}

#[cfg(test)]
mod tests {
    use super::super::wavelet::transform;
    use super::*;

    /// Where the tangent to the falling side of a wave at `peak` ends, in samples.
    fn end(wave: impl Fn(f64) -> f64, peak: usize) -> usize {
        let trace: Vec<f64> = (0..1000).map(|at| wave(at as f64)).collect();
        let slope = transform(&trace, 2.0);
        let falling = limbs(&slope, peak..1000)
            .into_iter()
            .min_by(|a, b| a.slope.total_cmp(&b.slope))
            .unwrap();
        tangent_end(&slope, falling, 0.0).unwrap()
    }

    #[test]
    fn the_tangent_ends_where_geometry_says() {
        // Worked examples `tangent-gauss`, `tangent-cosine` and `tangent-triangle`, a sample each ms.
        let gauss = |t: f64| (-0.5 * ((t - 300.0) / 40.0).powi(2)).exp();
        assert_eq!(end(gauss, 300), 380);
        let cosine = |t: f64| {
            let phase = ((t - 300.0) / 100.0).clamp(-1.0, 1.0);
            0.5 * (1.0 + (std::f64::consts::PI * phase).cos())
        };
        assert_eq!(end(cosine, 300), 382, "100 (1/2 + 1/π) = 81.8 ms after the peak");
        let triangle = |t: f64| (1.0 - (t - 300.0).abs() / 120.0).max(0.0);
        assert!(end(triangle, 300).abs_diff(420) <= 1);
    }

    #[test]
    fn a_hill_peaks_between_its_limbs() {
        let trace: Vec<f64> =
            (0..400).map(|t| (-0.5 * ((f64::from(t) - 200.0) / 20.0).powi(2)).exp()).collect();
        let found = deflections(&transform(&trace, 10.0), 0..400, 1.0);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].peak, 200);
        assert!(found[0].first.at.abs_diff(180) <= 1 && found[0].second.at.abs_diff(220) <= 1);
        assert!(deflections(&[], 0..10, 1.0).is_empty() && limbs(&[1.0], 3..9).is_empty());
    }

    #[test]
    fn a_hill_leaves_the_line_and_the_valley_between_two_does_not() {
        let bell = |t: f64, middle: f64| (-0.5 * ((t - middle) / 20.0).powi(2)).exp();
        let trace: Vec<f64> =
            (0..600).map(|t| bell(f64::from(t), 200.0) + bell(f64::from(t), 300.0)).collect();
        let slope = transform(&trace, 10.0);
        let lifts: Vec<f64> =
            deflections(&slope, 0..600, 1.0).iter().map(|wave| wave.lift(&slope)).collect();
        assert_eq!(lifts.len(), 3);
        assert!((lifts[0] - 1.0).abs() < 0.15 && (lifts[2] - 1.0).abs() < 0.15, "{lifts:?}");
        assert!(lifts[1].abs() < 0.2, "{lifts:?}");
    }

    #[test]
    fn a_shoulder_does_not_hide_a_hill() {
        // Up by 1, level, up by a little, down by 1: the small rise is nearest to the peak.
        let slope = |t: f64| {
            let bell = |middle: f64| (-0.5 * ((t - middle) / 12.0).powi(2)).exp();
            bell(100.0) + 0.1 * bell(180.0) - bell(260.0)
        };
        let transform: Vec<f64> = (0..400).map(|t| slope(f64::from(t))).collect();
        let first = |shoulder| deflections(&transform, 0..400, shoulder)[0].first.at;
        assert_eq!((first(0.05), first(0.3), first(1.0)), (180, 100, 100));
    }
}
