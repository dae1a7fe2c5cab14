//! Breaths from a channel of their own: a belt round the chest, a sensor of breath or of temperature.
//!
//! The channel is band-passed from [`SLOWEST`] to [`FASTEST`], so that neither a shifting belt nor the heart
//! makes a breath, and cut at its turning points. It should rise with breathing in; where it falls, breathing
//! in and out change places, which alters no size. A breath across a hole is dropped. Cycles much shorter or
//! longer than breaths are, or too few of the usual length, are no clear breathing.

use super::LENGTHS;
use super::breath::Breath;
use super::no_breathing::NoBreathing;
use super::turns::{breaths_of, usual_height};
use crate::analysis::Filter;
use crate::signal::{Hertz, Recording};

/// What is taken for breathing: 3 to 60 a minute.
const SLOWEST: Hertz = Hertz::new(0.05);
const FASTEST: Hertz = Hertz::new(1.0);
/// The part of the time that cycles of a likely length must fill, and the part of all cycles that they must be:
/// of mere noise fewer than half are so long.
const FILLED: f64 = 0.5;
const LIKELY: f64 = 0.75;

/// The breaths of a channel, from bottom to bottom.
pub(super) fn breaths_in(channel: &Recording) -> Result<Vec<Breath>, NoBreathing> {
    let reach = crate::signal::Extent::of(&channel.samples).ok_or(NoBreathing::FlatChannel)?;
    let curve = Filter::band_pass(channel.rate, SLOWEST, FASTEST).apply(&channel.samples);
    // What a filter leaves of a constant is rounding.
    let rounding = 1e-5 * f64::from(reach.high.abs().max(reach.low.abs()));
    if usual_height(&curve) <= rounding {
        return Err(NoBreathing::FlatChannel);
    }
    let mut breaths = breaths_of(&curve, channel.rate);
    let place = |moment| channel.rate.nearest(moment);
    breaths.retain(|breath| !channel.is_broken_between(place(breath.start), place(breath.end)));
    let lengths = breaths.iter().map(|breath| breath.length().seconds());
    let likely: Vec<f64> = lengths.filter(|length| LENGTHS.contains(length)).collect();
    let fills = likely.iter().sum::<f64>() >= FILLED * channel.duration().seconds();
    if !fills || (likely.len() as f64) < LIKELY * breaths.len() as f64 {
        return Err(NoBreathing::UnclearChannel);
    }
    Ok(breaths)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inquiry::invented;
    use crate::signal::{Hole, HoleCause, SampleSpan};
    use std::f64::consts::TAU;

    fn belt(hz: f64, noise: f64) -> Recording {
        let wave = |(i, random): (usize, f64)| {
            let t = i as f64 / hz;
            512.0 + 3.0 * t - 40.0 * (TAU * t / 4.0).cos() + noise * random
        };
        let random = invented::noise((60.0 * hz) as usize, 11).into_iter();
        invented::of(hz, random.enumerate().map(wave).map(|x| x as f32).collect())
    }

    #[test]
    fn a_drifting_belt_gives_its_breaths_at_any_rate() {
        for hz in [10.0, 25.0, 100.0, 1000.0] {
            let breaths = breaths_in(&belt(hz, 4.0)).unwrap();
            assert!((13..=14).contains(&breaths.len()), "{} at {hz} Hz", breaths.len());
            let mean = (breaths[breaths.len() - 1].end - breaths[0].start).seconds()
                / breaths.len() as f64;
            assert!((mean - 4.0).abs() < 0.05, "{mean} s at {hz} Hz");
        }
    }

    #[test]
    fn a_breath_across_a_hole_is_dropped() {
        let whole = breaths_in(&belt(25.0, 0.0)).unwrap().len();
        let hole = Hole { span: SampleSpan::new(530, 550), cause: HoleCause::NoValue };
        let broken = Recording { holes: vec![hole], ..belt(25.0, 0.0) };
        assert_eq!(breaths_in(&broken).unwrap().len(), whole - 1);
    }

    #[test]
    fn a_flat_channel_and_mere_noise_are_refused() {
        let level = invented::of(100.0, vec![2.5; 3000]);
        assert_eq!(breaths_in(&level), Err(NoBreathing::FlatChannel));
        assert_eq!(breaths_in(&invented::flat(100.0, 0.0)), Err(NoBreathing::FlatChannel));
        let noise = invented::noise(6000, 5).into_iter().map(|one| one as f32).collect();
        let noise = invented::of(100.0, noise);
        assert_eq!(breaths_in(&noise), Err(NoBreathing::UnclearChannel));
    }
}
