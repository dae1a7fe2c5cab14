//! Drawings compared byte for byte with the files in `tests/golden`.
//!
//! After a wanted change run once with `BEATWALK_REWRITE=1` and look at every changed file. The
//! signals are sums of bell curves: invented hearts with round numbers.

use super::golden::assert_golden;
use beatwalk::analysis::{Beat, BeatSeries, Origin, Standing, WhySetAside, rhythm};
use beatwalk::chart::{
    BeatMark, CSS_PX_PER_MM, CycleScene, Frame, Look, Palette, PointMark, Role, Shade, SvgText,
    TachogramScene, Tone, TraceScene, Viewport, draw_cycle, draw_tachogram, draw_trace, summary,
    to_svg,
};
use beatwalk::signal::{
    Envelope, Hole, HoleCause, Landmark, Landmarks, SampleIndex, SampleRate, SampleSpan, Seconds,
    VoltageUnit,
};
use beatwalk::words::Language;

/// Waves of one beat: middle and width in s around R, height in mV.
const WAVES: [(f64, f64, f64); 5] = [
    (-0.16, 0.020, 0.12),
    (-0.028, 0.008, -0.08),
    (0.0, 0.010, 1.0),
    (0.030, 0.009, -0.20),
    (0.26, 0.040, 0.28),
];
/// From R to R, s; the first R comes half of it after the start.
const RR: f64 = 0.8;

/// An invented heart at 75 beats a minute, in mV.
fn heart(seconds: f64, rate: SampleRate) -> Envelope {
    let samples = (0..rate.count(Seconds::new(seconds))).map(|index| {
        let after_r = (index as f64 / rate.hz()) % RR - RR / 2.0;
        let bell = |(middle, width, height): (f64, f64, f64)| {
            height * (-((after_r - middle) / width).powi(2) / 2.0).exp()
        };
        WAVES.into_iter().map(bell).sum::<f64>() as f32
    });
    Envelope::new(samples.collect())
}

fn rate(hz: f64) -> SampleRate {
    SampleRate::new(hz).unwrap()
}

/// The sample at so many ms after the R of a beat, the first being 0.
fn sample(beat: usize, ms: f64, rate: SampleRate) -> SampleIndex {
    rate.nearest(Seconds::new((beat as f64 + 0.5) * RR + ms / 1000.0))
}

/// Where the points of an invented beat lie, ms around its R.
const POINTS: [(Landmark, f64); 11] = [
    (Landmark::POnset, -210.0),
    (Landmark::PPeak, -160.0),
    (Landmark::PEnd, -110.0),
    (Landmark::QrsOnset, -50.0),
    (Landmark::Q, -28.0),
    (Landmark::R, 0.0),
    (Landmark::S, 30.0),
    (Landmark::QrsEnd, 52.0),
    (Landmark::TOnset, 160.0),
    (Landmark::TPeak, 260.0),
    (Landmark::TEnd, 360.0),
];

fn beats(count: usize, rate: SampleRate) -> Vec<BeatMark> {
    (0..count)
        .map(|beat| BeatMark {
            number: beat + 1,
            at: sample(beat, 0.0, rate),
            origin: Origin::Found,
            standing: match beat % 97 {
                4 => Standing::SetAside(WhySetAside::OtherShape),
                _ => Standing::Counts,
            },
        })
        .collect()
}

fn scene(envelope: &Envelope, rate: SampleRate) -> TraceScene<'_> {
    TraceScene::bare(envelope, rate, Viewport::fit(envelope, rate))
}

const SCREEN: Look<'_> =
    Look { palette: &Palette::LIGHT, scale: 2.0, px_per_mm: None, language: Language::English };
const PAPER: Look<'_> = Look {
    palette: &Palette::PRINT,
    scale: 4.0,
    px_per_mm: Some(CSS_PX_PER_MM),
    language: Language::English,
};

fn drawn(size: (u32, u32), scene: &TraceScene<'_>, look: &Look<'_>) -> String {
    let description = summary(scene, look.language);
    let text = SvgText { title: "Trace", description: &description };
    to_svg(size, look.scale as u32, text, |area| draw_trace(area, scene, look)).unwrap()
}

#[test]
fn a_strip_at_true_paper_scale() {
    let rate = rate(500.0);
    let envelope = heart(10.0, rate);
    let size = (680, 280);
    let frame = Frame::of_trace(size.0.into(), size.1.into(), PAPER.palette);
    let viewport = Viewport::paper(&frame, CSS_PX_PER_MM, Seconds::new(0.0), 0.3);
    let beats = beats(12, rate);
    let scene = TraceScene { viewport, beats: &beats, ..scene(&envelope, rate) };
    assert_golden("strip.svg", &drawn(size, &scene, &PAPER));
}

/// Of eight beats a student added one, moved one, and moved one that is left out.
#[test]
fn beats_placed_by_hand_are_told_apart() {
    let rate = rate(500.0);
    let envelope = heart(6.4, rate);
    let mut beats = beats(8, rate);
    beats[1].origin = Origin::Added;
    beats[4].origin = Origin::Moved;
    beats[6].origin = Origin::Moved;
    let scene = TraceScene { beats: &beats, ..scene(&envelope, rate) };
    assert_golden("beats_by_hand.svg", &drawn((680, 240), &scene, &SCREEN));
}

