//! Whatever is written in a storage format of WFDB is read back to the step.

use beatwalk::formats::{Choices, Opened, Opening, SourceFile, open};
use proptest::collection::vec;
use proptest::prelude::*;

/// Every format with the lowest and highest step that it holds beside the code for a missing one.
const FORMATS: [(u32, i32, i32); 10] = [
    (8, -60, 60),
    (16, -0x7FFF, 0x7FFF),
    (24, -0x7F_FFFF, 0x7F_FFFF),
    (32, -0x7FFF_FFFF, 0x7FFF_FFFF),
    (61, -0x7FFF, 0x7FFF),
    (80, -0x7F, 0x7F),
    (160, -0x7FFF, 0x7FFF),
    (212, -0x7FF, 0x7FF),
    (310, -0x1FF, 0x1FF),
    (311, -0x1FF, 0x1FF),
];

/// The bytes of steps in a format, by its description in signal(5). `signals` take turns.
fn packed(format: u32, steps: &[i32], signals: usize) -> Vec<u8> {
    let each = |write: fn(i32) -> Vec<u8>| steps.iter().copied().flat_map(write).collect();
    let group = |at: usize| steps.get(at).copied().unwrap_or(0) as u32;
    match format {
        8 => {
            let before = |at: usize| at.checked_sub(signals).map_or(0, |at| steps[at]);
            steps.iter().enumerate().map(|(at, step)| (step - before(at)) as u8).collect()
        }
        16 => each(|step| (step as i16).to_le_bytes().to_vec()),
        24 => each(|step| step.to_le_bytes()[..3].to_vec()),
        32 => each(|step| step.to_le_bytes().to_vec()),
        61 => each(|step| (step as i16).to_be_bytes().to_vec()),
        80 => each(|step| vec![(step + 128) as u8]),
        160 => each(|step| ((step + 0x8000) as u16).to_le_bytes().to_vec()),
        212 => (0..steps.len())
            .step_by(2)
            .flat_map(|at| {
                let (one, two) = (group(at) & 0xFFF, group(at + 1) & 0xFFF);
                [one as u8, (one >> 8 | two >> 8 << 4) as u8, two as u8]
            })
            .collect(),
        310 => (0..steps.len())
            .step_by(3)
            .flat_map(|at| {
                let [one, two, three] = [0, 1, 2].map(|place| group(at + place) & 0x3FF);
                (one << 1 | (three & 0x1F) << 11 | two << 17 | (three >> 5) << 27).to_le_bytes()
            })
            .collect(),
        311 => (0..steps.len())
            .step_by(3)
            .flat_map(|at| {
                let [one, two, three] = [0, 1, 2].map(|place| group(at + place) & 0x3FF);
                (one | two << 10 | three << 20).to_le_bytes()
            })
            .collect(),
        other => panic!("{other}"),
    }
}

fn opened(header: &str, bytes: Vec<u8>) -> Opened {
    let files = [
        SourceFile { name: "r.hea".to_owned(), bytes: header.as_bytes().to_vec() },
        SourceFile { name: "r.dat".to_owned(), bytes },
    ];
    match open(&files, &Choices::default(), &mut ()) {
        Ok(Opening::Ready(opened)) => opened,
        other => panic!("{header}: {other:?}"),
    }
}

proptest! {
    #[test]
    fn every_format_is_read_back_to_the_step(
        unit_steps in vec(-1.0f64..=1.0, 1..120),
        signals in 1usize..4,
        gain in prop_oneof![Just(200.0), Just(-50.5), Just(1716.0), Just(0.25)],
        baseline in -2000i32..2000,
        offset in 0usize..5,
        zero in -100i32..100,
    ) {
        let frames = unit_steps.len() / signals;
        prop_assume!(frames > 0);
        for (format, low, high) in FORMATS {
            let step = |part: &f64| {
                (f64::from(low) + (part + 1.0) / 2.0 * (f64::from(high) - f64::from(low))).round() as i32
            };
            let steps: Vec<i32> = unit_steps[..frames * signals].iter().map(step).collect();
            let mut header = format!("r {signals} 360 {frames}\n");
            for signal in 0..signals {
                let own = || steps.iter().skip(signal).step_by(signals).copied();
                // A difference needs its first value; the last signal has no baseline of its own.
                let first = if format == 8 { 0 } else { own().next().unwrap() };
                let sum = own().map(i64::from).sum::<i64>() as i16;
                let scale = match signal {
                    2 => format!("{gain}/mV 16 {zero} {first} {sum}"),
                    _ => format!("{gain}({baseline})/mV 16 {zero} {first} {sum}"),
                };
                header += &format!("r.dat {format}+{offset} {scale} 0 lead {signal}\n");
            }
            let bytes = [vec![0xA5; offset], packed(format, &steps, signals)].concat();
            let opened = opened(&header, bytes);
            for (signal, trace) in opened.traces.iter().enumerate() {
                let base = if signal == 2 { zero } else { baseline };
                let right: Vec<f32> = steps
                    .iter()
                    .skip(signal)
                    .step_by(signals)
                    .map(|&step| ((f64::from(step) - f64::from(base)) / gain) as f32)
                    .collect();
                prop_assert_eq!(&trace.samples[..], &right[..], "format {}", format);
                prop_assert_eq!(&trace.name, &format!("lead {signal}"));
            }
            let said: Vec<String> = opened.notes.iter().map(ToString::to_string).collect();
            prop_assert!(said.is_empty(), "format {}: {:?}", format, said);
        }
    }

    #[test]
    fn a_file_cut_anywhere_gives_its_whole_frames(
        cut in 0usize..200,
        frames in 1usize..60,
        signals in 1usize..4,
    ) {
        for (format, _, high) in FORMATS {
            let steps: Vec<i32> = (0..frames * signals).map(|at| at as i32 % high.min(40)).collect();
            let whole = packed(format, &steps, signals);
            let bytes = whole[..whole.len() - cut.min(whole.len() - 4.min(whole.len()))].to_vec();
            let header = format!("r {signals} 360 {frames}\n") + &format!("r.dat {format} 1/mV\n").repeat(signals);
            let files = [("r.hea", header.into_bytes()), ("r.dat", bytes.clone())]
                .map(|(name, bytes)| SourceFile { name: name.to_owned(), bytes });
            let Ok(Opening::Ready(opened)) = open(&files, &Choices::default(), &mut ()) else {
                continue;
            };
            let held = opened.traces[0].samples.len();
            for (signal, trace) in opened.traces.iter().enumerate() {
                let right = steps.iter().skip(signal).step_by(signals).take(held);
                prop_assert!(trace.samples.iter().zip(right).all(|(mv, step)| *mv == *step as f32), "{}", format);
            }
            if held < frames {
                let said = opened.notes.iter().any(|note| note.to_string().contains("ends too early"));
                prop_assert!(said, "format {format}: {held} of {frames}");
            }
            // Not one frame is lost that the bytes hold.
            let bits = match format { 8 | 80 => 8, 24 => 24, 32 => 32, 212 => 12, 310 | 311 => 11, _ => 16 };
            prop_assert!((held + 3) * signals * bits >= (bytes.len() * 8).min(frames * signals * bits), "format {format}");
        }
    }
}
