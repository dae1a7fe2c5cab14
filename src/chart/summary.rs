//! What a drawing of a trace shows, in words: for screen readers, where there is no picture.
//!
//! Numbers are taken from the scene: the stretch in view, the lowest and highest sample in it, beats,
//! holes, points and the cursor. Points are told in order of time, each with its moment in seconds.

use super::scene::{Role, TraceScene};
use super::viewport::{Bounds, Viewport};
use crate::analysis::{Origin, Standing};
use crate::signal::{SampleIndex, VoltageUnit};
use crate::words::{Language, decimal, say, say_with};

/// What a scene shows, in a few sentences.
pub fn summary(scene: &TraceScene<'_>, language: Language) -> String {
    let bounds = Bounds::of(scene.envelope, scene.rate);
    if scene.envelope.samples().is_empty() {
        return say(language, "chart.summary.empty").into_owned();
    }
    let view = scene.viewport.clamped(&bounds);
    let seconds = |time: f64| decimal(language, time, 2);
    let mut sentences = vec![say_with(
        language,
        "chart.summary.view",
        &[
            ("start", &seconds(view.start.seconds())),
            ("end", &seconds(view.end().seconds().min(bounds.duration.seconds()))),
            ("duration", &seconds(bounds.duration.seconds())),
        ],
    )];
    sentences.extend(heights(scene, &view, language));
    if scene.beneath.is_some() {
        sentences.push(say(language, "chart.summary.beneath").into_owned());
    }
    sentences.extend(beats(scene, &view, language));
    let in_view = view.samples(scene.rate, scene.envelope.samples().len());
    let holes = scene.holes.iter().filter(|hole| hole.span.overlaps(in_view)).count();
    if holes > 0 {
        let places = [("holes", &*holes.to_string())];
        sentences.push(say_with(language, "chart.summary.holes", &places));
    }
    for role in [Role::Active, Role::Student, Role::Answer] {
        sentences.extend(points(scene, &view, role, language));
    }
    sentences.extend(notes(scene, &view, language));
    sentences.extend(cursor(scene, language));
    sentences.join(" ")
}

fn heights(scene: &TraceScene<'_>, view: &Viewport, language: Language) -> Option<String> {
    let in_view = view.samples(scene.rate, scene.envelope.samples().len());
    let extent = scene.envelope.extent(in_view)?;
    let (key, decimals) = match scene.unit {
        VoltageUnit::Millivolt => ("chart.summary.heights_millivolt", 2),
        VoltageUnit::Counts => ("chart.summary.heights_counts", 0),
        VoltageUnit::Unstated => ("chart.summary.heights_unstated", 2),
    };
    let value = |value: f32| decimal(language, value.into(), decimals);
    Some(say_with(language, key, &[("low", &value(extent.low)), ("high", &value(extent.high))]))
}

fn beats(scene: &TraceScene<'_>, view: &Viewport, language: Language) -> Vec<String> {
    let in_view = scene.beats.iter().filter(|beat| view.shows(beat.at, scene.rate));
    let (mut count, mut aside, mut by_hand) = (0usize, 0usize, 0usize);
    for beat in in_view {
        count += 1;
        aside += usize::from(beat.standing != Standing::Counts);
        by_hand += usize::from(beat.origin != Origin::Found);
    }
    let told = |key, number: usize| say_with(language, key, &[("beats", &number.to_string())]);
    let mut sentences = Vec::new();
    match count {
        0 => return sentences,
        1 => sentences.push(say(language, "chart.summary.one_beat").into_owned()),
        _ => sentences.push(told("chart.summary.beats", count)),
    }
    if aside > 0 {
        sentences.push(told("chart.summary.set_aside", aside));
    }
    if by_hand > 0 {
        sentences.push(told("chart.summary.by_hand", by_hand));
    }
    sentences
}

fn points(
    scene: &TraceScene<'_>,
    view: &Viewport,
    role: Role,
    language: Language,
) -> Option<String> {
    let key = match role {
        Role::Student => "chart.summary.student",
        Role::Answer => "chart.summary.answer",
        Role::Active => "chart.summary.active",
    };
    let told: Vec<String> = scene
        .points
        .iter()
        .filter(|point| point.role == role && view.shows(point.at, scene.rate))
        .map(|point| {
            let name = say(language, &format!("chart.landmark.{}", point.landmark.key()));
            let time = decimal(language, scene.rate.time_of(point.at).seconds(), 3);
            say_with(language, "chart.summary.point", &[("name", &name), ("time", &time)])
        })
        .collect();
    (!told.is_empty()).then(|| say_with(language, key, &[("points", &told.join(", "))]))
}

