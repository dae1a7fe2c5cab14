//! What quietening costs the waves, and how much noise it buys off.

use super::beat_facts::height_words;
use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, tr};
use beatwalk::analysis::Price;
use beatwalk::signal::{Milliseconds, SampleRate, VoltageUnit};
use beatwalk::words::{Language, figure, say, say_with};
use leptos::prelude::*;

/// A table of heights before and after, the width of QRS, the noise, and what the smoothing lets through.
#[component]
pub fn CleaningPrice(
    /// What was compared; `None` while the copy is being read.
    cost: Memo<Option<Price>>,
) -> impl IntoView {
    let app = App::here();
    let content = move || {
        let language = app.language.get();
        cost.get().map(|cost| match &cost.typical {
            None => view! { <p>{say(language, "cleaning.price.none")}</p> }.into_any(),
            Some(typical) => {
                let n = typical.n.to_string();
                let told = [qrs(&cost, language), noise(&cost, language), response(app)];
                view! {
                    <h3>{say(language, "cleaning.price.title")}</h3>
                    {heights(app, &cost, language)}
                    {told.into_iter().flatten().map(|line| view! { <p>{line}</p> }).views()}
                    <p class="soft">{say_with(language, "cleaning.price.from", &[("n", &n)])}</p>
                }
                .into_any()
            }
        })
    };
    view! { <div aria-live="polite">{live(content)}</div> }
}

fn heights(app: App, cost: &Price, language: Language) -> impl IntoView + use<> {
    let unit = app.unit();
    let height = |value| height_words(value, unit.unwrap_or(VoltageUnit::Unstated), language);
    let rows = cost
        .waves
        .iter()
        .map(|wave| {
            let kept = figure(language, 100.0 * wave.kept(), 0);
            view! {
                <tr>
                    <th scope="row">{say(language, &format!("cleaning.names.{}", wave.wave.key()))}</th>
                    <td>{height(wave.before)}</td>
                    <td>{height(wave.after)}</td>
                    <td>{say_with(language, "cleaning.price.percent", &[("value", &kept)])}</td>
                </tr>
            }
        })
        .views();
    view! {
        <table class="price">
            <thead>
                <tr>
                    <th scope="col">{tr("cleaning.price.wave")}</th>
                    <th scope="col">{tr("cleaning.price.before")}</th>
                    <th scope="col">{tr("cleaning.price.after")}</th>
                    <th scope="col">{tr("cleaning.price.kept")}</th>
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
    }
}

/// How much wider QRS looks.
fn qrs(cost: &Price, language: Language) -> Option<String> {
    let (before, after) = cost.qrs?;
    let change = (after - before).milliseconds();
    let key = match change {
        change if change > 0.0 => "cleaning.price.qrs",
        change if change < 0.0 => "cleaning.price.qrs_narrower",
        _ => "cleaning.price.qrs_same",
    };
    let ms = |value: Milliseconds| figure(language, value.milliseconds(), 1);
    let places = [
        ("before", &*ms(before)),
        ("after", &*ms(after)),
        ("change", &*figure(language, change.abs(), 1)),
    ];
    Some(say_with(language, key, &places))
}

fn noise(cost: &Price, language: Language) -> Option<String> {
    let db = cost.noise_removed_db?;
    let key = if db > 0.0 { "cleaning.price.noise" } else { "cleaning.price.noise_up" };
    Some(say_with(language, key, &[("db", &figure(language, db, 1))]))
}

/// What the smoothing lets through.
fn response(app: App) -> Option<String> {
    let language = app.language.get();
    let smoother = app.work.with(|work| work.settings.cleaning.smoother)?;
    let rate: SampleRate = app.rate()?;
    let (null, corner) = (smoother.first_null(rate)?, smoother.corner(rate)?);
    let places = [
        ("zero", &*figure(language, null.hertz(), 1)),
        ("corner", &*figure(language, corner.hertz(), 1)),
    ];
    Some(say_with(language, "cleaning.price.response", &places))
}
