//! How many points a smoother takes together: an odd number, five at least.
//!
//! Odd, so that one of them is the middle and nothing moves in time. Fewer than five hardly quieten
//! anything (common practice). At most [`Window::MOST`]: more would reach over whole beats.

use crate::signal::{Milliseconds, SampleRate};
use crate::words::{Phrase, errors_as_said, phrase};
use serde::{Deserialize, Serialize};

/// An odd number of points, from [`Window::FEWEST`] to [`Window::MOST`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "usize", into = "usize")]
pub struct Window(usize);

/// Why a number of points is no window.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum UnusableWindow {
    /// There is no middle point.
    Even(usize),
    /// Too few to quieten anything.
    TooFew(usize),
    /// Wider than a beat.
    TooMany(usize),
}

impl UnusableWindow {
    /// What is wrong, and what to take instead.
    pub fn said(self) -> Phrase {
        match self {
            Self::Even(points) => {
                let (below, above) = (points.saturating_sub(1), points.saturating_add(1));
                phrase!("faults.window.even", points, above, below)
            }
            Self::TooFew(points) => {
                let fewest = Window::FEWEST;
                phrase!("faults.window.too_few", points, fewest)
            }
            Self::TooMany(points) => {
                let most = Window::MOST;
                phrase!("faults.window.too_many", points, most)
            }
        }
    }
}

errors_as_said!(UnusableWindow);

impl Window {
    /// The fewest points.
    pub const FEWEST: usize = 5;
    /// The most points: a quarter of a second at 4000 samples a second.
    pub const MOST: usize = 1001;

    /// A window of so many points.
    ///
    /// # Errors
    /// [`UnusableWindow`] when the number is even, below [`Self::FEWEST`] or above [`Self::MOST`].
    pub const fn new(points: usize) -> Result<Self, UnusableWindow> {
        match points {
            // Said first: three is odd but too few, four is both.
            0..Self::FEWEST => Err(UnusableWindow::TooFew(points)),
            _ if points > Self::MOST => Err(UnusableWindow::TooMany(points)),
            _ if points.is_multiple_of(2) => Err(UnusableWindow::Even(points)),
            _ => Ok(Self(points)),
        }
    }

    /// The narrowest window there is.
    pub const NARROWEST: Self = Self(Self::FEWEST);

    /// How many points.
    pub const fn points(self) -> usize {
        self.0
    }

    /// How many points lie on either side of the middle one.
    pub const fn reach(self) -> usize {
        self.0 / 2
    }

    /// The next wider window; `None` at the widest.
    pub const fn wider(self) -> Option<Self> {
        if self.0 + 2 > Self::MOST { None } else { Some(Self(self.0 + 2)) }
    }

    /// How long it is, from its first to its last point.
    pub fn width(self, rate: SampleRate) -> Milliseconds {
        Milliseconds::new((self.0 - 1) as f64 * 1000.0 / rate.hz())
    }
}

impl TryFrom<usize> for Window {
    type Error = UnusableWindow;
    fn try_from(points: usize) -> Result<Self, UnusableWindow> {
        Self::new(points)
    }
}

impl From<Window> for usize {
    fn from(window: Window) -> Self {
        window.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_window_has_a_middle_and_five_points_at_least() {
        assert_eq!(Window::new(5).map(Window::reach), Ok(2));
        assert_eq!(Window::new(6), Err(UnusableWindow::Even(6)));
        for points in 0..5 {
            assert_eq!(Window::new(points), Err(UnusableWindow::TooFew(points)));
        }
        assert_eq!(Window::new(1003), Err(UnusableWindow::TooMany(1003)));
        assert_eq!(Window::new(Window::MOST).ok().and_then(Window::wider), None);
        assert_eq!(Window::NARROWEST.wider().map(Window::points), Some(7));
    }

    #[test]
    fn a_refusal_says_what_to_take_instead() {
        assert!(UnusableWindow::Even(6).to_string().ends_with("take 7 or 5"));
        assert!(UnusableWindow::TooFew(3).to_string().contains("5 or more"));
    }

    #[test]
    fn its_width_is_from_first_to_last_point() {
        let rate = SampleRate::new(250.0).unwrap();
        assert_eq!(Window::NARROWEST.width(rate).milliseconds(), 16.0);
    }
}
