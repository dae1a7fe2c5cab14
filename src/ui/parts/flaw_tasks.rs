//! Recordings with a flaw: the student says which one a stretch has and what to do about it.

use super::as_table::AsTable;
use super::chart::{Chart, Drawing};
use super::exhibits::{Exhibit, Exhibits};
use super::trace_view::{bare_scene, look};
use crate::ui::browser::CanvasSize;
use crate::ui::reactive::{Show, Views, live};
use crate::ui::state::{App, tr};
use beatwalk::chart::{CSS_PX_PER_MM, ChartTable, Viewport, draw_trace};
use beatwalk::lesson::{Command, FindingWords, Flaw, FlawAnswer, FlawGuess, Specimen, flaws_in};
use beatwalk::words::{Language, figure, say, say_with};
use leptos::html::Canvas;
use leptos::prelude::*;

/// All of them, one beside the other.
#[component]
pub fn FlawTasks() -> impl IntoView {
    let app = App::here();
    let exhibits = Exhibits::awaited();
    let task = |((specimen, number), exhibit)| {
        view! { <FlawTask specimen=specimen number=number exhibit=exhibit /> }
    };
    let tasks = move || match exhibits.get() {
        Exhibits::Awaited => view! { <p role="status">{tr("check.flaws_awaited")}</p> }.into_any(),
        Exhibits::Failed(what) => view! { <p class="notice">{app.tell(&what)}</p> }.into_any(),
        Exhibits::Ready(exhibits) => {
            Specimen::ALL.into_iter().zip(1..).zip(exhibits).map(task).views().into_any()
        }
    };
    view! {
        <section class="card">
            <h2>{tr("check.flaws_title")}</h2>
            <p>{tr("check.flaws_about")}</p>
            <div class="check__flaws">{live(tasks)}</div>
        </section>
    }
}

#[component]
fn FlawTask(specimen: Specimen, number: usize, exhibit: Exhibit) -> impl IntoView {
    let app = App::here();
    let flaw = RwSignal::new(None::<Flaw>);
    let remedy = RwSignal::new(None::<Flaw>);
    let exhibit = StoredValue::new(exhibit);
    let answer = Memo::new(move |_| {
        app.lesson.with(|lesson| lesson.session().flaw_answer(specimen).cloned())
    });
    let submit = move |_| {
        if let (Some(flaw), Some(remedy)) = (flaw.get_untracked(), remedy.get_untracked()) {
            let guess = FlawGuess { specimen, flaw, remedy };
            let outcome = exhibit.with_value(|exhibit| {
                app.lesson
                    .try_update(|lesson| lesson.apply(Command::NameFlaw(guess), exhibit.evidence()))
            });
            app.refusal.set(outcome.and_then(Result::err));
        }
    };
    let form = move || {
        view! {
            <Choices legend="check.which" name=format!("flaw-{number}") chosen=flaw words=Flaw::name />
            <Choices legend="check.what_to_do" name=format!("remedy-{number}") chosen=remedy words=Flaw::remedy />
            <button
                class="button button--main"
                disabled=move || flaw.read().is_none() || remedy.read().is_none()
                on:click=submit
            >
                {tr("check.submit")}
            </button>
        }
    };
    let outcome = move || {
        let answer = answer.get()?;
        let language = app.language.get();
        Some(exhibit.with_value(|exhibit| outcome(&answer, exhibit, language)))
    };
    view! {
        <article class="check__flaw">
            <FlawedTrace number=number exhibit=exhibit.get_value() />
            <Show when=move || answer.read().is_none()>{live(form)}</Show>
            <div role="status">{live(outcome)}</div>
        </article>
    }
}

/// One of the flaws, by its name or by its remedy.
#[component]
fn Choices(
    legend: &'static str,
    name: String,
    chosen: RwSignal<Option<Flaw>>,
    words: fn(Flaw, Language) -> std::borrow::Cow<'static, str>,
) -> impl IntoView {
    let app = App::here();
    let choices = Flaw::ALL
        .map(|flaw| {
            view! {
                <label class="check__choice">
                    <input
                        type="radio"
                        name=name.clone()
                        prop:checked=move || chosen.get() == Some(flaw)
                        on:change=move |_| chosen.set(Some(flaw))
                    />
                    <span>{move || words(flaw, app.language.get())}</span>
                </label>
            }
        })
        .views();
    view! {
        <fieldset class="check__choices">
            <legend>{tr(legend)}</legend>
            {choices}
        </fieldset>
    }
}

/// The stretch, drawn as any trace.
#[component]
fn FlawedTrace(number: usize, exhibit: Exhibit) -> impl IntoView {
    let app = App::here();
    let canvas = NodeRef::<Canvas>::new();
    let Exhibit { shown, stretch, .. } = exhibit;
    let rate = shown.recording.rate;
    let viewport = Viewport::stretch(&shown.envelope, rate, stretch);
    let told = shown.clone();
    let table = move || {
        let axis = (rate, told.recording.unit);
        Some(ChartTable::of_stretch(&told.envelope, axis, stretch, app.language.get()))
    };
    let draw = move |drawing: &Drawing, size: CanvasSize| {
        // The canvas never refuses to draw.
        let scene = bare_scene(&shown, viewport);
        let _ = draw_trace(drawing, &scene, &look(app, size, Some(CSS_PX_PER_MM)));
    };
    let label = move || {
        let language = app.language.get();
        let seconds = figure(language, stretch.len() as f64 / rate.hz(), 1);
        let places = [("number", &*number.to_string()), ("seconds", &*seconds)];
        say_with(language, "check.trace", &places)
    };
    view! {
        <h3>{live(label)}</h3>
        <div class="chart check__trace" role="img" aria-label=label>
            <Chart canvas=canvas draw=draw />
        </div>
        <AsTable what="chart.table.stretch" table=table />
    }
}

/// What was right, and what the analysis finds in the stretch.
fn outcome(answer: &FlawAnswer, exhibit: &Exhibit, language: Language) -> impl IntoView + use<> {
    let FlawGuess { flaw, remedy, .. } = answer.guess;
    let line = |right: bool, keys: [&str; 2], name: &str, words: &str| {
        let (key, class) = match right {
            true => (keys[0], "notice notice--right"),
            false => (keys[1], "notice notice--caution"),
        };
        view! { <p class=class>{say_with(language, key, &[(name, words)])}</p> }
    };
    let named = line(
        answer.names_one(),
        ["check.flaw_right", "check.flaw_wrong"],
        "flaw",
        &flaw.name(language),
    );
    let remedied = line(
        answer.remedies_one(),
        ["check.remedy_right", "check.remedy_wrong"],
        "remedy",
        &remedy.remedy(language),
    );
    let rate = exhibit.shown.recording.rate;
    let found = flaws_in(exhibit.stretch, exhibit.evidence())
        .map(|(_, finding)| FindingWords::of(finding, rate, language))
        .map(|words| view! { <li>{words.what} " " {words.remedy}</li> })
        .views();
    view! {
        {named}
        {remedied}
        <p>{say(language, "check.found").into_owned()}</p>
        <ul>{found}</ul>
    }
}
