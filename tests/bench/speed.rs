//! Speed of what a student waits for; run with `cargo bench`.

mod csv;
mod delineation;
mod drawing;

use criterion::{criterion_group, criterion_main};

criterion_group!(
    speed,
    csv::an_hour,
    delineation::hour_of_points,
    delineation::hour_of_beats,
    drawing::an_hour,
    drawing::ten_seconds
);
criterion_main!(speed);
