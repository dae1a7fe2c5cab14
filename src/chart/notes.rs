//! Notes on a trace: a broken upright line at the moment of each, with its words at the foot.
//!
//! The head of a plot belongs to beats and shaded stretches. Words that would run into the ones before
//! are left out, and lines closer than a few pixels to the one before. Where there are many, each is a
//! stroke at the foot: the trace has to stay readable, and drawing quick.

use super::palette::Palette;
use super::pen::{Drawn, Pen, Rect, Writing, written_width};
use super::projection::Projection;
use super::scene::{Look, NoteMark, TraceScene};
use plotters::prelude::DrawingBackend;
use plotters::style::text_anchor::HPos;

/// A dash and the gap after it, in CSS pixels.
const DASH: (f64, f64) = (5.0, 4.0);
/// Lines closer than this many CSS pixels are one.
const CLOSEST: f64 = 3.0;
/// With more notes than this in view, each is a stroke at the foot.
const MANY: usize = 40;
/// Longer words are cut: they stand in full in the list beside the trace.
const LONGEST: usize = 24;

/// Draws the notes in view, without words when `wordless`.
pub(super) fn draw_notes<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    scene: &TraceScene<'_>,
    projection: &Projection,
    look: &Look<'_>,
    wordless: bool,
) -> Drawn<DB> {
    let Look { palette, scale, .. } = *look;
    let Palette { note, paper, line_weight, text_size, .. } = *palette;
    let (plot, text) = (projection.frame.plot(), text_size * scale);
    let many = in_view(scene, projection).nth(MANY).is_some();
    let head = if many { plot.bottom - text } else { plot.top };
    let (mut last, mut free_from) = (f64::NEG_INFINITY, f64::NEG_INFINITY);
    for mark in in_view(scene, projection) {
        let x = projection.x_of(mark.at, scene.rate);
        if x - last < CLOSEST * scale {
            continue;
        }
        last = x;
        let mut top = head;
        while top < plot.bottom {
            let bottom = (top + DASH.0 * scale).min(plot.bottom);
            pen.upright(x, top, bottom, note, (1.5 * line_weight * scale).max(1.0))?;
            top += (DASH.0 + DASH.1) * scale;
        }
        let words = shortened(mark.text);
        let width = written_width(&words, text);
        let left = x + 0.4 * text;
        let right = left + width + 0.4 * text;
        if wordless || words.is_empty() || left < free_from || right > plot.right {
            continue;
        }
        free_from = right;
        let row = plot.bottom - 0.8 * text;
        pen.fill(Rect::new(left, row - 0.65 * text, right, row + 0.65 * text), paper, 0.85)?;
        pen.write(&words, (left + 0.2 * text, row), Writing::new(note, text, HPos::Left))?;
    }
    Ok(())
}

/// The notes in view, in order.
fn in_view<'a>(
    scene: &'a TraceScene<'_>,
    projection: &'a Projection,
) -> impl Iterator<Item = NoteMark<'a>> {
    let shown = |note: &NoteMark<'_>| projection.viewport.shows(note.at, scene.rate);
    scene.notes.iter().copied().filter(shown)
}

fn shortened(text: &str) -> String {
    match text.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{}…", text[..end].trim_end()),
        None => text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::{SvgText, Viewport, draw_overview, draw_trace, to_svg};
    use crate::signal::{Envelope, SampleIndex, SampleRate, VoltageUnit};
    use crate::words::Language;

    fn drawn(notes: &[NoteMark<'_>], overview: bool) -> String {
        let envelope = Envelope::new(vec![0.0; 1000].into());
        let rate = SampleRate::new(100.0).unwrap();
        let scene = TraceScene {
            unit: VoltageUnit::Unstated,
            notes,
            ..TraceScene::bare(&envelope, rate, Viewport::fit(&envelope, rate))
        };
        let look = Look {
            palette: &Palette::LIGHT,
            scale: 1.0,
            px_per_mm: None,
            language: Language::English,
        };
        let text = SvgText { title: "", description: "" };
        to_svg((800, 300), 1, text, |area| match overview {
            true => draw_overview(area, &scene, &look),
            false => draw_trace(area, &scene, &look),
        })
        .unwrap()
    }

    fn note(at: usize, text: &str) -> NoteMark<'_> {
        NoteMark { at: SampleIndex::new(at), text }
    }

    #[test]
    fn a_note_stands_at_its_moment_with_its_words() {
        let svg = drawn(&[note(300, "tap"), note(600, "end of exercise")], false);
        assert!(svg.contains(">\ntap\n<") && svg.contains(">\nend of exercise\n<"));
        let small = drawn(&[note(300, "tap")], true);
        assert!(!small.contains("tap"), "no room for words on the strip");
        assert!(small.len() > drawn(&[], true).len(), "but for the line");
    }

    #[test]
    fn crowded_notes_keep_apart_and_long_ones_are_cut() {
        let long = "é".repeat(500);
        let notes: Vec<NoteMark<'_>> = (0..1000).map(|at| note(at, "crowded")).collect();
        let svg = drawn(&notes, false);
        assert!(svg.matches("crowded").count() < 14 && svg.len() < 150_000, "{}", svg.len());
        assert!(drawn(&[note(10, &long)], false).contains(&format!("{}…", "é".repeat(LONGEST))));
    }
}
