//! The question for the one thing that can't be found out: how fast the sensor sampled.

use super::number_field::NumberField;
use crate::ui::reactive::live;
use crate::ui::state::{App, tr};
use beatwalk::words::{decimal, say, say_with, typed};
use leptos::prelude::*;

/// The question, with what is likely.
#[component]
pub fn RateForm(
    /// How many values there are.
    samples: usize,
    /// Between which rates the trace would be a heart.
    plausible_hz: Option<(f64, f64)>,
    /// Hears the rate, in Hz.
    on_rate: Callback<f64>,
) -> impl IntoView {
    let app = App::here();
    let text = RwSignal::new(String::new());
    let rate = move || typed(&text.read()).filter(|rate| *rate > 0.0);
    let hint = move || {
        let language = app.language.get();
        match plausible_hz {
            Some((low, high)) => say_with(
                language,
                "page.rate.plausible",
                &[
                    ("low", &decimal(language, low, 0)),
                    ("high", &decimal(language, high, 0)),
                    ("samples", &samples.to_string()),
                ],
            ),
            None => say(language, "page.rate.manual").into_owned(),
        }
    };
    let submit = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        if let Some(rate) = untrack(rate) {
            on_rate.run(rate);
        }
    };
    view! {
        <form on:submit=submit>
            <h2>{tr("page.rate.title")}</h2>
            <p>{tr("page.rate.why")}</p>
            <p>{live(hint)}</p>
            <div class="button-row button-row--fields">
                <NumberField label=Signal::derive(tr("page.rate.label")) text=text />
                <button class="button button--main" disabled=move || rate().is_none()>
                    {tr("page.rate.go")}
                </button>
            </div>
        </form>
    }
}
