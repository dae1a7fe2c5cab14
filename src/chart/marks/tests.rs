use super::*;
use crate::analysis::WhySetAside;
use crate::chart::{Ink, SvgText, Viewport, draw_trace, to_svg};
use crate::signal::{Envelope, Hole, HoleCause, SampleIndex, SampleRate, VoltageUnit};
use crate::words::Language;

fn drawn(beats: &[BeatMark], holes: &[Hole], samples: usize) -> String {
    let envelope = Envelope::new(vec![0.0; samples].into());
    let rate = SampleRate::new(100.0).unwrap();
    let scene = TraceScene {
        unit: VoltageUnit::Unstated,
        holes,
        beats,
        ..TraceScene::bare(&envelope, rate, Viewport::fit(&envelope, rate))
    };
    let look =
        Look { palette: &Palette::LIGHT, scale: 1.0, px_per_mm: None, language: Language::English };
    let text = SvgText { title: "", description: "" };
    to_svg((800, 300), 1, text, |area| draw_trace(area, &scene, &look)).unwrap()
}

fn beats(count: usize) -> Vec<BeatMark> {
    let beat = |number| BeatMark {
        number,
        at: SampleIndex::new(number * 80),
        origin: Origin::Found,
        standing: match number {
            3 => Standing::SetAside(WhySetAside::OtherShape),
            _ => Standing::Counts,
        },
    };
    (1..=count).map(beat).collect()
}

#[test]
fn each_beat_has_its_wedge_and_number_while_there_is_room() {
    let svg = drawn(&beats(8), &[], 800);
    assert_eq!(svg.matches("<polygon").count(), 7);
    assert!(svg.contains(">\n(3)\n<") && svg.contains(">\n8\n<"));
}

#[test]
fn crowded_beats_are_thinned_to_round_numbers_but_none_set_aside_is_lost() {
    let svg = drawn(&beats(400), &[], 32_100);
    assert_eq!(svg.matches("<polygon").count(), 20, "every 20th of 400");
    assert!(svg.contains(">\n20\n<") && svg.contains(">\n380\n<") && !svg.contains(">\n21\n<"));
    let Ink(r, g, b) = Palette::LIGHT.set_aside;
    let cross = format!("stroke=\"#{r:02X}{g:02X}{b:02X}\"");
    assert_eq!(svg.matches(&cross).count(), 2, "the two strokes of one cross");
}

#[test]
fn a_beat_placed_by_hand_is_a_diamond_and_always_shows() {
    let mut crowd = beats(400);
    let student = Palette::LIGHT.student;
    let filled = format!("fill=\"#{:02X}{:02X}{:02X}\"", student.0, student.1, student.2);
    crowd[160].origin = Origin::Added;
    let svg = drawn(&crowd, &[], 32_100);
    assert_eq!(svg.matches("<polygon").count(), 21, "every 20th of 400, and the one by hand");
    assert_eq!(svg.matches(&filled).count(), 1);
}

#[test]
fn a_hole_says_what_it_is_where_the_word_fits() {
    let hole = |start, end| Hole { span: SampleSpan::new(start, end), cause: HoleCause::NoRows };
    assert!(drawn(&[], &[hole(200, 500)], 1000).contains("No data"));
    assert!(!drawn(&[], &[hole(200, 210)], 1000).contains("No data"));
}

#[test]
fn holes_that_touch_on_the_drawing_are_one_band() {
    let holes: Vec<Hole> = (0..10_000)
        .map(|i| Hole { span: SampleSpan::new(i * 10, i * 10 + 5), cause: HoleCause::NoValue })
        .collect();
    assert!(drawn(&[], &holes, 100_000).len() < 60_000);
}
