//! The peak while a text file is opened holds the file itself, as the page does: two columns may take three
//! times its size at most.

use super::{ALONE, peak_of};
use beatwalk::formats::{Choices, Opening, SourceFile, open};
use std::fmt::Write;

/// Half an hour at 1000 Hz.
fn half_an_hour(head: &str, delimiter: char) -> String {
    let mut text = format!("{head}\n");
    for row in 0..1_800_000_u32 {
        let value = (f64::from(row % 800) / 40.0 - 10.0).cosh().recip();
        writeln!(text, "{:.3}{delimiter}{value:.4}", f64::from(row) / 1000.0).unwrap();
    }
    text
}

/// The peak while a file is open, as a multiple of its size.
fn peak(bytes: Vec<u8>) -> f64 {
    let (size, held) = (bytes.len(), bytes.capacity());
    let file = [SourceFile { name: "long.csv".to_owned(), bytes }];
    let (peak, opening) = peak_of(|| open(&file, &Choices::default(), &mut ()).unwrap());
    let Opening::Ready(opened) = opening else { panic!("the rate is in the file") };
    assert_eq!(opened.traces[0].samples.len(), 1_800_000);
    (held + peak) as f64 / size as f64
}

#[test]
fn opening_takes_at_most_three_times_the_file() {
    let _alone = ALONE.lock();
    let comma = half_an_hour("time (s),ecg (mV)", ',').into_bytes();
    let semicolon = half_an_hour("time (s);ecg (mV)", ';').replace('.', ",").into_bytes();
    let western = half_an_hour("time (s);ecg (\u{b5}V)", ';');
    let western = western.chars().map(|sign| u8::try_from(u32::from(sign)).unwrap()).collect();
    let wide: Vec<u8> = half_an_hour("time (s)\tecg (mV)", '\t')
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    for (name, bytes) in
        [("UTF-8", comma), ("decimal comma", semicolon), ("Latin-1", western), ("UTF-16", wide)]
    {
        let peak = peak(bytes);
        assert!((1.0..=3.0).contains(&peak), "{name}: {peak:.2} times the file");
    }
}
