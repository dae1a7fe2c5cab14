//! WAV files read as another program wrote them, and broken ones say what is broken.

use beatwalk::formats::{Choices, Format, OpenError, Opened, Opening, SourceFile, open};
use beatwalk::signal::VoltageUnit;
use proptest::collection::vec;
use proptest::prelude::*;

fn try_open(bytes: Vec<u8>) -> Result<Opened, OpenError> {
    let files = [SourceFile { name: "ecg.wav".to_owned(), bytes }];
    match open(&files, &Choices::default(), &mut ())? {
        Opening::Ready(opened) => Ok(opened),
        Opening::NeedsRate(_) => panic!("WAV always has a rate"),
    }
}

fn notes(opened: &Opened) -> Vec<String> {
    opened.notes.iter().map(ToString::to_string).collect()
}

/// A file of one form, with these samples.
fn wav(form: u16, bits: u16, channels: u16, hz: u32, data: &[u8]) -> Vec<u8> {
    let frame = channels * bits / 8;
    let mut file = b"RIFF".to_vec();
    file.extend((36 + data.len() as u32).to_le_bytes());
    file.extend(b"WAVEfmt \x10\0\0\0");
    for half in [form, channels] {
        file.extend(half.to_le_bytes());
    }
    file.extend(hz.to_le_bytes());
    file.extend((hz * u32::from(frame)).to_le_bytes());
    for half in [frame, bits] {
        file.extend(half.to_le_bytes());
    }
    file.extend(b"data");
    file.extend((data.len() as u32).to_le_bytes());
    file.extend(data);
    file
}

/// The same file with an extended format, with what editors put between and behind the parts, the length of
/// each odd.
fn elsewhere(plain: &[u8]) -> Vec<u8> {
    let (format, data) = (&plain[20..36], &plain[36..]);
    let mut file = plain[..12].to_vec();
    file.extend(b"LIST\x05\0\0\0INFOx\0");
    file.extend(b"bext\x01\0\0\0y\0");
    file.extend(b"fmt \x28\0\0\0\xFE\xFF");
    file.extend(&format[2..]);
    file.extend(b"\x16\0");
    file.extend(&format[14..16]);
    file.extend(b"\0\0\0\0");
    file.extend(&format[..2]);
    file.extend(b"\0\0\0\0\x10\0\x80\0\0\xAA\0\x38\x9B\x71");
    file.extend(b"fact\x04\0\0\0\0\0\0\0");
    file.extend(data);
    if data.len() % 2 == 1 {
        file.push(0);
    }
    file.extend(b"LIST\x03\0\0\0end\0");
    let length = file.len() as u32 - 8;
    file[4..8].copy_from_slice(&length.to_le_bytes());
    file
}

fn floats(values: &[f32]) -> Vec<u8> {
    values.iter().flat_map(|value| value.to_le_bytes()).collect()
}

#[test]
fn every_width_has_the_samples_another_program_wrote() {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data");
    let table = std::fs::read_to_string(format!("{root}/field-cases/o28-three-beats.csv")).unwrap();
    let millivolts: Vec<f32> =
        table.lines().filter_map(|line| line.split_once(',')?.1.parse().ok()).take(400).collect();
    for bits in [16, 24, 32] {
        let bytes = std::fs::read(format!("{root}/wav/two-channels-{bits}.wav")).unwrap();
        let opened = try_open(bytes).unwrap();
        assert_eq!((opened.format, opened.suggested), (Format::Wav, 0));
        let names: Vec<&str> = opened.traces.iter().map(|trace| trace.name.as_str()).collect();
        assert_eq!(names, ["channel 1", "channel 2"]);
        for trace in &opened.traces {
            assert_eq!((trace.rate.hz(), trace.unit), (250.0, VoltageUnit::Counts));
            assert_eq!(trace.samples.len(), 400);
        }
        for (at, value) in millivolts.iter().enumerate() {
            // Halves were rounded to even there.
            let step = opened.traces[0].samples[at];
            assert!((step - value * 1000.0).abs() <= 0.501, "{bits} bits, sample {at}");
            assert_eq!(opened.traces[1].samples[at], -(at as f32));
        }
        let said = format!(
            "the values are converter steps of {bits} bits; the file does not say how many mV one is"
        );
        assert_eq!(notes(&opened), [said]);
    }
}

#[test]
fn floats_have_no_unit_and_what_is_no_number_is_bridged() {
    let opened = try_open(wav(3, 32, 1, 500, &floats(&[0.25, f32::NAN, 0.75, -1.5]))).unwrap();
    assert_eq!(opened.traces[0].samples[..], [0.25, 0.5, 0.75, -1.5]);
    assert_eq!(opened.traces[0].unit, VoltageUnit::Unstated);
    let said = notes(&opened);
    assert!(said[0].starts_with("the file does not say the unit"), "{said:?}");
    assert!(said[1].ends_with(": 1"), "{said:?}");
}

