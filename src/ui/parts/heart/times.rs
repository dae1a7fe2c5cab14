//! The two rows as a table, what is not shown and why, and where the typical times come from.

use super::Cursor;
use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, tr};
use beatwalk::lesson::{Stretch, TypicalTime};
use beatwalk::words::{Language, decimal};
use leptos::prelude::*;
use std::borrow::Cow;

/// The times of the cycle, folded away.
#[component]
pub fn Times(cursor: Cursor) -> impl IntoView {
    let app = App::here();
    let electrical = move || {
        let language = app.language.get();
        let named = cursor.with(|timeline| {
            let row = timeline.electrical().iter();
            row.map(|stretch| stretch.named(|phase| phase.words(language))).collect()
        });
        rows(named.unwrap_or_default(), language)
    };
    let mechanical = move || {
        let language = app.language.get();
        let named = cursor.with(|timeline| {
            let row = timeline.mechanical().unwrap_or_default().iter();
            row.map(|stretch| stretch.named(|phase| phase.words(language))).collect()
        });
        rows(named.unwrap_or_default(), language)
    };
    let missing = move || {
        let language = app.language.get();
        let texts = cursor.with(|timeline| {
            let gaps = timeline.gaps().iter().map(|gap| gap.words(language));
            let unmoved =
                timeline.mechanical().err().map(|why| why.words(timeline.rate(), language));
            gaps.chain(unmoved).collect::<Vec<_>>()
        });
        texts.unwrap_or_default().into_iter().map(|text| view! { <li>{text}</li> }).views()
    };
    let typical = move || {
        let language = app.language.get();
        let rate = cursor.with(|timeline| timeline.mechanical().is_ok().then(|| timeline.rate()));
        let rate = rate.flatten().flatten()?;
        let line = move |time: TypicalTime| {
            view! {
                <li>
                    {time.words(rate, language)} <small>{time.source(language)}</small>
                </li>
            }
        };
        Some(view! {
            <p>{tr("heart.table.typical")}</p>
            <ul>{TypicalTime::ALL.map(line).views()}</ul>
        })
    };
    view! {
        <details class="heart__times">
            <summary>{tr("heart.table.open")}</summary>
            <table>
                <caption>{tr("heart.table.caption")}</caption>
                <thead>
                    <tr>
                        <th scope="col">{tr("heart.table.what")}</th>
                        <th scope="col">{tr("heart.table.when")}</th>
                    </tr>
                </thead>
                <tbody>
                    <tr>
                        <th colspan="2" scope="rowgroup">{tr("heart.electrical_row")}</th>
                    </tr>
                    {live(electrical)}
                </tbody>
                <tbody>
                    <tr>
                        <th colspan="2" scope="rowgroup">{tr("heart.mechanical_row")}</th>
                    </tr>
                    {live(mechanical)}
                </tbody>
            </table>
            <ul>{live(missing)}</ul>
            {live(typical)}
        </details>
    }
}

/// A row of a table for each known stretch.
fn rows(row: Vec<Stretch<Cow<'static, str>>>, language: Language) -> impl IntoView {
    let line = |stretch: Stretch<Cow<'static, str>>| {
        let [start, end] =
            [stretch.start, stretch.end].map(|time| decimal(language, time.milliseconds(), 0));
        let said = stretch.phase?;
        Some(view! {
            <tr>
                <td>{said}</td>
                <td>{format!("{start} – {end}")}</td>
            </tr>
        })
    };
    row.into_iter().filter_map(line).views()
}
