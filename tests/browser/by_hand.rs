//! Measuring by hand: the legs by keys and by pointer, boxes counted, three rules beside the computed rate.

use crate::visit::{Key, Screen, Visit};

fn on_trace(visit: &Visit) -> String {
    visit.wait_for("what the legs span", || {
        let words = visit.run(
            "return [...document.querySelectorAll('strong')].map(it => it.innerText).join(' ')",
            Vec::new(),
        );
        words.as_str().filter(|words| words.contains("small boxes")).map(str::to_owned)
    })
}

fn slide_to(visit: &Visit, leg: &str, sample: usize) {
    let script = format!(
        "arguments[0].value = '{sample}'; arguments[0].dispatchEvent(new Event('input', {{ bubbles: true }}))"
    );
    visit.find("slider", leg).run(&script);
}

#[test]
fn a_rate_is_counted_in_boxes() {
    let visit = Visit::to_beatwalk();
    let zone = visit.find("button", "Choose a file…").at(0.5, 0.5);
    // A beat every 0.8 s from 0.4 s on, 1 mV high, at 250 Hz: invented.
    let rows = (0..2500).map(|row| {
        let time = f64::from(row) / 250.0;
        let beat = (time % 0.8 - 0.4) / 0.02;
        format!("{time:.3},{:.3}\n", (-beat * beat).exp())
    });
    let text: String = std::iter::once("time (s),ECG (mV)\n".to_owned()).chain(rows).collect();
    visit.drop_bytes(zone, &[("beats.csv", text.as_bytes())]);
    visit.wait_for_text("Found\n12");
    visit.find("button", "Measure by hand").click();
    slide_to(&visit, "Left leg", 100);
    slide_to(&visit, "Right leg", 299);
    visit.find("slider", "Right leg").press(Key::Right);
    let told = on_trace(&visit);
    assert!(told.contains("800 ms = 20.0 small boxes of 40 ms = 4.0 large boxes"), "{told}");
    assert!(told.contains("0.00 mV"), "{told}");
    visit.unfold();
    visit.wait_for_text("300 ÷ large boxes\t4\t75 (could be 67 to 86)\t75.0\t0.0");
    visit.wait_for_text("1500 ÷ small boxes\t20\t75 (could be 73 to 77)\t75.0\t0.0");
    visit.wait_for_text("Beats in 6 s × 10\t8\t80 (could be 70 to 90)\t75.0\t5.0");
    for screen in Screen::ALL {
        visit.use_screen(screen);
        visit.sketch(&format!("by-hand-{}", screen.name()));
    }
    visit.use_screen(Screen::Laptop);

    // A leg is dragged away from its R: there is no rate any more, and it says why.
    let chart = visit.find_any("application");
    let left = chart.at(0.1, 0.5);
    visit.drag(left, chart.at(0.2, 0.5));
    visit.find("button", "Done").click();
    assert!(visit.is_absent("slider", "Left leg"));
    visit.leave_in_peace();
}
