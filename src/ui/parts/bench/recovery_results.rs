//! What came out of a recovery: the rate and its curve, the cycle at rest and after, and why it changed.

use super::figure::{ChartFigure, on_paper};
use crate::ui::bench::{Bench, Seat};
use crate::ui::browser::CanvasSize;
use crate::ui::parts::chart::Drawing;
use crate::ui::parts::numbers_table::NumbersTable;
use crate::ui::parts::trace_view::look;
use crate::ui::reactive::Views;
use crate::ui::state::{App, tr};
use beatwalk::chart::{OverlayScene, draw_overlay, draw_recovery};
use beatwalk::inquiry::{Recovery, Role, TypicalBeat, overlay_summary};
use beatwalk::words::{say, say_all};
use leptos::prelude::*;
use std::sync::Arc;

impl Bench {
    /// The recovery, as its recordings are parted now; `None` while the one of recovery is missing or not
    /// read yet, or the other still is.
    pub fn recovery(self) -> Option<Recovery> {
        let plan = self.plan.with(|plan| plan.as_ref().map(|plan| plan.recovery))?;
        let (rest, after) = (self.seat(Role::Rest), self.seat(Role::Recovery)?);
        let rest = match rest.as_deref() {
            None => None,
            Some(seat) => Some(Seat::evidence(seat)?),
        };
        Some(plan.compare(rest, after.evidence()?))
    }
}

/// The results of a recovery; an invitation while a recording is missing.
#[component]
pub fn RecoveryResults() -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    let found = Memo::new(move |_| bench.recovery().map(Arc::new));
    view! {
        {move || match found.get() {
            None => view! { <p class="soft">{tr("bench.waiting")}</p> }.into_any(),
            Some(found) => {
                let language = app.language.get();
                view! {
                    <Rate found=found.clone() />
                    <Cycle found=found.clone() />
                    <section class="card">
                        <h3>{tr("bench.why")}</h3>
                        {found
                            .why_shortened(language)
                            .into_iter()
                            .map(|told| view! { <p>{told}</p> })
                            .views()}
                        <p class="notice notice--caution">{say(language, "recovery.no_judgement")}</p>
                    </section>
                }
                    .into_any()
            }
        }}
    }
}

#[component]
fn Rate(found: Arc<Recovery>) -> impl IntoView {
    let app = App::here();
    let language = app.language.get_untracked();
    let (title, summary) = (say(language, "recovery.chart.title"), found.summary(language));
    let paper =
        on_paper(&title, &summary, language, |area, look| draw_recovery(area, &found, look));
    let rows = found.rows(language).into_iter().map(|(name, value)| vec![name, value]).collect();
    let heads = ["recovery.table.quantity", "recovery.table.value"];
    let draw = move |drawing: &Drawing, size: CanvasSize| {
        let _ = draw_recovery(drawing, &found, &look(app, size, None));
    };
    view! {
        <section class="card">
            <h3>{title}</h3>
            <ChartFigure summary=summary paper=paper draw=draw />
            <p>{tr("recovery.model")}</p>
            <p class="soft">{tr("recovery.interval")}</p>
            <NumbersTable title="recovery.chart.title" heads=say_all(language, &heads) rows=rows />
        </section>
    }
}

#[component]
fn Cycle(found: Arc<Recovery>) -> impl IntoView {
    let app = App::here();
    let language = app.language.get_untracked();
    let (rest, after) = match (&found.rest_beat, &found.recovery_beat) {
        (Ok(rest), Ok(after)) => (rest.clone(), after.clone()),
        (rest, after) => {
            let reasons = [rest.as_ref().err(), after.as_ref().err()].into_iter().flatten();
            let told = reasons.map(|why| view! { <p>{why.said().in_words(language)}</p> });
            return view! { <section class="card">{told.views()}</section> }.into_any();
        }
    };
    let (title, summary) =
        (say(language, "recovery.overlay.title"), overlay_summary(&rest, &after, language));
    let paper = on_paper(&title, &summary, language, |area, look| {
        draw_overlay(area, &OverlayScene { rest: &rest, recovery: &after }, look)
    });
    let lines = found.changes().unwrap_or_default();
    let rows = lines.iter().map(|change| {
        let line = change.line(language);
        vec![line.quantity, line.rest, line.recovery, line.difference, line.percent]
    });
    let rows = rows.collect();
    let heads = [
        "recovery.table.quantity",
        "recovery.side.rest",
        "recovery.side.recovery",
        "bench.difference",
        "bench.percent",
    ];
    let [rest_made, after_made] = [&rest, &after].map(|beat| beat.which_beats(language));
    let draw = move |drawing: &Drawing, size: CanvasSize| {
        let scene = OverlayScene { rest: &rest, recovery: &after };
        let _ = draw_overlay(drawing, &scene, &look(app, size, None));
    };
    view! {
        <section class="card">
            <h3>{title}</h3>
            <ChartFigure summary=summary paper=paper draw=draw />
            <NumbersTable title="recovery.overlay.title" heads=say_all(language, &heads) rows=rows />
            <p class="soft">
                {tr("recovery.side.rest")} ": " {rest_made} " " {tr("recovery.side.recovery")} ": " {after_made} " "
                {TypicalBeat::early(language)}
            </p>
        </section>
    }
    .into_any()
}
