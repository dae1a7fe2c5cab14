//! Compared conditions in words: a summary for those who can't see the drawing, and the rows of the tables.

use super::measured::Measured;
use super::one_person::OnePerson;
use super::people::{AgainstFirst, People};
use crate::inquiry::stats::{Estimate, FiveNumbers};
use crate::words::{Language, decimal, figure, say, say_with};

/// What can't be given.
const DASH: &str = "–";
/// Below this p is told as "below".
const LEAST_P: f64 = 0.001;

/// What the drawing of conditions shows; `values` are those of each condition.
pub fn groups_summary(
    measured: Measured,
    names: &[String],
    values: &[Vec<f64>],
    language: Language,
) -> String {
    if values.iter().all(Vec::is_empty) {
        return say(language, "conditions.chart.empty").into_owned();
    }
    let (quantity, conditions) = (measured.name(language), names.join(", "));
    let head = [("quantity", &*quantity), ("unit", measured.unit()), ("conditions", &conditions)];
    let mut told = vec![say_with(language, "conditions.chart.summary", &head)];
    for (name, values) in names.iter().zip(values) {
        let Some(five) = FiveNumbers::of(values) else { continue };
        let [median, low, high] = [five.median, five.lowest, five.highest]
            .map(|value| decimal(language, value, measured.decimals()));
        let n = values.len().to_string();
        let places = [
            ("condition", &**name),
            ("n", &n),
            ("median", &median),
            ("low", &low),
            ("high", &high),
        ];
        told.push(say_with(language, "conditions.chart.group", &places));
    }
    told.join(" ")
}

impl People {
    /// The head of the table of people: code, each condition, the difference of each from the first.
    pub fn head(&self, language: Language) -> Vec<String> {
        let code = say(language, "conditions.table.code").into_owned();
        let differences = self.against_first.iter().map(|one| self.difference_of(one, language));
        let conditions = self.conditions.iter().cloned();
        std::iter::once(code).chain(conditions).chain(differences).collect()
    }

    /// The rows of that table, one a person.
    pub fn rows(&self, measured: Measured, language: Language) -> Vec<Vec<String>> {
        let written = |value: Option<f64>| {
            value.map_or_else(|| DASH.to_owned(), |one| decimal(language, one, measured.decimals()))
        };
        let row = |(place, person): (usize, &super::Person)| {
            let differences = self.against_first.iter().map(|one| {
                let found = one.differences.iter().find(|difference| difference.0 == place);
                written(found.map(|difference| difference.1))
            });
            let values = person.values.iter().map(|&value| written(value));
            std::iter::once(person.code.clone()).chain(values).chain(differences).collect()
        };
        self.people.iter().enumerate().map(row).collect()
    }

    /// What one condition comes to against the first: name and value.
    pub fn result_rows(
        &self,
        one: &AgainstFirst,
        measured: Measured,
        language: Language,
    ) -> Vec<(String, String)> {
        let name = |key: &str| say(language, &format!("conditions.table.{key}")).into_owned();
        let paired = match &one.paired {
            Ok(paired) => paired,
            Err(why) => {
                return vec![(self.difference_of(one, language), why.said().in_words(language))];
            }
        };
        let decimals = measured.decimals() + 1;
        let plain = |value: Option<f64>, decimals| {
            value.map_or_else(|| DASH.to_owned(), |value| decimal(language, value, decimals))
        };
        let interval = paired.interval;
        let mean = interval.map_or_else(
            || plain(Some(paired.difference.mean), decimals),
            |interval| interval.in_words(decimals, language),
        );
        let not_given = || name("no_test");
        let t = paired.t_test.map_or_else(not_given, |test| {
            let places = [
                ("t", &*decimal(language, test.t, 2)),
                ("df", &*figure(language, test.degrees_of_freedom, 0)),
                ("p", &*p(test.p, language)),
            ];
            say_with(language, "conditions.table.t_result", &places)
        });
        let ranks = paired.signed_rank.map_or_else(not_given, |test| {
            let places = [
                ("w", &*figure(language, test.above.min(test.below), 1)),
                ("n", &*test.n.to_string()),
                ("p", &*p(test.p, language)),
            ];
            say_with(language, "conditions.table.rank_result", &places)
        });
        let mut rows = vec![
            (name("pairs"), paired.difference.n.to_string()),
            (name("mean_difference"), mean),
            (name("spread"), plain(paired.difference.deviation, decimals)),
            (name("effect"), plain(paired.effect, 2)),
            (name("t_test"), t),
            (name("signed_rank"), ranks),
        ];
        if self.against_first.len() > 1 {
            let adjusted = [one.adjusted_t, one.adjusted_signed_rank];
            let [t, ranks] =
                adjusted.map(|one| one.map_or_else(|| DASH.to_owned(), |one| p(one, language)));
            let places = [("t", &*t), ("ranks", &*ranks)];
            rows.push((name("holm"), say_with(language, "conditions.table.adjusted", &places)));
        }
        rows
    }

