//! Conditions compared over people: each volunteer against themself, paired by code.
//!
//! Who has which value is settled in [`super::pairing`]. With more than two conditions each later one is compared with the first, and the p values
//! stand beside those adjusted for being several (Holm).

use super::no_comparison::{LeftOut, NoComparison};
use super::pairing::{Entry, Person, paired};
use crate::inquiry::stats::{FEWEST_FOR_A_TEST, FiveNumbers, Paired, holm};
use crate::words::{Phrase, phrase};

/// From so many pairs on nothing is said about their small number (common practice).
const ENOUGH: usize = 20;

/// Conditions compared over people.
#[derive(Clone, Debug, PartialEq)]
pub struct People {
    /// The names of the conditions.
    pub conditions: Vec<String>,
    /// The volunteers with at least one value, by code.
    pub people: Vec<Person>,
    /// Each condition after the first, held against it, in order.
    pub against_first: Vec<AgainstFirst>,
    /// Values that found no use, and why.
    pub left_out: Vec<LeftOut>,
}

/// One condition held against the first: the differences are its values less those of the first.
#[derive(Clone, Debug, PartialEq)]
pub struct AgainstFirst {
    /// The place of this condition.
    pub condition: usize,
    /// The difference of each pair, with the place of the person.
    pub differences: Vec<(usize, f64)>,
    /// What they come to.
    pub paired: Result<Paired, NoComparison>,
    /// The p of the t-test, adjusted for so many comparisons.
    pub adjusted_t: Option<f64>,
    /// The p of the signed-rank test, adjusted for so many comparisons.
    pub adjusted_signed_rank: Option<f64>,
}

impl People {
    /// Compares the conditions, in the order in which they are named.
    ///
    /// # Errors
    /// [`NoComparison::FewConditions`] when fewer than two are named.
    pub fn of(conditions: &[String], entries: &[Entry]) -> Result<Self, NoComparison> {
        if conditions.len() < 2 {
            return Err(NoComparison::FewConditions);
        }
        let mut left_out = Vec::new();
        let people = paired(conditions, entries, &mut left_out);
        let mut against_first: Vec<AgainstFirst> = (1..conditions.len())
            .map(|condition| AgainstFirst::of(condition, conditions, &people))
            .collect();
        adjust(&mut against_first);
        Ok(Self { conditions: conditions.to_vec(), people, against_first, left_out })
    }

    /// The values of one condition, in the order of the people.
    pub fn values(&self, condition: usize) -> Vec<f64> {
        let values = self.people.iter().map(|person| person.values.get(condition).copied());
        values.flatten().flatten().collect()
    }

    /// Values that lie far outside their condition: code, place of the condition, value. They stay in; somebody
    /// should look at the trace.
    pub fn outlying(&self) -> Vec<(&str, usize, f64)> {
        let in_condition = |condition: usize| {
            let five = FiveNumbers::of(&self.values(condition));
            self.people.iter().filter_map(move |person| {
                let value = person.values.get(condition).copied().flatten()?;
                five?.is_outlying(value).then_some((&*person.code, condition, value))
            })
        };
        (0..self.conditions.len()).flat_map(in_condition).collect()
    }

    /// What has to be said beside the numbers: what so many pairs can tell, and what several comparisons do.
    pub fn words(&self) -> Vec<Phrase> {
        let mut said: Vec<Phrase> = Vec::new();
        for one in &self.against_first {
            let n = one.differences.len();
            let words = match n {
                0 => continue,
                1 => phrase!("conditions.words.one"),
                _ if n < FEWEST_FOR_A_TEST => phrase!("conditions.words.few", n),
                _ if n < ENOUGH => phrase!("conditions.words.small", n),
                _ => phrase!("conditions.words.enough", n),
            };
            if !said.contains(&words) {
                said.push(words);
            }
        }
        if self.against_first.iter().any(|one| one.differences.len() > 1) {
            said.push(phrase!("conditions.words.interval"));
        }
        if self.against_first.iter().any(|one| one.differences.len() >= FEWEST_FOR_A_TEST) {
            said.extend([phrase!("conditions.words.effect"), phrase!("conditions.words.p")]);
        }
        let comparisons = self.against_first.len();
        if comparisons > 1 {
            said.push(phrase!("conditions.words.several", comparisons));
        }
        said
    }
}

impl AgainstFirst {
    fn of(condition: usize, conditions: &[String], people: &[Person]) -> Self {
        let differences: Vec<(usize, f64)> = people
            .iter()
            .enumerate()
            .filter_map(|(place, person)| {
                let value = |condition| person.values.get(condition).copied().flatten();
                Some((place, value(condition)? - value(0)?))
            })
            .collect();
        let alone: Vec<f64> = differences.iter().map(|one| one.1).collect();
        let name = |condition| conditions.get(condition).cloned().unwrap_or_default();
        let no_pairs = || NoComparison::NoPairs { first: name(0), second: name(condition) };
        let paired = Paired::of(&alone).ok_or_else(no_pairs);
        Self { condition, differences, paired, adjusted_t: None, adjusted_signed_rank: None }
    }

    fn p(&self, of: impl Fn(&Paired) -> Option<f64>) -> Option<f64> {
        self.paired.as_ref().ok().and_then(of)
    }
}

