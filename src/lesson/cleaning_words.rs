//! What is said about a cleaned copy: what was taken out of it, and how it is measured.

use crate::analysis::Cleaning;
use crate::signal::SampleRate;
use crate::words::{Language, figure, say, say_with};

/// What was taken out, in the order in which it went; `None` when nothing was.
pub fn cleaning_words(cleaning: &Cleaning, rate: SampleRate, language: Language) -> Option<String> {
    let with = |key: &str, hz: f64| say_with(language, key, &[("hz", &figure(language, hz, 1))]);
    let drift = cleaning.drift.then(|| say(language, "cleaning.drift.done").into_owned());
    let hum = cleaning.mains.map(|mains| with("cleaning.hum.done", mains.frequency().hertz()));
    let low = cleaning.low_pass.map(|corner| with("cleaning.low_pass.done", corner.hz()));
    let smoothed = cleaning.smoother.map(|smoother| {
        let kind = say(language, &format!("cleaning.smoother.{}", smoother.kind.key()));
        let points = smoother.window.points().to_string();
        let ms = figure(language, smoother.window.width(rate).milliseconds(), 1);
        let places = [("kind", &*kind), ("points", &*points), ("ms", &*ms)];
        say_with(language, "cleaning.smoother.done", &places)
    });
    let parts: Vec<String> = [drift, hum, low, smoothed].into_iter().flatten().collect();
    (!parts.is_empty()).then(|| parts.join("; "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{Mains, Smoother, SmootherKind, Window};

    #[test]
    fn what_was_taken_out_stands_in_its_order() {
        let rate = SampleRate::new(250.0).unwrap();
        let words = |cleaning: &Cleaning| cleaning_words(cleaning, rate, Language::English);
        assert_eq!(words(&Cleaning::default()), None);
        for kind in SmootherKind::ALL {
            let smoother = Some(Smoother { kind, window: Window::NARROWEST });
            let cleaning = Cleaning { mains: Some(Mains::Fifty), smoother, ..Cleaning::default() };
            let said = words(&cleaning).unwrap();
            assert!(said.contains("50 Hz") && said.ends_with("5 points (16 ms)"), "{said}");
            assert!(!said.contains("cleaning."), "{said}");
        }
    }
}
