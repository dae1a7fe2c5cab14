//! One finger drags, two pinch: what the pointers on a canvas mean together.

use beatwalk::chart::{Bounds, Projection, Viewport};
use beatwalk::signal::Seconds;
use web_sys::{PointerEvent, WheelEvent};

/// How much one pixel of a wheel's turn zooms, as the exponent of e.
const WHEEL_ZOOM: f64 = 0.0015;

/// What a move of a pointer means, in CSS pixels of the canvas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Gesture {
    /// One pointer moved while down.
    Drag {
        /// Where it was.
        from: (f64, f64),
        /// Where it is.
        to: (f64, f64),
    },
    /// Two pointers moved apart (factor below 1, nearer) or together (above 1, farther).
    Pinch {
        /// The point between them.
        about: (f64, f64),
        /// How much more of the trace should be in view.
        factor: f64,
    },
}

impl Gesture {
    /// What is in view after the gesture.
    pub fn applied(self, on: &Projection, bounds: &Bounds) -> Viewport {
        match self {
            Self::Drag { from, to } => on.viewport.panned(
                on.time(from.0) - on.time(to.0),
                on.value(from.1) - on.value(to.1),
                bounds,
            ),
            Self::Pinch { about, factor } => {
                let kept = (on.time(about.0), on.value(about.1));
                on.viewport.zoomed(kept, factor, 1.0, bounds)
            }
        }
    }
}

/// What is in view after a turn of the wheel: up and down zooms about the pointer; sideways, or with
/// Shift, moves.
pub fn wheeled(event: &WheelEvent, on: &Projection, bounds: &Bounds) -> Viewport {
    let (right, down) = (event.delta_x(), event.delta_y());
    let sideways = right.abs() > down.abs();
    let turn = if sideways { right } else { down };
    if sideways || event.shift_key() {
        return on.viewport.panned(Seconds::new(turn / on.px_per_second()), 0.0, bounds);
    }
    let kept = (on.time(event.offset_x().into()), on.value(event.offset_y().into()));
    on.viewport.zoomed(kept, (turn * WHEEL_ZOOM).exp(), 1.0, bounds)
}

/// The pointers that are down.
#[derive(Debug, Default)]
pub struct Pointers(Vec<(i32, (f64, f64))>);

impl Pointers {
    /// A pointer comes down.
    pub fn down(&mut self, event: &PointerEvent) {
        self.up(event);
        self.0.push((event.pointer_id(), place(event)));
    }

    /// A pointer goes up.
    pub fn up(&mut self, event: &PointerEvent) {
        self.0.retain(|(id, _)| *id != event.pointer_id());
    }

    /// A pointer moves; nothing when it is not down, or a third one.
    pub fn moved(&mut self, event: &PointerEvent) -> Option<Gesture> {
        let mover = self.0.iter().position(|(id, _)| *id == event.pointer_id())?;
        let to = place(event);
        let from = std::mem::replace(&mut self.0.get_mut(mover)?.1, to);
        match self.0.as_slice() {
            [_] => Some(Gesture::Drag { from, to }),
            [first, second] => {
                let still = if mover == 0 { second.1 } else { first.1 };
                let about = ((to.0 + still.0) / 2.0, (to.1 + still.1) / 2.0);
                let apart = (to.0 - still.0).hypot(to.1 - still.1);
                let before = (from.0 - still.0).hypot(from.1 - still.1);
                (apart > 1.0).then(|| Gesture::Pinch { about, factor: before / apart })
            }
            _ => None,
        }
    }
}

fn place(event: &PointerEvent) -> (f64, f64) {
    (event.offset_x().into(), event.offset_y().into())
}
