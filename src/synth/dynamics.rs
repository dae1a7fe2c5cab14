//! Integrates the dynamical model: a point runs round a circle, once a beat, and waves lift it.
//!
//! McSharry, Clifford, Tarassenko and Smith 2003 (see [`Heart`]):
//! dx/dt = αx − ωy, dy/dt = αy + ωx with α = 1 − √(x² + y²);
//! dz/dt = −Σ aᵢ Δθᵢ exp(−Δθᵢ² / 2bᵢ²) − (z − z₀), θ = atan2(y, x), z₀ = A sin(2π f t).
//! Runge-Kutta of 4th order; steps end on every sample and on every beat, where ω and the bells
//! change, so that R stays on its beat however long the trace. No step is longer than 2 ms.

use super::heart::Heart;
use super::pace::Beat;
use crate::signal::{Hertz, SampleRate};
use std::f64::consts::TAU;

const LONGEST_STEP: f64 = 0.002;

/// How breathing moves the baseline: z₀ of the model.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Breath {
    /// How often.
    pub frequency: Hertz,
    /// A, in the unit of the trace.
    pub height: f64,
}

/// The trace of a heart over so many samples, the first one at time 0, in the unit of its bells.
///
/// Beats have to start before time 0, so that the model has settled when the trace begins. Without
/// a beat there is no trace.
pub fn trace(
    heart: &Heart,
    beats: &[Beat],
    breath: Breath,
    rate: SampleRate,
    samples: usize,
) -> Vec<f32> {
    let Some(first) = beats.first() else { return Vec::new() };
    let mut run = Run {
        heart,
        breath,
        turn: Turn::of(heart, first, beats.get(1)),
        time: first.r.seconds(),
        state: [1.0, 0.0, 0.0],
    };
    let mut coming = beats.iter().enumerate().skip(1).peekable();
    (0..samples)
        .map(|index| {
            let moment = index as f64 / rate.hz();
            while let Some((place, beat)) = coming.next_if(|(_, beat)| beat.r.seconds() <= moment) {
                run.advance_to(beat.r.seconds());
                run.turn = Turn::of(run.heart, beat, beats.get(place + 1));
            }
            run.advance_to(moment);
            run.state[2] as f32
        })
        .collect()
}

/// One round: how fast it goes and the bells along it.
struct Turn {
    omega: f64,
    bells: Heart,
}

impl Turn {
    fn of(heart: &Heart, beat: &Beat, next: Option<&Beat>) -> Self {
        let interval =
            next.map_or(60.0 / beat.pace.per_minute(), |next| (next.r - beat.r).seconds());
        Self { omega: TAU / interval, bells: heart.at(beat.pace) }
    }
}

struct Run<'a> {
    heart: &'a Heart,
    breath: Breath,
    turn: Turn,
    time: f64,
    state: [f64; 3],
}

impl Run<'_> {
    fn advance_to(&mut self, moment: f64) {
        let steps = ((moment - self.time) / LONGEST_STEP).ceil().max(1.0);
        let step = (moment - self.time) / steps;
        for _ in 0..steps as usize {
            self.step(step);
        }
        self.time = moment;
    }

    fn step(&mut self, step: f64) {
        let along = |slope: [f64; 3], part: f64| {
            std::array::from_fn(|i| self.state[i] + part * step * slope[i])
        };
        let k1 = self.slope(self.state, self.time);
        let k2 = self.slope(along(k1, 0.5), self.time + step / 2.0);
        let k3 = self.slope(along(k2, 0.5), self.time + step / 2.0);
        let k4 = self.slope(along(k3, 1.0), self.time + step);
        for i in 0..3 {
            self.state[i] += step / 6.0 * (k1[i] + 2.0 * (k2[i] + k3[i]) + k4[i]);
        }
        self.time += step;
    }

    fn slope(&self, [x, y, z]: [f64; 3], time: f64) -> [f64; 3] {
        let omega = self.turn.omega;
        let alpha = 1.0 - x.hypot(y);
        let theta = y.atan2(x);
        let lift: f64 = self
            .turn
            .bells
            .0
            .iter()
            .map(|bell| {
                let from = wrapped(theta - bell.angle);
                bell.strength * from * (-0.5 * (from / bell.width).powi(2)).exp()
            })
            .sum();
        let baseline = self.breath.height * (TAU * self.breath.frequency.hertz() * time).sin();
        [alpha * x - omega * y, alpha * y + omega * x, -lift - (z - baseline)]
    }
}