/// The first few notes in view; all stand in the list beside the trace.
fn notes(scene: &TraceScene<'_>, view: &Viewport, language: Language) -> Option<String> {
    const MOST: usize = 8;
    let in_view = scene.notes.iter().filter(|note| view.shows(note.at, scene.rate));
    let told: Vec<String> = in_view
        .take(MOST)
        .map(|note| {
            let time = decimal(language, scene.rate.time_of(note.at).seconds(), 2);
            say_with(language, "chart.summary.point", &[("name", note.text), ("time", &time)])
        })
        .collect();
    let notes = told.join(", ");
    (!told.is_empty()).then(|| say_with(language, "chart.summary.notes", &[("notes", &notes)]))
}

fn cursor(scene: &TraceScene<'_>, language: Language) -> Option<String> {
    let at: SampleIndex = scene.cursor?;
    let value = *scene.envelope.samples().get(at.get())?;
    let decimals = if scene.unit == VoltageUnit::Counts { 0 } else { 2 };
    let places = [
        ("time", &*decimal(language, scene.rate.time_of(at).seconds(), 3)),
        ("value", &*decimal(language, value.into(), decimals)),
    ];
    Some(say_with(language, "chart.summary.cursor", &places))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::WhySetAside;
    use crate::chart::{BeatMark, PointMark};
    use crate::signal::{Envelope, Hole, HoleCause, Landmark, SampleRate, SampleSpan, Seconds};

    #[test]
    fn it_tells_what_is_in_view_and_nothing_else() {
        let envelope =
            Envelope::new((0..1000).map(|i| if i == 250 { 1.25 } else { -0.5 }).collect());
        let beat = |number, at, standing| {
            let origin = if number == 2 { Origin::Moved } else { Origin::Found };
            BeatMark { number, at: SampleIndex::new(at), origin, standing }
        };
        let aside = Standing::SetAside(WhySetAside::Unclear);
        let beats =
            [beat(1, 250, Standing::Counts), beat(2, 400, aside), beat(3, 900, Standing::Counts)];
        let point = |landmark, at, role| PointMark { landmark, at: SampleIndex::new(at), role };
        let points = [
            point(Landmark::R, 250, Role::Student),
            point(Landmark::R, 252, Role::Answer),
            point(Landmark::TEnd, 330, Role::Student),
            point(Landmark::TEnd, 960, Role::Student),
        ];
        let holes = [Hole { span: SampleSpan::new(450, 470), cause: HoleCause::NoRows }];
        let scene = TraceScene {
            holes: &holes,
            beats: &beats,
            points: &points,
            cursor: Some(SampleIndex::new(250)),
            ..TraceScene::bare(
                &envelope,
                SampleRate::new(100.0).unwrap(),
                Viewport {
                    start: Seconds::new(2.0),
                    span: Seconds::new(3.0),
                    middle: 0.0,
                    height: 3.0,
                },
            )
        };
        assert_eq!(
            summary(&scene, Language::English),
            "From 2.00 s to 5.00 s of a recording of 10.00 s. Voltages from \u{2212}0.50 to 1.25 mV. \
             2 beats in view. 1 of them set aside. Placed by the student: 1. Stretches without data in view: 1. \
             Points placed: R at 2.500 s, T end at 3.300 s. Points found by Beatwalk: R at 2.520 s. \
             Cursor at 2.500 s, value 1.25."
        );
    }

    #[test]
    fn an_empty_trace_is_an_empty_chart() {
        let envelope = Envelope::new(Vec::new().into());
        let rate = SampleRate::new(100.0).unwrap();
        let scene = TraceScene {
            unit: VoltageUnit::Counts,
            ..TraceScene::bare(&envelope, rate, Viewport::fit(&envelope, rate))
        };
        assert_eq!(summary(&scene, Language::English), "The chart is empty.");
    }

    #[test]
    fn every_landmark_has_a_name() {
        for landmark in Landmark::ALL {
            let key = format!("chart.landmark.{}", landmark.key());
            assert_ne!(say(Language::English, &key), key);
        }
    }
}
