//! A stretch of a trace as the path of an SVG: the shape alone, without scales.
//!
//! It fills a box from the lowest to the highest value; a level stretch lies in the middle. Where nothing
//! was recorded the path breaks off. No samples give an empty path.

use std::fmt::Write;

/// The path of a stretch in a box of some width and height, in the units of the drawing.
pub fn outline(samples: &[f32], width: f64, height: f64) -> String {
    let seen = samples.iter().map(|&value| f64::from(value)).filter(|value| value.is_finite());
    let (lowest, highest) = seen.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    let span = highest - lowest;
    let steps = samples.len().saturating_sub(1).max(1) as f64;
    let mut path = String::new();
    let mut pen_is_down = false;
    for (place, &value) in samples.iter().enumerate() {
        if !value.is_finite() {
            pen_is_down = false;
            continue;
        }
        let x = place as f64 / steps * width;
        let part = if span > 0.0 { (highest - f64::from(value)) / span } else { 0.5 };
        let step = if pen_is_down { 'L' } else { 'M' };
        // Writing to a String can't fail.
        let _ = write!(path, "{step}{x:.1} {:.1}", part * height);
        pen_is_down = true;
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_box_is_filled_from_low_to_high() {
        assert_eq!(outline(&[0.0, 1.0, -1.0], 10.0, 4.0), "M0.0 2.0L5.0 0.0L10.0 4.0");
    }

    #[test]
    fn what_was_not_recorded_breaks_the_line() {
        assert_eq!(outline(&[1.0, f32::NAN, 1.0], 2.0, 4.0), "M0.0 2.0M2.0 2.0");
        assert_eq!(outline(&[], 2.0, 4.0), "");
        assert_eq!(outline(&[f32::INFINITY], 2.0, 4.0), "");
    }
}
