//! The conclusion sheet: who wrote it, and an answer under each prompt of the card.

use crate::ui::bench::Bench;
use crate::ui::parts::text_area::TextArea;
use crate::ui::parts::text_field::TextField;
use crate::ui::reactive::{Show, Views};
use crate::ui::state::{App, tr};
use beatwalk::inquiry::Protocol;
use leptos::prelude::*;

/// What was found, in the student's own words.
#[component]
pub fn Conclusion(protocol: Protocol) -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    let student = move || bench.student();
    let prompt = move |name: &'static str| {
        let written = move || {
            bench.sheet.with(|sheet| sheet.as_ref()?.written.get(name).cloned()).unwrap_or_default()
        };
        let write = move |text| {
            bench.change(|sheet| {
                sheet.written.insert(name.to_owned(), text);
            });
        };
        view! {
            <TextArea
                label=Signal::derive(move || protocol.prompt(name, app.language.get()).into_owned())
                text=Signal::derive(written)
                on_text=Callback::new(write)
            />
        }
    };
    view! {
        <section class="card bench__conclusion">
            <h2>{tr("bench.conclusion")}</h2>
            <Show when=move || !app.projector.get()>
                <TextField
                    label=Signal::derive(tr("page.results.student"))
                    text=Signal::derive(student)
                    on_text=Callback::new(move |text| bench.change(|sheet| sheet.student = text))
                />
            </Show>
            {protocol.prompts.iter().map(|name| prompt(name)).views()}
        </section>
    }
}
