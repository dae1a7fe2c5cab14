//! How large a canvas is, in CSS pixels and in the pixels of the screen.
//!
//! The backing store is the CSS size times the device's pixel ratio, so that lines are sharp; it is
//! never wider than what is seen, since browsers drop canvases past some tens of thousands of pixels.

use super::in_turn;
use crate::ui::reactive::follow;
use leptos::html::Canvas;
use leptos::prelude::*;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{HtmlCanvasElement, ResizeObserver};

/// From this pixel ratio on a screen is fine enough.
const FINE: f64 = 1.5;

/// The size of a canvas.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CanvasSize {
    /// Width in CSS pixels.
    pub width: f64,
    /// Height in CSS pixels.
    pub height: f64,
    /// Pixels of the screen for one CSS pixel.
    pub scale: f64,
    /// Whether it is drawn in a hurry, see [`beatwalk::chart::Pace`].
    pub hurries: bool,
}

impl CanvasSize {
    fn of(canvas: &HtmlCanvasElement) -> Self {
        let ratio = web_sys::window().map_or(1.0, |window| window.device_pixel_ratio());
        // The pen draws on whole pixels; twice as many of them make a smoother line on a coarse screen.
        let scale = if ratio < FINE { ratio * 2.0 } else { ratio };
        Self {
            width: canvas.client_width().into(),
            height: canvas.client_height().into(),
            scale,
            hurries: false,
        }
    }

    /// The same with as few pixels as look tolerable while they move.
    pub fn coarse(self) -> Self {
        Self { scale: self.scale.min(1.0), hurries: true, ..self }
    }

    /// Fits the backing store to this size; true when there is something to draw on.
    pub fn fit(self, canvas: &HtmlCanvasElement) -> bool {
        let (width, height) = self.device();
        // Setting a size wipes the canvas, so only when it differs.
        if canvas.width() != width {
            canvas.set_width(width);
        }
        if canvas.height() != height {
            canvas.set_height(height);
        }
        width > 0 && height > 0
    }

    /// Width and height in pixels of the screen.
    pub fn device(self) -> (u32, u32) {
        ((self.width * self.scale).round() as u32, (self.height * self.scale).round() as u32)
    }
}

/// The size of a canvas, followed for as long as the owner lives.
pub fn observe_size(canvas: NodeRef<Canvas>) -> ReadSignal<CanvasSize> {
    let (size, set_size) = signal(CanvasSize::default());
    follow(move || {
        let Some(element) = canvas.get() else { return };
        let measured = element.clone();
        let waits = Rc::new(Cell::new(false));
        let measure = Closure::<dyn FnMut()>::new(move || {
            if waits.replace(true) {
                return;
            }
            let (measured, waits) = (measured.clone(), waits.clone());
            in_turn(move || {
                waits.set(false);
                let now = CanvasSize::of(&measured);
                if size.try_get_untracked().is_some_and(|before| before != now) {
                    set_size.set(now);
                }
            });
        });
        let function: &js_sys::Function = measure.as_ref().unchecked_ref();
        // A zoom of the browser changes the pixel ratio and tells it as a resize of the window.
        if let (Ok(observer), Some(window)) = (ResizeObserver::new(function), web_sys::window()) {
            observer.observe(&element);
            let _ = window.add_event_listener_with_callback("resize", function);
            let kept = StoredValue::new_local((observer, window, measure));
            on_cleanup(move || {
                kept.with_value(|(observer, window, measure)| {
                    observer.disconnect();
                    let function = measure.as_ref().unchecked_ref();
                    let _ = window.remove_event_listener_with_callback("resize", function);
                });
            });
        }
    });
    size
}
