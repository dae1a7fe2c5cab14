//! How long a large file and a key take in the browser: reported, not judged, because machines differ.
//!
//! On the page as a class gets it (`trunk build`):
//! `cargo test --test browser measure -- --ignored --nocapture`

use crate::visit::{Key, Visit};
use beatwalk::synth::Demo;
use std::fmt::Write;
use std::time::Duration;

/// Forty minutes at 250 Hz.
const ROWS: usize = 600_000;
const HZ: f64 = 250.0;
const TIMES: usize = 5;

/// Rows of time and millivolts: an invented resting heart, over and over.
fn large_file() -> String {
    let beats = Demo::Resting.recording().unwrap().samples;
    let mut text = String::from("time (s),lead I (mV)\n");
    for (row, value) in beats.iter().cycle().take(ROWS).enumerate() {
        writeln!(text, "{:.3},{value:.4}", row as f64 / HZ).unwrap();
    }
    text
}

/// Notes, frame by frame, when the trace was on the screen, when its beats were, and the longest time
/// the page stood still in between. The drop is the page's own event.
const WATCH: &str = "
    const says = (name, text) => [...document.querySelectorAll('dt')]
        .some(it => it.textContent === name && it.nextElementSibling.textContent.includes(text));
    window.seen = { longest: 0 };
    addEventListener('drop', () => {
        const dropped = performance.now();
        let last = dropped;
        const look = now => {
            seen.longest = Math.max(seen.longest, now - last);
            last = now;
            if (!seen.trace && says('Length', arguments[0])) seen.trace = now - dropped;
            if (!seen.beats && says('Found', '')) seen.beats = now - dropped;
            if (!seen.beats) requestAnimationFrame(look);
        };
        requestAnimationFrame(look);
    }, { capture: true, once: true });";

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

#[test]
#[ignore = "reports, judges nothing; wants the page of a release build"]
fn from_the_drop_of_600_000_rows_to_the_trace() {
    let text = large_file();
    eprintln!("{ROWS} rows, {:.1} MB of text; median of {TIMES} visits", text.len() as f64 / 1.0e6);
    for slower in [1.0, 4.0] {
        let (mut trace, mut beats, mut still) = (Vec::new(), Vec::new(), Vec::new());
        for _ in 0..TIMES {
            let visit = Visit::to_beatwalk();
            visit.slow_down(slower);
            visit.run(WATCH, vec![format!("{ROWS} samples").into()]);
            let zone = visit.find("button", "Choose a file…").at(0.5, 0.5);
            visit.drop_bytes(zone, &[("large.csv", text.as_bytes())]);
            let seen = visit.wait_for("the beats", || {
                let seen = visit.run("return window.seen", Vec::new());
                seen["beats"].as_f64().map(|_| seen)
            });
            let number = |name: &str| seen[name].as_f64().unwrap();
            trace.push(number("trace"));
            beats.push(number("beats"));
            still.push(number("longest"));
        }
        eprintln!(
            "page slowed {slower} times: trace after {:.0} ms, beats after {:.0} ms, longest standstill {:.0} ms",
            median(trace),
            median(beats),
            median(still),
        );
    }
}

/// Keeps how long each key took from the press to the next picture, as the browser's Event Timing tells.
const TIME_KEYS: &str = "
    window.taken = [];
    new PerformanceObserver(list => {
        for (const entry of list.getEntries())
            if (entry.name === 'keydown' || entry.name === 'pointermove') taken.push(entry.duration);
    }).observe({ type: 'event', durationThreshold: 16, buffered: false });";

