//! The steps of a lesson on a real heart of 1 minute to 2 hours at 500 Hz: the file opened, the trace
//! cleaned, its beats and boundaries found. `compare.py` beside this sets them against numpy and scipy.

use crate::heart;
use beatwalk::analysis::read;
use beatwalk::formats::SourceFile;
use criterion::{BenchmarkId, Criterion, Throughput};
use std::hint::black_box;
use std::path::Path;
use std::time::Duration;

const MINUTES: [usize; 6] = [1, 5, 15, 30, 60, 120];

/// Each step on each length; the texts stay in the target folder's `tmp` for others to read.
pub(crate) fn of_a_lesson(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("steps");
    group.sample_size(10).warm_up_time(Duration::from_millis(500));
    group.measurement_time(Duration::from_secs(2));
    for minutes in MINUTES {
        let text = heart::text(minutes);
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("heart-{minutes}.csv"));
        if let Err(error) = std::fs::write(&path, &text) {
            eprintln!("{}: {error}", path.display());
        }
        let file = [SourceFile { name: "heart.csv".to_owned(), bytes: text.into_bytes() }];
        let recording = heart::opened(&file);
        let cleaning = heart::cleaning();
        group.throughput(Throughput::Elements(heart::samples(minutes) as u64));
        group.bench_function(BenchmarkId::new("open", minutes), |bencher| {
            bencher.iter(|| heart::opened(black_box(&file)).samples.len());
        });
        group.bench_function(BenchmarkId::new("clean", minutes), |bencher| {
            bencher.iter(|| cleaning.apply(black_box(&recording)));
        });
        group.bench_function(BenchmarkId::new("beats and boundaries", minutes), |bencher| {
            bencher.iter(|| read(black_box(&recording), &mut ()).beats.len());
        });
    }
    group.finish();
}
