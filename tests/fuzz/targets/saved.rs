//! Any text as a saved reading: refused, or read, written and read again to the same.
#![no_main]

use beatwalk::report::SavedReading;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let Ok(reading) = SavedReading::from_json(text) else { return };
    let written = reading.to_json().expect("what was read can be written");
    assert_eq!(SavedReading::from_json(&written).as_ref(), Ok(&reading));
});
