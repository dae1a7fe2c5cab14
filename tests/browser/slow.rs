//! How the page fares on a slow machine: the table in README.md, and no memory that is not given back.
//!
//! On the page as a class gets it (`trunk build`), in Chromium slowed down by its own means:
//! `BEATWALK_REWRITE=1 cargo test --test browser slow -- --ignored --nocapture` writes the table.

use crate::visit::{Held, Visit};
use beatwalk::synth::Demo;
use std::fmt::Write;
use std::path::Path;

/// How much slower a school's laptop is.
const SLOW: f64 = 6.0;
const BEGIN: &str = "<!-- slow machines -->";
const END: &str = "<!-- end of slow machines -->";

/// Notes when a recording can be chosen: a button of the first screen is there and drawn.
const NOTE_USABLE: &str = "
    const look = () => {
        const ready = [...document.querySelectorAll('main button')].some(it => it.offsetHeight > 0);
        if (ready) requestAnimationFrame(() => { window.usable = performance.now(); });
        else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);";

/// From the address to the first screen, ms.
fn first_screen(slower: f64) -> f64 {
    let visit = Visit::to_beatwalk();
    visit.before_each_page(NOTE_USABLE);
    visit.slow_down(slower);
    visit.load_anew();
    visit.wait_for("the first screen", || visit.run("return window.usable", Vec::new()).as_f64())
}

/// Notes the longest time between two frames from the drop until the beats are there.
const WATCH: &str = "
    window.seen = { longest: 0 };
    addEventListener('drop', () => {
        const dropped = performance.now();
        let last = dropped;
        const look = now => {
            seen.longest = Math.max(seen.longest, now - last);
            last = now;
            const found = [...document.querySelectorAll('dt')].some(it => it.textContent === 'Found');
            if (found) seen.all = now - dropped; else requestAnimationFrame(look);
        };
        requestAnimationFrame(look);
    }, { capture: true, once: true });";

/// An hour at 500 Hz: until its beats are found, and the longest time without a frame; ms.
fn hour() -> (f64, f64) {
    const ROWS: usize = 3600 * 500;
    let beats = Demo::Resting.recording().unwrap().samples;
    let mut text = String::from("time (s),lead I (mV)\n");
    for (row, value) in beats.iter().cycle().take(ROWS).enumerate() {
        writeln!(text, "{:.3},{value:.4}", row as f64 / 500.0).unwrap();
    }
    let visit = Visit::to_beatwalk();
    let zone = visit.find("button", "Choose a file…").at(0.5, 0.5);
    visit.run(WATCH, Vec::new());
    visit.drop_bytes(zone, &[("hour.csv", text.as_bytes())]);
    let all = visit.wait_for("the beats", || visit.run("return seen.all", Vec::new()).as_f64());
    (all, visit.number("return seen.longest", Vec::new()))
}

/// Turns the wheel over the trace in every frame for two seconds; the frames in a second.
const TURN_WHEEL: &str = "
    const chart = document.querySelector('.see__chart canvas');
    const box = chart.getBoundingClientRect();
    const [clientX, clientY] = [box.x + box.width / 2, box.y + box.height / 2];
    return new Promise(done => {
        const began = performance.now();
        let frames = 0;
        const turn = now => {
            if (now - began > 2000) return done(frames / (now - began) * 1000);
            frames += 1;
            const deltaY = frames % 60 < 30 ? -20 : 20;
            const turned = { deltaX: 15, deltaY, clientX, clientY, ctrlKey: arguments[0], bubbles: true, cancelable: true };
            chart.dispatchEvent(new WheelEvent('wheel', turned));
            requestAnimationFrame(turn);
        };
        requestAnimationFrame(turn);
    });";

/// Frames a second while the trace is moved and zoomed.
fn frames(slower: f64) -> [f64; 2] {
    let visit = Visit::to_beatwalk();
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.slow_down(slower);
    [false, true].map(|zooming| visit.number(TURN_WHEEL, vec![zooming.into()]))
}

/// Presses the button that begins with these words, once it is there.
const PRESS: &str = "
    const all = [...document.querySelectorAll('button')];
    const found = all.find(it => it.innerText.startsWith(arguments[0]) && !it.disabled);
    found?.click();
    return !!found;";

/// Opens one recording after the other and gives back what the page held before and after.
fn held_over(cycles: usize) -> (Held, Held) {
    const WARM: usize = 4;
    let visit = Visit::to_beatwalk();
    visit.load_anew();
    // By a script of the page: the driver holds on to every part that it has found.
    let press = |name: &str| {
        visit.wait_for(name, || visit.run(PRESS, vec![name.into()]).as_bool()?.then_some(()));
    };
    let open = |name: &str, beats: &str| {
        press(name);
        visit.wait_for_text(beats);
        press("Open a recording");
    };
    let mut before = None;
    for cycle in 0..cycles + WARM {
        if cycle == WARM {
            before = Some(visit.held());
        }
        open("Q-03 at rest", "Found\n32");
        open("Q-03 after", "Found");
    }
    (before.unwrap(), visit.held())
}

#[test]
fn what_was_open_is_given_back() {
    let (before, after) = held_over(8);
    assert!(after.wasm <= before.wasm, "WASM grew: {before:?}, {after:?}");
    assert!(after.nodes < 1.1 * before.nodes + 200.0, "nodes stay: {before:?}, {after:?}");
    assert!(
        after.listeners < 1.1 * before.listeners + 20.0,
        "they listen on: {before:?}, {after:?}"
    );
    assert!(after.script < 1.1 * before.script + 1.0e6, "rubbish stays: {before:?}, {after:?}");
}

#[test]
#[ignore = "reports; wants the page of a release build and a quiet machine"]
fn the_table_of_slow_machines() {
    let (all, longest) = hour();
    let (pan, zoom) = (frames(1.0), frames(SLOW));
    let (before, after) = held_over(200);
    let mega = |bytes: f64| bytes / 1.0e6;
    let held = format!(
        "{:.0} → {:.0} nodes, WASM {:.1} → {:.1} MB, script {:.1} → {:.1} MB",
        before.nodes,
        after.nodes,
        mega(before.wasm),
        mega(after.wasm),
        mega(before.script),
        mega(after.script)
    );
    let rows = [
        ("first screen, 6 times slower", "under 3 s", format!("{:.1} s", first_screen(SLOW) / 1e3)),
        ("an hour at 500 Hz, to its beats", "", format!("{:.1} s", all / 1e3)),
        ("longest time without a frame meanwhile", "50 ms", format!("{longest:.0} ms")),
        ("pan, zoom", "60 a second", format!("{:.0}, {:.0} a second", pan[0], pan[1])),
        (
            "pan, zoom, 6 times slower",
            "20 a second",
            format!("{:.0}, {:.0} a second", zoom[0], zoom[1]),
        ),
        ("two recordings opened and left, 200 times", "flat", held),
    ];
    let mut table = String::from("\n| what | wanted | measured |\n|---|---|---|\n");
    for (what, wanted, measured) in rows {
        writeln!(table, "| {what} | {wanted} | {measured} |").unwrap();
    }
    eprintln!("{table}");
    if std::env::var_os("BEATWALK_REWRITE").is_some() {
        let readme = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
        let text = std::fs::read_to_string(&readme).unwrap();
        let (before, rest) = text.split_once(BEGIN).expect("README.md has a place for the table");
        let (_, after) = rest.split_once(END).expect("the place of the table has an end");
        std::fs::write(&readme, format!("{before}{BEGIN}\n{table}\n{END}{after}")).unwrap();
    }
}
