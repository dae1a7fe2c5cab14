//! The report on its way out: previewed, printed on either paper, saved as a page of its own.

use crate::visit::{Key, Paper, Screen, Visit};

fn at_the_results() -> Visit {
    let visit = Visit::to_beatwalk();
    visit.find_containing("button", "Q-03 at rest").click();
    visit.wait_for_text("Found\n32");
    visit.find("button", "Results").click();
    visit.wait_for_text("Typical at rest");
    visit
}

/// The size of the first sheet of a printed page, in points.
fn first_sheet(pdf: &[u8]) -> (f64, f64) {
    let text = String::from_utf8_lossy(pdf);
    let size = text.split_once("/MediaBox [0 0 ").unwrap().1.split_once(']').unwrap().0;
    let (width, height) = size.split_once(' ').unwrap();
    (width.parse().unwrap(), height.parse().unwrap())
}

/// The paper chosen in the preview is the paper that comes out; the page itself is as it was before.
#[test]
fn the_preview_is_what_is_printed() {
    let visit = at_the_results();
    visit.find("button", "Preview and print").press(Key::Enter);
    visit.find("button", "Back to the page");
    let shown = "return getComputedStyle(document.querySelector('.app__bar')).display";
    assert_eq!(visit.run(shown, Vec::new()), "none");
    for (paper, name, size) in
        [(Paper::Letter, "US Letter", (612.0, 792.0)), (Paper::A4, "A4", (594.96, 841.92))]
    {
        visit.find("button", name).click();
        visit.sketch(&format!("preview-{name}"));
        let pdf = visit.printed(&format!("report-{paper:?}"));
        let (width, height) = first_sheet(&pdf);
        assert!((width - size.0).abs() < 1.0 && (height - size.1).abs() < 1.0, "{width} {height}");
    }
    visit.use_screen(Screen::Phone);
    visit.sketch("preview-phone");
    visit.use_screen(Screen::Laptop);
    visit.press(Key::Escape);
    assert_ne!(visit.run(shown, Vec::new()), "none");
    visit.leave_in_peace();
}

/// The saved page holds everything and asks for nothing, and what a student wrote is text in it.
#[test]
fn the_saved_page_stands_alone() {
    let visit = at_the_results();
    visit.find_containing("textbox", "Code").fill("<img src=x onerror=alert(1)>");
    let page = visit.downloaded("quillmere-10k-q03-resting-report.html", || {
        visit.find("button", "Report as a web page").press(Key::Enter);
    });
    let page = String::from_utf8(page).unwrap();
    assert!(page.contains("&lt;img src=x onerror=alert(1)&gt;") && !page.contains("<img"));
    for asks in ["<script", "<link", "<object", "<iframe", "url(", "@import"] {
        assert!(!page.contains(asks), "{asks}");
    }
    assert_eq!(page.matches("<svg ").count(), 3);
    visit.leave_in_peace();
    let saved = Visit::to_page(page.leak());
    saved.use_screen(Screen::Laptop);
    saved.wait_for_text("Typical at rest");
    saved.sketch("report-page");
    saved.printed("report-page");
    saved.leave_in_peace();
}

/// A figure is as wide as it was asked for, in points of print.
#[test]
fn a_figure_has_the_size_it_was_asked_for() {
    let visit = at_the_results();
    visit.find_containing("textbox", "Width on paper").fill("100");
    visit.find("combobox", "Figure").choose("The trace around it");
    let png = visit.downloaded("quillmere-10k-q03-resting-strip.png", || {
        visit.find("button", "Save as PNG").press(Key::Enter);
    });
    let number = |at: usize| u32::from_be_bytes(png[at..at + 4].try_into().unwrap());
    // 100 mm at 300 dots an inch are 1181 dots.
    assert_eq!(number(16), 1181);
    let svg = visit.downloaded("quillmere-10k-q03-resting-strip.svg", || {
        visit.find("button", "Save as SVG").press(Key::Enter);
    });
    // 100 mm are 378 CSS pixels.
    assert!(String::from_utf8(svg).unwrap().contains("width=\"378\""));
    visit.leave_in_peace();
}
