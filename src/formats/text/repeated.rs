//! Rows that a logger wrote twice.

use super::line_list::LineList;
use super::notes::TextNote;
use super::table::Table;
use super::tell::Told;

/// Drops rows that repeat the one before in time and in every value, unless equal stamps also come
/// with different values: then the clock is coarse, and nothing is repeated.
pub(super) fn drop_repeated_rows(times: &mut Vec<f64>, table: &mut Table, told: &mut Told) {
    let same_time = |row: usize| row > 0 && times.get(row) == times.get(row - 1);
    let same_values =
        |row: usize| table.values.iter().all(|values| values.get(row) == values.get(row - 1));
    let rows = || (1..times.len()).filter(|row| same_time(*row));
    let count = rows().count();
    if count == 0 || count * 20 > times.len() || !rows().all(same_values) {
        return;
    }
    let repeated: Vec<usize> = rows().collect();
    let mut lines = LineList::default();
    lines.extend(repeated.iter().map(|row| table.line_of(*row)));
    told.list(TextNote::RepeatedRows, lines);
    drop_rows(times, &repeated);
    table.values.iter_mut().for_each(|values| drop_rows(values, &repeated));
    table.drop_lines(&repeated);
}

/// Takes out the places listed, which rise.
fn drop_rows<T>(list: &mut Vec<T>, places: &[usize]) {
    let mut places = places.iter().peekable();
    let mut at = 0;
    list.retain(|_| {
        let drop = places.next_if_eq(&&at).is_some();
        at += 1;
        !drop
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_dropped_by_place() {
        let mut list = vec![0, 1, 2, 3, 4];
        drop_rows(&mut list, &[1, 4]);
        assert_eq!(list, [0, 2, 3]);
    }
}
