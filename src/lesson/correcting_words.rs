//! What is said about corrected beats: what was just done, how many there are, why a beat is left out.

use super::{BeatDeed, BeatRefusal};
use crate::analysis::{Corrected, WhySetAside};
use crate::signal::{SampleIndex, SampleRate};
use crate::words::{Language, decimal, say, say_with};

/// What was done, or why it was not.
pub fn deed_words(
    deed: Result<BeatDeed, BeatRefusal>,
    rate: SampleRate,
    language: Language,
) -> String {
    let time = |at: SampleIndex| decimal(language, rate.time_of(at).seconds(), 3);
    let at = |key: &str, at: SampleIndex| say_with(language, key, &[("time", &time(at))]);
    match deed {
        Err(refusal) => say(language, refusal.key()).into_owned(),
        Ok(BeatDeed::Added { at: place, off: 0 }) => at("beats.deed.added", place),
        Ok(BeatDeed::Added { at: place, off }) => {
            let apart =
                off.unsigned_abs() as f64 * rate.interval().to_milliseconds().milliseconds();
            let places = [("time", &*time(place)), ("ms", &*decimal(language, apart, 0))];
            say_with(language, "beats.deed.added_on_crest", &places)
        }
        Ok(BeatDeed::Moved(place)) => at("beats.deed.moved", place),
        Ok(BeatDeed::TakenAway(place)) => at("beats.deed.taken_away", place),
        Ok(BeatDeed::LeftOut(place)) => at("beats.deed.left_out", place),
        Ok(BeatDeed::Counted(place)) => at("beats.deed.counted", place),
        Ok(BeatDeed::AllPutBack) => say(language, "beats.deed.all_put_back").into_owned(),
        Ok(BeatDeed::Undone(_)) => say(language, "beats.deed.undone").into_owned(),
        Ok(BeatDeed::Redone(_)) => say(language, "beats.deed.redone").into_owned(),
    }
}

/// How many beats were corrected by hand, and how; `None` when none was.
pub fn corrected_words(corrected: Corrected, language: Language) -> Option<String> {
    let Corrected { added, moved, taken_away, left_out, counted } = corrected;
    let parts: Vec<String> = [
        ("beats.corrected.added", added),
        ("beats.corrected.moved", moved),
        ("beats.corrected.taken_away", taken_away),
        ("beats.corrected.left_out", left_out),
        ("beats.corrected.counted", counted),
    ]
    .into_iter()
    .filter(|(_, n)| *n > 0)
    .map(|(key, n)| say_with(language, key, &[("n", &n.to_string())]))
    .collect();
    let places = [("n", &*corrected.all().to_string()), ("parts", &*parts.join(", "))];
    (corrected.all() > 0).then(|| say_with(language, "beats.corrected.value", &places))
}

/// Why averages leave a beat out, as half a sentence.
pub fn aside_words(why: WhySetAside, language: Language) -> String {
    say(language, &format!("beats.aside.{}", why.key())).into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_reason_and_every_refusal_has_its_words() {
        for language in Language::ALL {
            for why in WhySetAside::ALL {
                let said = aside_words(why, language);
                assert!(!said.is_empty() && !said.contains("beats."), "{why:?}: {said}");
            }
            for refusal in BeatRefusal::ALL {
                let rate = SampleRate::new(250.0).unwrap();
                let said = deed_words(Err(refusal), rate, language);
                assert!(said.ends_with('.') && !said.contains("beats."), "{refusal:?}: {said}");
            }
        }
    }

    #[test]
    fn a_deed_says_where_and_how_far_the_crest_was() {
        let rate = SampleRate::new(250.0).unwrap();
        let added = BeatDeed::Added { at: SampleIndex::new(801), off: -3 };
        let said = deed_words(Ok(added), rate, Language::English);
        assert!(said.contains("3.204 s") && said.contains("12 ms"), "{said}");
        let said = deed_words(Ok(added), rate, Language::Spanish);
        assert!(said.contains("3,204 s"), "{said}");
    }

    #[test]
    fn only_what_was_done_is_counted() {
        let corrected = Corrected { added: 1, taken_away: 2, ..Corrected::default() };
        let said = corrected_words(corrected, Language::English).unwrap();
        assert_eq!(said, "3 (1 added, 2 taken away)");
        assert_eq!(corrected_words(Corrected::default(), Language::English), None);
    }
}