/// From a key or a finger's move to the picture of it, while a mark is placed at 1366 x 768.
#[test]
#[ignore = "reports, judges nothing; wants the page of a release build"]
fn from_the_press_to_the_paint() {
    for slower in [1.0, 6.0] {
        let visit = Visit::to_beatwalk();
        visit.find_containing("button", "Q-03 at rest").click();
        visit.wait_for_text("Found\n32");
        visit.find("button", "Walk one beat").click();
        visit.find("button", "Next").click();
        visit.slow_down(slower);
        visit.find_any("slider").press(Key::Right);
        visit.run(TIME_KEYS, Vec::new());
        for key in [Key::Left, Key::Right] {
            for _ in 0..20 {
                visit.press(key.clone());
                std::thread::sleep(Duration::from_millis(150));
            }
        }
        let slider = visit.find_any("slider");
        visit.drag(slider.at(0.4, 0.5), slider.at(0.6, 0.5));
        std::thread::sleep(Duration::from_millis(500));
        let mut taken: Vec<f64> =
            serde_json::from_value(visit.run("return window.taken", Vec::new())).unwrap();
        taken.sort_by(f64::total_cmp);
        eprintln!(
            "page slowed {slower} times: {} inputs took 16 ms or more; median of those {:?} ms, longest {:?} ms",
            taken.len(),
            taken.get(taken.len() / 2),
            taken.last(),
        );
    }
}

/// Begins the final check and gives back the longest time from one frame to the next in two seconds.
const BEGIN_CHECK: &str = "
    const door = [...document.querySelectorAll('button')]
        .find(it => it.textContent.trim() === 'Begin the final check');
    return new Promise(done => {
        const began = performance.now();
        let [last, longest] = [began, 0];
        const look = now => {
            longest = Math.max(longest, now - last);
            last = now;
            if (now - began > 2000) done(longest); else requestAnimationFrame(look);
        };
        door.click();
        requestAnimationFrame(look);
    });";

/// How long the page stands still when the final check opens, with its two flawed recordings.
#[test]
#[ignore = "reports, judges nothing; wants the page of a release build"]
fn from_the_door_to_the_final_check() {
    for slower in [1.0, 6.0] {
        let still = (0..TIMES).map(|_| {
            let visit = Visit::to_beatwalk();
            visit.find_containing("button", "Q-03 at rest").click();
            visit.wait_for_text("Found\n32");
            visit.find("button", "Walk one beat").click();
            visit.find("button", "Begin the final check");
            visit.slow_down(slower);
            visit.run(BEGIN_CHECK, Vec::new()).as_f64().unwrap()
        });
        eprintln!(
            "page slowed {slower} times: longest standstill {:.0} ms",
            median(still.collect())
        );
    }
}

/// Notes the longest time between two frames until so many rows lie on the class desk.
const WATCH_ROWS: &str = "
    window.seen = { longest: 0 };
    const dropped = performance.now();
    let last = dropped;
    const look = now => {
        seen.longest = Math.max(seen.longest, now - last);
        last = now;
        const rows = document.querySelectorAll('.class__rows tbody tr').length;
        if (rows >= arguments[0]) seen.all = now - dropped; else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);";

/// From the drop of two hundred recordings of half a minute to the last row.
#[test]
#[ignore = "reports, judges nothing; wants the page of a release build"]
fn from_the_drop_of_two_hundred_files_to_the_class() {
    const FILES: usize = 200;
    let rest = Demo::Resting.csv().unwrap();
    let names: Vec<String> = (0..FILES)
        .map(|file| format!("Q{}-{}.csv", file / 2, ["rest", "slow"][file % 2]))
        .collect();
    let files: Vec<(&str, &[u8])> =
        names.iter().map(|name| (name.as_str(), rest.as_bytes())).collect();
    for slower in [1.0, 6.0] {
        let visit = Visit::to_beatwalk();
        visit.find("button", "Investigations").click();
        visit.find_containing("button", "Class desk").click();
        let zone = visit.find("button", "Choose files…").at(0.5, 0.5);
        visit.slow_down(slower);
        visit.run(WATCH_ROWS, vec![FILES.into()]);
        visit.drop_bytes(zone, &files);
        let all = loop {
            std::thread::sleep(Duration::from_millis(500));
            if let Some(all) = visit.run("return seen.all", Vec::new()).as_f64() {
                break all;
            }
        };
        let longest = visit.run("return seen.longest", Vec::new()).as_f64().unwrap();
        eprintln!(
            "page slowed {slower} times: {FILES} files after {:.1} s, longest standstill {longest:.0} ms",
            all / 1000.0
        );
    }
}
