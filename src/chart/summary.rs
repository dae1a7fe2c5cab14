//! What a drawing shows, in words.

use super::scene::TraceScene;
use crate::words::Language;

/// What a scene shows, in a few sentences for a screen reader.
pub fn summary(scene: &TraceScene<'_>, _language: Language) -> String {
    format!("{:.1} s", scene.viewport.span.seconds())
}
