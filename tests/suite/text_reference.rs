//! Text files that another program wrote, with sums that it knows: `tests/data/reference/text_cases.py`.
//!
//! Each has to come back with its rate, its length, its gap and the sum of all its values.

use beatwalk::formats::{Choices, Opened, Opening, SourceFile, open};
use beatwalk::signal::VoltageUnit;
use serde::Deserialize;
use std::path::Path;

/// What a file holds, by the program that wrote it.
#[derive(Deserialize)]
struct Known {
    file: String,
    unit: String,
    rate_hz: f64,
    samples: usize,
    recorded: usize,
    first: f64,
    last: f64,
    sum: f64,
    longest_gap: usize,
}

fn read(path: &Path) -> Result<Opened, String> {
    let bytes = std::fs::read(path).map_err(|error| error.to_string())?;
    let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    match open(&[SourceFile { name, bytes }], &Choices::default(), &mut ()) {
        Ok(Opening::Ready(opened)) => Ok(opened),
        Ok(Opening::NeedsRate(_)) => Err("no rate".to_owned()),
        Err(error) => Err(error.to_string()),
    }
}

/// What is not as known, if anything.
fn differences(known: &Known, opened: &Opened) -> Vec<String> {
    let trace = &opened.traces[opened.suggested];
    let unit = match trace.unit {
        VoltageUnit::Millivolt => "millivolt",
        VoltageUnit::Counts => "counts",
        VoltageUnit::Unstated => "unstated",
    };
    let in_hole = |at: usize| {
        trace
            .holes
            .iter()
            .any(|hole| (hole.span.start().get()..hole.span.end().get()).contains(&at))
    };
    let recorded: Vec<f64> = (0..trace.samples.len())
        .filter(|at| !in_hole(*at))
        .map(|at| f64::from(trace.samples[at]))
        .collect();
    let longest = trace.holes.iter().map(|hole| hole.span.len()).max().unwrap_or(0);
    let largest = recorded.iter().copied().fold(1.0, |a: f64, b| a.max(b.abs()));
    // Half a unit in the last place of single precision, for each value.
    let one = largest * f64::from(f32::EPSILON);
    let mut wrong = Vec::new();
    let mut same = |what: &str, found: f64, known: f64, allowed: f64| {
        let is_same = (found - known).abs() <= allowed;
        if !is_same {
            wrong.push(format!("{what}: {found}, not {known}"));
        }
    };
    same("Hz", trace.rate.hz(), known.rate_hz, known.rate_hz * 1e-6);
    same("samples", trace.samples.len() as f64, known.samples as f64, 0.0);
    same("recorded", recorded.len() as f64, known.recorded as f64, 0.0);
    same("longest gap", longest as f64, known.longest_gap as f64, 0.0);
    same("first", recorded.first().copied().unwrap_or(f64::NAN), known.first, one);
    same("last", recorded.last().copied().unwrap_or(f64::NAN), known.last, one);
    same("sum", recorded.iter().sum(), known.sum, one * known.recorded as f64);
    if unit != known.unit {
        wrong.push(format!("in {unit}, not {}", known.unit));
    }
    wrong
}

#[test]
fn what_another_program_wrote_is_read_as_it_knows() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/reference");
    let table = std::fs::read_to_string(folder.join("text_cases.json")).unwrap();
    let known: Vec<Known> = serde_json::from_str(&table).unwrap();
    assert!(known.len() > 30);
    let mut wrong = Vec::new();
    for known in &known {
        match read(&folder.join("text").join(&known.file)) {
            Ok(opened) => {
                let each = differences(known, &opened).into_iter();
                wrong.extend(each.map(|said| format!("{}: {said}", known.file)));
            }
            Err(error) => wrong.push(format!("{}: {error}", known.file)),
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}
