//! What one beat looks like: five bells on the circle of the cardiac cycle.
//!
//! After McSharry, Clifford, Tarassenko and Smith, "A dynamical model for generating synthetic
//! electrocardiogram signals", IEEE Trans Biomed Eng 50 (2003) 289-294. In their model each wave is
//! an event at an angle θ (R at 0), with a strength a and a width b in radians. Because the cycle
//! turns far faster than the model returns to its baseline, the trace is nearly a sum of bells with
//! height a·b²/ω and spread b/ω, where ω = 2π/RR. That closed form has exact answers: peak, onset
//! and end of each wave are known without reading the trace.

use crate::signal::{BeatsPerMinute, Landmark, Landmarks, SampleRate, Seconds};
use std::f64::consts::{PI, TAU};

/// One wave on the circle of the cycle, as it is at 60 beats a minute.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bell {
    /// Where on the circle, in radians; R is at 0.
    pub angle: f64,
    /// The strength a of the model; its sign is the wave's.
    pub strength: f64,
    /// The width b of the model, in radians.
    pub width: f64,
    /// The power of (rate / 60) with which the angle grows.
    pub angle_power: f64,
    /// The power of (rate / 60) with which the width grows. The height stays.
    pub width_power: f64,
}

/// One wave as it comes out in time, without its neighbours.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wave {
    /// From the beat's R to the top of this wave; negative before R.
    pub delay: Seconds,
    /// The standard deviation of the bell.
    pub spread: Seconds,
    /// The height, in the unit of the strengths divided by a second.
    pub height: f64,
}

/// The five waves P, Q, R, S, T of a heart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heart(pub [Bell; 5]);

impl Bell {
    /// A bell with a height at any rate: the strength follows from a·b²/ω.
    const fn of_height(degrees: f64, width: f64, height: f64, powers: [f64; 2]) -> Self {
        Self {
            angle: degrees * PI / 180.0,
            strength: height * TAU / (width * width),
            width,
            angle_power: powers[0],
            width_power: powers[1],
        }
    }

    /// The same bell at another rate.
    fn at(self, rate: BeatsPerMinute) -> Self {
        let faster = rate.per_minute() / 60.0;
        let wider = faster.powf(self.width_power);
        Self {
            angle: self.angle * faster.powf(self.angle_power),
            strength: self.strength * faster / (wider * wider),
            width: self.width * wider,
            ..self
        }
    }
}

impl Heart {
    /// The parameters of the publication, in its own units, with its rate rule: with
    /// k = √(rate / 60), widths grow with k, the angles of Q and S with k, of P and T with √k.
    pub const PUBLISHED: Self = {
        const fn bell(degrees: f64, strength: f64, width: f64, angle_power: f64) -> Bell {
            Bell { angle: degrees * PI / 180.0, strength, width, angle_power, width_power: 0.5 }
        }
        Self([
            bell(-70.0, 1.2, 0.25, 0.25),
            bell(-15.0, -5.0, 0.1, 0.5),
            bell(0.0, 30.0, 0.1, 0.0),
            bell(15.0, -7.5, 0.1, 0.5),
            bell(100.0, 0.75, 0.4, 0.25),
        ])
    };

    /// An invented volunteer at rest in lead I, in mV: P 0.12 mV, QRS about 90 ms, QT about 400 ms
    /// at 60 beats a minute. The published bells make a QRS of some 160 ms, wider than a healthy
    /// one. Here QRS keeps its width in time at every rate, PR shortens a little, and T follows the
    /// published rule.
    pub const VOLUNTEER: Self = Self([
        Bell::of_height(-54.0, 0.14, 0.12, [0.7, 0.8]),
        Bell::of_height(-9.0, 0.045, -0.09, [1.0, 1.0]),
        Bell::of_height(0.0, 0.06, 0.95, [1.0, 1.0]),
        Bell::of_height(9.5, 0.05, -0.2, [1.0, 1.0]),
        Bell::of_height(92.0, 0.33, 0.24, [0.25, 0.5]),
    ]);

    /// The same heart at another rate. A rate of 0 or below has no meaning here.
    #[must_use]
    pub fn at(&self, rate: BeatsPerMinute) -> Self {
        Self(self.0.map(|bell| bell.at(rate)))
    }

    /// P, Q, R, S and T in time at a rate.
    pub fn waves(&self, rate: BeatsPerMinute) -> [Wave; 5] {
        let omega = TAU * rate.per_minute() / 60.0;
        self.at(rate).0.map(|bell| Wave {
            delay: Seconds::new(bell.angle / omega),
            spread: Seconds::new(bell.width / omega),
            height: bell.strength * bell.width * bell.width / omega,
        })
    }

