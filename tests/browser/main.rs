//! End to end: Beatwalk in real headless Chromium, as a student meets it.
//!
//! Build the page first (`trunk build`); `tests/run.sh` does. A failed test leaves a screenshot and
//! names it. Parts of the page are found by role and name, so these tests check accessibility too.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that can't go on has failed")]

mod accessible;
mod breaking;
mod by_hand;
mod check;
mod choosing;
mod correcting;
mod firefox;
mod handing_out;
mod heart;
mod homework;
mod investigate;
mod keeping;
mod lesson;
mod many;
mod measure;
mod offline;
mod one_file;
mod opening;
mod pictures;
mod prepare;
mod presenting;
mod quieten;
mod rehearsal;
mod sealed;
mod session;
mod slow;
mod smoke;
mod visit;
mod wrong;
