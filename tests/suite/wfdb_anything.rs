//! Whatever bytes are dropped as a record: an answer comes, and never more samples than bytes hold.

use beatwalk::formats::{Choices, Opening, SourceFile, open};
use proptest::collection::vec;
use proptest::prelude::*;

fn dropped(header: &str, signal: &[u8], marks: &[u8]) -> Vec<SourceFile> {
    let file =
        |name: &str, bytes: &[u8]| SourceFile { name: name.to_owned(), bytes: bytes.to_vec() };
    vec![file("r.hea", header.as_bytes()), file("r.dat", signal), file("r.atr", marks)]
}

/// Opens, and holds what came to the promises of `Recording`.
fn check(files: &[SourceFile]) -> Result<(), TestCaseError> {
    let Ok(Opening::Ready(opened)) = open(files, &Choices::default(), &mut ()) else {
        return Ok(());
    };
    let signal = files.iter().find(|file| file.name == "r.dat").map_or(0, |file| file.bytes.len());
    let samples: usize = opened.traces.iter().map(|trace| trace.samples.len()).sum();
    prop_assert!(samples <= signal, "{samples} samples from {signal} bytes");
    prop_assert!(opened.suggested < opened.traces.len());
    for trace in &opened.traces {
        prop_assert!(trace.samples.iter().all(|value| value.is_finite()));
        prop_assert!(trace.marks.is_sorted_by_key(|mark| mark.at));
        prop_assert!(trace.marks.iter().all(|mark| mark.at.get() < trace.samples.len()));
        prop_assert!(trace.holes.is_sorted_by_key(|hole| hole.span.start()));
        prop_assert!(trace.holes.iter().all(|hole| hole.span.end().get() <= trace.samples.len()));
    }
    for note in &opened.notes {
        prop_assert!(!note.to_string().is_empty());
    }
    Ok(())
}

/// Fields as a header has them, and as it should not.
fn field() -> impl Strategy<Value = String> {
    prop_oneof![
        "[0-9]{1,3}",
        Just("r.dat".to_owned()),
        Just("1000000000000".to_owned()),
        Just("99999999999999999999".to_owned()),
        "(8|16|24|32|61|80|160|212|310|311)(x[0-9]{1,2})?(:[0-9])?(\\+[0-9]{1,2})?",
        "-?[0-9.e]{1,5}(\\(-?[0-9]{1,9}\\))?(/(mV|uV|V|l|µV))?",
        "\\PC{0,6}",
    ]
}

/// A header that may well be read.
fn header() -> impl Strategy<Value = String> {
    let line = (
        "(8|16|24|32|61|80|160|212|310|311)(x[1-3])?(:[0-2])?(\\+[0-4])?",
        "(-?[0-9]{1,3}(\\.[0-9])?(\\(-?[0-9]{1,4}\\))?(/(mV|uV|V|l))?( [0-9]{1,2}( -?[0-9]{1,4}){0,4})?)?",
    );
    ("[1-4]( (250|360/2|0.5|1e6)( [0-9]{1,4}|( 1000000000000))?)?", vec(line, 1..5)).prop_map(
        |(record, lines)| {
            let lines: Vec<String> =
                lines.iter().map(|(storage, scale)| format!("r.dat {storage} {scale}\n")).collect();
            format!("r {record}\n{}", lines.concat())
        },
    )
}

proptest! {
    #[test]
    fn any_text_as_a_header(text in "\\PC{0,200}", signal in vec(any::<u8>(), 0..50)) {
        check(&dropped(&text, &signal, &[]))?;
    }

    #[test]
    fn any_fields_as_a_header(
        lines in vec(vec(field(), 0..9), 0..6),
        signal in vec(any::<u8>(), 0..50),
    ) {
        let lines: Vec<String> = lines.iter().map(|fields| fields.join(" ")).collect();
        check(&dropped(&format!("r {}", lines.join("\n")), &signal, &[]))?;
    }

    #[test]
    fn any_bytes_as_samples_and_annotations(
        header in header(),
        signal in vec(any::<u8>(), 0..400),
        marks in vec(any::<u8>(), 0..100),
    ) {
        check(&dropped(&header, &signal, &marks))?;
    }

    /// Words that are likelier to be annotations than random ones.
    #[test]
    fn any_words_as_annotations(
        words in vec((0u16..64, prop_oneof![0u16..4, 0u16..1024]), 0..60),
        tail in vec(any::<u8>(), 0..3),
    ) {
        let mut marks: Vec<u8> =
            words.iter().flat_map(|&(code, low)| (code << 10 | low).to_le_bytes()).collect();
        marks.extend(tail);
        check(&dropped("r 2 250\nr.dat 80\nr.dat 80\n", &[128; 4000], &marks))?;
    }

    #[test]
    fn samples_written_and_opened_are_equal(steps in vec(-500i16..=500, 1..200)) {
        let pairs: Vec<u8> = steps
            .chunks(2)
            .flat_map(|pair| {
                let (first, second) = (pair[0] as u16, pair.get(1).copied().unwrap_or(0) as u16);
                let high = (first >> 8 & 0xF) | (second >> 8 & 0xF) << 4;
                [first as u8, high as u8, second as u8]
            })
            .collect();
        let triples: Vec<u8> = steps
            .chunks(3)
            .flat_map(|triple| {
                let bits = triple.iter().rev().fold(0u32, |bits, &step| bits << 10 | (step as u32 & 0x3FF));
                bits.to_le_bytes()
            })
            .collect();
        let words: Vec<u8> = steps.iter().flat_map(|step| step.to_le_bytes()).collect();
        let high_first: Vec<u8> = steps.iter().flat_map(|step| step.to_be_bytes()).collect();
        let wide: Vec<u8> = steps.iter().flat_map(|&step| i32::from(step).to_le_bytes()).collect();
        for (number, bytes) in [(212, pairs), (311, triples), (16, words), (61, high_first), (32, wide)] {
            let header = format!("r 1 250 {}\nr.dat {number} 1/mV\n", steps.len());
            let opened = open(&dropped(&header, &bytes, &[0, 0]), &Choices::default(), &mut ());
            let Ok(Opening::Ready(opened)) = opened else { panic!("{header}") };
            let right: Vec<f32> = steps.iter().copied().map(f32::from).collect();
            prop_assert_eq!(&opened.traces[0].samples[..], &right[..], "format {}", number);
            prop_assert!(opened.notes.is_empty(), "format {}: {:?}", number, opened.notes);
        }
    }
}