/// Puts the adjusted p values beside the others, when there are several.
fn adjust(all: &mut [AgainstFirst]) {
    let t = |paired: &Paired| paired.t_test.map(|test| test.p);
    let ranks = |paired: &Paired| paired.signed_rank.map(|test| test.p);
    for by_t in [true, false] {
        let p = |one: &AgainstFirst| if by_t { one.p(t) } else { one.p(ranks) };
        let given: Vec<f64> = all.iter().filter_map(p).collect();
        let mut adjusted = holm(&given).into_iter();
        for one in all.iter_mut() {
            let place = if p(one).is_some() { adjusted.next() } else { None };
            if by_t {
                one.adjusted_t = place;
            } else {
                one.adjusted_signed_rank = place;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Language;
    use proptest::prelude::*;

    fn entry(code: &str, condition: &str, value: f64) -> Entry {
        Entry { code: code.to_owned(), condition: condition.to_owned(), value: Some(value) }
    }

    fn names(of: &[&str]) -> Vec<String> {
        of.iter().map(|name| (*name).to_owned()).collect()
    }

    #[test]
    fn people_are_paired_by_code_and_what_is_left_says_why() {
        let entries = [
            entry("q1", "lying", 60.0),
            entry(" Q1 ", "standing", 80.0),
            entry("q2", "lying", 62.0),
            entry("q3", "lying", 64.0),
            entry("q3", "standing", 70.0),
            entry("q3", "standing", 71.0),
            entry("", "lying", 1.0),
            entry("q4", "sitting", 66.0),
            entry("q5", "lying", f64::NAN),
            entry("q5", "standing", 90.0),
        ];
        let found = People::of(&names(&["lying", "standing"]), &entries).unwrap();
        let [against] = &found.against_first[..] else { panic!("{found:?}") };
        assert_eq!(against.differences, [(0, 20.0)]);
        assert_eq!(found.people[0].code, "q1");
        let of = |code: &str, condition: &str| (code.to_owned(), condition.to_owned());
        let (code, condition) = of("q2", "standing");
        assert!(found.left_out.contains(&LeftOut::Missing { code, condition }));
        let (code, condition) = of("q3", "standing");
        assert!(found.left_out.contains(&LeftOut::Duplicate { code, condition }));
        let (code, condition) = of("q4", "sitting");
        assert!(found.left_out.contains(&LeftOut::UnknownCondition { code, condition }));
        let (code, condition) = of("q5", "lying");
        assert!(found.left_out.contains(&LeftOut::NotMeasurable { code, condition }));
        assert_eq!(found.left_out.len(), 5);
        for reason in &found.left_out {
            assert!(!reason.said().in_words(Language::Spanish).contains("conditions."));
        }
    }

    #[test]
    fn several_conditions_are_held_against_the_first_and_adjusted() {
        let mut entries = Vec::new();
        for person in 0..8 {
            let base = 60.0 + f64::from(person);
            for (condition, value) in [
                ("lying", base),
                ("sitting", base + 4.0 + f64::from(person % 3)),
                ("standing", base + 15.0 + f64::from(person % 4)),
            ] {
                entries.push(entry(&format!("q{person}"), condition, value));
            }
        }
        let found = People::of(&names(&["lying", "sitting", "standing"]), &entries).unwrap();
        assert_eq!(found.against_first.len(), 2);
        for one in &found.against_first {
            let paired = one.paired.as_ref().unwrap();
            assert_eq!(paired.signed_rank.unwrap().p, 2.0 / 256.0);
            // Two of the same p: both times two.
            assert_eq!(one.adjusted_signed_rank, Some(4.0 / 256.0));
            assert!(one.adjusted_t.unwrap() >= paired.t_test.unwrap().p);
        }
        assert_eq!(found.words().len(), 5);
        assert!(found.left_out.is_empty() && found.outlying().is_empty());
    }

    #[test]
    fn few_pairs_show_differences_and_no_p() {
        let entries: Vec<Entry> = (0..4)
            .flat_map(|person| {
                let code = format!("q{person}");
                [entry(&code, "a", 60.0), entry(&code, "b", 66.0 + f64::from(person))]
            })
            .collect();
        let found = People::of(&names(&["a", "b"]), &entries).unwrap();
        let paired = found.against_first[0].paired.as_ref().unwrap();
        assert_eq!((paired.difference.mean, paired.t_test, paired.signed_rank), (7.5, None, None));
        let words = found.words()[0].in_words(Language::English);
        assert!(words.starts_with("With 4 pairs no test is given"), "{words}");
    }

    #[test]
    fn an_empty_condition_has_no_pairs() {
        let conditions = names(&["a", "b"]);
        let found = People::of(&conditions, &[entry("q1", "a", 60.0)]).unwrap();
        let (first, second) = ("a".to_owned(), "b".to_owned());
        let no_pairs = NoComparison::NoPairs { first, second };
        assert_eq!(found.against_first[0].paired, Err(no_pairs));
        assert_eq!(People::of(&conditions[..1], &[]), Err(NoComparison::FewConditions));
        assert!(People::of(&conditions, &[]).unwrap().people.is_empty());
    }

    proptest! {
        #[test]
        fn nobody_is_lost(
            rows in proptest::collection::vec((0u8..5, 0usize..4, any::<f64>()), 0..40),
        ) {
            let all = names(&["a", "b", "c"]);
            let entries: Vec<Entry> = rows
                .iter()
                .map(|(code, condition, value)| {
                    let name = all.get(*condition).map_or("elsewhere", |name| name);
                    entry(&code.to_string(), name, *value)
                })
                .collect();
            let found = People::of(&all, &entries).unwrap();
            for (code, _, _) in rows {
                let code = code.to_string();
                let is_used = found.people.iter().any(|person| person.code == code);
                let is_said = found.left_out.iter().any(|one| one.code() == Some(&code));
                prop_assert!(is_used || is_said);
            }
        }
    }
}