    fn difference_of(&self, one: &AgainstFirst, language: Language) -> String {
        let name = |place: usize| self.conditions.get(place).map_or("", |name| name);
        let places = [("first", name(0)), ("second", name(one.condition))];
        say_with(language, "conditions.table.difference", &places)
    }

    /// Values that somebody should look at, one sentence each.
    pub fn outlying_words(&self, measured: Measured, language: Language) -> Vec<String> {
        let sentence = |(code, condition, value): (&str, usize, f64)| {
            let name = self.conditions.get(condition).map_or("", |name| name);
            let value = decimal(language, value, measured.decimals());
            let places = [("code", code), ("condition", name), ("value", &*value)];
            say_with(language, "conditions.outlying", &places)
        };
        self.outlying().into_iter().map(sentence).collect()
    }
}

impl OnePerson {
    /// The difference of the medians of each condition from the first: name and value.
    pub fn rows(&self, measured: Measured, language: Language) -> Vec<(String, String)> {
        let first = self.conditions.first().map_or("", |first| &first.condition);
        let others = self.conditions.iter().skip(1).zip(&self.differences);
        let row = |(other, difference): (&super::BeatsOf, &Estimate)| {
            let places = [("first", first), ("second", &*other.condition)];
            let name = say_with(language, "conditions.table.difference", &places);
            (name, difference.in_words(measured.decimals() + 1, language))
        };
        others.map(row).collect()
    }
}

/// What stands after "p": that it equals a number of three decimals, or is below the least of them.
fn p(value: f64, language: Language) -> String {
    let (sign, shown) = if value < LEAST_P { ("<", LEAST_P) } else { ("=", value) };
    format!("{sign} {}", decimal(language, shown, 3))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inquiry::Entry;
    use crate::lesson::Quantity;

    #[test]
    fn the_worked_example_of_a_class_as_it_is_shown() {
        let before = [72.0, 68.0, 80.0, 75.0, 66.0, 78.0, 71.0, 84.0];
        let after = [69.0, 66.0, 74.0, 73.0, 66.0, 71.0, 70.0, 77.0];
        let rows = before.into_iter().zip(after).enumerate();
        let entries: Vec<Entry> = rows
            .flat_map(|(person, (a, b))| {
                [("before", a), ("after", b)].map(|(condition, value)| Entry {
                    code: format!("q{person}"),
                    condition: condition.to_owned(),
                    value: Some(value),
                })
            })
            .collect();
        let names = ["before", "after"].map(str::to_owned);
        let found = People::of(&names, &entries).unwrap();
        let rate = Measured::Of(Quantity::Rate);
        let results = found.result_rows(&found.against_first[0], rate, Language::English);
        let told: Vec<&str> = results.iter().map(|row| &*row.1).collect();
        assert_eq!(
            told,
            [
                "8",
                "\u{2212}3.50 [\u{2212}5.82 to \u{2212}1.18]",
                "2.78",
                "\u{2212}1.26",
                "t = \u{2212}3.56, df = 7, p = 0.009",
                "W = 0, n = 7, p = 0.016",
            ]
        );
        let people = found.rows(rate, Language::Spanish);
        assert_eq!(people[0], ["q0", "72,0", "69,0", "\u{2212}3,0"]);
        assert_eq!(found.head(Language::English)[3], "Difference, after less before");
        let values = [found.values(0), found.values(1)];
        let summary = groups_summary(rate, &names, &values, Language::English);
        assert!(summary.contains("before: n 8, median 73.5, from 66.0 to 84.0."), "{summary}");
    }
}
