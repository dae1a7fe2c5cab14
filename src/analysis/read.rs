//! The whole analysis, step by step: what can be used, where the beats are, what they measure.
//!
//! Deterministic, unit-free, and safe for any recording: empty, flat, one sample, all noise. Nothing
//! is measured across a hole or an unusable stretch, and no beat is marked in one.
//!
//! A long recording is large, and so is every copy of it: each is let go, and made again later if need
//! be, so that at no time more than six times the samples are held (`tests/memory`).

use super::beats;
use super::edits::{BeatEdits, Corrected, PlacedBeat, closest};
use super::filter::Filter;
use super::intervals::measure;
use super::measurement::Intervals;
use super::median::median_beat;
use super::quality::{self, Hum};
use super::reading::{Beat, Finding, FindingKind, Polarity, Reading, Severity, Standing};
use super::series::BeatSeries;
use super::spike::without_spikes;
use super::waves::delineate;
use crate::signal::{
    Hertz, Hole, Progress, Recording, SampleIndex, SampleRate, SampleSpan, Seconds, put_in_order,
};

/// The light copy for places and shapes: AHA 2007 allows 0.67 Hz for filters without phase.
const LIGHT: (Hertz, Hertz) = (Hertz::new(0.67), Hertz::new(40.0));
/// The band in which complexes are compared.
const COMPLEX: (Hertz, Hertz) = (Hertz::new(5.0), Hertz::new(30.0));
/// The width of the notch is its frequency over this: wide enough for mains that drift.
const NOTCH: f64 = 20.0;
/// Hum below this part of the height of R hides nothing.
const HUM: f64 = 0.03;
/// A line that moves by more than this part of the height of R wanders.
const WANDER: f32 = 0.5;
/// Below this a sample lasts more than 8 ms, an eighth of a QRS complex (common practice).
const LOW_RATE: f64 = 125.0;
/// Fewer beats than this make no average.
const FEWEST_BEATS: usize = 5;
/// Fuzz or movement for less than this is not worth a word.
const WORTH_A_WORD: Seconds = Seconds::new(1.5);

/// Finds the beats of a trace and measures them.
pub fn read(recording: &Recording, progress: &mut dyn Progress) -> Reading {
    read_corrected(recording, &BeatEdits::default(), progress)
}

/// The same, measured on the beats as a student has corrected them.
pub fn read_corrected(
    recording: &Recording,
    edits: &BeatEdits,
    progress: &mut dyn Progress,
) -> Reading {
    if recording.is_muscle() {
        return not_a_heart();
    }
    let rate = recording.rate;
    let still = quality::still(recording);
    let lifeless = [&still.flat[..], &still.stuck[..]].concat();
    let alive = quality::bridged(recording, &lifeless);
    progress.at(0.1);
    let hum = quality::hum(&alive.samples, rate);
    let mut quiet = without_hum(&alive.samples, hum, rate);
    let bridged = spans(&alive.holes);
    drop(alive);
    progress.at(0.2);
    let steepness = beats::steepness(&quiet, rate, &bridged);
    progress.at(0.4);
    let noisy = quality::noisy(&steepness, rate);
    let useless = quality::merged([&lifeless[..], &noisy[..]].concat(), recording.samples.len());
    let holes = quality::holes(recording, &useless);
    let unusable = spans(&holes);
    let complexes = Filter::band_pass(rate, COMPLEX.0, COMPLEX.1).apply(&quiet);
    let marks = beats::find(&steepness, &complexes, rate, &unusable);
    drop((steepness, complexes));
    progress.at(0.6);
    // A pacemaker's spikes help to find its beats, but are no part of them; they ring in a notch.
    let mut smooth = quality::bridged(recording, &lifeless).samples.to_vec();
    if without_spikes(&mut smooth, rate) {
        quiet = without_hum(&smooth, hum, rate);
    }
    drop(smooth);
    let light = Filter::band_pass(rate, LIGHT.0, LIGHT.1).apply(&quiet);
    let placed = beats::place(&light, &marks, rate, &unusable);
    let found: Vec<SampleIndex> = placed.r.iter().copied().map(SampleIndex::new).collect();
    let (corrected_beats, corrected) = corrected_within(recording, edits, &found);
    let placed = if corrected == Corrected::default() {
        placed
    } else {
        let r = corrected_beats.iter().map(|beat| beat.r.get()).collect();
        beats::stay(&light, r, rate, &unusable)
    };
    let standings = beats::standings(&light, &placed.r, rate, &unusable);
    let polarity = quality::polarity(&light, &placed, rate);
    drop(light);
    progress.at(0.7);
    // Hum would drown the first and last slopes of a complex.
    let tremor = worth_a_word(quality::tremor(&quiet, rate, placed.height, &unusable), rate);
    let motion =
        worth_a_word(quality::motion(&quiet, &placed.r, rate, placed.height, &unusable), rate);
    let quiet = Recording { samples: quiet.into(), holes, ..recording.clone() };
    let r: Vec<SampleIndex> = corrected_beats.iter().map(|beat| beat.r).collect();
    let landmarks = delineate(&quiet, &r, polarity);
    drop(quiet);
    let usable = quality::bridged(recording, &useless);
    let beats: Vec<Beat> = corrected_beats
        .into_iter()
        .zip(landmarks)
        .zip(standings)
        .map(|((PlacedBeat { r, origin, word }, landmarks), standing)| Beat {
            r,
            origin,
            landmarks,
            standing: standing.with_word(word),
        })
        .collect();
    progress.at(0.9);
    let mut findings = vec![
        about(FindingKind::Flat, Severity::Unusable, still.flat),
        about(FindingKind::Stuck, Severity::Unusable, still.stuck),
        about(FindingKind::Noisy, Severity::Unusable, noisy),
        about(FindingKind::Clipped, Severity::Limits, still.clipped),
        about(FindingKind::Motion, Severity::Limits, motion),
        about(FindingKind::Tremor, Severity::Remark, tremor),
    ];
    findings.retain(|finding| !finding.spans.is_empty());
    let hum = hum.filter(|hum| hum.amplitude > HUM * f64::from(placed.height));
    let coarse = !beats.is_empty() && quality::is_coarse(&recording.samples, placed.height);
    let wander = quality::wander(&usable.samples, rate);
    findings.extend(whole_trace(rate, &beats, polarity, hum, wander > WANDER * placed.height));
    if coarse {
        findings.push(about(FindingKind::Coarse, Severity::Limits, Vec::new()));
    }
    put_in_order(&mut findings, |finding| finding.severity as usize);
    progress.at(1.0);
    Reading {
        polarity,
        median: median_beat(&usable, &beats, polarity),
        intervals: measure(BeatSeries::new(recording, &beats, &useless)),
        unusable: useless,
        found,
        beats,
        corrected,
        findings,
    }
}

