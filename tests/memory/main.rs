//! What opening text allocates at its peak: a school computer has to hold the file and little more.
//!
//! Counted in bytes, so that it is the same on every machine. The peak holds the file itself, as the page
//! does: two columns may take three times its size at most.

// A counting allocator is a few lines around the system's own; a test that can't go on has to stop.
#![allow(unsafe_code, clippy::unwrap_used)]

use beatwalk::formats::{Choices, Opening, SourceFile, open};
use std::alloc::{GlobalAlloc, Layout, System};
use std::fmt::Write;
use std::sync::atomic::{AtomicUsize, Ordering::Relaxed};

struct Counting;

static NOW: AtomicUsize = AtomicUsize::new(0);
static PEAK: AtomicUsize = AtomicUsize::new(0);

fn add(bytes: usize) {
    let now = NOW.fetch_add(bytes, Relaxed) + bytes;
    PEAK.fetch_max(now, Relaxed);
}

// SAFETY: every call goes to the system's allocator unchanged.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        add(layout.size());
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, at: *mut u8, layout: Layout) {
        NOW.fetch_sub(layout.size(), Relaxed);
        unsafe { System.dealloc(at, layout) }
    }

    // While it moves, a block is there twice.
    unsafe fn realloc(&self, at: *mut u8, layout: Layout, bytes: usize) -> *mut u8 {
        add(bytes);
        let moved = unsafe { System.realloc(at, layout, bytes) };
        NOW.fetch_sub(layout.size(), Relaxed);
        moved
    }
}

#[global_allocator]
static ALLOCATOR: Counting = Counting;

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
    let size = bytes.len();
    let before = NOW.load(Relaxed) - bytes.capacity();
    let file = [SourceFile { name: "long.csv".to_owned(), bytes }];
    PEAK.store(NOW.load(Relaxed), Relaxed);
    let opening = open(&file, &Choices::default(), &mut ()).unwrap();
    let peak = PEAK.load(Relaxed) - before;
    let Opening::Ready(opened) = opening else { panic!("the rate is in the file") };
    assert_eq!(opened.traces[0].samples.len(), 1_800_000);
    peak as f64 / size as f64
}

// One test, since threads would count each other's bytes.
#[test]
fn opening_takes_at_most_three_times_the_file() {
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
