//! Whether a chart that moves can be drawn finely.
//!
//! Without a graphics processor, drawing four times the pixels takes four times as long, and the trace lags behind
//! the finger. There it is drawn coarsely while it moves and finely once it rests; a machine that keeps up never
//! sees the coarse one.

use crate::signal::Milliseconds;

/// With more time than this between two drawings, a chart rests.
pub const REST: Milliseconds = Milliseconds::new(300.0);
/// A frame that took longer than this came late: at 60 frames a second it takes 17 ms.
pub const LATE: Milliseconds = Milliseconds::new(28.0);
/// So many late frames one after the other are no accident.
const ENOUGH: u32 = 2;
/// Nor is one that took this long: the hand would feel the next one.
const MUCH_TOO_LATE: Milliseconds = Milliseconds::new(100.0);

/// What is known of how fast one chart is drawn.
#[derive(Clone, Copy, Debug, Default)]
pub struct Pace {
    drawn_at: Option<Milliseconds>,
    late: u32,
}

/// How a chart is drawn this time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Finely: it does not move. How long that takes says nothing, since much else may be new on the screen.
    AtRest,
    /// Finely, though it moves.
    Moving,
    /// Coarsely, since it moves and this machine can't keep up.
    Hurried,
}

impl Pace {
    /// Notes a drawing at this moment, and says how it has to be.
    pub fn draw(&mut self, now: Milliseconds) -> Way {
        let rests = self.rests(now);
        self.drawn_at = Some(now);
        match self.late {
            _ if rests => Way::AtRest,
            ENOUGH.. => Way::Hurried,
            _ => Way::Moving,
        }
    }

    /// Whether nothing was drawn for a while.
    pub fn rests(&self, now: Milliseconds) -> bool {
        self.drawn_at.is_none_or(|drawn| now - drawn >= REST)
    }

    /// Notes how long a frame took that something was drawn in. A machine found slow stays so.
    pub fn took(&mut self, frame: Milliseconds) {
        if self.late < ENOUGH {
            self.late = if frame > MUCH_TOO_LATE {
                ENOUGH
            } else if frame > LATE {
                self.late + 1
            } else {
                0
            };
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Draws every so many milliseconds, each frame taking as long; which drawings were coarse.
    /// Draws every so often, each time in a frame of that length.
    fn drawn(every: f64, frames: usize) -> (Pace, Vec<Way>) {
        let mut pace = Pace::default();
        let ways = (0..frames).map(|frame| {
            let way = pace.draw(Milliseconds::new(frame as f64 * every));
            if way == Way::Moving {
                pace.took(Milliseconds::new(every));
            }
            way
        });
        let ways = ways.collect();
        (pace, ways)
    }

    #[test]
    fn a_machine_that_keeps_up_draws_finely() {
        assert!(drawn(16.7, 100).1.iter().all(|&way| way != Way::Hurried));
    }

    #[test]
    fn a_slow_machine_hurries_from_the_fourth_frame_until_the_chart_rests() {
        let (mut pace, ways) = drawn(60.0, 6);
        let (moving, hurried) = (Way::Moving, Way::Hurried);
        assert_eq!(ways, [Way::AtRest, moving, moving, hurried, hurried, hurried]);
        assert_eq!(pace.draw(Milliseconds::new(5.0 * 60.0) + REST), Way::AtRest);
        // The next time it is known at once.
        assert_eq!(pace.draw(Milliseconds::new(6.0 * 60.0) + REST), Way::Hurried);
    }

    #[test]
    fn a_very_slow_machine_hurries_from_the_third_frame() {
        assert_eq!(drawn(120.0, 3).1, [Way::AtRest, Way::Moving, Way::Hurried]);
    }

    #[test]
    fn one_late_frame_is_forgiven() {
        let (mut pace, _) = drawn(16.7, 10);
        pace.took(Milliseconds::new(90.0));
        pace.took(Milliseconds::new(16.7));
        pace.took(Milliseconds::new(90.0));
        assert_eq!(pace.draw(Milliseconds::new(180.0)), Way::Moving);
    }
}
