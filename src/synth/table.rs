//! A recording as the text file a class would have: a remark, a header and one row a sample.

use crate::signal::{MarkKind, Recording};
use std::fmt::Write;

/// The rows of a recording in millivolts: time in seconds and voltage, and a third column with 1 at
/// every mark when `marked` names it.
pub(super) fn table(recording: &Recording, remark: &str, marked: Option<&str>) -> String {
    let mut text = String::with_capacity(20 * recording.samples.len());
    let decimals = decimals_of(recording.rate.hz());
    let mut marks = recording.marks.iter().filter(|mark| mark.kind == MarkKind::Note).peekable();
    // Writing to a string can't fail.
    let _ = writeln!(text, "# {remark}");
    let _ = write!(text, "time (s),{} (mV)", recording.name);
    if let Some(name) = marked {
        let _ = write!(text, ",{name}");
    }
    text.push('\n');
    for (index, sample) in recording.samples.iter().enumerate() {
        let time = index as f64 / recording.rate.hz();
        let _ = write!(text, "{time:.decimals$},{sample:.3}");
        if marked.is_some() {
            let here = marks.next_if(|mark| mark.at.get() == index).is_some();
            text.push_str(if here { ",1" } else { ",0" });
        }
        text.push('\n');
    }
    text
}

/// As many decimals as the time of every sample needs, at most six.
fn decimals_of(hz: f64) -> usize {
    (0..6).find(|&n| (10_f64.powi(n) / hz).fract() == 0.0).unwrap_or(6) as usize
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::{Mark, SampleIndex, SampleRate, VoltageUnit};

    #[test]
    fn a_table_has_a_remark_a_header_and_a_row_a_sample() {
        let tap = Mark { at: SampleIndex::new(1), kind: MarkKind::Note, text: "tap".to_owned() };
        let recording = Recording {
            name: "EMG".to_owned(),
            rate: SampleRate::new(2000.0).unwrap(),
            unit: VoltageUnit::Millivolt,
            samples: [0.0, -0.002, 1.5].into(),
            holes: Vec::new(),
            marks: vec![tap],
        };
        assert_eq!(
            table(&recording, "invented", Some("tap")),
            "# invented\ntime (s),EMG (mV),tap\n0.0000,0.000,0\n0.0005,-0.002,1\n0.0010,1.500,0\n"
        );
        assert_eq!(decimals_of(250.0), 3);
        assert_eq!(decimals_of(360.0), 6);
    }
}
