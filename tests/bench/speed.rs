//! Speed of what a student waits for; run with `cargo bench`.

mod csv;
mod delineation;
mod detection;
mod drawing;
mod heart;
mod steps;

use criterion::{criterion_group, criterion_main};

criterion_group!(
    speed,
    steps::of_a_lesson,
    csv::an_hour,
    detection::hour_of_reading,
    delineation::hour_of_points,
    delineation::hour_of_beats,
    drawing::an_hour,
    drawing::ten_seconds
);
criterion_main!(speed);
