//! A table of a few columns, the first being names; it scrolls in its own box.

use crate::ui::reactive::Views;
use crate::ui::state::tr;
use leptos::prelude::*;

/// A table that names its rows in the first column.
#[component]
pub fn NumbersTable(
    /// The message that names it.
    title: &'static str,
    /// Its heads, in words.
    heads: Vec<String>,
    /// Its rows, as long as the head.
    rows: Vec<Vec<String>>,
) -> impl IntoView {
    let row = |cells: Vec<String>| {
        let mut cells = cells.into_iter();
        let name = cells.next();
        view! {
            <tr>
                <th scope="row">{name}</th>
                {cells.map(|cell| view! { <td>{cell}</td> }).views()}
            </tr>
        }
    };
    scrolling_table(title, heads, rows.into_iter().map(row).views().into_any())
}

/// A table that scrolls in its own box: the message that names it, its heads in words, its rows.
pub fn scrolling_table(title: &'static str, heads: Vec<String>, rows: AnyView) -> impl IntoView {
    let heads = heads.into_iter().map(|head| view! { <th scope="col">{head}</th> }).views();
    view! {
        <div class="scroll-x" tabindex="0" role="group" aria-label=tr(title)>
            <table class="results__table">
                <thead>
                    <tr>{heads}</tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        </div>
    }
}
