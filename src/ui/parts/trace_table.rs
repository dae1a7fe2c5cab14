//! What a trace view shows, as a table: its beats, or the points that were placed on one of them.

use super::as_table::AsTable;
use super::trace_view::Overlay;
use crate::ui::state::App;
use beatwalk::chart::{ChartTable, Viewport};
use beatwalk::lesson::Evidence;
use leptos::prelude::*;

/// The beats in view.
#[component]
pub fn BeatsTable(
    /// What is in view.
    viewport: RwSignal<Option<Viewport>>,
) -> impl IntoView {
    let app = App::here();
    let table = move || {
        let (shown, reading, view) = (app.shown.get()?, app.standing.get()?, viewport.get()?);
        let evidence = Evidence { recording: &shown.recording, reading: &reading };
        Some(ChartTable::of_beats(evidence, &view, app.language.get()))
    };
    view! { <AsTable what="chart.table.beats" table=table /> }
}

/// The points that lie on the trace.
#[component]
pub fn PointsTable(
    /// What lies on it.
    overlay: Signal<Overlay>,
) -> impl IntoView {
    let app = App::here();
    let table = move || {
        let (shown, language) = (app.shown.get()?, app.language.get());
        let recording = &shown.recording;
        let axis = (recording.rate, recording.unit);
        let points = &overlay.read().points;
        Some(ChartTable::of_points(points, &recording.samples, axis, language))
    };
    view! { <AsTable what="chart.table.points" table=table /> }
}
