//! The card of an investigation: cautions first, then what to do, and when to stop.

use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, tr};
use beatwalk::inquiry::Protocol;
use leptos::prelude::*;

/// What to do and what to watch for.
#[component]
pub fn ProtocolCard(protocol: Protocol) -> impl IntoView {
    let app = App::here();
    let cautions = move || {
        let one = |caution: &beatwalk::lesson::Caution| {
            let words = caution.words(app.language.get());
            view! {
                <li>
                    <strong>{words.title} ". "</strong>
                    {words.text}
                </li>
            }
        };
        protocol.cautions.iter().map(one).views()
    };
    let steps = move || {
        let steps = protocol.steps(app.language.get());
        steps.into_iter().map(|step| view! { <li>{step}</li> }).views()
    };
    let signs = move || {
        let signs = protocol.stop_signs(app.language.get());
        signs.into_iter().map(|sign| view! { <li>{sign}</li> }).views()
    };
    view! {
        <section class="card bench__protocol">
            <h2>{tr("bench.protocol")}</h2>
            <details class="notice notice--caution" open>
                <summary>{tr("bench.cautions")}</summary>
                <ul>{live(cautions)}</ul>
            </details>
            <ol>{live(steps)}</ol>
            <div class="notice notice--problem">
                <p>
                    <strong>{tr("bench.stop")}</strong>
                </p>
                <ul>{live(signs)}</ul>
            </div>
        </section>
    }
}