/// The beats after the edits. What an edit puts beyond the trace or where nothing was recorded is no beat.
fn corrected_within(
    recording: &Recording,
    edits: &BeatEdits,
    found: &[SampleIndex],
) -> (Vec<PlacedBeat>, Corrected) {
    let (mut beats, corrected) = edits.over(found, closest(recording.rate));
    beats.retain(|beat| {
        beat.r.get() < recording.samples.len() && recording.hole_at(beat.r).is_none()
    });
    (beats, corrected)
}

/// Muscle has spikes, and a detector would count them; calling them beats would be wrong.
fn not_a_heart() -> Reading {
    Reading {
        polarity: Polarity::Unclear,
        found: Vec::new(),
        beats: Vec::new(),
        unusable: Vec::new(),
        corrected: Corrected::default(),
        median: None,
        intervals: Intervals::default(),
        findings: vec![about(FindingKind::Muscle, Severity::Limits, Vec::new())],
    }
}

/// What is to be said about the trace as a whole.
fn whole_trace(
    rate: SampleRate,
    beats: &[Beat],
    polarity: Polarity,
    hum: Option<Hum>,
    wanders: bool,
) -> Vec<Finding> {
    let counted = beats.iter().filter(|beat| beat.standing == Standing::Counts).count();
    let whole = |is: bool, kind, severity| is.then(|| about(kind, severity, Vec::new()));
    [
        whole(beats.is_empty(), FindingKind::NoBeats, Severity::Unusable),
        whole(!beats.is_empty() && counted < FEWEST_BEATS, FindingKind::TooShort, Severity::Limits),
        whole(polarity == Polarity::LooksInverted, FindingKind::Inverted, Severity::Limits),
        hum.and_then(|hum| {
            let (mains, seen) = (hum.mains.hertz(), hum.frequency.hertz());
            let kind = if mains == seen {
                FindingKind::MainsHum(mains)
            } else {
                FindingKind::FoldedHum { mains, seen }
            };
            whole(!beats.is_empty(), kind, Severity::Limits)
        }),
        whole(rate.hz() < LOW_RATE, FindingKind::LowRate, Severity::Limits),
        whole(!beats.is_empty() && wanders, FindingKind::BaselineWander, Severity::Remark),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn about(kind: FindingKind, severity: Severity, spans: Vec<SampleSpan>) -> Finding {
    Finding { kind, severity, spans }
}

/// The stretches, unless they are so short that telling of them would only alarm.
fn worth_a_word(spans: Vec<SampleSpan>, rate: SampleRate) -> Vec<SampleSpan> {
    let all: usize = spans.iter().map(|span| span.len()).sum();
    if all < rate.count(WORTH_A_WORD) { Vec::new() } else { spans }
}

fn without_hum(samples: &[f32], hum: Option<Hum>, rate: SampleRate) -> Vec<f32> {
    match hum {
        Some(hum) => Filter::notch(rate, hum.frequency, NOTCH).apply(samples),
        None => samples.to_vec(),
    }
}

fn spans(holes: &[Hole]) -> Vec<SampleSpan> {
    holes.iter().map(|hole| hole.span).collect()
}
