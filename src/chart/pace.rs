//! Whether a chart that moves can be drawn finely.
//!
//! Without a graphics processor, drawing four times the pixels takes four times as long, and the trace lags behind
//! the finger. There it is drawn coarsely while it moves and finely once it rests; a machine that keeps up never
//! sees the coarse one.

use crate::signal::Milliseconds;

/// With more time than this between two drawings, a chart rests.
pub const REST: Milliseconds = Milliseconds::new(300.0);
/// A frame that took longer than this came late: at 60 frames a second it takes 17 ms.
const LATE: Milliseconds = Milliseconds::new(28.0);
/// So many late frames one after the other are no accident.
const ENOUGH: u32 = 2;

/// What is known of how fast one chart is drawn.
#[derive(Clone, Copy, Debug, Default)]
pub struct Pace {
    drawn_at: Option<Milliseconds>,
    late: u32,
}

impl Pace {
    /// Notes a drawing at this moment, and says whether it has to be a coarse one.
    pub fn draw(&mut self, now: Milliseconds) -> bool {
        let moves = !self.rests(now);
        self.drawn_at = Some(now);
        moves && self.late >= ENOUGH
    }

    /// Whether nothing was drawn for a while.
    pub fn rests(&self, now: Milliseconds) -> bool {
        self.drawn_at
            .is_none_or(|drawn| now.milliseconds() - drawn.milliseconds() >= REST.milliseconds())
    }

    /// Notes how long a frame took that something was drawn in. A machine found slow stays so.
    pub fn took(&mut self, frame: Milliseconds) {
        if self.late < ENOUGH {
            self.late = if frame.milliseconds() > LATE.milliseconds() { self.late + 1 } else { 0 };
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Draws every so many milliseconds, each frame taking as long; which drawings were coarse.
    fn drawn(every: f64, frames: usize) -> (Pace, Vec<bool>) {
        let mut pace = Pace::default();
        let coarse = (0..frames).map(|frame| {
            let coarse = pace.draw(Milliseconds::new(frame as f64 * every));
            pace.took(Milliseconds::new(every));
            coarse
        });
        let coarse = coarse.collect();
        (pace, coarse)
    }

    #[test]
    fn a_machine_that_keeps_up_draws_finely() {
        assert!(drawn(16.7, 100).1.iter().all(|coarse| !coarse));
    }

    #[test]
    fn a_slow_machine_draws_coarsely_from_the_third_frame_until_the_chart_rests() {
        let (mut pace, coarse) = drawn(120.0, 6);
        assert_eq!(coarse, [false, false, true, true, true, true]);
        assert!(!pace.draw(Milliseconds::new(5.0 * 120.0 + REST.milliseconds())));
        // The next time it is known at once.
        assert!(pace.draw(Milliseconds::new(6.0 * 120.0 + REST.milliseconds())));
    }

    #[test]
    fn one_late_frame_is_forgiven() {
        let (mut pace, _) = drawn(16.7, 10);
        pace.took(Milliseconds::new(200.0));
        pace.took(Milliseconds::new(16.7));
        pace.took(Milliseconds::new(200.0));
        assert!(!pace.draw(Milliseconds::new(180.0)));
    }
}
