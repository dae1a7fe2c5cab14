//! JSON set out as a table: lists of numbers, of rows, of objects with one name a column, or an object of
//! lists of one length.
//!
//! What else an object holds beside its lists stands above the table as `key: value`, where a rate or a
//! unit is found. Lists inside rows are left out. JSON of any other form is `None`: it holds no table.

use serde_json::Value;

/// The most bytes that are read: in memory, numbers take several times their place in the file.
const LARGEST: usize = 32 * 1024 * 1024;
/// The shortest list that is a column.
const FEWEST: usize = 10;

/// Whether a text is a document of JSON, and its table if it holds one.
#[derive(Debug, PartialEq)]
pub(super) enum Json {
    Table(String),
    NoTable,
}

/// Sets out a text as a table; `None` when it is no JSON.
pub(super) fn table(text: &str) -> Option<Json> {
    let text = text.trim();
    let ends = text.starts_with('[') && text.ends_with(']')
        || text.starts_with('{') && text.ends_with('}');
    if !ends || text.len() > LARGEST {
        return None;
    }
    let value: Value = serde_json::from_str(text).ok()?;
    // Many short objects after one of many names would make a table far larger than its file.
    let table = set_out(&value, 4 * text.len() + 64);
    Some(table.map_or(Json::NoTable, Json::Table))
}

/// The table; `None` when there is none, or one of more than `most` bytes.
fn set_out(value: &Value, most: usize) -> Option<String> {
    match value {
        Value::Array(items) => rows(items, most),
        Value::Object(object) => {
            let plain = object.iter().filter(|(_, value)| !value.is_array() && !value.is_object());
            let mut text: String =
                plain.map(|(key, value)| format!("{}: {}\n", shown(key), cell(value))).collect();
            let lists = || object.iter().filter_map(|(key, value)| Some((key, value.as_array()?)));
            let columns: Vec<(&String, &Vec<Value>)> = lists()
                .filter(|(_, list)| list.len() >= FEWEST && list.iter().all(is_plain))
                .collect();
            let length = columns.iter().map(|(_, list)| list.len()).max();
            match length {
                Some(length) if columns.iter().all(|(_, list)| list.len() == length) => {
                    let names: Vec<String> = columns.iter().map(|(key, _)| shown(key)).collect();
                    text += &(names.join("\t") + "\n");
                    for row in 0..length {
                        let cells = columns.iter().filter_map(|(_, list)| list.get(row).map(cell));
                        text += &(cells.collect::<Vec<_>>().join("\t") + "\n");
                    }
                }
                Some(_) => return None,
                None => {
                    let (_, list) = lists().max_by_key(|(_, list)| list.len())?;
                    text += &rows(list, most)?;
                }
            }
            Some(text)
        }
        _ => None,
    }
}

/// A list of numbers, of lists or of objects as rows.
fn rows(items: &[Value], most: usize) -> Option<String> {
    let mut text = String::new();
    let names: Vec<&String> = match items.first()? {
        Value::Object(first) => {
            first.iter().filter(|(_, value)| is_plain(value)).map(|(key, _)| key).collect()
        }
        _ => Vec::new(),
    };
    if !names.is_empty() {
        let names: Vec<String> = names.iter().map(|name| shown(name)).collect();
        text += &(names.join("\t") + "\n");
    }
    for item in items {
        let cells: Vec<String> = match item {
            Value::Object(object) if !names.is_empty() => {
                names.iter().map(|name| object.get(*name).map_or_else(String::new, cell)).collect()
            }
            Value::Array(list) => list.iter().map(cell).collect(),
            Value::Number(_) | Value::Null => vec![cell(item)],
            _ => return None,
        };
        text += &(cells.join("\t") + "\n");
        if text.len() > most {
            return None;
        }
    }
    Some(text)
}

fn is_plain(value: &Value) -> bool {
    !value.is_array() && !value.is_object()
}

fn cell(value: &Value) -> String {
    match value {
        Value::Number(number) => number.to_string(),
        Value::Bool(on) => u8::from(*on).to_string(),
        Value::String(text) => shown(text),
        Value::Null => "null".to_owned(),
        Value::Array(_) | Value::Object(_) => String::new(),
    }
}

/// A text without what would end a cell or a line.
fn shown(text: &str) -> String {
    text.replace(|sign: char| sign.is_control(), " ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_form_becomes_the_same_rows() {
        let set_out = |text: &str| match table(text) {
            Some(Json::Table(text)) => text,
            other => panic!("{text}: {other:?}"),
        };
        assert_eq!(set_out("[0.5, null, -1e-3]"), "0.5\nnull\n-0.001\n");
        assert_eq!(set_out("[[0, 0.5], [4, 0.6]]"), "0\t0.5\n4\t0.6\n");
        let objects = r#"[{"mV": 0.5, "ms": 0}, {"ms": 4, "mV": 0.6}]"#;
        assert_eq!(set_out(objects), "mV\tms\n0.5\t0\n0.6\t4\n");
        assert_eq!(
            set_out(&format!(r#"{{"rate_hz": 250, "rows": {objects}}}"#)),
            "rate_hz: 250\nmV\tms\n0.5\t0\n0.6\t4\n"
        );
        let lists = format!(r#"{{"ecg": [{}1], "rate_hz": 250}}"#, "1,".repeat(11));
        assert_eq!(set_out(&lists), format!("rate_hz: 250\necg\n{}", "1\n".repeat(12)));
    }

    #[test]
    fn other_text_is_no_json_and_other_json_no_table() {
        assert_eq!(table("[09:14:05] 0.5\n[09:14:06]"), None);
        assert_eq!(table("{\"t\": 1}\n{\"t\": 2}"), None);
        for text in ["[\"a\"]", "{\"a\": 1}", "[]", "{\"a\": {\"b\": [1]}}"] {
            assert_eq!(table(text), Some(Json::NoTable), "{text}");
        }
    }
}
