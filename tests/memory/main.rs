//! What opening text and reading a long recording allocate at their peak: a school computer has to
//! hold the file and little more.
//!
//! Counted in bytes, so that it is the same on every machine.

// A counting allocator is a few lines around the system's own; a test that can't go on has to stop.
#![allow(unsafe_code, clippy::unwrap_used)]

mod opening;
mod reading;

use std::alloc::{GlobalAlloc, Layout, System};
use std::sync::Mutex;
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

/// Held by the test that runs: threads would count each other's bytes.
static ALONE: Mutex<()> = Mutex::new(());

/// What some work allocates at its peak, beside what was there before it, and what it gives.
fn peak_of<T>(work: impl FnOnce() -> T) -> (usize, T) {
    let before = NOW.load(Relaxed);
    PEAK.store(before, Relaxed);
    let given = work();
    (PEAK.load(Relaxed) - before, given)
}
