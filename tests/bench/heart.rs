//! A real heart of any length at 500 Hz, as text: record 100 of the MIT-BIH Arrhythmia Database, from
//! 360 Hz by straight lines, over and over.

use beatwalk::analysis::{Cleaning, Corner, Mains, Smoother, SmootherKind, Window};
use beatwalk::formats::{Choices, Opening, SourceFile, open};
use beatwalk::signal::Recording;
use std::fmt::Write;

const HZ: usize = 500;

/// How many samples so many minutes have.
pub(crate) const fn samples(minutes: usize) -> usize {
    minutes * 60 * HZ
}

/// Rows of time and millivolts.
pub(crate) fn text(minutes: usize) -> String {
    let record = record();
    let mut text = String::from("time (s),lead I (mV)\n");
    for row in 0..samples(minutes) {
        let seconds = row as f64 / HZ as f64;
        let at = (seconds * record.rate.hz()) % (record.samples.len() - 1) as f64;
        let (index, part) = (at as usize, at.fract() as f32);
        let value = record.samples[index] * (1.0 - part) + record.samples[index + 1] * part;
        let _ = writeln!(text, "{seconds:.3},{value:.4}");
    }
    text
}

/// The one trace of a file.
pub(crate) fn opened(files: &[SourceFile]) -> Recording {
    match open(files, &Choices::default(), &mut ()) {
        Ok(Opening::Ready(mut opened)) => opened.traces.swap_remove(opened.suggested),
        _ => unreachable!("the file states everything"),
    }
}

/// Drift, hum and everything above 40 Hz out, then a parabola through 11 points.
pub(crate) fn cleaning() -> Cleaning {
    let (Ok(corner), Ok(window)) = (Corner::new(40.0), Window::new(11)) else {
        unreachable!("both are in range")
    };
    Cleaning {
        drift: true,
        mains: Some(Mains::Sixty),
        low_pass: Some(corner),
        smoother: Some(Smoother { kind: SmootherKind::SavitzkyGolay, window }),
    }
}

fn record() -> Recording {
    let file =
        |name: &str, bytes: &[u8]| SourceFile { name: name.to_owned(), bytes: bytes.to_vec() };
    opened(&[
        file("100.hea", include_bytes!("../data/mitdb/100.hea")),
        file("100.dat", include_bytes!("../data/mitdb/100.dat")),
    ])
}
