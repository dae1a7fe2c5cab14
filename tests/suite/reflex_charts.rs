//! Drawings of breathing and of the stretch reflex, compared byte for byte with the files in `tests/golden` as those
//! of `charts.rs` are. All recordings are invented.

use super::golden::assert_golden;
use super::inquiry_recovery::{bare, beats, pace, reading_of};
use beatwalk::analysis::{Standing, WhySetAside};
use beatwalk::chart::{
    Look, Palette, ReflexScene, SvgText, draw_breathing, draw_reflex, draw_reflexes, to_svg,
};
use beatwalk::inquiry::{
    BreathMarks, BreathSource, Breathing, Protocol, ReflexSettings, Reflexes, Stretch, Sweeps,
};
use beatwalk::lesson::Evidence;
use beatwalk::signal::{
    BeatsPerMinute, Mark, MarkKind, Milliseconds, Recording, SampleRate, Seconds,
};
use beatwalk::synth::{Base, Pace, Random, Reflex};
use beatwalk::words::Language;

const LIGHT: Look<'_> =
    Look { palette: &Palette::LIGHT, scale: 2.0, px_per_mm: None, language: Language::English };
const PROJECTOR: Look<'_> = Look { palette: &Palette::PROJECTOR, ..LIGHT };
const SPANISH: Look<'_> = Look { language: Language::Spanish, ..LIGHT };

/// Half a minute with breaths of 4 s by marks; one has no mark for breathing out, and one holds an early beat.
fn breathing() -> Breathing {
    let steady = pace(Base::Steady(BeatsPerMinute::new(76.0)), 0.0, 60.0);
    let mut found = beats(&Pace { ..steady }, 30.0, &mut Random::new(3));
    let early = found.len() / 2 + 2;
    found[early].standing = Standing::SetAside(WhySetAside::Early);
    found[early].r = found[early].r.offset(-40);
    let rate = SampleRate::new(250.0).unwrap();
    let mark = |seconds: f64, text: &str| Mark {
        at: rate.nearest(Seconds::new(seconds)),
        kind: MarkKind::Note,
        text: text.to_owned(),
    };
    let breaths = (0..8).map(|number| 1.0 + 4.0 * f64::from(number));
    let marks = breaths.flat_map(|at| [mark(at, "in"), mark(at + 1.7, "out")]);
    let marks = marks.enumerate().filter(|(place, _)| *place != 5).map(|(_, mark)| mark).collect();
    let recording = Recording { marks, ..bare(250.0, 30.0) };
    let reading = reading_of(found);
    let stretch = Stretch::whole(Evidence { recording: &recording, reading: &reading });
    let marks = BreathMarks::likely(&recording).unwrap();
    Breathing::of(&stretch, BreathSource::Marks(&marks)).unwrap()
}

fn breathing_svg(found: &Breathing, look: &Look<'_>, size: (u32, u32)) -> String {
    let description = found.summary(look.language);
    let text = SvgText { title: "Breathing", description: &description };
    to_svg(size, look.scale as u32, text, |area| draw_breathing(area, found, look)).unwrap()
}

#[test]
fn a_rate_with_its_breaths() {
    let found = breathing();
    assert_golden("breathing.svg", &breathing_svg(&found, &LIGHT, (900, 360)));
    assert_golden("breathing_projector.svg", &breathing_svg(&found, &PROJECTOR, (1200, 600)));
    assert_golden("breathing_narrow.svg", &breathing_svg(&found, &SPANISH, (380, 300)));
    breathing_svg(&found, &LIGHT, (1, 1));
}

/// Five taps at 2000 samples a second; the third is not answered.
fn reflex() -> (Recording, Reflexes, Sweeps) {
    let rate = SampleRate::new(2000.0).unwrap();
    let at = [0.6, 1.5, 2.4, 3.3, 4.2].map(Seconds::new);
    let answered: Vec<Seconds> = at.into_iter().filter(|tap| *tap != at[2]).collect();
    let (voltage, _) = Reflex::KNEE.record(&answered, rate, 10_000, &mut Random::new(6));
    let recording = Recording { samples: voltage.into(), ..bare(2000.0, 0.0) };
    let found = Reflexes::of(&recording, &at, ReflexSettings::REFLEX).unwrap();
    let [before, after] = [20.0, 60.0].map(Milliseconds::new);
    let sweeps = Sweeps::of(&recording, &found, before, after);
    (recording, found, sweeps)
}

#[test]
fn one_answer_and_all_of_them() {
    let (_, found, sweeps) = reflex();
    let scene = ReflexScene { reflexes: &found, sweeps: &sweeps };
    let one = |place: usize, look: &Look<'_>, size| {
        let description = found.summary_of(place, look.language).unwrap_or_default();
        let text = SvgText { title: "Reflex", description: &description };
        to_svg(size, look.scale as u32, text, |area| draw_reflex(area, &scene, place, look))
            .unwrap()
    };
    let all = |look: &Look<'_>, size| {
        let description = found.summary(look.language);
        let text = SvgText { title: "Reflexes", description: &description };
        to_svg(size, look.scale as u32, text, |area| draw_reflexes(area, &scene, look)).unwrap()
    };
    assert_golden("reflex.svg", &one(0, &LIGHT, (760, 400)));
    assert_golden("reflex_silent.svg", &one(2, &SPANISH, (380, 300)));
    assert_golden("reflexes.svg", &all(&LIGHT, (760, 400)));
    assert_golden("reflexes_projector.svg", &all(&PROJECTOR, (1200, 680)));
    one(99, &LIGHT, (1, 1));
}

/// Every sentence and table of both, in both languages: none shows the name of a message or an empty place.
#[test]
fn everything_said_of_them_is_said() {
    let (breathing, (_, reflexes, _)) = (breathing(), reflex());
    let mut said = String::new();
    for language in Language::ALL {
        let words = breathing.words().into_iter().chain(reflexes.words());
        let mut lines: Vec<String> = words.map(|words| words.in_words(language)).collect();
        lines.extend(
            breathing.rows(language).into_iter().map(|(name, value)| format!("{name}: {value}")),
        );
        lines.push(Breathing::heads(language).join(" | "));
        lines.extend(breathing.lines(language).into_iter().map(|line| {
            [line.number, line.from, line.to, line.rr, line.rate, line.counts].join(" | ")
        }));
        lines.push(reflexes.heads(language).join(" | "));
        lines.extend(reflexes.lines(language).into_iter().map(|line| {
            [
                line.tap,
                line.at,
                line.latency,
                line.duration,
                line.rectified,
                line.rms,
                line.peak_to_peak,
                line.note,
            ]
            .join(" | ")
        }));
        for card in [Protocol::BREATHING, Protocol::REFLEX] {
            lines.push(card.title(language).into_owned());
            lines.extend(card.stop_signs(language).into_iter().map(|sign| sign.into_owned()));
        }
        for line in &lines {
            let is_named = ["breathing.", "reflex."].iter().any(|name| line.contains(name));
            assert!(!is_named && !line.contains("%{"), "{line}");
        }
        said.push_str(&lines.join("\n"));
        said.push_str("\n\n");
    }
    assert_golden("breathing_reflex.txt", &said);
}
