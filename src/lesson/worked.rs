//! The worked answer on the student's own beat: how the place is found, where it is here, and how far
//! off the last mark was. Where the beat does not show the point, why it may be missing.

use super::{LandmarkWords, Placement, Way};
use crate::signal::{Landmark, Landmarks, SampleRate};
use crate::words::{Language, decimal, figure, say_with};

/// What is said once the worked answer of a point is shown; `found` are the points of its beat.
pub fn worked(
    placement: &Placement,
    found: &Landmarks,
    rate: SampleRate,
    language: Language,
) -> String {
    let words = LandmarkWords::of(placement.landmark, language);
    let Some(at) = found.at(placement.landmark) else { return words.missing.into_owned() };
    let seconds = decimal(language, rate.time_of(at).seconds(), 3);
    let from_r = found.at(Landmark::R).map(|r| at.minus(r)).filter(|&samples| samples != 0);
    let here = match from_r {
        Some(samples) => {
            let ms = samples.unsigned_abs() as f64 * 1000.0 / rate.hz();
            let key = if samples < 0 { "lesson.worked.before_r" } else { "lesson.worked.after_r" };
            say_with(language, key, &[("seconds", &seconds), ("ms", &figure(language, ms, 1))])
        }
        None => say_with(language, "lesson.worked.here", &[("seconds", &seconds)]),
    };
    let miss = placement.tries.last().and_then(|last| last.verdict.miss());
    let own = miss.and_then(|miss| {
        let key = match miss.way()? {
            Way::TooEarly => "lesson.worked.own_too_early",
            Way::TooLate => "lesson.worked.own_too_late",
        };
        let ms = figure(language, miss.milliseconds.abs().milliseconds(), 1);
        Some(say_with(language, key, &[("ms", &ms)]))
    });
    let sentences = [Some(words.worked.into_owned()), Some(here), own];
    sentences.into_iter().flatten().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::{Answer, Try, example, judge};
    use crate::signal::SampleIndex;

    #[test]
    fn it_speaks_of_this_very_beat() {
        let (recording, reading) = example::of_beats(2);
        let found = reading.beats[1].landmarks;
        let said = |found: &Landmarks, at: usize| {
            let answer = Answer::At(SampleIndex::new(at));
            let verdict = judge(Landmark::QrsOnset, answer, found, recording.rate);
            let mut placement = Placement::untouched(Landmark::QrsOnset);
            placement.tries.push(Try { answer, verdict });
            worked(&placement, found, recording.rate, Language::English)
        };
        let text = said(&found, 1070);
        assert!(text.contains("1.040 s") && text.contains("38 ms before R"), "{text}");
        assert!(text.ends_with("Your last mark was 30 ms too late."), "{text}");
        let mut without = found;
        without.set(Landmark::QrsOnset, None);
        assert_eq!(said(&without, 1070), "No clear corner can be seen before the complex.");
    }
}
