//! A chart of an investigation: drawn on a canvas on the screen, as SVG on paper, told in words beside it.

use crate::ui::browser::CanvasSize;
use crate::ui::parts::chart::{Chart, Drawing};
use beatwalk::chart::{CSS_PX_PER_MM, Look, Palette, SvgText, to_svg};
use beatwalk::words::Language;
use leptos::html::Canvas;
use leptos::prelude::*;
use plotters::backend::SVGBackend;
use plotters::coord::Shift;
use plotters::drawing::DrawingArea;

/// On paper, in CSS pixels: 17 cm wide, as wide as the text of a printed A4 page.
const PAPER: (u32, u32) = (640, 360);
/// How finely it is drawn on paper.
const FINE: u32 = 4;

/// A chart, its picture on paper, and what it shows in a few sentences.
#[component]
pub fn ChartFigure(
    /// What it shows.
    summary: String,
    /// The SVG for paper.
    paper: String,
    /// Draws it on the screen; every signal that it reads makes it draw again.
    draw: impl Fn(&Drawing, CanvasSize) + 'static,
) -> impl IntoView {
    let canvas = NodeRef::<Canvas>::new();
    view! {
        <figure class="bench__figure">
            <div class="chart bench__chart no-print">
                <Chart canvas=canvas draw=draw attr:role="img" attr:aria-label=summary.clone() />
            </div>
            <div class="only-print" inner_html=paper></div>
            <figcaption class="soft">{summary}</figcaption>
        </figure>
    }
}

/// A chart as SVG for paper.
pub fn on_paper<E>(
    title: &str,
    summary: &str,
    language: Language,
    draw: impl FnOnce(&DrawingArea<SVGBackend<'_>, Shift>, &Look<'_>) -> Result<(), E>,
) -> String {
    let look = Look {
        palette: &Palette::PRINT,
        scale: FINE.into(),
        px_per_mm: Some(CSS_PX_PER_MM),
        language,
    };
    let text = SvgText { title, description: summary };
    to_svg(PAPER, FINE, text, |area| draw(area, &look)).unwrap_or_default()
}
