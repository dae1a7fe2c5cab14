//! Keys, mouse, wheel and fingers.

use super::Visit;
use serde_json::{Value, json};
use thirtyfour::Key;

/// A place on the screen, in CSS pixels from its top left corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Point {
    pub(crate) x: f64,
    pub(crate) y: f64,
}

impl Point {
    /// The place so far to the right and down.
    pub(crate) const fn moved(self, right: f64, down: f64) -> Self {
        Self { x: self.x + right, y: self.y + down }
    }

    fn towards(self, other: Self, part: f64) -> Self {
        self.moved(part * (other.x - self.x), part * (other.y - self.y))
    }
}

/// How many steps a drag has.
const STEPS: u32 = 8;

impl Visit {
    /// Presses a key wherever the keyboard is.
    pub(crate) fn press(&self, key: Key) {
        let chain = self.chromium.driver().action_chain().key_down(key.clone()).key_up(key);
        self.chromium.wait(chain.perform()).unwrap();
    }

    /// Presses a key so many times.
    pub(crate) fn press_times(&self, key: Key, times: usize) {
        let mut chain = self.chromium.driver().action_chain();
        for _ in 0..times {
            chain = chain.key_down(key.clone()).key_up(key.clone());
        }
        self.chromium.wait(chain.perform()).unwrap();
    }

    /// Presses a letter while another key is held, such as Control and z.
    pub(crate) fn press_with(&self, held: Key, letter: char) {
        let chain = self.chromium.driver().action_chain();
        let chain = chain.key_down(held.clone()).key_down(letter).key_up(letter).key_up(held);
        self.chromium.wait(chain.perform()).unwrap();
    }

    /// Types wherever the keyboard is.
    pub(crate) fn type_text(&self, text: &str) {
        self.chromium
            .wait(self.chromium.driver().action_chain().send_keys(text).perform())
            .unwrap();
    }

    /// Moves the mouse to a place and clicks there.
    pub(crate) fn click_at(&self, place: Point) {
        self.mouse("mouseMoved", place, json!({}));
        self.mouse(
            "mousePressed",
            place,
            json!({ "button": "left", "buttons": 1, "clickCount": 1 }),
        );
        self.mouse("mouseReleased", place, json!({ "button": "left", "clickCount": 1 }));
    }

    /// Moves the mouse to a place.
    pub(crate) fn point_at(&self, place: Point) {
        self.mouse("mouseMoved", place, json!({}));
    }

    /// Drags with the mouse.
    pub(crate) fn drag(&self, from: Point, to: Point) {
        self.mouse("mouseMoved", from, json!({}));
        self.mouse(
            "mousePressed",
            from,
            json!({ "button": "left", "buttons": 1, "clickCount": 1 }),
        );
        for step in 1..=STEPS {
            let place = from.towards(to, f64::from(step) / f64::from(STEPS));
            self.mouse("mouseMoved", place, json!({ "button": "left", "buttons": 1 }));
        }
        self.mouse("mouseReleased", to, json!({ "button": "left", "clickCount": 1 }));
    }

    /// Turns the mouse wheel over a place; `down` is positive towards the user. With `zooming` the
    /// Control key is held, which is also how a touch pad tells of two fingers.
    pub(crate) fn wheel(&self, place: Point, right: f64, down: f64, zooming: Zooming) {
        let held = if zooming == Zooming::Yes { 2 } else { 0 };
        self.mouse(
            "mouseWheel",
            place,
            json!({ "deltaX": right, "deltaY": down, "modifiers": held }),
        );
    }

    /// Touches a place with a finger.
    pub(crate) fn tap(&self, place: Point) {
        self.touch("touchStart", &[place]);
        self.touch("touchEnd", &[]);
    }

    /// Drags with a finger.
    pub(crate) fn touch_drag(&self, from: Point, to: Point) {
        self.touch_paths([(from, to)]);
    }

    /// Moves two fingers, lying side by side around a place, from one distance to another.
    pub(crate) fn pinch(&self, middle: Point, from: f64, to: f64) {
        let path =
            |side: f64| (middle.moved(side * from / 2.0, 0.0), middle.moved(side * to / 2.0, 0.0));
        self.touch_paths([path(-1.0), path(1.0)]);
    }

    fn touch_paths<const FINGERS: usize>(&self, paths: [(Point, Point); FINGERS]) {
        self.touch("touchStart", &paths.map(|(from, _)| from));
        for step in 1..=STEPS {
            let part = f64::from(step) / f64::from(STEPS);
            self.touch("touchMove", &paths.map(|(from, to)| from.towards(to, part)));
        }
        self.touch("touchEnd", &[]);
    }

    fn mouse(&self, kind: &str, place: Point, more: Value) {
        let mut event = json!({ "type": kind, "x": place.x, "y": place.y });
        if let (Some(event), Value::Object(more)) = (event.as_object_mut(), more) {
            event.extend(more);
        }
        self.command("Input.dispatchMouseEvent", event);
    }

    fn touch(&self, kind: &str, fingers: &[Point]) {
        let fingers: Vec<Value> = fingers
            .iter()
            .enumerate()
            .map(|(id, place)| json!({ "x": place.x, "y": place.y, "id": id }))
            .collect();
        self.command("Input.dispatchTouchEvent", json!({ "type": kind, "touchPoints": fingers }));
    }
}

/// Whether the wheel zooms.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Zooming {
    Yes,
    No,
}
