//! A drawing as a self-contained SVG, with words for those who can't see it.
//!
//! plotters writes the shapes. What a printed page needs is added here: a size in CSS pixels over a
//! finer grid, a title and a description that a screen reader finds, round joints, and writing as
//! tall as on a canvas.

use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, IntoDrawingArea, SVGBackend};
use std::fmt::Write;

/// CSS pixels in a millimetre: 96 in an inch, by the definition of CSS (CSS Values 4, 6.2). True on
/// printed paper; a screen may differ.
pub const CSS_PX_PER_MM: f64 = 96.0 / 25.4;

/// How much smaller than asked plotters' SVG writes (plotters-svg 0.3.7, `draw_text`).
const SHRUNK: f64 = 1.24;

/// What a screen reader says of a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SvgText<'a> {
    /// A few words.
    pub title: &'a str,
    /// A few sentences; see [`super::summary`].
    pub description: &'a str,
}

/// Draws on so many CSS pixels, each parted into `scale` by `scale` (4 gives smooth lines), and
/// gives back the SVG.
///
/// # Errors
/// Those of `draw`.
pub fn to_svg<E>(
    size: (u32, u32),
    scale: u32,
    text: SvgText<'_>,
    draw: impl FnOnce(&DrawingArea<SVGBackend<'_>, Shift>) -> Result<(), E>,
) -> Result<String, E> {
    let fine = (size.0.saturating_mul(scale), size.1.saturating_mul(scale));
    let mut shapes = String::new();
    draw(&SVGBackend::with_string(&mut shapes, fine).into_drawing_area())?;
    // The shapes come with a head of their own: the first line.
    let body = shapes.split_once('\n').map_or("", |(_, body)| body);
    let (title, description) = (escaped(text.title), escaped(text.description));
    let head = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"{}\" height=\"{}\" \
         viewBox=\"0 0 {} {}\" stroke-linejoin=\"round\">\n\
         <title>{title}</title>\n<desc>{description}</desc>\n",
        size.0, size.1, fine.0, fine.1
    );
    Ok(head + &full_size_writing(body))
}

/// The shapes with all writing as tall as it was asked for.
fn full_size_writing(body: &str) -> String {
    const SIZE: &str = "font-size=\"";
    let mut parts = body.split(SIZE);
    let mut whole = String::with_capacity(body.len() + 64);
    whole.push_str(parts.next().unwrap_or_default());
    for part in parts {
        let (size, rest) = part.split_once('"').unwrap_or((part, ""));
        let size = size.parse().unwrap_or(0.0) * SHRUNK;
        // Writing to a `String` can't fail.
        let _ = write!(whole, "{SIZE}{size:.1}\"{rest}");
    }
    whole
}

fn escaped(words: &str) -> String {
    words.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;
    use plotters::style::{BLACK, TextStyle};
    use std::convert::Infallible;

    #[test]
    fn words_are_escaped_and_writing_keeps_its_size() {
        let text = SvgText { title: "P < QRS & T", description: "" };
        let svg = to_svg((100, 50), 4, text, |area| {
            area.draw_text("R", &TextStyle::from(("sans-serif", 48)).color(&BLACK), (200, 100))
        })
        .unwrap();
        assert!(svg.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\""));
        assert!(svg.contains("width=\"100\" height=\"50\" viewBox=\"0 0 400 200\""));
        assert!(svg.contains("<title>P &lt; QRS &amp; T</title>"));
        assert!(svg.contains("font-size=\"48.0\""), "{svg}");
        assert!(svg.ends_with("</svg>\n"));
    }

    #[test]
    fn a_page_without_room_is_still_a_page() {
        let text = SvgText { title: "", description: "" };
        let svg = to_svg((0, 0), 4, text, |_| Ok::<(), Infallible>(())).unwrap();
        assert!(svg.ends_with("</svg>\n"));
    }
}
