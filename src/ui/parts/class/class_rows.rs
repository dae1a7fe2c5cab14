//! The rows of the class desk: whose, which condition, and a few of the numbers.

use crate::ui::class::ClassDesk;
use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, tr};
use beatwalk::inquiry::Measured;
use beatwalk::report::PoolEntry;
use beatwalk::words::{decimal, say};
use leptos::prelude::*;

/// The rows: whose, which condition, and the numbers.
#[component]
pub fn ClassRows() -> impl IntoView {
    let app = App::here();
    let desk = ClassDesk::here();
    let shown = [Measured::ALL[0], Measured::ALL[2], Measured::ALL[3], Measured::ALL[4]];
    let head = move |measured: Measured| {
        view! { <th scope="col">{move || format!("{} ({})", measured.name(app.language.get()), measured.unit())}</th> }
    };
    view! {
        <section class="card">
            <h2>{tr("class.rows")}</h2>
            <p class="soft no-print">{tr("class.rows_hint")}</p>
            <div class="scroll-x class__rows" tabindex="0" role="group" aria-label=tr("class.rows")>
                <table class="results__table">
                    <thead>
                        <tr>
                            <th scope="col">{tr("conditions.table.code")}</th>
                            <th scope="col">{tr("class.condition")}</th>
                            {shown.map(head).views()}
                            <th scope="col">{tr("class.file")}</th>
                            <th scope="col">
                                <span class="hidden-visually">{tr("bench.seat.remove")}</span>
                            </th>
                        </tr>
                    </thead>
                    <tbody>
                        <For each=move || desk.entries.get() key=|(row, _)| *row let((row, entry))>
                            <Row row=row entry=entry shown=shown />
                        </For>
                    </tbody>
                </table>
            </div>
        </section>
    }
}

#[component]
fn Row(row: usize, entry: PoolEntry, shown: [Measured; 4]) -> impl IntoView {
    let app = App::here();
    let desk = ClassDesk::here();
    let values = shown.map(|measured| (entry.value(measured), measured.decimals()));
    let PoolEntry { file, code, condition, .. } = entry;
    let name = move || app.nameless().unwrap_or_else(|| file.clone());
    let cell = move |(value, decimals): (Option<f64>, usize)| {
        view! {
            <td>
                {move || {
                    let language = app.language.get();
                    value.map_or_else(|| say(language, "page.not_measurable").into_owned(), |value| decimal(language, value, decimals))
                }}
            </td>
        }
    };
    let field = move |label: &'static str, text: String, put: fn(&mut PoolEntry, String)| {
        view! {
            <td>
                <input
                    type="text"
                    maxlength="40"
                    autocomplete="off"
                    aria-label=tr(label)
                    prop:value=text
                    on:change=move |event| {
                        let text = event_target_value(&event).trim().to_owned();
                        desk.change(row, |entry| put(entry, text));
                    }
                />
            </td>
        }
    };
    view! {
        <tr>
            {field("conditions.table.code", code, |entry, text| entry.code = text)}
            {field("class.condition", condition, |entry, text| entry.condition = text)}
            {values.map(cell).views()} <td>{live(name)}</td> <td>
                <button class="button no-print" on:click=move |_| desk.remove(row)>
                    {tr("bench.seat.remove")}
                </button>
            </td>
        </tr>
    }
}
