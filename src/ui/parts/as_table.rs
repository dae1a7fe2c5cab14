//! The numbers of a chart as a table, folded away until they are asked for: only then are its rows made.

use crate::ui::reactive::{Views, live};
use crate::ui::state::App;
use beatwalk::chart::ChartTable;
use beatwalk::words::{say, say_with};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::Element;

/// The most rows that are shown; a page with more is slow to build, and nobody reads them.
const MOST: usize = 400;

/// A chart as a table.
#[component]
pub fn AsTable(
    /// The message that says what is in it.
    #[prop(into)]
    what: Signal<&'static str>,
    /// Makes it; `None` while there is no chart.
    table: impl Fn() -> Option<ChartTable> + Send + Sync + 'static,
) -> impl IntoView {
    let app = App::here();
    let open = RwSignal::new(false);
    let toggled = move |event: web_sys::Event| open.set(is_open(&event));
    let name = move || {
        let language = app.language.get();
        say_with(language, "chart.table.open", &[("what", &say(language, what.get()))])
    };
    let made = Memo::new(move |_| if open.get() { table() } else { None });
    let content = move || {
        let table = made.get()?;
        let language = app.language.get();
        if table.rows.is_empty() {
            let nothing = say(language, "chart.table.nothing");
            return Some(view! { <p class="soft">{nothing}</p> }.into_any());
        }
        let more = table.rows.len().saturating_sub(MOST);
        let more = (more > 0)
            .then(|| say_with(language, "chart.table.more", &[("more", &more.to_string())]));
        Some(
            view! { <Rows table=table name=Signal::derive(name) /> <p class="soft">{more}</p> }
                .into_any(),
        )
    };
    view! {
        <details class="as-table no-print" on:toggle=toggled>
            <summary>{live(name)}</summary>
            {live(content)}
        </details>
    }
}

#[component]
fn Rows(table: ChartTable, name: Signal<String>) -> impl IntoView {
    let head = |head| view! { <th scope="col">{head}</th> };
    let row = |mut row: Vec<String>| {
        let first = (!row.is_empty()).then(|| row.remove(0));
        let cell = |cell| view! { <td>{cell}</td> };
        view! {
            <tr>
                <th scope="row">{first}</th>
                {row.into_iter().map(cell).views()}
            </tr>
        }
    };
    view! {
        <div class="as-table__rows" tabindex="0" role="group" aria-label=name>
            <table class="price">
                <thead>
                    <tr>{table.heads.into_iter().map(head).views()}</tr>
                </thead>
                <tbody>{table.rows.into_iter().take(MOST).map(row).views()}</tbody>
            </table>
        </div>
    }
}

/// Whether what was just folded or unfolded is open now.
pub(super) fn is_open(event: &web_sys::Event) -> bool {
    let details = event.target().and_then(|target| target.dyn_into::<Element>().ok());
    details.is_some_and(|details| details.has_attribute("open"))
}