#[test]
fn what_a_recorder_without_power_leaves_is_read() {
    let whole = wav(1, 16, 2, 500, &[7; 400]);
    let cut = try_open(whole[..44 + 398].to_vec()).unwrap();
    assert_eq!(cut.traces[1].samples.len(), 99);
    let said = "the file ends too early: it promises 100 samples a channel and holds 99";
    assert!(notes(&cut).iter().any(|note| note == said), "{:?}", notes(&cut));
    for length in [0, u32::MAX] {
        let mut open = whole.clone();
        open[4..8].copy_from_slice(&length.to_le_bytes());
        open[40..44].copy_from_slice(&length.to_le_bytes());
        let open = try_open(open).unwrap();
        assert_eq!(open.traces[0].samples.len(), 100);
        assert!(notes(&open)[0].starts_with("the recorder never closed the file"));
    }
    let odd = try_open(wav(1, 16, 2, 500, &[7; 403])).unwrap();
    assert!(notes(&odd)[0].ends_with("3 bytes"), "{:?}", notes(&odd));
}

#[test]
fn each_fault_is_said_in_one_sentence() {
    for (bytes, sentence) in [
        (Vec::new(), "ecg.wav is empty"),
        (
            b"0,1\n".to_vec(),
            "the header of ecg.wav can't be read: it does not begin as a WAV file does",
        ),
        (
            b"RIFF\0\0\0\0WAVE".to_vec(),
            "the header of ecg.wav can't be read: its \"fmt\" part is missing",
        ),
        (wav(1, 16, 1, 500, &[1]), "ecg.wav ends before its first sample"),
        (
            wav(6, 8, 1, 500, &[1; 8]),
            "the header of ecg.wav can't be read: its samples are of form 6 with 8 bits; read are integers (form 1) of up to 32 bits and floats (form 3) of 32 or 64 bits",
        ),
        (
            wav(1, 16, 1, 2_000_000, &[1; 8]),
            "the header of ecg.wav can't be read: a sampling rate of 2000000 Hz is not possible",
        ),
    ] {
        let error = try_open(bytes).unwrap_err();
        assert_eq!(error.to_string(), sentence);
        let remedy = error.remedy().to_string();
        assert!(remedy.ends_with('.') && remedy.len() > 20);
    }
}

/// Opens, and holds what came to the promises of `Recording`.
fn check(bytes: Vec<u8>) -> Result<(), TestCaseError> {
    let size = bytes.len();
    let Ok(opened) = try_open(bytes) else { return Ok(()) };
    let samples: usize = opened.traces.iter().map(|trace| trace.samples.len()).sum();
    prop_assert!(samples <= size, "{} samples from {} bytes", samples, size);
    prop_assert!(opened.suggested < opened.traces.len());
    for trace in &opened.traces {
        prop_assert!(trace.samples.iter().all(|value| value.is_finite()));
        prop_assert!(trace.holes.iter().all(|hole| hole.span.end().get() <= trace.samples.len()));
    }
    prop_assert!(opened.notes.iter().all(|note| !note.to_string().is_empty()));
    Ok(())
}

proptest! {
    #[test]
    fn any_bytes_are_answered(bytes in vec(any::<u8>(), 0..300), begins in any::<bool>()) {
        let start: &[u8] = if begins { b"RIFF\0\0\0\0WAVE" } else { b"" };
        check([start, &bytes].concat())?;
    }

    #[test]
    fn any_changed_bytes_are_answered(
        form in prop_oneof![Just((1, 8)), Just((3, 64)), Just((1, 16)), Just((1, 24)), Just((1, 32)), Just((3, 32))],
        channels in 1u16..5,
        data in vec(any::<u8>(), 0..200),
        changes in vec((0usize..60, any::<u8>()), 0..6),
        length in 0usize..260,
    ) {
        let mut file = wav(form.0, form.1, channels, 500, &data);
        for (at, byte) in changes {
            if let Some(place) = file.get_mut(at) {
                *place = byte;
            }
        }
        file.truncate(length);
        check(file)?;
    }

    #[test]
    fn samples_written_and_opened_are_equal(steps in vec(any::<i16>(), 1..200)) {
        let right: Vec<f32> = steps.iter().copied().map(f32::from).collect();
        let halves: Vec<u8> = steps.iter().flat_map(|step| step.to_le_bytes()).collect();
        let three = |step: &i16| i32::from(*step).to_le_bytes().into_iter().take(3);
        let threes: Vec<u8> = steps.iter().flat_map(three).collect();
        let words: Vec<u8> = steps.iter().flat_map(|&step| i32::from(step).to_le_bytes()).collect();
        let long: Vec<u8> = steps.iter().flat_map(|&step| f64::from(step).to_le_bytes()).collect();
        let single: Vec<u8> = steps.iter().map(|&step| (step as i8 as u8) ^ 0x80).collect();
        for (form, bits, data) in [
            (1, 16, halves),
            (1, 24, threes),
            (1, 32, words),
            (3, 32, floats(&right)),
            (3, 64, long),
            (1, 8, single),
        ] {
            let right: Vec<f32> = match bits {
                8 => steps.iter().map(|&step| f32::from(step as i8)).collect(),
                _ => right.clone(),
            };
            for file in [wav(form, bits, 1, 250, &data), elsewhere(&wav(form, bits, 1, 250, &data))] {
                let opened = try_open(file).unwrap();
                prop_assert_eq!(&opened.traces[0].samples[..], &right[..], "{} bits", bits);
                prop_assert_eq!(opened.notes.len(), 1);
            }
        }
    }
}
