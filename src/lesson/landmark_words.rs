//! What is said about a point before it is placed, and about an answer once it was judged.

use super::{Hint, Miss, Placement, Tolerance, Verdict, Way};
use crate::signal::{Landmark, SampleRate};
use crate::words::{Language, figure, say, say_with};
use std::borrow::Cow;

/// What is said about a point before it is placed, and while it is looked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LandmarkWords {
    /// Its name, as in `P onset`.
    pub name: Cow<'static, str>,
    /// What to do, as one request.
    pub task: Cow<'static, str>,
    /// What to look for.
    pub look_for: Cow<'static, str>,
    /// Hints, each telling more than the one before.
    pub hints: [Cow<'static, str>; 2],
    /// The worked answer: how the place is found.
    pub worked: Cow<'static, str>,
    /// Why the point may be missing or not measurable.
    pub missing: Cow<'static, str>,
}

impl LandmarkWords {
    /// What is said about a point.
    pub fn of(landmark: Landmark, language: Language) -> Self {
        let part = |part: &str| say(language, &format!("landmarks.{}.{part}", landmark.key()));
        Self {
            name: part("name"),
            task: part("task"),
            look_for: part("look_for"),
            hints: [part("hint_1"), part("hint_2")],
            worked: part("worked"),
            missing: part("missing"),
        }
    }
}

/// What is said about the answer that was checked last: the verdict, how far off, and what helps next.
/// `None` while nothing was checked.
pub fn feedback(placement: &Placement, rate: SampleRate, language: Language) -> Option<String> {
    let last = placement.tries.last()?;
    let words = LandmarkWords::of(placement.landmark, language);
    let verdict = sentence(placement, last.verdict, rate, language);
    let hint = match (last.verdict, placement.tries.len()) {
        (verdict, _) if verdict.is_settled() => None,
        (_, 1) => words.hints.first(),
        _ => words.hints.last(),
    };
    let answer = (!last.verdict.is_settled() && placement.may_reveal())
        .then(|| say(language, "lesson.feedback.may_reveal"));
    let missing = (last.verdict == Verdict::RightlyNotHere).then(|| words.missing.clone());
    let sentences = [Some(verdict.into()), hint.cloned(), missing, answer];
    Some(sentences.into_iter().flatten().collect::<Vec<_>>().join(" "))
}

/// The verdict alone. A mark that is somewhere else is told a side at first, then how near it is: a
/// distance to the millisecond would be the answer.
fn sentence(
    placement: &Placement,
    verdict: Verdict,
    rate: SampleRate,
    language: Language,
) -> String {
    let landmark = placement.landmark;
    let key = format!("lesson.feedback.{}", verdict.key());
    let Some((miss, way)) = verdict.miss().and_then(|miss| Some((miss, miss.way()?))) else {
        let exact = matches!(verdict, Verdict::Right { .. });
        return say(language, if exact { "lesson.feedback.exact" } else { &key }).into_owned();
    };
    if let Verdict::Off { hint: Hint::OnAnotherPoint(other), .. } = verdict {
        let name = |landmark| LandmarkWords::of(landmark, language).name;
        return say_with(
            language,
            "lesson.feedback.on_another_point",
            &[("point", &name(other)), ("wanted", &name(landmark))],
        );
    }
    let near = match verdict {
        Verdict::Off { .. } if placement.tries.len() > 1 => miss.within(),
        _ => None,
    };
    let key = if near.is_some() { "lesson.feedback.nearer".to_owned() } else { key };
    let limit = Tolerance::of(landmark, rate).right;
    let (way, side) = match way {
        Way::TooEarly => ("lesson.feedback.too_early", "lesson.feedback.to_the_right"),
        Way::TooLate => ("lesson.feedback.too_late", "lesson.feedback.to_the_left"),
    };
    say_with(
        language,
        &key,
        &[
            ("miss", &distance(miss, language)),
            ("way", &say(language, way)),
            ("side", &say(language, side)),
            (
                "near",
                &near.map(|near| figure(language, near.milliseconds(), 0)).unwrap_or_default(),
            ),
            ("limit", &figure(language, limit.milliseconds(), 1)),
        ],
    )
}

