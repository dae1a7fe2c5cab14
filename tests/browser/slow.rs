//! How the page fares on a slow machine: the table in README.md, and no memory that is not given back.
//!
//! On the page as a class gets it (`trunk build`), in Chromium slowed down by its own means:
//! `BEATWALK_REWRITE=1 cargo test --test browser slow -- --ignored --nocapture` writes the table.

use crate::visit::{Held, MEASURED_FROM, MEASURED_TO, Visit};
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

/// Marks the drop, and the frame in which the beats are there.
const WATCH: &str = "
    addEventListener('drop', () => {
        const dropped = performance.now();
        performance.mark(arguments[0]);
        const look = now => {
            const found = [...document.querySelectorAll('dt')].some(it => it.textContent === 'Found');
            if (!found) return requestAnimationFrame(look);
            performance.mark(arguments[1]);
            window.all = now - dropped;
        };
        requestAnimationFrame(look);
    }, { capture: true, once: true });";

/// An hour at 500 Hz: until its beats are found, and the longest task of the page's thread meanwhile; ms.
fn hour() -> (f64, f64) {
    const ROWS: usize = 3600 * 500;
    let beats = Demo::Resting.recording().unwrap().samples;
    let mut text = String::from("time (s),lead I (mV)\n");
    for (row, value) in beats.iter().cycle().take(ROWS).enumerate() {
        writeln!(text, "{:.3},{value:.4}", row as f64 / 500.0).unwrap();
    }
    let visit = Visit::to_beatwalk_traced();
    let zone = visit.find("button", "Choose a file…").at(0.5, 0.5);
    visit.run(WATCH, vec![MEASURED_FROM.into(), MEASURED_TO.into()]);
    visit.drop_bytes(zone, &[("hour.csv", text.as_bytes())]);
    let all = visit.wait_for("the beats", || visit.run("return window.all", Vec::new()).as_f64());
    (all, visit.trace().longest_task())
}

/// Turns the wheel over the trace in every frame for two seconds.
const TURN_WHEEL: &str = "
    const chart = document.querySelector('.see__chart canvas');
    const box = chart.getBoundingClientRect();
    const [clientX, clientY] = [box.x + box.width / 2, box.y + box.height / 2];
    const [zooms, begin, end] = arguments;
    return new Promise(done => {
        const began = performance.now();
        let frames = 0;
        performance.mark(begin);
        const turn = now => {
            if (now - began > 2000) return done(performance.mark(end));
            frames += 1;
            const deltaY = frames % 60 < 30 ? -20 : 20;
            const turned = { deltaX: 15, deltaY, clientX, clientY, ctrlKey: zooms, bubbles: true, cancelable: true };
            chart.dispatchEvent(new WheelEvent('wheel', turned));
            requestAnimationFrame(turn);
        };
        requestAnimationFrame(turn);
    });";

/// Frames a second while the trace is moved, and while it is zoomed.
fn frames(slower: f64) -> [f64; 2] {
    [false, true].map(|zooms| {
        let visit = Visit::to_beatwalk_traced();
        visit.find_containing("button", "Q-03 at rest").click();
        visit.wait_for_text("Found\n32");
        visit.slow_down(slower);
        visit.run(TURN_WHEEL, vec![zooms.into(), MEASURED_FROM.into(), MEASURED_TO.into()]);
        visit.trace().frames_per_second()
    })
}

/// Opens and leaves two recordings so many times. All in one script: each that the driver sends stays in the page's
/// memory, and a thousand questions whether the beats are there would be all that is measured.
const OPEN_AND_LEAVE: &str = "
    const frame = () => new Promise(requestAnimationFrame);
    const press = async name => {
        for (;;) {
            const all = [...document.querySelectorAll('button')];
            const found = all.find(it => it.innerText.startsWith(name) && !it.disabled);
            if (found) return found.click();
            await frame();
        }
    };
    const open = async (name, told) => {
        await press(name);
        while (!document.body.innerText.includes(told)) await frame();
        await press('Open a recording');
    };
    return (async () => {
        for (let cycle = 0; cycle < arguments[0]; cycle++) {
            await open('Q-03 at rest', 'Found\\n32');
            await open('Q-03 after', 'Found');
        }
    })();";

/// Opens one recording after the other and gives back what the page held before and after.
fn held_over(cycles: usize) -> (Held, Held) {
    /// As many as the driver waits for.
    const TOGETHER: usize = 20;
    let visit = Visit::to_beatwalk();
    visit.load_anew();
    let open = |cycles: usize| visit.run(OPEN_AND_LEAVE, vec![cycles.into()]);
    // Memory of WASM never shrinks: how much is needed at once has to be found out first.
    open(TOGETHER);
    let before = visit.held();
    for done in (0..cycles).step_by(TOGETHER) {
        open(TOGETHER.min(cycles - done));
    }
    (before, visit.held())
}

#[test]
fn what_was_open_is_given_back() {
    const CYCLES: usize = 20;
    // Two openings a cycle. Memory of WASM grows by steps, so a little more than one of them is no leak.
    const EACH: f64 = 6_000.0;
    let (before, after) = held_over(CYCLES);
    let grown = (after.wasm - before.wasm) / (2 * CYCLES) as f64;
    assert!(grown < EACH, "WASM grew: {before:?}, {after:?}");
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
        ("longest task of the page's thread meanwhile", "50 ms", format!("{longest:.0} ms")),
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