    /// The closed form: the sum of the five bells at a moment counted from R, without its mean.
    pub fn closed_form(&self, rate: BeatsPerMinute, after_r: Seconds) -> f64 {
        self.waves(rate)
            .iter()
            .map(|wave| {
                let distance = (after_r - wave.delay).seconds() / wave.spread.seconds();
                wave.height * (-0.5 * distance * distance).exp()
            })
            .sum()
    }

    /// The true points of the closed form for a beat with R at a moment.
    ///
    /// Onsets and ends lie 2.5 spreads from the top, where a bell is down to 4.4 % of its height;
    /// the end of T is where the tangent at its steepest point meets the baseline, 2 spreads after
    /// the top. These are conventions of ours, not a cardiologist's boundaries.
    pub fn true_landmarks(
        &self,
        beat: Seconds,
        pace: BeatsPerMinute,
        rate: SampleRate,
    ) -> Landmarks {
        let [p, q, r, s, t] = self.waves(pace);
        let mut points = Landmarks::default();
        let mut place = |landmark, wave: Wave, spreads: f64| {
            let moment = beat + wave.delay + Seconds::new(spreads * wave.spread.seconds());
            points.set(landmark, Some(rate.nearest(moment)));
        };
        place(Landmark::POnset, p, -2.5);
        place(Landmark::PPeak, p, 0.0);
        place(Landmark::PEnd, p, 2.5);
        place(Landmark::QrsOnset, q, -2.5);
        place(Landmark::Q, q, 0.0);
        place(Landmark::R, r, 0.0);
        place(Landmark::S, s, 0.0);
        place(Landmark::QrsEnd, s, 2.5);
        place(Landmark::TOnset, t, -2.5);
        place(Landmark::TPeak, t, 0.0);
        place(Landmark::TEnd, t, 2.0);
        points
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(found: f64, expected: f64, part: f64) {
        assert!(
            (found - expected).abs() <= part * expected.abs().max(1e-12),
            "{found}, not {expected}"
        );
    }

    /// Worked example `ecgmodel-gauss`: the model's defaults at 60 beats a minute.
    #[test]
    fn the_published_bells_come_out_as_computed_by_hand() {
        let waves = Heart::PUBLISHED.waves(BeatsPerMinute::new(60.0));
        let heights = [0.011_936_6, -0.007_957_75, 0.047_746_5, -0.011_936_6, 0.019_098_6];
        let spreads = [39.7887, 15.9155, 15.9155, 15.9155, 63.662];
        let delays = [-194.444, -41.6667, 0.0, 41.6667, 277.778];
        for (wave, ((height, spread), delay)) in
            waves.iter().zip(heights.into_iter().zip(spreads).zip(delays))
        {
            close(wave.height, height, 1e-5);
            close(wave.spread.to_milliseconds().milliseconds(), spread, 1e-5);
            close(wave.delay.to_milliseconds().milliseconds(), delay, 1e-5);
        }
    }

    /// Worked example `ecgmodel-rate`: the published rate rule.
    #[test]
    fn a_faster_heart_brings_t_nearer_to_r() {
        let rates = [50.0, 60.0, 75.0, 100.0, 120.0, 150.0];
        let angles = [95.5443, 100.0, 105.737, 113.622, 118.921, 125.743];
        let delays = [318.481, 277.778, 234.971, 189.37, 165.168, 139.715];
        let spreads = [69.7382, 63.662, 56.941, 49.3124, 45.0158, 40.2634];
        for (i, rate) in rates.into_iter().map(BeatsPerMinute::new).enumerate() {
            let t = Heart::PUBLISHED.waves(rate)[4];
            close(Heart::PUBLISHED.at(rate).0[4].angle.to_degrees(), angles[i], 1e-5);
            close(t.delay.to_milliseconds().milliseconds(), delays[i], 1e-5);
            close(t.spread.to_milliseconds().milliseconds(), spreads[i], 1e-5);
        }
    }

    #[test]
    fn the_volunteer_keeps_the_width_of_qrs_and_the_heights() {
        let [_, q, r, s, _] = Heart::VOLUNTEER.waves(BeatsPerMinute::new(60.0));
        let [_, fast_q, fast_r, fast_s, _] = Heart::VOLUNTEER.waves(BeatsPerMinute::new(140.0));
        for (slow, fast) in [(q, fast_q), (r, fast_r), (s, fast_s)] {
            close(fast.height, slow.height, 1e-12);
            close(fast.spread.seconds(), slow.spread.seconds(), 1e-12);
            close(fast.delay.seconds(), slow.delay.seconds(), 1e-12);
        }
    }
}
