//! Our own drawings, plain outlines in the colours of the page.
//!
//! Each is a file beside this one: it opens in any viewer, and takes its colours from
//! `style/drawings.css` on the page. Its title and description come with the language.

mod drawing;

pub use drawing::Drawing;

use beatwalk::lesson::Preparation;

/// The heart, with parts that `style/heart.css` lights up and moves.
pub const HEART: &str = include_str!("chambers.svg");

/// The drawing on a card of the preparation.
pub const fn of_preparation(card: Preparation) -> &'static str {
    match card {
        Preparation::Consent => include_str!("consent.svg"),
        Preparation::NotRecorded => include_str!("not_recorded.svg"),
        Preparation::Sensor => include_str!("sensor.svg"),
        Preparation::Skin => include_str!("skin.svg"),
        Preparation::Electrodes => include_str!("electrodes.svg"),
        Preparation::Stillness => include_str!("stillness.svg"),
        Preparation::Worry => include_str!("worry.svg"),
    }
}
