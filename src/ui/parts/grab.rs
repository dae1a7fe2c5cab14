//! Taking hold of something on the trace: what a pointer that is down takes, drags or taps.

use beatwalk::signal::SampleIndex;
use leptos::prelude::*;

/// Within so many CSS pixels of something a finger means it: half of what is easily hit.
pub const FINGER: f64 = 22.0;
/// A pointer that has moved less than this many CSS pixels has tapped.
const SLOP: f64 = 5.0;

/// What a pointer can take hold of on the trace. A drag of nothing moves the trace.
#[derive(Clone, Copy)]
pub struct Grab {
    /// A pointer comes down at a sample, and so many samples around are under it: whether it takes hold.
    pub take: Callback<(SampleIndex, usize), bool>,
    /// What was taken is dragged to a sample.
    pub drag: Callback<SampleIndex>,
    /// A sample is tapped where there was nothing to take.
    pub tap: Callback<SampleIndex>,
}

/// A pointer that is down.
#[derive(Clone, Copy)]
struct Press {
    at: (f64, f64),
    holds: bool,
    moved: bool,
}

/// The pointer that takes hold, in CSS pixels of the canvas. What is under it is given with each event: the
/// sample, and how many samples around it.
#[derive(Clone, Copy)]
pub struct Holding {
    grab: Option<Grab>,
    press: StoredValue<Option<Press>, LocalStorage>,
}

impl Holding {
    /// No pointer is down.
    pub fn of(grab: Option<Grab>) -> Self {
        Self { grab, press: StoredValue::new_local(None) }
    }

    /// A pointer comes down.
    pub fn down(self, at: (f64, f64), under: Option<(SampleIndex, usize)>) {
        let Some(grab) = self.grab else { return };
        let first = self.press.with_value(Option::is_none);
        let holds = first && under.is_some_and(|under| grab.take.run(under));
        // Of two fingers neither taps nor drags.
        self.press.set_value(Some(Press { at, holds, moved: !first }));
    }

    /// A pointer that is down has moved; whether it holds something.
    pub fn dragged(self, to: (f64, f64), under: Option<(SampleIndex, usize)>) -> bool {
        let Some(mut now) = self.press.get_value() else { return false };
        now.moved = now.moved || (to.0 - now.at.0).hypot(to.1 - now.at.1) > SLOP;
        self.press.set_value(Some(now));
        if let (Some(grab), Some((sample, _)), true) = (self.grab, under, now.holds && now.moved) {
            grab.drag.run(sample);
        }
        now.holds
    }

    /// A pointer goes up.
    pub fn up(self, under: Option<(SampleIndex, usize)>) {
        if let (Some(grab), Some((sample, _)), Some(Press { holds: false, moved: false, .. })) =
            (self.grab, under, self.press.get_value())
        {
            grab.tap.run(sample);
        }
        self.lost();
    }

    /// The browser has taken the pointer away.
    pub fn lost(self) {
        self.press.set_value(None);
    }
}
