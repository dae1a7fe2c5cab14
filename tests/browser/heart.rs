//! The heart beside the student's beat: it knows what the student has settled, plays, stops, is scrubbed
//! and gone through by steps, and keeps still for those who asked for less motion.

use crate::visit::{Key, Part, Screen, Visit};
use beatwalk::lesson::Step;
use std::time::{Duration, Instant};

/// Opens the resting demo at the step of R.
fn walk_to_r(visit: &Visit) {
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.find("button", "Walk one beat").click();
    visit.find("button", "Next").click();
}

/// Tries twice, wherever the mark is, and looks at the worked answer.
fn settle_this_step(visit: &Visit) {
    visit.find_any("slider").press(Key::Right);
    for key in [Key::Enter, Key::Right, Key::Enter] {
        visit.press(key);
    }
    visit.find("button", "Show me").press(Key::Enter);
    visit.wait_for_text("Electrically");
}

fn settle_all_steps(visit: &Visit) {
    let points = Step::ALL.into_iter().filter(|step| step.landmark().is_some()).count();
    for place in 0..points {
        settle_this_step(visit);
        if place + 1 < points {
            visit.find("button", "Next").press(Key::Enter);
        }
    }
}

fn unfold_heart(visit: &Visit) {
    visit.run("document.querySelector('.heart > summary').focus()", Vec::new());
    visit.press(Key::Enter);
    visit.find("img", "A heart cut open, seen from the front");
}

fn slider(visit: &Visit) -> Part<'_> {
    visit.find("slider", "Moment of the cycle")
}

/// Where the cursor stands, ms.
fn moment(visit: &Visit) -> f64 {
    slider(visit).value().parse().unwrap()
}

/// What the drawing shows: conduction and mechanics.
fn drawn(visit: &Visit) -> [Option<String>; 2] {
    ["conduction", "mechanics"].map(|layer| {
        let script =
            "return document.querySelector('.heart__picture').dataset[arguments[0]] ?? null";
        visit.run(script, vec![layer.into()]).as_str().map(str::to_owned)
    })
}

#[test]
fn the_heart_tells_only_what_the_student_has_settled() {
    let visit = Visit::to_beatwalk();
    walk_to_r(&visit);
    assert!(visit.is_absent("slider", "Moment of the cycle"));
    settle_this_step(&visit);
    unfold_heart(&visit);
    visit.wait_for_text("The ventricles depolarise: the septum first");
    assert_eq!(drawn(&visit), [Some("walls".into()), Some("end_of_filling".into())]);
    // Away from R nothing is given away, neither in the drawing nor in words.
    slider(&visit).press(Key::PageUp);
    visit.wait_for_text("Not shown. Settle the points around this moment first.");
    assert_eq!(drawn(&visit), [None, None]);
    visit.leave_in_peace();
}

#[test]
fn the_cursor_plays_stops_and_is_scrubbed_by_keyboard() {
    let visit = Visit::to_beatwalk();
    walk_to_r(&visit);
    settle_all_steps(&visit);
    unfold_heart(&visit);
    // It stands on the point that was settled last, the end of T.
    let t_end = moment(&visit);
    assert_eq!(drawn(&visit)[0].as_deref(), Some("rest"));

    slider(&visit).press(Key::Home);
    assert_eq!(moment(&visit), 0.0);
    assert_eq!(drawn(&visit), [Some("atria".into()), Some("filling".into())]);
    visit.find("button", "One step on").press(Key::Enter);
    let step = moment(&visit);
    assert_eq!(step, 25.0, "the atria contract 25 ms after P begins");
    assert_eq!(drawn(&visit), [Some("atria".into()), Some("atrial_systole".into())]);
    visit.find("button", "One step back").press(Key::Enter);
    assert_eq!(moment(&visit), 0.0);

    // Ten times slower than the heart, from the start of the cycle.
    let began = Instant::now();
    visit.find("button", "Play").press(Key::Enter);
    visit.wait_for("the cursor moving", || (moment(&visit) > 40.0).then_some(()));
    visit.find("button", "Pause").press(Key::Enter);
    let stopped = moment(&visit);
    let longest = began.elapsed().as_secs_f64() * 100.0;
    assert!(stopped <= longest + 5.0, "{stopped} ms of the cycle in {longest:.0} ms at a tenth");
    std::thread::sleep(Duration::from_millis(200));
    assert_eq!(moment(&visit), stopped, "it went on after Pause");

    // In real time it goes round and round.
    visit.find_containing("combobox", "Speed").choose("real time");
    visit.find("button", "Play").press(Key::Enter);
    let mut before = moment(&visit);
    visit.wait_for("the next cycle", || {
        let now = moment(&visit);
        let again = now < before;
        before = now;
        again.then_some(())
    });
    slider(&visit).press(Key::End);
    visit.find("button", "Play");
    let end = moment(&visit);
    assert!(end > t_end, "{end} is not after T");
    let told = slider(&visit).attribute("aria-valuetext").unwrap();
    assert!(
        told.contains("All muscle is at rest") && told.contains("fill by themselves"),
        "{told}"
    );
    visit.leave_in_peace();
}

#[test]
fn less_motion_leaves_the_steps() {
    let visit = Visit::to_beatwalk();
    visit.prefer_less_motion(true);
    walk_to_r(&visit);
    settle_all_steps(&visit);
    unfold_heart(&visit);
    assert!(visit.is_absent("button", "Play"));
    let before = moment(&visit);
    visit.find("button", "One step back").click();
    assert!(moment(&visit) < before);
    visit.leave_in_peace();
}

#[test]
fn the_heart_at_three_sizes() {
    let visit = Visit::to_beatwalk();
    walk_to_r(&visit);
    settle_all_steps(&visit);
    unfold_heart(&visit);
    slider(&visit).press(Key::Home);
    for screen in Screen::ALL {
        visit.use_screen(screen);
        visit.run("document.querySelector('.heart').scrollIntoView()", Vec::new());
        // By finger too.
        let before = moment(&visit);
        let step = visit.find("button", "One step on").at(0.5, 0.5);
        if screen == Screen::Phone {
            visit.tap(step)
        } else {
            visit.click_at(step)
        }
        visit.wait_for("a step on", || (moment(&visit) > before).then_some(()));
        visit.sketch(&format!("heart-{}", screen.name()));
    }
    visit.use_screen(Screen::Laptop);
    for (place, moment) in
        ["atria", "av_node", "bundle", "walls", "plateau", "repolarising", "rest"]
            .into_iter()
            .enumerate()
    {
        let script = "const slider = document.querySelector('.heart__scrub');
            for (let at = 0; at <= +slider.max; at++) {
                slider.value = at; slider.dispatchEvent(new Event('input', { bubbles: true }));
                await new Promise(r => setTimeout(r));
                if (document.querySelector('.heart__picture').dataset.conduction === arguments[0]) return at;
            }";
        let script = format!("return (async function() {{ {script} }}).apply(null, arguments)");
        assert!(visit.run(&script, vec![moment.into()]).is_number(), "{moment} is never shown");
        visit.run("document.querySelector('.heart').scrollIntoView()", Vec::new());
        visit.sketch(&format!("heart-{place}-{moment}"));
    }
    visit.leave_in_peace();
}
