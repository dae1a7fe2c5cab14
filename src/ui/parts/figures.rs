//! The figures of the report, drawn as SVG in the page so that they are sharp on paper too.

use super::as_table::AsTable;
use crate::ui::reactive::{Show, Views};
use crate::ui::state::App;
use beatwalk::report::{Drawn, Figure, FigureKind, FigureWidth, Figures as Spans};
use leptos::prelude::*;

/// Calls a function with a figure of the report, when there is something to draw.
pub fn with_figure<T>(app: App, kind: FigureKind, act: impl FnOnce(&Figure<'_>) -> T) -> Option<T> {
    let (file, language) = (app.file_name()?, app.language.get());
    app.with_evidence(|evidence| {
        let figures = app.lesson.with(|lesson| Spans::of(lesson.session(), evidence));
        Figure::of(kind, figures, &file, evidence, language).map(|figure| act(&figure))
    })?
}

/// A figure as it stands in a report.
pub fn drawn(app: App, kind: FigureKind) -> Option<Drawn> {
    with_figure(app, kind, |figure| {
        let svg = figure.svg(FigureWidth::PAGE)?;
        Some(Drawn { svg, caption: figure.caption.clone() })
    })?
}

/// The chosen beat and, beside it, the typical one; below them the trace around it.
#[component]
pub fn Figures() -> impl IntoView {
    let figures = FigureKind::ALL.map(|kind| view! { <OneFigure kind=kind /> }).views();
    view! { <div class="results__figures">{figures}</div> }
}

#[component]
fn OneFigure(kind: FigureKind) -> impl IntoView {
    let app = App::here();
    let drawn = Memo::new(move |_| drawn(app, kind));
    let part =
        move |of: fn(&Drawn) -> &String| drawn.with(|it| it.as_ref().map(|it| of(it).clone()));
    let table = move || with_figure(app, kind, |figure| figure.table()).flatten();
    view! {
        <Show when=move || drawn.read().is_some()>
            <figure class="results__figure" class:results__figure--wide=kind == FigureKind::Strip>
                <div inner_html=move || part(|it| &it.svg).unwrap_or_default()></div>
                <figcaption>
                    {move || part(|it| &it.caption)}
                    {(kind != FigureKind::Strip).then(|| view! { <AsTable what="chart.table.points" table=table /> })}
                </figcaption>
            </figure>
        </Show>
    }
}