/// An angle brought to the half turn on either side of 0.
fn wrapped(angle: f64) -> f64 {
    angle - TAU * (angle / TAU).round()
}

/// No breathing.
impl Default for Breath {
    fn default() -> Self {
        Self { frequency: Hertz::new(0.0), height: 0.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::{BeatsPerMinute, Seconds};

    /// Beats at one rate, one of them at time 0.
    fn even_beats(rate: BeatsPerMinute, until: f64) -> Vec<Beat> {
        let interval = 60.0 / rate.per_minute();
        (-8..)
            .map(|n| Beat { r: Seconds::new(f64::from(n) * interval), pace: rate })
            .take_while(|beat| beat.r.seconds() < until + interval)
            .collect()
    }

    fn published(rate: BeatsPerMinute, hz: f64) -> Vec<f32> {
        let beats = even_beats(rate, 10.0);
        let samples = (10.0 * hz) as usize;
        trace(&Heart::PUBLISHED, &beats, Breath::default(), SampleRate::new(hz).unwrap(), samples)
    }

    /// Worked example `ecgmodel-gauss`: the trace is the sum of bells to 2 % of its range.
    #[test]
    fn the_trace_is_nearly_a_sum_of_bells() {
        let rate = BeatsPerMinute::new(60.0);
        let found = published(rate, 1000.0);
        let beat = &found[4500..5500];
        let bells: Vec<f64> = (0..1000)
            .map(|i| {
                let after_r = f64::from(i) / 1000.0 - 0.5;
                (-1..=1)
                    .map(|n| {
                        Heart::PUBLISHED.closed_form(rate, Seconds::new(after_r - f64::from(n)))
                    })
                    .sum()
            })
            .collect();
        let mean = bells.iter().sum::<f64>() / 1000.0;
        let furthest = beat
            .iter()
            .zip(&bells)
            .map(|(&z, bell)| (f64::from(z) - (bell - mean)).abs())
            .fold(0.0, f64::max);
        let range = bells.iter().fold(0.0_f64, |high, &z| high.max(z))
            - bells.iter().fold(0.0_f64, |low, &z| low.min(z));
        assert!(furthest <= 0.021 * range, "{furthest} of {range}");
        assert!(furthest >= 0.01 * range, "the restoring term is missing: {furthest} of {range}");
    }

    /// Worked example `ecgmodel-rate`: from R to the top of T in the trace itself. The restoring
    /// term and the neighbours move the top by a few milliseconds, so this is no closer than 6 ms.
    #[test]
    fn t_comes_sooner_after_r_in_a_faster_trace() {
        for (rate, expected) in [(50.0, 318.481), (60.0, 277.778), (75.0, 234.971), (100.0, 189.37)]
        {
            let found = published(BeatsPerMinute::new(rate), 1000.0);
            let interval = 60_000.0 / rate;
            let top = |range: std::ops::Range<usize>| {
                range.max_by(|&a, &b| found[a].total_cmp(&found[b])).unwrap() as f64
            };
            let r_at = 4.0 * interval;
            let r = top((r_at - 30.0) as usize..(r_at + 30.0) as usize);
            let t = top((r_at + 110.0) as usize..(r_at + 450.0_f64.min(0.6 * interval)) as usize);
            assert!((r - r_at).abs() <= 2.0, "R at {r}, not {r_at}");
            assert!((t - r - expected).abs() <= 6.0, "{} ms, not {expected} at {rate}", t - r);
        }
    }

    #[test]
    fn a_coarse_grid_takes_the_same_path_as_a_fine_one() {
        let (fine, coarse) = (
            published(BeatsPerMinute::new(72.0), 1000.0),
            published(BeatsPerMinute::new(72.0), 100.0),
        );
        for (i, &z) in coarse.iter().enumerate() {
            assert!((z - fine[10 * i]).abs() < 1e-5, "sample {i}: {z} and {}", fine[10 * i]);
        }
    }

    #[test]
    fn without_beats_there_is_no_trace() {
        let rate = SampleRate::new(250.0).unwrap();
        assert!(trace(&Heart::PUBLISHED, &[], Breath::default(), rate, 100).is_empty());
    }
}
