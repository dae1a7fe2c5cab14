//! When the hammer touched: by marks, by a channel of its own, or by its jolt in the trace.
//!
//! A channel (force, acceleration, or a contact of 0 and 1) rests, and leaves its rest at each tap. A tap
//! is where it goes further from its median than [`STRONG`] of its furthest and than [`CLEAR`] robust deviations;
//! its moment is where it first left the noise on the way there. What follows within [`RINGING`] is the
//! same tap. In the trace itself a tap is a short spike out of a calm, apart from what follows; a burst
//! without a spike before it is none. The numbers are common practice.

use super::burst::run;
use super::no_reflex::NoReflex;
use crate::analysis::median;
use crate::inquiry::marked::{mark_texts, moments_marked, words_of};
use crate::signal::{Recording, SampleIndex, SampleRate, Seconds};

/// A tap reaches this part of the strongest.
const STRONG: f64 = 0.25;
/// And so many robust deviations of the rest.
const CLEAR: f64 = 8.0;
/// Where it leaves the noise, in robust deviations, or as a part of how far it goes.
const LEAVES: (f64, f64) = (3.0, 0.02);
/// A hammer rings, and its contact bounces, for so long.
const RINGING: Seconds = Seconds::new(0.030);
/// A spike in the trace is no longer than this,
const SPIKE: Seconds = Seconds::new(0.006);
/// stands so far from the next that is above the noise,
const APART: Seconds = Seconds::new(0.003);
/// and comes out of a calm of this length.
const CALM: Seconds = Seconds::new(0.100);
/// Dips in a spike.
const DIP: Seconds = Seconds::new(0.001);

/// The text of the marks that look like taps by their words, in English or Spanish; or the only text there
/// is. `None` where a student has to say.
pub fn likely_tap_mark(recording: &Recording) -> Option<String> {
    let texts = mark_texts(recording);
    let says = |word: &str| {
        ["tap", "hammer", "hit", "knock", "golpe", "martill", "toque"]
            .iter()
            .any(|start| word.starts_with(start))
    };
    let named = texts.iter().find(|known| words_of(&known.text).iter().any(|word| says(word)));
    match (named, &texts[..]) {
        (Some(known), _) | (None, [known]) => Some(known.text.clone()),
        _ => None,
    }
}

/// The moments of the marks with a text.
///
/// # Errors
/// [`NoReflex::NoMarks`] when no mark carries it.
pub fn taps_marked(recording: &Recording, text: &str) -> Result<Vec<Seconds>, NoReflex> {
    let taps = moments_marked(recording, text);
    if taps.is_empty() { Err(NoReflex::NoMarks) } else { Ok(taps) }
}

/// The taps in a channel of force, acceleration or contact, at any rate.
///
/// # Errors
/// [`NoReflex::FlatChannel`] or [`NoReflex::NoTapInChannel`].
pub fn taps_in_channel(channel: &Recording) -> Result<Vec<Seconds>, NoReflex> {
    let middle = median(channel.samples.iter().copied()).ok_or(NoReflex::FlatChannel)?;
    let distance = |value: f32| (f64::from(value) - f64::from(middle)).abs();
    let far: Vec<f64> = channel.samples.iter().map(|&value| distance(value)).collect();
    let furthest = far.iter().copied().fold(0.0, f64::max);
    if furthest <= 0.0 {
        return Err(NoReflex::FlatChannel);
    }
    let deviation = robust_deviation(&far);
    let strong = (STRONG * furthest).max(CLEAR * deviation);
    let leaves = (LEAVES.0 * deviation).max(LEAVES.1 * furthest);
    let ringing = channel.rate.count(RINGING).max(1);
    let mut taps = Vec::new();
    let mut at = 0;
    while let Some(step) = far.get(at..).and_then(|rest| rest.iter().position(|&one| one > strong))
    {
        let peak = at + step;
        let before = far.get(at..peak).unwrap_or_default();
        let left = peak - before.iter().rev().take_while(|&&one| one > leaves).count();
        taps.push(between(channel.rate, left));
        at = run(&far, strong, peak, ringing).end + ringing;
    }
    if taps.is_empty() { Err(NoReflex::NoTapInChannel) } else { Ok(taps) }
}

/// The taps that jolted the trace itself. One that follows another within 100 ms is not seen.
///
/// # Errors
/// [`NoReflex::NoSpike`] when there is none.
pub fn taps_in_trace(recording: &Recording) -> Result<Vec<Seconds>, NoReflex> {
    let middle = median(recording.samples.iter().copied()).ok_or(NoReflex::NoSpike)?;
    let far: Vec<f64> = recording
        .samples
        .iter()
        .map(|&value| (f64::from(value) - f64::from(middle)).abs())
        .collect();
    let line = CLEAR * robust_deviation(&far);
    let count = |time| recording.rate.count(time);
    let [spike, apart, calm, dip] = [SPIKE, APART, CALM, DIP].map(count);
    let mut taps = Vec::new();
    let (mut at, mut quiet_from) = (0, 0);
    while let Some(step) = far.get(at..).and_then(|rest| rest.iter().position(|&one| one > line)) {
        let start = at + step;
        let run = run(&far, line, start, dip);
        let after = far.get(run.end..run.end + apart).unwrap_or_default();
        let is_calm = start - quiet_from >= calm.min(start);
        if is_calm && run.len() <= spike.max(1) && after.iter().all(|&one| one <= line) {
            taps.push(between(recording.rate, start));
        }
        (at, quiet_from) = (run.end, run.end);
    }
    if taps.is_empty() { Err(NoReflex::NoSpike) } else { Ok(taps) }
}

