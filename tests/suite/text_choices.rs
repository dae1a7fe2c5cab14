//! What was understood is shown, what is not known is asked, and what the student says counts.

use crate::field_cases::{file, opened};
use beatwalk::formats::{Choices, Opening, TextLayout, TimeColumn, TimeUnit, open};

#[test]
fn the_layout_shows_what_was_understood() {
    let layout = |name: &str| -> TextLayout { opened(name, &Choices::default()).layout.unwrap() };
    let found = layout("field-cases/o01-semicolon-comma.csv");
    assert_eq!(found.columns, ["Zeit", "EKG"]);
    assert_eq!((found.time_column, found.time_unit), (TimeColumn::At(0), Some(TimeUnit::Second)));
    assert_eq!((found.first_data_line, found.preview[1][1].as_str()), (3, "0,0606"));
    assert_eq!(layout("field-cases/o03-bom-comments.csv").columns, ["t", "ecg"]);
    assert_eq!(layout("field-cases/o04-utf16le-bom.txt").encoding, "UTF-16LE");
}

#[test]
fn without_a_rate_the_student_is_asked_and_told_what_is_likely() {
    let name = "field-cases/o08-one-column-no-rate.csv";
    let Ok(Opening::NeedsRate(asked)) = open(&[file(name)], &Choices::default(), &mut ()) else {
        panic!("a rate was assumed");
    };
    let (low, high) = asked.plausible_hz.unwrap();
    assert!((125.0..142.0).contains(&low) && (625.0..710.0).contains(&high), "{low} to {high} Hz");
    let chosen = opened(name, &Choices { rate_hz: Some(250.0), ..Choices::default() });
    assert_eq!((chosen.traces[0].rate.hz(), chosen.traces[0].samples.len()), (250.0, 2500));

    // Sample numbers without a rate are no time either.
    let asked = open(&[file("ecgid/ecgid_a.csv")], &Choices::default(), &mut ());
    assert!(matches!(asked, Ok(Opening::NeedsRate(asked)) if asked.samples == 10_000));
    let chosen =
        opened("ecgid/ecgid_a.csv", &Choices { rate_hz: Some(500.0), ..Choices::default() });
    assert_eq!(chosen.traces[0].duration().seconds(), 20.0);
}

#[test]
fn what_the_student_chooses_counts() {
    let choices = Choices { time_unit: Some(TimeUnit::Microsecond), ..Choices::default() };
    assert_eq!(
        opened("field-cases/o09-ms-unlabelled.csv", &choices).traces[0].rate.hz(),
        250_000.0
    );
    let choices = Choices { value_column: Some(2), ..Choices::default() };
    let second = opened("csv/v5_units_row_two_leads_quoted_gaps.csv", &choices);
    assert_eq!(second.traces[second.suggested].name, "Lead II");
    let choices = Choices {
        time_column: Some(TimeColumn::Absent),
        rate_hz: Some(125.0),
        ..Choices::default()
    };
    let both = opened("field-cases/o28-three-beats.csv", &choices);
    assert_eq!(both.traces[both.suggested].rate.hz(), 125.0);
}
