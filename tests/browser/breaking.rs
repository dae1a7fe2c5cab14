//! The program breaks, and nothing is lost: a panic on the page, a worker that dies, a clock that is set.

use crate::visit::{Key, Visit, let_it_be_written};

fn open_resting(visit: &Visit) {
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
}

/// Every element of this name can't be made from here on: what Leptos takes for impossible.
const NO_TEXTAREA: &str = "const make = Document.prototype.createElement;\
    Document.prototype.createElement = function (name) {\
        if (name === 'textarea') throw new Error('injected');\
        return make.call(this, name) }";

#[test]
fn a_panic_is_told_calmly_and_the_work_is_saved() {
    let visit = Visit::to_beatwalk();
    open_resting(&visit);
    visit.find("button", "Results").click();
    visit.find_containing("textbox", "Code").fill("Q-77");
    let_it_be_written();
    visit.find("button", "See the trace").click();
    visit.run(NO_TEXTAREA, Vec::new());
    visit.find("button", "Results").click();
    visit.wait_for_text("Beatwalk has stopped");
    visit.sketch("broken");
    visit.forget_console_errors();
    visit.find("link", "Save what I have").press(Key::Enter);
    visit.wait_for_text("What this browser kept");
    let saved = visit.downloaded("reading.beatwalk.json", || {
        visit.find("button", "reading.beatwalk.json").press(Key::Enter);
    });
    assert!(String::from_utf8(saved).unwrap().contains("Q-77"));
    visit.sketch("rescue");
    visit.find("link", "Open Beatwalk again").press(Key::Enter);
    visit.find("button", "Results").click();
    assert_eq!(visit.find_containing("textbox", "Code").value(), "Q-77");
    visit.leave_in_peace();
}

/// A worker that dies says so; the next job starts a new one, and what was open stays open.
#[test]
fn a_worker_that_dies_is_started_again() {
    let visit = Visit::to_beatwalk();
    visit.before_each_page(
        "const post = Worker.prototype.postMessage; window.breaking = false;\
        Worker.prototype.postMessage = function (...it) {\
            if (window.breaking) { window.breaking = false;\
                setTimeout(() => this.dispatchEvent(new ErrorEvent('error', { message: 'out of memory' })));\
                return }\
            return post.apply(this, it) }",
    );
    visit.reload();
    open_resting(&visit);
    visit.find("button", "Open a recording").click();
    visit.run("window.breaking = true", Vec::new());
    visit.find_containing("button", "Q-07").click();
    visit.wait_for_text("out of memory");
    visit.wait_for_text("What you had open is still here.");
    visit.find_containing("button", "Q-07").click();
    visit.wait_for_text("Found\n34");
    visit.leave_in_peace();
}

/// The page's clock is as far off as a test says; the time since the page was opened is not.
const SETTABLE_CLOCK: &str = "window.off = 0; const Real = Date;\
    Date = class extends Real {\
        constructor(...it) { if (it.length) super(...it); else super(Real.now() + window.off) }\
        static now() { return Real.now() + window.off } }";

/// A school's network sets clocks when it pleases, also while a class runs up the stairs by the timer.
#[test]
fn a_clock_that_is_set_hurries_and_stops_nobody() {
    let visit = Visit::to_beatwalk();
    visit.before_each_page(SETTABLE_CLOCK);
    visit.reload();
    visit.find("button", "Investigations").click();
    visit.find_containing("button", "Rest and recovery after exercise").click();
    visit.find("button", "Start").click();
    let told = "return [document.querySelector('.bench__phase').innerText,\
        document.querySelector('.bench__clock').innerText]";
    let phase_and_seconds = || {
        let told = visit.run(told, Vec::new());
        let clock = told[1].as_str().unwrap_or_default();
        let (minutes, seconds) = clock.split_once(':').unwrap_or_default();
        let left: i64 = minutes.parse::<i64>().unwrap() * 60 + seconds.parse::<i64>().unwrap();
        (told[0].clone(), left)
    };
    let (phase, begun) = phase_and_seconds();
    let waits_for = |seconds: i64| {
        visit.wait_for("the timer to go on", || {
            (phase_and_seconds().1 <= begun - seconds).then_some(())
        });
        let now = phase_and_seconds();
        assert_eq!(now.0, phase, "the phase has not been left");
        assert!(now.1 > begun - seconds - 20, "{begun} s, then {} s", now.1);
    };
    waits_for(1);
    visit.run("window.off = 3600e3", Vec::new());
    waits_for(2);
    visit.run("window.off = -86400e3", Vec::new());
    waits_for(3);
    visit.leave_in_peace();
}
