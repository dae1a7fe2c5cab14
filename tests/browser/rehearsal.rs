//! The tools of these tests, tried on a page of their own: what they claim to do, they do, and what
//! they watch for, they see.

use crate::visit::{Key, Point, Screen, Visit, Zooming};

fn rehearsal() -> Visit {
    Visit::to_page(include_str!("rehearsal.html"))
}

#[test]
fn parts_are_found_by_role_and_name() {
    let visit = rehearsal();
    visit.find("button", "Say hello").click();
    visit.wait_for_text("hello");
    visit.find("button", "Mark the R wave").click();
    visit.wait_for_text("R marked");
    assert_eq!(visit.names("button"), ["Say hello", "Mark the R wave", "Save", "Recording"]);
    assert!(visit.is_absent("button", "Say nothing"));
    assert!(!visit.find("button", "Save").is_enabled());
    assert_eq!(visit.find_containing("button", "hello").text(), "Say hello");
    assert_eq!(visit.find_any("application").attribute("aria-label").as_deref(), Some("Trace"));
    visit.find("combobox", "Speed").choose("50 mm/s");
    visit.wait_for_text("speed 50 mm/s");
    assert_eq!(visit.find("textbox", "Student code").fill("Q-03").value(), "Q-03");
    assert_eq!(visit.focused().run("return arguments[0].id"), "code");
}

#[test]
#[should_panic(expected = "no button \"Fly\"; there are [\"Say hello\"")]
fn what_is_not_there_is_not_found() {
    rehearsal().find("button", "Fly");
}

#[test]
fn keys_mouse_and_wheel_arrive() {
    let visit = rehearsal();
    let trace = visit.find("application", "Trace");
    trace.press(Key::Right);
    visit.wait_for_text("key ArrowRight");
    visit.press(Key::Home);
    visit.press_times(Key::End, 3);
    visit.press_with(Key::Control, 'z');
    visit.wait_for_text("key Control+z");
    let events = || visit.run("return document.getElementById('events').innerText", Vec::new());
    assert_eq!(events().as_str().unwrap().matches("key End").count(), 3);
    let middle = trace.at(0.5, 0.5);
    visit.drag(middle, middle.moved(60.0, 0.0));
    visit.wait_for_text("mouse 60");
    visit.point_at(middle);
    visit.click_at(middle);
    visit.wait_for_text("mouse 0");
    visit.wheel(middle, 0.0, 120.0, Zooming::Yes);
    visit.wait_for_text("wheel 0 120 true");
    visit.wheel(middle, 30.0, 0.0, Zooming::No);
    visit.wait_for_text("wheel 30 0 false");
    visit.find("textbox", "Student code").click();
    visit.type_text("Q-11");
    assert_eq!(visit.find("textbox", "Student code").value(), "Q-11");
}

#[test]
fn fingers_arrive_on_a_slow_phone() {
    let visit = rehearsal();
    visit.use_screen(Screen::Phone);
    visit.slow_down(6.0);
    assert_eq!(
        visit.run("return [innerWidth, devicePixelRatio]", Vec::new()),
        serde_json::json!([400, 2])
    );
    let middle = visit.find("application", "Trace").at(0.5, 0.5);
    visit.tap(middle);
    visit.wait_for_text("touch 0");
    visit.touch_drag(middle, middle.moved(-50.0, 0.0));
    visit.wait_for_text("touch -50");
    visit.pinch(middle, 40.0, 100.0);
    visit.wait_for_text("touch 30");
    visit.wait_for_text("touch -30");
}

#[test]
fn files_come_in_and_go_out() {
    let visit = rehearsal();
    let field = visit.find("application", "Trace").at(0.5, 0.5);
    visit.drop_bytes(field, &[("beat.hea", b"one"), ("beat.dat", b"two")]);
    visit.wait_for_text("dropped beat.hea 3 one");
    visit.wait_for_text("dropped beat.dat 3 two");
    let this = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/recordings/README.md");
    visit.drop_files(Point { x: field.x, y: field.y }, &[&this]);
    visit.wait_for_text("dropped README.md");
    visit.choose_files(&[&this]);
    visit.wait_for_text("chosen README.md");
    visit.paste("time,voltage");
    visit.wait_for_text("pasted time,voltage");
    let saved = visit.downloaded("beats.csv", || {
        visit.find("link", "Save the beats").click();
    });
    assert_eq!(saved, b"1\n2");
}

#[test]
fn the_profile_outlives_a_reload_and_the_browser() {
    let mut visit = rehearsal();
    visit.wait_for_text("visits 1");
    visit.reload();
    visit.wait_for_text("visits 2");
    visit.close_and_come_back();
    visit.wait_for_text("visits 3");
}

#[test]
fn a_quiet_page_is_let_pass() {
    let mut visit = rehearsal();
    visit.close_and_come_back();
    assert_eq!(visit.asked_of_the_server(), ["/science/beatwalk/", "/science/beatwalk/"]);
    visit.leave_in_peace();
}

#[test]
#[should_panic(expected = "errors in the console")]
fn an_uncaught_error_is_seen() {
    let visit = rehearsal();
    visit.run("setTimeout(() => { throw new Error('oops') })", Vec::new());
    visit.wait_for("the error", || (!visit.console_errors().is_empty()).then_some(()));
    visit.leave_in_peace();
}

#[test]
#[should_panic(expected = "asked of others: [\n    \"https://example.invalid/told-by-a-beacon\"")]
fn a_beacon_to_another_place_is_seen() {
    let visit = rehearsal();
    visit.run("navigator.sendBeacon('https://example.invalid/told-by-a-beacon', 'x')", Vec::new());
    // The console has the failed request too; only the network log is asked here.
    visit.wait_for("the console", || (!visit.forget_console_errors().is_empty()).then_some(()));
    visit.leave_in_peace();
}

#[test]
#[should_panic(expected = "asked of others: [\n    \"https://example.invalid/told-by-a-worker\"")]
fn a_request_of_a_worker_to_another_place_is_seen() {
    let visit = rehearsal();
    let ask = "const code = `fetch('https://example.invalid/told-by-a-worker').then(() => postMessage(1), () => postMessage(0))`;
        const worker = new Worker(URL.createObjectURL(new Blob([code])));
        return new Promise(done => { worker.onmessage = done; }).then(() => 1)";
    visit.run(ask, Vec::new());
    visit.forget_console_errors();
    visit.leave_in_peace();
}

#[test]
fn the_network_goes_and_comes_back() {
    let visit = rehearsal();
    let ask = "return fetch('./').then(answer => answer.ok, () => false)";
    visit.go_offline();
    assert_eq!(visit.run("return navigator.onLine", Vec::new()), false);
    assert_eq!(visit.run(ask, Vec::new()), false);
    visit.go_online();
    assert_eq!(visit.run(ask, Vec::new()), true);
}
