//! A drawing with its title and description, as assistive technology reads them.

use leptos::prelude::*;
use leptos::svg;

/// One drawing of ours.
#[component]
pub fn Drawing(
    /// A name of its own on the page.
    id: &'static str,
    /// The drawing as SVG.
    outline: &'static str,
    /// How high it is, for 240 units of width.
    #[prop(default = 120)]
    height: u32,
    /// What it is called.
    #[prop(into)]
    title: Signal<String>,
    /// What it shows.
    #[prop(into)]
    shows: Signal<String>,
) -> impl IntoView {
    let name = move |part: &str| format!("{id}-{part}");
    view! {
        <svg
            class="drawing"
            viewBox=format!("0 0 240 {height}")
            role="img"
            aria-labelledby=name("title")
            aria-describedby=name("shows")
        >
            // By its own function: in a template, a title is taken for that of the document.
            {svg::title().id(name("title")).child(title)}
            <desc id=name("shows")>{shows}</desc>
            <g inner_html=outline></g>
        </svg>
    }
}
