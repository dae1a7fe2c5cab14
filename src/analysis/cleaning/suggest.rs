//! The strongest smoothing that leaves R nearly whole.

use super::price::height_at;
use super::smoother::{Smoother, SmootherKind};
use super::window::Window;
use crate::analysis::reading::MedianBeat;
use crate::signal::Landmark;

/// The part of the height of R that has to be left (ours: five parts in a hundred can just be seen).
pub const R_KEPT: f64 = 0.95;

/// The widest window of a kind that leaves [`R_KEPT`] of the height of R on the typical beat; `None`
/// when even the narrowest takes more, or when there is no height to compare.
pub fn strongest_window(kind: SmootherKind, beat: &MedianBeat) -> Option<Window> {
    let r = beat.landmarks.at(Landmark::R)?;
    let raw = height_at(beat, r)?;
    let keeps = |window: Window| {
        let smoothed = Smoother { kind, window }.apply(&beat.samples);
        let smoothed = MedianBeat { samples: smoothed, ..beat.clone() };
        height_at(&smoothed, r).is_some_and(|height| height / raw >= R_KEPT)
    };
    // What a window takes does not always grow with it, so the first that takes too much ends the search.
    let windows = std::iter::successors(Some(Window::NARROWEST), |window| window.wider());
    windows
        .take_while(|window| window.points() <= beat.samples.len())
        .take_while(|window| keeps(*window))
        .last()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::{Landmarks, SampleIndex, SampleRate};

    /// A triangle of 40 samples to either side, with a level before it.
    fn triangle() -> MedianBeat {
        let mut landmarks = Landmarks::default();
        landmarks.set(Landmark::QrsOnset, Some(SampleIndex::new(155)));
        landmarks.set(Landmark::R, Some(SampleIndex::new(200)));
        MedianBeat {
            samples: (0..400)
                .map(|i: i32| (1.0 - (i - 200).abs() as f32 / 40.0).max(0.0))
                .collect(),
            rate: SampleRate::new(1000.0).unwrap(),
            landmarks,
            n: 20,
        }
    }

    #[test]
    fn the_mean_is_stopped_where_the_closed_form_says() {
        // Kept of a triangle: 1 - m(m + 1)/(N W) with W = 40: 0.9571 at 7 points, 0.9444 at 9.
        assert_eq!(strongest_window(SmootherKind::Mean, &triangle()).map(Window::points), Some(7));
        // A parabola follows the top better, so it may be wider.
        let fitted = strongest_window(SmootherKind::SavitzkyGolay, &triangle());
        assert!(fitted.is_some_and(|window| window.points() > 9));
    }

    #[test]
    fn without_r_nothing_is_suggested() {
        let mut beat = triangle();
        beat.landmarks.set(Landmark::R, None);
        assert_eq!(strongest_window(SmootherKind::Mean, &beat), None);
        let narrow = MedianBeat {
            samples: (0..400).map(|i| f32::from(u8::from(i == 200))).collect(),
            ..triangle()
        };
        assert_eq!(strongest_window(SmootherKind::Mean, &narrow), None);
    }
}
