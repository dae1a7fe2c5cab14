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
            assert!(!error.to_string().is_empty() && !error.remedy().to_string().is_empty());
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
        (delimiter, mark) in prop_oneof![
            Just((",", '.')), Just((";", '.')), Just((";", ',')), Just(("\t", '.')), Just(("\t", ',')),
            Just((" ", '.')), Just((" ", ',')),
        ],
        end in prop_oneof![Just("\n"), Just("\r\n"), Just("\r")],
        (time_unit, per_second) in
            prop_oneof![Just(("s", 1.0)), Just(("ms", 1e3)), Just(("µs", 1e6)), Just(("min", 1.0 / 60.0))],
        (unit, per_millivolt) in prop_oneof![Just(("mV", 1.0f32)), Just(("µV", 1e3)), Just(("V", 1e-3))],
        bytes in 0..4,
    ) {
        let mut text = format!("time_{time_unit}{delimiter}ecg_{unit}{end}");
        for (row, value) in values.iter().enumerate() {
            let time = format!("{:.9}", row as f64 / hz * per_second);
            let value = format!("{}", value * per_millivolt);
            text += &format!("{time}{delimiter}{value}{end}").replace('.', &mark.to_string());
        }
        let bytes: Vec<u8> = match bytes {
            0 => text.into_bytes(),
            1 => ["\u{feff}", &text].concat().into_bytes(),
            2 => text.encode_utf16().flat_map(u16::to_le_bytes).collect(),
            _ => text.chars().map(|sign| u8::try_from(u32::from(sign)).unwrap()).collect(),
        };
        let opened = read(&bytes);
        prop_assert!(opened.is_some());
        let trace = &opened.as_ref().map(|opened| &opened.traces[0]);
        let samples = trace.map(|trace| trace.samples.to_vec()).unwrap_or_default();
        prop_assert_eq!(samples.len(), values.len());
        // A value in mV comes back to the bit, one in another unit to the last digit of single precision.
        let off = samples.iter().zip(&values).map(|(read, value)| (read - value).abs());
        let allowed = if unit == "mV" { 0.0 } else { 1e-6 };
        prop_assert!(off.fold(0.0, f32::max) <= allowed);
        prop_assert!(trace.is_some_and(|trace| (trace.rate.hz() / hz - 1.0).abs() < 1e-4));
    }
}
