//! Who has which value: entries sorted by code and condition.
//!
//! Codes are the same when they are so without edges and capitals. A code that comes twice in one condition
//! has no value there, because nobody can tell which is meant. Values that are not finite can't be measured.
//! Every value that found no use is listed with its reason.

use super::no_comparison::LeftOut;
use std::collections::BTreeMap;

/// One value: whose, and in which condition.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The volunteer's code.
    pub code: String,
    /// The name of the condition.
    pub condition: String,
    /// The value; `None` where it can't be measured.
    pub value: Option<f64>,
}

/// One volunteer.
#[derive(Clone, Debug, PartialEq)]
pub struct Person {
    /// The code as it was first written.
    pub code: String,
    /// The values in the order of the conditions; `None` where there is no one value.
    pub values: Vec<Option<f64>>,
}

/// The people with at least one value, by code; what is left out is added to the list.
pub(super) fn paired(
    conditions: &[String],
    entries: &[Entry],
    left_out: &mut Vec<LeftOut>,
) -> Vec<Person> {
    let sorted = sort(conditions, entries, left_out).into_values();
    sorted.filter_map(|seen| one_value_each(seen, conditions, left_out)).collect()
}

/// The entries of each code, by condition.
struct Seen<'a> {
    code: &'a str,
    by_condition: Vec<Vec<Option<f64>>>,
}

fn sort<'a>(
    conditions: &[String],
    entries: &'a [Entry],
    left_out: &mut Vec<LeftOut>,
) -> BTreeMap<String, Seen<'a>> {
    let mut sorted: BTreeMap<String, Seen<'a>> = BTreeMap::new();
    for entry in entries {
        let (code, condition) = (entry.code.trim(), entry.condition.clone());
        let Some(place) = conditions.iter().position(|name| *name == condition) else {
            left_out.push(LeftOut::UnknownCondition { code: code.to_owned(), condition });
            continue;
        };
        if code.is_empty() {
            left_out.push(LeftOut::NoCode { condition });
            continue;
        }
        let seen = sorted
            .entry(code.to_lowercase())
            .or_insert_with(|| Seen { code, by_condition: vec![Vec::new(); conditions.len()] });
        let value = entry.value.filter(|value| value.is_finite());
        if let Some(values) = seen.by_condition.get_mut(place) {
            values.push(value);
        }
    }
    sorted
}

/// A volunteer with the one value of each condition; `None` when there is none at all.
fn one_value_each(
    seen: Seen<'_>,
    conditions: &[String],
    left_out: &mut Vec<LeftOut>,
) -> Option<Person> {
    let code = seen.code.to_owned();
    let mut values = Vec::with_capacity(conditions.len());
    for (entries, condition) in seen.by_condition.iter().zip(conditions) {
        let (code, condition) = (code.clone(), condition.clone());
        let value = match entries[..] {
            [] => Err(LeftOut::Missing { code, condition }),
            [None] => Err(LeftOut::NotMeasurable { code, condition }),
            [Some(value)] => Ok(value),
            _ => Err(LeftOut::Duplicate { code, condition }),
        };
        values.push(value.map_err(|why| left_out.push(why)).ok());
    }
    values.iter().any(Option::is_some).then_some(Person { code, values })
}
