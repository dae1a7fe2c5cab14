//! The figure of the cycle, and everything that can be taken away as a file.

use crate::ui::browser::{draw_to_png, save_text};
use crate::ui::state::{App, Problem, tr};
use beatwalk::analysis::Reading;
use beatwalk::chart::{
    CSS_PX_PER_MM, CycleScene, Look, Palette, Role, SvgText, draw_cycle, to_svg,
};
use beatwalk::lesson::ResultsTable;
use beatwalk::report::{
    EXTENSION, Report, SavedReading, SavedRecording, landmarks_csv, results_csv,
};
use beatwalk::signal::{Landmarks, SampleIndex};
use beatwalk::words::{Language, say};
use leptos::prelude::*;
use std::sync::Arc;
use wasm_bindgen::JsValue;

/// The figure's size in CSS pixels: 17 cm wide, as wide as the text of a printed A4 page.
const FIGURE: (u32, u32) = (640, 400);
/// How finely the figure is drawn.
const FINE: u32 = 4;

/// One cycle with the student's own marks; those of the app where there are none yet.
struct Figure {
    samples: Vec<f32>,
    landmarks: Landmarks,
    role: Role,
    raw: Arc<SavedRecording>,
    language: Language,
}

impl Figure {
    fn of(app: App) -> Option<Self> {
        let (raw, reading, shown) = (app.raw.get()?, app.reading.get()?, app.shown.get()?);
        app.lesson.track();
        let language = app.language.get();
        let figures = Report::of(&app.work_now(), &raw, &reading, &[], language).figures?;
        let samples = shown.recording.samples.get(figures.cycle.range())?.to_vec();
        let own = figures.own.iter().next().is_some();
        let (placed, role) =
            if own { (figures.own, Role::Student) } else { (figures.computed, Role::Answer) };
        let mut landmarks = Landmarks::default();
        for (landmark, at) in placed.iter() {
            let inside = at.get().checked_sub(figures.cycle.start().get());
            landmarks.set(landmark, inside.map(SampleIndex::new));
        }
        Some(Self { samples, landmarks, role, raw, language })
    }

    fn scene(&self) -> CycleScene<'_> {
        CycleScene {
            samples: &self.samples,
            rate: self.raw.recording.rate,
            unit: self.raw.recording.unit,
            landmarks: self.landmarks,
            role: self.role,
        }
    }

    const fn look(&self, scale: f64) -> Look<'_> {
        Look {
            palette: &Palette::PRINT,
            scale,
            px_per_mm: Some(CSS_PX_PER_MM),
            language: self.language,
        }
    }

    fn svg(&self) -> Option<String> {
        let title = say(self.language, "page.results.figure");
        let text = SvgText { title: &title, description: &self.raw.file };
        to_svg(FIGURE, FINE, text, |area| draw_cycle(area, &self.scene(), &self.look(FINE.into())))
            .ok()
    }
}

/// The cycle as a figure in the page, sharp on paper too.
#[component]
pub fn CycleFigure() -> impl IntoView {
    let app = App::here();
    let svg = Memo::new(move |_| Figure::of(app).and_then(|figure| figure.svg()));
    view! { <figure class="results__figure" inner_html=move || svg.get().unwrap_or_default()></figure> }
}

/// Buttons for everything that can be saved, and for printing.
#[component]
pub fn ResultsFiles() -> impl IntoView {
    let app = App::here();
    let save = move |make: fn(App, &str) -> Option<Result<(), JsValue>>| {
        let stem = untrack(|| app.raw.with(|raw| raw.as_ref().map(|raw| stem(&raw.file))));
        let saved = stem.and_then(|stem| untrack(|| make(app, &stem)));
        if !matches!(saved, Some(Ok(()))) {
            let language = app.language.get_untracked();
            app.problem.set(Some(Problem {
                what: say(language, "page.results.save_failed").into_owned(),
                remedy: say(language, "page.results.save_again").into_owned(),
            }));
        }
    };
    let print = move |_| {
        if let Some(window) = web_sys::window() {
            let _ = window.print();
        }
    };
    view! {
        <section class="card no-print">
            <h2>{tr("page.results.save")}</h2>
            <div class="button-row">
                <button class="button button--main" on:click=move |_| save(save_work)>
                    {tr("page.results.save_work")}
                </button>
                <button class="button" on:click=move |_| save(save_results)>
                    {tr("page.results.save_results")}
                </button>
                <button class="button" on:click=move |_| save(save_landmarks)>
                    {tr("page.results.save_landmarks")}
                </button>
                <button class="button" on:click=move |_| save(save_svg)>
                    {tr("page.results.save_svg")}
                </button>
                <button class="button" on:click=move |_| save(save_png)>
                    {tr("page.results.save_png")}
                </button>
                <button class="button" on:click=print>
                    {tr("page.results.print")}
                </button>
            </div>
        </section>
    }
}

fn save_work(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let raw = app.raw.get()?;
    let document = SavedReading::new(app.work_now(), (*raw).clone()).to_json().ok()?;
    Some(save_text(&format!("{stem}{EXTENSION}"), "application/json", &document))
}

fn save_results(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let raw = app.raw.get()?;
    let work = app.work_now();
    let results = app.with_evidence(|evidence| ResultsTable::of(&work.session, evidence))?;
    Some(save_text(&format!("{stem}-results.csv"), "text/csv", &results_csv(&work, &raw, &results)))
}

fn save_landmarks(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let (raw, reading): (_, Arc<Reading>) = (app.raw.get()?, app.reading.get()?);
    Some(save_text(&format!("{stem}-beats.csv"), "text/csv", &landmarks_csv(&raw, &reading)))
}

fn save_svg(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let svg = Figure::of(app)?.svg()?;
    Some(save_text(&format!("{stem}-cycle.svg"), "image/svg+xml", &svg))
}

fn save_png(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let figure = Figure::of(app)?;
    let size = (FIGURE.0 * FINE, FIGURE.1 * FINE);
    Some(draw_to_png(&format!("{stem}-cycle.png"), size, |area| {
        let _ = draw_cycle(area, &figure.scene(), &figure.look(FINE.into()));
    }))
}

/// A file's name without its ending, for the names of what is made from it.
fn stem(file: &str) -> String {
    file.rsplit_once('.').map_or(file, |(stem, _)| stem).to_owned()
}
