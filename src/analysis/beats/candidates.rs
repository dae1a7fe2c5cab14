//! Peaks of the steepness: every place where a QRS complex might be.
//!
//! Of several peaks within 200 ms only the highest is kept (Hamilton 2002, rule 1): the heart can't
//! beat twice in that time. The earlier of two equal ones wins.

use crate::signal::{SampleRate, Seconds, places_in_order, put_in_order};

/// No two beats are closer than this.
pub(crate) const REFRACTORY: Seconds = Seconds::new(0.200);

/// One peak of the steepness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Candidate {
    /// At which sample.
    pub(crate) at: usize,
    /// How steep.
    pub(crate) height: f32,
}

/// The peaks, in order of time, at least 200 ms apart.
pub(crate) fn candidates(steepness: &[f32], rate: SampleRate) -> Vec<Candidate> {
    let peaks = local_maxima(steepness);
    let reach = rate.count(REFRACTORY);
    let order = places_in_order(peaks.iter().map(|peak| f64::from(-peak.height)));
    let mut open = vec![true; peaks.len()];
    let mut kept = Vec::new();
    for peak in order {
        if !open[peak] {
            continue;
        }
        let at = peaks[peak].at;
        let near = |other: &usize| peaks[*other].at.abs_diff(at) < reach;
        for other in (0..=peak).rev().take_while(near) {
            open[other] = false;
        }
        for other in (peak + 1..peaks.len()).take_while(near) {
            open[other] = false;
        }
        kept.push(peaks[peak]);
    }
    put_in_order(&mut kept, |peak| peak.at);
    kept
}

/// Samples higher than the one before and not lower than the one after a level top; its middle.
fn local_maxima(values: &[f32]) -> Vec<Candidate> {
    let mut peaks = Vec::new();
    let mut rise = 0;
    let mut rising = true;
    for i in 1..=values.len() {
        let next = values.get(i).copied().unwrap_or(0.0);
        let here = values[i - 1];
        if next > here {
            (rise, rising) = (i, true);
        } else if next < here {
            if rising && here > 0.0 {
                peaks.push(Candidate { at: usize::midpoint(rise, i - 1), height: here });
            }
            rising = false;
        }
    }
    peaks
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_highest_of_a_crowd_is_kept() {
        let rate = SampleRate::new(100.0).unwrap();
        let mut values = vec![0.0; 100];
        for (at, height) in [(10, 1.0), (20, 3.0), (35, 2.0), (60, 1.0), (61, 1.0), (62, 1.0)] {
            values[at] = height;
        }
        let found: Vec<usize> = candidates(&values, rate).iter().map(|peak| peak.at).collect();
        assert_eq!(found, [20, 61]);
        assert_eq!(candidates(&[], rate), []);
        assert_eq!(candidates(&[0.0; 9], rate), []);
    }
}
