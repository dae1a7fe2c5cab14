//! The student's own beat with its two rows below: electrical phases from the marks, mechanical ones at
//! typical times; a cursor over all three.

use super::{Cursor, share};
use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, tr};
use beatwalk::chart::outline;
use beatwalk::lesson::{ElectricalPhase, Stretch};
use beatwalk::signal::Milliseconds;
use leptos::prelude::*;

/// The size of the picture in its own units; it is stretched to its place.
const SIZE: (f64, f64) = (400.0, 80.0);

/// The beat, its phases and the cursor.
#[component]
pub fn Strip(cursor: Cursor) -> impl IntoView {
    let app = App::here();
    let path = Memo::new(move |_| {
        let shown = app.shown.get()?;
        let range = cursor.with(|timeline| timeline.samples())?;
        let last = shown.recording.samples.len();
        let samples = shown.recording.samples.get(range.start..range.end.min(last))?;
        Some(outline(samples, SIZE.0, SIZE.1))
    });
    let electrical = move || {
        let named = cursor.with(|timeline| {
            let row = timeline.electrical().iter();
            row.map(|stretch| stretch.named(ElectricalPhase::letters)).collect()
        });
        bands(named.unwrap_or_default(), cursor)
    };
    // Too narrow for names: they are told beside the drawing.
    let mechanical = move || {
        let named = cursor.with(|timeline| {
            let row = timeline.mechanical().unwrap_or_default().iter();
            row.map(|stretch| stretch.named(|_| "")).collect()
        });
        bands(named.unwrap_or_default(), cursor)
    };
    view! {
        <div class="heart__strip" aria-hidden="true">
            <svg viewBox=format!("0 -3 {} {}", SIZE.0, SIZE.1 + 6.0) preserveAspectRatio="none">
                <path d=path></path>
            </svg>
            <p>{tr("heart.electrical_row")}</p>
            <div class="heart__row heart__row--electrical">{live(electrical)}</div>
            <p>{tr("heart.mechanical_row")}</p>
            <div class="heart__row">{live(mechanical)}</div>
            <div class="heart__cursor" style:left=move || format!("{:.2}%", cursor.per_cent())></div>
        </div>
    }
}

/// One row: a band for each stretch, the one under the cursor filled in.
fn bands(row: Vec<Stretch<&'static str>>, cursor: Cursor) -> impl IntoView {
    let length = untrack(|| cursor.length());
    let band = move |stretch: Stretch<&'static str>| {
        let width = share(stretch.end - stretch.start, length);
        let now = move || stretch.phase.is_some() && holds(&stretch, cursor.at(), length);
        view! {
            <div
                class="heart__band"
                class:heart__band--unknown=stretch.phase.is_none()
                class:heart__band--now=now
                style:left=format!("{:.2}%", share(stretch.start, length))
                style:width=format!("{width:.2}%")
            >
                {stretch.phase}
            </div>
        }
    };
    row.into_iter().map(band).views()
}

/// Whether a moment lies in a stretch; the end of the cycle belongs to the last.
fn holds(stretch: &Stretch<&str>, at: Milliseconds, length: Milliseconds) -> bool {
    stretch.start <= at && (at < stretch.end || stretch.end >= length)
}
