//! The pooled table for other programs; the rules of `report/table.rs` hold.

use super::PoolEntry;
use crate::inquiry::Measured;
use crate::report::table::{harmless, number, table};

/// Digits after the point of every number.
const DECIMALS: usize = 3;

/// The entries, one row each; what can't be measured is empty.
pub fn pool_csv(entries: &[PoolEntry]) -> String {
    let first = ["code", "condition", "file", "seconds", "beats_counted"].map(str::to_owned);
    let column = |measured: &Measured| match measured.unit() {
        "/min" => format!("{}_per_min", measured.key()),
        unit => format!("{}_{unit}", measured.key()),
    };
    let head = first.into_iter().chain(Measured::ALL.iter().map(column)).collect();
    let row = |entry: &PoolEntry| {
        let first = [
            harmless(&entry.code),
            harmless(&entry.condition),
            harmless(&entry.file),
            number(Some(entry.seconds), DECIMALS),
            entry.counted.to_string(),
        ];
        first.into_iter().chain(entry.values.map(|value| number(value, DECIMALS))).collect()
    };
    table(head, entries.iter().map(row))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_row_an_entry_and_no_formula_in_it() {
        let mut values = [None; Measured::ALL.len()];
        values[0] = Some(71.25);
        let entry = PoolEntry {
            file: "a.csv".to_owned(),
            code: "=1+1".to_owned(),
            condition: "rest".to_owned(),
            seconds: 30.0,
            counted: 35,
            values,
        };
        let text = pool_csv(&[entry]);
        let (head, row) = text.split_once("\r\n").unwrap();
        assert!(head.starts_with("code,condition,file,seconds,beats_counted,"), "{head}");
        assert!(row.starts_with("'=1+1,rest,a.csv,30.000,35,71.250,,"), "{row}");
        assert_eq!(head.matches(',').count(), row.trim_end().matches(',').count());
    }
}
