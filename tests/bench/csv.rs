//! Reading text: an hour at 1000 Hz in two columns, and the same with commas and semicolons.

use beatwalk::formats::{Choices, SourceFile, open};
use criterion::{BenchmarkId, Criterion, Throughput};
use std::fmt::Write;
use std::hint::black_box;

fn table(delimiter: char, mark: &str) -> SourceFile {
    let mut text = format!("time (s){delimiter}ecg (mV)\n");
    for row in 0..3_600_000_u32 {
        let value = (f64::from(row % 800) / 40.0 - 10.0).cosh().recip();
        let line = format!("{:.3}{delimiter}{value:.4}\n", f64::from(row) / 1000.0);
        let _ = write!(text, "{}", line.replace('.', mark));
    }
    SourceFile { name: "hour.csv".to_owned(), bytes: text.into_bytes() }
}

/// Opens an hour of text.
pub(crate) fn an_hour(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("open an hour of text");
    group.sample_size(10);
    for (name, delimiter, mark) in [("comma, point", ',', "."), ("semicolon, comma", ';', ",")] {
        let file = [table(delimiter, mark)];
        let bytes = file.iter().map(|file| file.bytes.len() as u64).sum();
        group.throughput(Throughput::Bytes(bytes));
        group.bench_function(BenchmarkId::from_parameter(name), |bencher| {
            bencher.iter(|| black_box(open(&file, &Choices::default(), &mut ()).is_ok()));
        });
    }
    group.finish();
}
