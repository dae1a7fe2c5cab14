//! One finger drags, two pinch: what the pointers on a canvas mean together.

use web_sys::PointerEvent;

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
