//! What was found in the trace, in numbers; and the way out of an upside-down one.

use super::trace_table::BeatsTable;
use crate::ui::reactive::{Show, live};
use crate::ui::state::{App, Screen, tr};
use beatwalk::analysis::{Corrected, Grade, Grades, Measurement, Polarity, Reading, Standing};
use beatwalk::lesson::corrected_words;
use beatwalk::report::Orientation;
use beatwalk::signal::{Landmark, VoltageUnit};
use beatwalk::words::{Language, decimal, figure, say, say_with, with_uncertainty};
use leptos::prelude::*;

/// How many beats, and what they measure.
#[component]
pub fn BeatFacts() -> impl IntoView {
    let app = App::here();
    let facts = move || {
        app.reading.get().map(|reading| {
            let counted =
                reading.beats.iter().filter(|beat| beat.standing == Standing::Counts).count();
            let is_corrected = reading.corrected.all() > 0;
            let beats_key =
                if is_corrected { "beats.corrected.now" } else { "page.see.beats_found" };
            // Who is to measure is not told what the analysis did.
            let measured = app.help().verdicts.then(|| {
                view! {
                    <dt>{tr("page.see.rate")}</dt>
                    <dd>{number(app, reading.intervals.rate_bpm, "page.unit.per_minute")}</dd>
                    <dt>{tr("page.see.rr")}</dt>
                    <dd>{number(app, reading.intervals.rr_ms, "page.unit.ms")}</dd>
                    <dt>{tr("page.see.r_height")}</dt>
                    <dd>{r_height(app, &reading)}</dd>
                }
            });
            view! {
                <dl class="facts">
                    <dt>{tr(beats_key)}</dt>
                    <dd>{reading.beats.len()}</dd>
                    <dt>{tr("page.see.beats_counted")}</dt>
                    <dd>{counted}</dd>
                    {corrected_rows(reading.corrected, app.language.get())}
                    {measured}
                    <dt>{tr("page.see.clearness")}</dt>
                    <dd>{clearness(app)}</dd>
                </dl>
            }
        })
    };
    view! {
        <section class="card">
            <h2>{tr("page.see.beats")}</h2>
            {live(facts)}
            <Show when=move || app.reading.read().is_none() && app.job.read().is_none()>
                <p>{tr("page.see.not_read")}</p>
                <button class="button" on:click=move |_| app.read_beats()>
                    {tr("page.see.read_now")}
                </button>
            </Show>
            <button
                class="button button--main"
                disabled=move || !app.can_show(Screen::Walk)
                on:click=move |_| app.screen.set(Screen::Walk)
            >
                {tr("page.see.go_walk")}
            </button>
            <Show when=move || app.reading.read().is_some()>
                <BeatsTable viewport=app.view />
            </Show>
        </section>
    }
}

/// How many beats were corrected by hand, as a row of a list of facts; nothing when none was.
pub(super) fn corrected_rows(corrected: Corrected, language: Language) -> impl IntoView {
    corrected_words(corrected, language).map(|words| {
        view! {
            <dt>{say(language, "beats.corrected.short")}</dt>
            <dd>{words}</dd>
        }
    })
}

/// What the recording is good for, and how many beats are of each grade.
fn clearness(app: App) -> String {
    let language = app.language.get();
    let grades = app.with_evidence(|evidence| Grades::of(evidence.recording, evidence.reading));
    let grade = grades.as_ref().and_then(Grades::recording);
    let (Some(grades), Some(grade)) = (grades, grade) else {
        return say(language, "page.not_measurable").into_owned();
    };
    let word = say(language, &format!("page.see.grade.{}", grade.key()));
    let count = |grade| grades.count(grade).to_string();
    let places = [
        ("grade", &*word),
        ("clear", &*count(Grade::Clear)),
        ("usable", &*count(Grade::Usable)),
        ("poor", &*count(Grade::Poor)),
    ];
    say_with(language, "page.see.grades", &places)
}

/// How tall R is in the typical beat, in the unit of the recording.
fn r_height(app: App, reading: &Reading) -> String {
    let language = app.language.get();
    let unit = app.unit();
    let height = reading.median.as_ref().and_then(|median| median.height(Landmark::R));
    let (Some(height), Some(unit)) = (height, unit) else {
        return say(language, "page.not_measurable").into_owned();
    };
    height_words(height, unit, language)
}

/// A height with its unit.
pub(super) fn height_words(height: f64, unit: VoltageUnit, language: Language) -> String {
    let (key, decimals) = match unit {
        VoltageUnit::Millivolt => ("page.see.height_millivolt", 2),
        VoltageUnit::Counts => ("page.see.height_counts", 0),
        VoltageUnit::Unstated => ("page.see.height_unstated", 2),
    };
    say_with(language, key, &[("height", &decimal(language, height, decimals))])
}

/// An upside-down trace can be turned over, and back; the student decides.
#[component]
pub fn TurnOver() -> impl IntoView {
    let app = App::here();
    let turned = move || app.work.with(|work| work.settings.orientation == Orientation::TurnedOver);
    let looks_inverted = move || {
        app.reading.with(|reading| {
            reading.as_ref().is_some_and(|reading| reading.polarity == Polarity::LooksInverted)
        })
    };
    view! {
        <Show when=turned>
            <p>{tr("page.see.turned")}</p>
        </Show>
        <Show when=move || turned() || looks_inverted()>
            <button class="button" aria-pressed=move || turned().to_string() on:click=move |_| app.turn_over()>
                {tr("page.see.turn_over")}
            </button>
        </Show>
    }
}

/// A measurement with its uncertainty, spread and count, or that there is none.
fn number(app: App, measured: Option<Measurement>, unit_key: &str) -> String {
    let language = app.language.get();
    match measured {
        Some(Measurement { value, spread, n, expanded_uncertainty }) => say_with(
            language,
            "page.see.measured",
            &[
                ("value", &with_uncertainty(language, value, expanded_uncertainty)),
                ("unit", &say(language, unit_key)),
                ("spread", &figure(language, spread, 1)),
                ("n", &n.to_string()),
            ],
        ),
        None => say(language, "page.not_measurable").into_owned(),
    }
}
