//! Builds the crate anew when a message changes: the macro that takes the messages in can't tell Cargo
//! which files it read.

fn main() {
    println!("cargo::rerun-if-changed=src/words");
}
