//! Everything that can be taken away as a file, and printing.

use super::figures::{drawn, with_figure};
use super::number_field::NumberField;
use super::paper_bar::PaperPreview;
use crate::ui::browser::{draw_to_png, save_text};
use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, tr};
use beatwalk::lesson::ResultsTable;
use beatwalk::report::{
    EXTENSION, FigureKind, FigureWidth, SavedReading, landmarks_csv, results_csv,
};
use beatwalk::words::{say, typed};
use leptos::prelude::*;
use wasm_bindgen::JsValue;

/// Buttons for everything that can be saved, and for printing.
#[component]
pub fn ResultsFiles() -> impl IntoView {
    let save = move |make: fn(App, &str) -> Option<Result<(), JsValue>>| {
        let app = App::here();
        move |_| save_as(app, |stem| make(app, stem))
    };
    view! {
        <section class="card no-print">
            <h2>{tr("page.results.save")}</h2>
            <div class="button-row">
                <button class="button button--main" on:click=save(save_work)>
                    {tr("page.results.save_work")}
                </button>
                <button class="button" on:click=save(save_page)>
                    {tr("page.results.save_page")}
                </button>
                <button class="button" on:click=save(save_results)>
                    {tr("page.results.save_results")}
                </button>
                <button class="button" on:click=save(save_landmarks)>
                    {tr("page.results.save_landmarks")}
                </button>
                <PaperPreview />
            </div>
            <FigureFiles />
        </section>
    }
}

/// One figure, as wide as it is needed, to be put into another document.
#[component]
fn FigureFiles() -> impl IntoView {
    let app = App::here();
    let kind = RwSignal::new(FigureKind::Beat);
    let width = RwSignal::new("170".to_owned());
    let chosen = move || FigureWidth::millimetres(typed(&width.get()).unwrap_or(f64::NAN));
    let choose = move |event| {
        let key = event_target_value(&event);
        kind.set(
            FigureKind::ALL.into_iter().find(|it| it.key() == key).unwrap_or(FigureKind::Beat),
        );
    };
    let option = move |it: FigureKind| {
        let name = move || {
            say(app.language.get(), &format!("page.results.figures.{}", it.key())).into_owned()
        };
        view! { <option value=it.key()>{live(name)}</option> }
    };
    let save_svg = move |_| {
        save_as(app, |stem| {
            let kind = kind.get();
            let svg = with_figure(app, kind, |figure| figure.svg(chosen()))??;
            Some(save_text(&format!("{stem}-{}.svg", kind.key()), "image/svg+xml", &svg))
        });
    };
    let save_png = move |_| {
        save_as(app, |stem| {
            let kind = kind.get();
            let (size, scale) = chosen().dots(kind);
            with_figure(app, kind, |figure| {
                draw_to_png(&format!("{stem}-{}.png", kind.key()), size, |area| {
                    let _ = figure.draw(area, scale);
                })
            })
        });
    };
    view! {
        <fieldset class="results__take">
            <legend>{tr("page.results.take_figure")}</legend>
            <label class="field">
                {tr("page.results.which_figure")}
                <select on:change=choose prop:value=move || kind.get().key()>
                    {FigureKind::ALL.map(option).views()}
                </select>
            </label>
            <NumberField label=Signal::derive(tr("page.results.figure_width")) text=width />
            <div class="button-row">
                <button class="button" on:click=save_svg>
                    {tr("page.results.save_svg")}
                </button>
                <button class="button" on:click=save_png>
                    {tr("page.results.save_png")}
                </button>
            </div>
        </fieldset>
    }
}

/// Saves what is made under the name of the recording, and says so when it can't be.
fn save_as(app: App, make: impl FnOnce(&str) -> Option<Result<(), JsValue>>) {
    // A browser shows what it saved by its name, to the room too.
    let stem = untrack(|| match app.projector.get() {
        true => Some("recording".to_owned()),
        false => app.raw.with(|raw| raw.as_ref().map(|raw| stem(&raw.file))),
    });
    let saved = stem.and_then(|stem| untrack(|| make(&stem)));
    app.check_saved(saved);
}

/// Saves the reading that is open; `None` when there is none.
pub fn save_work(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let raw = app.raw.get()?;
    let document = SavedReading::new(app.work_now(), (*raw).clone()).to_json().ok()?;
    Some(save_text(&format!("{stem}{EXTENSION}"), "application/json", &document))
}

fn save_page(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let drawings: Vec<_> = FigureKind::ALL.into_iter().filter_map(|it| drawn(app, it)).collect();
    let page = app.report()?.html(&drawings, app.language.get());
    Some(save_text(&format!("{stem}-report.html"), "text/html", &page))
}

fn save_results(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let raw = app.raw.get()?;
    let work = app.work_now();
    let results = app.with_evidence(|evidence| ResultsTable::of(&work.session, evidence))?;
    Some(save_text(
        &format!("{stem}-results.csv"),
        "text/csv",
        &results_csv(&work, &raw.file, &results),
    ))
}

fn save_landmarks(app: App, stem: &str) -> Option<Result<(), JsValue>> {
    let raw = app.raw.get()?;
    let table = app.with_evidence(|evidence| landmarks_csv(&raw.file, evidence))?;
    Some(save_text(&format!("{stem}-beats.csv"), "text/csv", &table))
}

/// A file's name without its ending, for the names of what is made from it; a name of any length, but no more
/// of it than every file system takes.
fn stem(file: &str) -> String {
    let stem = file.rsplit_once('.').map_or(file, |(stem, _)| stem);
    stem.chars().take(100).collect()
}
