//! One way to write a JSON value down, whatever its lines and spaces, and the SHA-256 of it.
//!
//! Keys are sorted by their bytes, nothing stands between the tokens, numbers and texts are written as
//! `serde_json` writes them. So the ends of lines and pretty printing change nothing, and every value and every
//! letter does. SHA-256 is FIPS 180-4.

use crate::signal::map_of;
use serde_json::Value;
use sha2::{Digest, Sha256};
use std::fmt::Write;

/// The SHA-256 of a value in its one form, as 64 hexadecimal digits.
pub(super) fn fingerprint(value: &Value) -> String {
    let mut text = String::new();
    write_down(value, &mut text);
    let mut digits = String::with_capacity(64);
    for byte in Sha256::digest(text.as_bytes()) {
        // Writing to a text never fails.
        let _ = write!(digits, "{byte:02x}");
    }
    digits
}

/// The reader of JSON bounds the depth, so that going down into the value is bounded too.
fn write_down(value: &Value, text: &mut String) {
    match value {
        Value::Array(items) => {
            text.push('[');
            for (place, item) in items.iter().enumerate() {
                if place > 0 {
                    text.push(',');
                }
                write_down(item, text);
            }
            text.push(']');
        }
        Value::Object(fields) => {
            // Sorted here: whether the map is depends on a feature that any crate may switch on.
            let sorted = map_of(fields.iter());
            text.push('{');
            for (place, (key, field)) in sorted.into_iter().enumerate() {
                if place > 0 {
                    text.push(',');
                }
                let _ = write!(text, "{}:", Value::from(key.as_str()));
                write_down(field, text);
            }
            text.push('}');
        }
        plain => {
            let _ = write!(text, "{plain}");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str) -> String {
        fingerprint(&serde_json::from_str(text).unwrap())
    }

    #[test]
    fn the_digest_is_sha_256() {
        // FIPS 180-4, the example "abc", here with the quotes of JSON: sha256sum of the five bytes.
        assert_eq!(
            of("\"abc\""),
            "6cc43f858fbb763301637b5af970e2a46b46f461f27e5a0f41e009c59b827b25"
        );
    }

    #[test]
    fn lines_spaces_and_the_order_of_keys_change_nothing() {
        let one = of(r#"{"b":[1,2.5],"a":{"y":null,"x":"é\n"}}"#);
        let other =
            of("{\r\n  \"a\": {\"x\": \"\\u00e9\\n\", \"y\": null},\r\n  \"b\": [1, 2.50]\r\n}");
        assert_eq!(one, other);
        assert_ne!(one, of(r#"{"b":[1,2.5],"a":{"y":null,"x":"e\n"}}"#));
        assert_ne!(one, of(r#"{"b":[1,2.25],"a":{"y":null,"x":"é\n"}}"#));
    }
}