#[test]
fn one_beat_with_a_students_points_and_the_apps() {
    let rate = rate(500.0);
    let envelope = heart(8.0, rate);
    let beats = beats(10, rate);
    let mut points = Vec::new();
    for (landmark, ms) in POINTS {
        points.push(PointMark { landmark, at: sample(3, ms, rate), role: Role::Answer });
        if matches!(landmark, Landmark::PPeak | Landmark::R | Landmark::TPeak | Landmark::QrsOnset)
        {
            let at = sample(3, ms + 14.0, rate);
            points.push(PointMark { landmark, at, role: Role::Student });
        }
    }
    points.push(PointMark {
        landmark: Landmark::TEnd,
        at: sample(3, 340.0, rate),
        role: Role::Active,
    });
    points.sort_by_key(|point| point.at);
    let span = SampleSpan::new(sample(3, -260.0, rate).get(), sample(3, 430.0, rate).get());
    let pr = Shade {
        span: SampleSpan::new(sample(3, -210.0, rate).get(), sample(3, -50.0, rate).get()),
        tone: Tone::Chosen,
        label: "PR 160 ms",
    };
    let scene = TraceScene {
        viewport: Viewport::stretch(&envelope, rate, span),
        beats: &beats,
        points: &points,
        notes: &[],
        shades: &[pr],
        ..scene(&envelope, rate)
    };
    assert_golden("beat.svg", &drawn((900, 460), &scene, &SCREEN));
    let projector = Look { palette: &Palette::PROJECTOR, ..SCREEN };
    assert_golden("beat_projector.svg", &drawn((1100, 620), &scene, &projector));
}

#[test]
fn an_hour_with_gaps_and_thinned_beats() {
    let rate = rate(250.0);
    let envelope = heart(3600.0, rate);
    let beats = beats(4500, rate);
    let hole = |from, to| Hole { span: SampleSpan::new(from, to), cause: HoleCause::NoRows };
    let holes = [hole(200_000, 290_000), hole(500_000, 500_100)];
    let noise = Shade {
        span: SampleSpan::new(600_000, 680_000),
        tone: Tone::Unusable,
        label: "Can\u{2019}t be used",
    };
    let scene =
        TraceScene { beats: &beats, holes: &holes, shades: &[noise], ..scene(&envelope, rate) };
    assert_golden("hour.svg", &drawn((900, 320), &scene, &SCREEN));
}

#[test]
fn counts_from_near_with_a_gap_and_the_cursor() {
    let rate = rate(250.0);
    let counts: Vec<f32> =
        heart(4.0, rate).samples().iter().map(|value| (value * 200.0 + 512.0).round()).collect();
    let envelope = Envelope::new(counts.into());
    let gap = sample(1, 60.0, rate).get();
    let holes = [Hole { span: SampleSpan::new(gap, gap + 25), cause: HoleCause::NoValue }];
    let span = SampleSpan::new(sample(1, -80.0, rate).get(), sample(1, 240.0, rate).get());
    let scene = TraceScene {
        unit: VoltageUnit::Counts,
        holes: &holes,
        viewport: Viewport::stretch(&envelope, rate, span),
        cursor: Some(sample(1, -28.0, rate)),
        ..scene(&envelope, rate)
    };
    assert_golden("counts.svg", &drawn((900, 400), &scene, &SCREEN));
}

#[test]
fn a_cycle_with_its_intervals() {
    let rate = rate(500.0);
    let envelope = heart(0.8, rate);
    let mut landmarks = Landmarks::default();
    for (landmark, ms) in POINTS {
        landmarks.set(landmark, Some(sample(0, ms, rate)));
    }
    let cycle = CycleScene {
        samples: envelope.samples(),
        rate,
        unit: VoltageUnit::Millivolt,
        landmarks,
        role: Role::Student,
    };
    let text = SvgText { title: "One cycle", description: "PR 160 ms, QRS 102 ms, QT 410 ms." };
    let svg = to_svg((560, 380), 4, text, |area| draw_cycle(area, &cycle, &PAPER)).unwrap();
    for words in ["PR 160 ms", "QRS 102 ms", "QT 410 ms"] {
        assert_eq!(
            svg.matches(&format!(">\n{words}\n<")).count(),
            1,
            "{words} is not in the figure"
        );
    }
    assert_golden("cycle.svg", &svg);
}

/// Sixteen intervals that swing with breathing; one beat comes early and is set aside.
#[test]
fn a_tachogram_joins_what_counts_and_crosses_what_does_not() {
    let rate = rate(500.0);
    let mut at = 250;
    let beats: Vec<Beat> = (0..17)
        .map(|place| {
            let early = place == 9;
            let swing = 40.0 * (std::f64::consts::TAU * f64::from(place) / 5.0).sin();
            let standing =
                if early { Standing::SetAside(WhySetAside::Early) } else { Standing::Counts };
            let r = SampleIndex::new(at - if early { 120 } else { 0 });
            at = (at as f64 + 400.0 + swing) as usize;
            Beat { standing, ..Beat::at(r) }
        })
        .collect();
    let envelope = heart(15.0, rate);
    let recording = beatwalk::signal::Recording {
        name: String::new(),
        rate,
        unit: VoltageUnit::Millivolt,
        samples: envelope.samples().clone(),
        holes: Vec::new(),
        marks: Vec::new(),
    };
    let found = rhythm(BeatSeries::new(&recording, &beats, &[]));
    let scene = TachogramScene { intervals: &found.intervals, rate };
    let text = SvgText { title: "Tachogram", description: "RR against time" };
    let svg = to_svg((560, 220), 4, text, |area| draw_tachogram(area, &scene, &PAPER)).unwrap();
    assert_golden("tachogram.svg", &svg);
}
