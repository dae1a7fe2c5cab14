//! The rhythm: how much the heart varies from beat to beat, as a picture, in numbers and as a table.

use super::as_table::AsTable;
use super::beat_facts::corrected_rows;
use super::chart::{Chart, Drawing};
use super::trace_view::look;
use crate::ui::browser::CanvasSize;
use crate::ui::reactive::{Show, live};
use crate::ui::state::{App, tr};
use beatwalk::analysis::{Corrected, Rhythm, Variability, rhythm};
use beatwalk::chart::{ChartTable, TachogramScene, draw_tachogram};
use beatwalk::words::{Language, figure, say, say_with};
use leptos::html::Canvas;
use leptos::prelude::*;
use std::sync::Arc;

/// The rhythm of the trace; nothing while it is being read.
#[component]
pub fn RhythmCard() -> impl IntoView {
    let app = App::here();
    let found =
        Memo::new(move |_| app.with_evidence(|evidence| Arc::new(rhythm(evidence.series()))));
    let rate = move || app.rate();
    let canvas = NodeRef::<Canvas>::new();
    let draw = move |drawing: &Drawing, size: CanvasSize| {
        let (Some(found), Some(rate)) = (found.get(), rate()) else { return };
        let scene = TachogramScene { intervals: &found.intervals, rate };
        let _ = draw_tachogram(drawing, &scene, &look(app, size, None));
    };
    let some = move || found.read().as_ref().is_some_and(|found| !found.intervals.is_empty());
    let numbers = move || {
        let language = app.language.get();
        let corrected = app.reading.read().as_ref().map(|reading| reading.corrected);
        found.get().map(|found| numbers(&found, corrected.unwrap_or_default(), language))
    };
    let table = move || {
        let (found, rate) = (found.get()?, rate()?);
        Some(ChartTable::of_intervals(&found.intervals, rate, app.language.get()))
    };
    view! {
        <Show when=some>
            <section class="card">
                <h2>{tr("rhythm.title")}</h2>
                {live(numbers)}
                <div class="chart rhythm__chart">
                    <Chart canvas=canvas draw=draw attr:role="img" attr:aria-label=tr("rhythm.picture") />
                </div>
                <p class="soft">{tr("rhythm.rule")}</p>
                <AsTable what="rhythm.table" table=table />
            </section>
        </Show>
    }
}

/// SDNN and its kin, or why there are none.
fn numbers(found: &Rhythm, corrected: Corrected, language: Language) -> AnyView {
    let Some(variability) = found.variability else {
        return view! { <p>{say(language, "rhythm.too_few")}</p> }.into_any();
    };
    let Variability { n, mean_rr, sdnn, differences, rmssd, nn50, .. } = variability;
    let dash = || say(language, "page.not_measurable").into_owned();
    let ms =
        |value: f64| say_with(language, "rhythm.ms", &[("value", &figure(language, value, 1))]);
    let shares = variability.pnn50().map(|share| {
        let places = [
            ("percent", &*figure(language, 100.0 * share, 1)),
            ("nn50", &*nn50.to_string()),
            ("n", &*differences.to_string()),
        ];
        say_with(language, "rhythm.share", &places)
    });
    view! {
        <dl class="facts">
            <dt>{say(language, "rhythm.mean_rr")}</dt>
            <dd>{ms(mean_rr.milliseconds())}</dd>
            <dt>"SDNN"</dt>
            <dd>{ms(sdnn.milliseconds())}</dd>
            <dt>"RMSSD"</dt>
            <dd>{rmssd.map_or_else(dash, |rmssd| ms(rmssd.milliseconds()))}</dd>
            <dt>"pNN50"</dt>
            <dd>{shares.unwrap_or_else(dash)}</dd>
            <dt>{say(language, "rhythm.counted")}</dt>
            <dd>{n}</dd>
            {corrected_rows(corrected, language)}
        </dl>
    }
    .into_any()
}