/// A crossing lies between a sample and the one before it.
fn between(rate: SampleRate, first_above: usize) -> Seconds {
    let half = Seconds::new(rate.interval().seconds() / 2.0);
    let at = rate.time_of(SampleIndex::new(first_above));
    if first_above == 0 { at } else { at - half }
}

/// The standard deviation of what most values are, from their distances to the median.
fn robust_deviation(far: &[f64]) -> f64 {
    1.4826 * median(far.iter().map(|&one| one as f32)).map_or(0.0, f64::from)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inquiry::invented;
    use proptest::prelude::*;

    const TAPS: [f64; 3] = [0.4003, 1.2507, 2.6001];

    /// Noise with a push of 20 ms at each tap, as a force sensor has it.
    fn force(hz: f64, noise: f64, taps: &[f64]) -> Recording {
        let push = |t: f64| {
            let since = taps.iter().map(|tap| t - tap).filter(|since| (0.0..0.02).contains(since));
            since.map(|since| 5.0 * (std::f64::consts::PI * since / 0.02).sin()).sum::<f64>()
        };
        let random = invented::noise((3.0 * hz) as usize, 21).into_iter();
        let sample = |(i, random): (usize, f64)| 2.0 + push(i as f64 / hz) + noise * random;
        invented::of(hz, random.enumerate().map(sample).map(|x| x as f32).collect())
    }

    #[test]
    fn each_push_is_a_tap_where_it_begins() {
        for (hz, noise) in [(500.0, 0.0), (1000.0, 0.02), (4000.0, 0.05)] {
            let taps = taps_in_channel(&force(hz, noise, &TAPS)).unwrap();
            assert_eq!(taps.len(), 3, "{taps:?}");
            for (found, right) in taps.iter().zip(TAPS) {
                let late = 1000.0 * (found.seconds() - right);
                assert!((-1.0..=1.5).contains(&late), "{late} ms at {hz} Hz");
            }
        }
    }

    #[test]
    fn a_contact_that_bounces_is_one_tap() {
        let mut samples = vec![0.0_f32; 3000];
        for (from, to) in [(800, 803), (806, 807), (812, 830), (2000, 2005)] {
            samples[from..to].fill(1.0);
        }
        let taps = taps_in_channel(&invented::of(1000.0, samples)).unwrap();
        assert_eq!(taps.len(), 2);
        for (found, right) in taps.iter().zip([0.7995, 1.9995]) {
            assert!((found.seconds() - right).abs() < 1e-9, "{taps:?}");
        }
    }

    #[test]
    fn a_channel_without_taps_is_refused() {
        let level = invented::of(1000.0, vec![3.0; 500]);
        assert_eq!(taps_in_channel(&level), Err(NoReflex::FlatChannel));
        assert_eq!(taps_in_channel(&force(1000.0, 0.1, &[])), Err(NoReflex::NoTapInChannel));
        assert_eq!(taps_in_channel(&invented::flat(1000.0, 0.0)), Err(NoReflex::FlatChannel));
    }

    #[test]
    fn a_jolt_in_the_trace_is_a_tap_and_a_burst_alone_is_none() {
        let noise = invented::noise(4000, 4).into_iter();
        let mut samples: Vec<f32> = noise.map(|one| (0.008 * one) as f32).collect();
        // At 2000 a second: a jolt of 1.5 ms, 18 ms later a burst of 20 ms; then a burst alone.
        for (from, to) in [(1000, 1003), (1036, 1076), (3000, 3040)] {
            for (at, value) in samples.iter_mut().enumerate().take(to).skip(from) {
                *value += if at % 2 == 0 { 0.5 } else { 0.7 };
            }
        }
        let recording = invented::of(2000.0, samples);
        let taps = taps_in_trace(&recording).unwrap();
        assert_eq!(taps.len(), 1, "{taps:?}");
        assert!((taps[0].seconds() - 0.499_75).abs() < 1e-9);
        assert_eq!(taps_in_trace(&invented::flat(1000.0, 2.0)), Err(NoReflex::NoSpike));
    }

    #[test]
    fn marks_are_known_by_their_words() {
        let recording = invented::flat(1000.0, 3.0);
        let marked = |texts: &[&str]| {
            let moments: Vec<(f64, &str)> = texts.iter().map(|&text| (1.0, text)).collect();
            Recording { marks: invented::marks(&recording, &moments), ..recording.clone() }
        };
        assert_eq!(likely_tap_mark(&marked(&["start", "Tap"])).as_deref(), Some("Tap"));
        assert_eq!(likely_tap_mark(&marked(&["button"])).as_deref(), Some("button"));
        assert_eq!(likely_tap_mark(&marked(&["a", "b"])), None);
        assert_eq!(taps_marked(&recording, "tap"), Err(NoReflex::NoMarks));
    }

    proptest! {
        #[test]
        fn no_samples_make_it_panic(
            samples in proptest::collection::vec(
                prop_oneof![-1.0f32..1.0, Just(f32::MAX), Just(f32::MIN)], 0..400,
            ),
            hz in 1.0f64..5000.0,
        ) {
            let recording = invented::of(hz, samples);
            let inside = |taps: Result<Vec<Seconds>, NoReflex>| {
                let taps = taps.unwrap_or_default();
                taps.windows(2).all(|pair| pair[0] < pair[1])
                    && taps.iter().all(|tap| (0.0..=recording.duration().seconds()).contains(&tap.seconds()))
            };
            prop_assert!(inside(taps_in_channel(&recording)));
            prop_assert!(inside(taps_in_trace(&recording)));
        }
    }
}
