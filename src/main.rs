//! The app. One WASM, two entries: the page and the worker load the same module.

fn main() {}