/// How far, without the side: `8 ms (2 samples)`.
fn distance(miss: Miss, language: Language) -> String {
    let ms = figure(language, miss.milliseconds.abs().milliseconds(), 1);
    match miss.samples.unsigned_abs() {
        1 => say_with(language, "lesson.feedback.miss_one", &[("ms", &ms)]),
        samples => say_with(
            language,
            "lesson.feedback.miss",
            &[("ms", &ms), ("samples", &samples.to_string())],
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::{
        Answer, Caution, CycleEvent, Group, Quantity, RangeSource, Refusal, Step, Try, judge,
    };
    use crate::signal::{Landmarks, SampleIndex};

    const ENGLISH: Language = Language::English;

    /// What is said after R, found at sample 100, was looked for at each of these samples, at 250 Hz.
    fn said(places: &[usize]) -> String {
        let rate = SampleRate::new(250.0).unwrap();
        let mut found = Landmarks::default();
        found.set(Landmark::R, Some(SampleIndex::new(100)));
        found.set(Landmark::TPeak, Some(SampleIndex::new(170)));
        let mut placement = Placement::untouched(Landmark::R);
        for &place in places {
            let answer = Answer::At(SampleIndex::new(place));
            let verdict = judge(Landmark::R, answer, &found, rate);
            placement.tries.push(Try { answer, verdict });
        }
        feedback(&placement, rate, ENGLISH).unwrap()
    }

    #[test]
    fn each_verdict_says_how_far_and_what_helps() {
        assert_eq!(said(&[100]), "Right: on the very sample.");
        assert_eq!(
            said(&[99]),
            "Right: 4 ms (1 sample) too early. That is within 8 ms, the limit for this point."
        );
        assert_eq!(
            said(&[104]),
            "Close: 16 ms (4 samples) too late. Move the mark to the left. Right is within 8 ms. \
             Follow the line to its highest point in this beat."
        );
        assert_eq!(
            said(&[104, 171]),
            "That is T peak. You are looking for R peak. Zoom in until you see the single samples, \
             then take the highest one. A tall T is much wider than R. \
             You may look at the worked answer now."
        );
    }

    #[test]
    fn hints_narrow_down_with_the_tries() {
        // At 250 Hz sample 40 lies 240 ms before R: a side first, then how near.
        let [first, second, third] = [&[40][..], &[40, 45], &[40, 45, 80]].map(said);
        assert!(first.starts_with("Not there yet. Look further to the right. Follow"), "{first}");
        assert!(
            second.starts_with(
                "Not there yet. It lies to the right of your mark, less than 400 ms away. Zoom in"
            ),
            "{second}"
        );
        assert!(third.contains("less than 100 ms away"), "{third}");
        assert!(!first.contains("worked answer") && second.contains("worked answer"));
    }

    #[test]
    fn every_message_of_the_lesson_exists() {
        let parts = |group: &'static str, name: &str, parts: &[&str]| -> Vec<String> {
            parts.iter().map(|part| format!("{group}.{name}.{part}")).collect()
        };
        let landmark_parts = ["name", "task", "look_for", "hint_1", "hint_2", "worked", "missing"];
        let event_parts = ["name", "electrical", "mechanical", "myth", "truth"];
        let mut keys: Vec<String> = Vec::new();
        keys.extend(
            Landmark::ALL.iter().flat_map(|one| parts("landmarks", one.key(), &landmark_parts)),
        );
        keys.extend(CycleEvent::ALL.iter().flat_map(|one| parts("cycle", one.key(), &event_parts)));
        keys.extend(
            Caution::ALL.iter().flat_map(|one| parts("cautions", one.key(), &["title", "text"])),
        );
        keys.extend(Quantity::ALL.iter().flat_map(|one| [one.name_key(), one.explain_key()]));
        keys.extend(Step::ALL.iter().map(|one| one.title_key()));
        keys.extend(Group::ALL.iter().map(|one| one.name_key().to_owned()));
        keys.extend(RangeSource::ALL.iter().map(|one| one.name_key().to_owned()));
        keys.extend(Refusal::ALL.iter().map(|one| one.key().to_owned()));
        let feedback = [
            "exact",
            "right",
            "close",
            "elsewhere",
            "nearer",
            "on_another_point",
            "rightly_not_here",
            "is_here",
            "cannot_tell",
            "miss",
            "miss_one",
            "too_early",
            "too_late",
            "to_the_left",
            "to_the_right",
            "may_reveal",
        ];
        keys.extend(feedback.iter().map(|part| format!("lesson.feedback.{part}")));
        let missing: Vec<_> = keys.iter().filter(|key| say(ENGLISH, key).contains(*key)).collect();
        assert!(missing.is_empty(), "no message for {missing:?}");
    }
}
