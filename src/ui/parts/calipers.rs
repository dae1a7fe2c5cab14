//! The pair of calipers: two legs on the trace, taken hold of or moved by sliders.

use super::grab::Grab;
use crate::ui::state::App;
use beatwalk::chart::Viewport;
use beatwalk::signal::{SampleIndex, SampleSpan};
use leptos::prelude::*;

/// One of the two.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leg {
    /// The earlier one.
    Left,
    /// The later one.
    Right,
}

/// Where the legs stand; nowhere while nothing is measured by hand.
#[derive(Clone, Copy)]
pub struct Calipers {
    app: App,
    /// From leg to leg.
    pub legs: RwSignal<Option<SampleSpan>>,
    held: StoredValue<Option<Leg>, LocalStorage>,
}

impl Calipers {
    /// Put away.
    pub fn of(app: App) -> Self {
        Self { app, legs: RwSignal::new(None), held: StoredValue::new_local(None) }
    }

    /// Sets the legs down at a third and two thirds of what is in view: that measures nothing yet.
    pub fn set_down(self) {
        self.legs.set(self.reach().map(|view| {
            let third = view.len() / 3;
            SampleSpan::new(view.start().get() + third, view.end().get().saturating_sub(third))
        }));
    }

    /// The samples in view, where the legs can stand.
    pub fn reach(self) -> Option<SampleSpan> {
        let view: Viewport = self.app.view.get_untracked()?;
        self.app.shown.with_untracked(|shown| {
            let recording = &shown.as_ref()?.recording;
            Some(view.samples(recording.rate, recording.samples.len()))
        })
    }

    /// Moves a leg; the legs never pass each other.
    pub fn move_leg(self, leg: Leg, to: SampleIndex) {
        let last = self.app.shown.with_untracked(|shown| {
            shown.as_ref().map_or(0, |shown| shown.recording.samples.len().saturating_sub(1))
        });
        self.legs.update(|legs| {
            *legs = legs.map(|legs| match leg {
                Leg::Left => legs.with_start(to.get(), 1),
                Leg::Right => legs.with_end(to.get(), 1, last),
            });
        });
    }

    /// How a finger or a mouse takes the legs: the nearer one within reach; a tap brings the nearer one.
    pub fn grab(self) -> Grab {
        let take = move |(at, reach): (SampleIndex, usize)| {
            let leg = self.nearer(at).filter(|&(_, away)| away <= reach);
            self.held.set_value(leg.map(|(leg, _)| leg));
            leg.is_some()
        };
        let drag = move |to: SampleIndex| {
            if let Some(leg) = self.held.get_value() {
                self.move_leg(leg, to);
            }
        };
        let tap = move |at: SampleIndex| {
            if let Some((leg, _)) = self.nearer(at) {
                self.move_leg(leg, at);
            }
        };
        Grab { take: Callback::new(take), drag: Callback::new(drag), tap: Callback::new(tap) }
    }

    fn nearer(self, at: SampleIndex) -> Option<(Leg, usize)> {
        let legs = self.legs.get_untracked()?;
        let away = |leg: SampleIndex| leg.minus(at).unsigned_abs();
        let (left, right) = (away(legs.start()), away(legs.end()));
        Some(if left < right { (Leg::Left, left) } else { (Leg::Right, right) })
    }
}
