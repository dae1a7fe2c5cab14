//! What a student finds out about a trace: what quietening costs, and how the rhythm varies.

use crate::visit::Visit;

/// The part of R that is kept, in percent, as the table says.
fn kept_of_r(visit: &Visit) -> f64 {
    let script = "const row = [...document.querySelectorAll('.price tbody tr')]\
        .find(row => row.cells[0].innerText === 'R'); return row?.cells[3].innerText";
    visit.wait_for("R in the table", || {
        let said = visit.run(script, Vec::new());
        said.as_str()?.trim_end_matches('%').trim().parse().ok()
    })
}

#[test]
fn smoothing_tells_its_price_and_can_be_taken_back() {
    let visit = Visit::to_beatwalk();
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.unfold();
    visit.find("combobox", "Smoothing").choose("moving average");
    visit.wait_for_text("Measured on a quietened copy: moving average of 5 points");
    visit.wait_for_text("Noise between beats went down by");
    let narrow = kept_of_r(&visit);
    assert!((80.0..=100.0).contains(&narrow), "{narrow} %");
    // An even number has no middle: refused with the reason, and nothing changes.
    visit.find("textbox", "Points taken together (odd, 5 or more)").fill("16");
    visit.wait_for_text("16 is even");
    assert!(!visit.find("button", "Use so many").is_enabled());
    visit.find("textbox", "Points taken together (odd, 5 or more)").fill("25");
    visit.find("button", "Use so many").click();
    visit.wait_for_text("moving average of 25 points");
    visit.wait_for("a lower R", || (kept_of_r(&visit) < narrow - 5.0).then_some(()));
    visit.sketch("quieten");
    // At 250 samples a second a mean always costs more than five parts; a fitted parabola need not.
    visit.wait_for_text("Even 5 points take more than 5 % of this R.");
    visit.find("combobox", "Smoothing").choose("fitted parabola (Savitzky-Golay)");
    // What is suggested leaves R within five parts of a hundred.
    visit.find_containing("button", "the widest that keeps R within 5 %").click();
    visit.wait_for("a higher R", || (kept_of_r(&visit) >= 94.0).then_some(()));
    visit.find("button", "Back to the trace as it was").click();
    visit.wait_for("nothing to pay", || {
        visit.is_absent("button", "Back to the trace as it was").then_some(())
    });
    visit.leave_in_peace();
}

#[test]
fn the_rhythm_is_shown_as_picture_numbers_and_table() {
    let visit = Visit::to_beatwalk();
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("RMSSD");
    visit.wait_for_text("differences)");
    visit.unfold();
    let rows = "return document.querySelectorAll('.rhythm__chart ~ details tbody tr').length";
    // 32 beats lie 31 intervals apart.
    visit.wait_for("a row for each interval", || {
        (visit.run(rows, Vec::new()).as_u64() == Some(31)).then_some(())
    });
    visit.run("document.querySelector('.rhythm__chart').scrollIntoView()", Vec::new());
    visit.sketch("rhythm");
    visit.leave_in_peace();
}
