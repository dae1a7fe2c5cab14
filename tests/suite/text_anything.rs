//! Whatever text is dropped: an answer comes, it keeps the promises of `Recording`, and what was written
//! is read back the same.

use beatwalk::formats::{Choices, Opened, Opening, SourceFile, open};
use proptest::collection::vec;
use proptest::prelude::*;

fn read(bytes: &[u8]) -> Option<Opened> {
    let file = SourceFile { name: "any.txt".to_owned(), bytes: bytes.to_vec() };
    let choices = Choices { rate_hz: None, ..Choices::default() };
    match open(&[file], &choices, &mut ()) {
        Ok(Opening::Ready(opened)) => Some(opened),
        Ok(Opening::NeedsRate(_)) => None,
        Err(error) => {
            assert!(!error.to_string().is_empty() && !error.remedy().is_empty());
            None
        }
    }
}

fn check(bytes: &[u8]) -> Result<(), TestCaseError> {
    let Some(opened) = read(bytes) else { return Ok(()) };
    prop_assert!(opened.suggested < opened.traces.len());
    for trace in &opened.traces {
        prop_assert!(trace.samples.iter().all(|value| value.is_finite()));
        prop_assert!(trace.holes.is_sorted_by_key(|hole| hole.span.start()));
        prop_assert!(trace.holes.windows(2).all(|two| two[0].span.end() <= two[1].span.start()));
        prop_assert!(trace.holes.iter().all(|hole| hole.span.end().get() <= trace.samples.len()));
        prop_assert!(trace.recorded_samples() <= bytes.len());
    }
    let lines = bytes.len() + 1;
    for note in &opened.notes {
        prop_assert!(!note.to_string().is_empty());
        prop_assert!(note.place.is_none_or(|place| (1..=lines).contains(&place.line)));
    }
    Ok(())
}

/// A cell as it should be, and as it should not.
fn cell() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => "-?[0-9]{1,4}([.,][0-9]{1,4})?",
        1 => "[0-9]{1,2}:[0-9]{2}:[0-9]{2}(\\.[0-9]{1,3})?",
        1 => Just(String::new()),
        1 => Just("NaN".to_owned()),
        1 => Just("1e308".to_owned()),
        1 => Just("-99999999999999999999".to_owned()),
        1 => "\\PC{0,8}",
    ]
}

proptest! {
    #[test]
    fn any_bytes_get_an_answer(bytes in vec(any::<u8>(), 0..600)) {
        check(&bytes)?;
    }

    #[test]
    fn any_table_gets_an_answer(
        rows in vec(vec(cell(), 1..5), 1..60),
        delimiter in prop_oneof![Just(","), Just(";"), Just("\t"), Just(" ")],
        end in prop_oneof![Just("\n"), Just("\r\n"), Just("\r")],
    ) {
        let text: String = rows.iter().map(|row| row.join(delimiter) + end).collect();
        check(text.as_bytes())?;
    }

    #[test]
    fn any_damage_to_a_good_table_gets_an_answer(
        damage in vec((0usize..2400, any::<u8>()), 0..40),
        cut in 0usize..2400,
    ) {
        let table: String = (0..150).map(|row| format!("{:.3},{:.4}\n", f64::from(row) * 0.004, (f64::from(row) * 0.3).sin())).collect();
        let mut bytes = table.into_bytes();
        for (at, byte) in damage {
            if let Some(place) = bytes.get_mut(at) {
                *place = byte;
            }
        }
        bytes.truncate(cut);
        check(&bytes)?;
    }

    #[test]
    fn what_was_written_is_read_back(
        values in vec(-5.0f32..5.0, 40..300),
        hz in prop_oneof![Just(100.0f64), Just(250.0), Just(333.0), Just(500.0), Just(1000.0)],
        comma in any::<bool>(),
        (delimiter, end) in (prop_oneof![Just(";"), Just("\t")], prop_oneof![Just("\n"), Just("\r\n"), Just("\r")]),
    ) {
        let mut text = format!("time (s){delimiter}ecg (mV){end}");
        for (row, value) in values.iter().enumerate() {
            text += &format!("{:.6}{delimiter}{value}{end}", row as f64 / hz);
        }
        let text = if comma { text.replace('.', ",") } else { text };
        let opened = read(text.as_bytes());
        prop_assert!(opened.is_some());
        let trace = &opened.as_ref().map(|opened| &opened.traces[0]);
        prop_assert_eq!(trace.map(|trace| trace.samples.to_vec()), Some(values));
        prop_assert!(trace.is_some_and(|trace| (trace.rate.hz() / hz - 1.0).abs() < 1e-4));
    }
}
