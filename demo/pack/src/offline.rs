//! The service worker: the program in `src/ui/browser/offline.js`, and above it the list of all files.
//!
//! The version is a hash of that list, so that any change of any file is a new version and the same files are
//! the same one.

use crate::policy::hash;
use serde_json::{Map, Value};

const PROGRAM: &str = include_str!("../../../src/ui/browser/offline.js");

/// The service worker for these files.
pub(crate) fn service_worker<'a>(files: impl Iterator<Item = &'a (String, Vec<u8>)>) -> String {
    let list: Map<String, Value> =
        files.map(|(name, bytes)| (name.clone(), hash(bytes).into())).collect();
    let list = Value::Object(list).to_string();
    let version = hash(list.as_bytes());
    format!("const VERSION = {version:?};\nconst FILES = {list};\n\n{PROGRAM}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn version(files: &[(String, Vec<u8>)]) -> String {
        service_worker(files.iter()).lines().next().unwrap_or_default().to_owned()
    }

    #[test]
    fn the_version_follows_every_change_of_a_file() {
        let files = [("a.js".to_owned(), b"1".to_vec()), ("b.css".to_owned(), b"2".to_vec())];
        let mut changed = files.clone();
        changed[1].1 = b"3".to_vec();
        let mut renamed = files.clone();
        renamed[0].0 = "c.js".to_owned();
        assert_eq!(version(&files), version(&files.clone()));
        assert_ne!(version(&files), version(&changed));
        assert_ne!(version(&files), version(&renamed));
    }

    #[test]
    fn every_file_is_listed_with_its_hash() {
        let worker = service_worker([("a.js".to_owned(), b"abc".to_vec())].iter());
        let list = "{\"a.js\":\"sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=\"}";
        assert!(worker.contains(list), "{worker}");
    }
}
