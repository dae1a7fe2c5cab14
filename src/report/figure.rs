//! The figures of a report: the chosen beat, the typical one, and the trace around the chosen beat.
//!
//! One description of each serves the page, the printed sheet, the saved report and the files a student takes
//! away, at any width: writing and lines keep their size, the drawing grows.

use super::Figures;
use crate::analysis::Reading;
use crate::chart::{
    BeatMark, CSS_PX_PER_MM, ChartTable, CycleScene, DrawError, Look, Palette, Role, Shade,
    SvgText, Tone, TraceScene, Viewport, draw_cycle, draw_trace, summary, to_svg,
};
use crate::lesson::Evidence;
use crate::signal::{
    Envelope, Landmarks, Recording, SampleIndex, SampleRate, SampleSpan, VoltageUnit,
};
use crate::words::{Language, say, say_with};
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, DrawingBackend};

/// How finely an SVG is drawn.
const FINE: u32 = 4;

/// Which figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FigureKind {
    /// The chosen beat with the student's own marks; those of the app where there are none yet.
    Beat,
    /// The typical beat with the marks of the app.
    Typical,
    /// The trace around the chosen beat.
    Strip,
}

impl FigureKind {
    /// All of them, in the order of the report.
    pub const ALL: [Self; 3] = [Self::Beat, Self::Typical, Self::Strip];

    /// The name used in message keys and names of files.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Beat => "cycle",
            Self::Typical => "typical",
            Self::Strip => "strip",
        }
    }

    /// How high it is for its width.
    const fn shape(self) -> f64 {
        match self {
            Self::Beat | Self::Typical => 0.625,
            Self::Strip => 0.35,
        }
    }
}

/// How wide a figure is on paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FigureWidth(f64);

impl FigureWidth {
    /// As wide as the text of a printed A4 page.
    pub const PAGE: Self = Self(170.0);
    /// Narrower, the writing covers the drawing.
    pub const LEAST_MM: f64 = 80.0;
    /// Wider than the long side of A3.
    pub const MOST_MM: f64 = 420.0;
    /// Dots in an inch of a PNG: what printers ask for; common practice.
    const DOTS: f64 = 300.0;

    /// So many millimetres, within what can be drawn.
    pub const fn millimetres(mm: f64) -> Self {
        Self(if mm.is_nan() { Self::PAGE.0 } else { mm.clamp(Self::LEAST_MM, Self::MOST_MM) })
    }

    /// Width and height in CSS pixels.
    fn css(self, kind: FigureKind) -> (u32, u32) {
        let width = self.0 * CSS_PX_PER_MM;
        (width.round() as u32, (width * kind.shape()).round() as u32)
    }

    /// Width and height in dots of a PNG, and the dots in a CSS pixel.
    pub fn dots(self, kind: FigureKind) -> ((u32, u32), f64) {
        let scale = Self::DOTS / 96.0;
        let (width, height) = self.css(kind);
        let dots = |pixels: u32| (f64::from(pixels) * scale).round() as u32;
        ((dots(width), dots(height)), scale)
    }
}

/// A figure, ready to be drawn.
#[derive(Clone, Debug)]
pub struct Figure<'a> {
    /// Which one.
    pub kind: FigureKind,
    /// What stands below it.
    pub caption: String,
    content: Content<'a>,
    file: &'a str,
    language: Language,
}

#[derive(Clone, Debug)]
enum Content<'a> {
    Cycle(CycleScene<'a>),
    Strip(Box<Strip>),
}

/// A stretch of the trace, as a recording of its own.
#[derive(Clone, Debug)]
struct Strip {
    part: Recording,
    envelope: Envelope,
    beats: Vec<BeatMark>,
    cycle: SampleSpan,
}

impl<'a> Figure<'a> {
    /// A figure of a report; `None` where there is nothing to draw: no beat is chosen, or none is typical.
    pub fn of(
        kind: FigureKind,
        figures: Option<Figures>,
        file: &'a str,
        evidence: Evidence<'a>,
        language: Language,
    ) -> Option<Self> {
        let Evidence { recording, reading } = evidence;
        let (caption, content) = match kind {
            FigureKind::Beat => beat(&figures?, recording, language)?,
            FigureKind::Typical => typical(reading, recording.unit, language)?,
            FigureKind::Strip => strip(&figures?, evidence, language)?,
        };
        Some(Self { kind, caption, content, file, language })
    }

    /// Draws it over the whole of an area, so many of whose pixels are one CSS pixel.
    ///
    /// # Errors
    /// Only those of the backend.
    pub fn draw<DB: DrawingBackend>(
        &self,
        area: &DrawingArea<DB, Shift>,
        scale: f64,
    ) -> Result<(), DrawError<DB>> {
        let look = Look {
            palette: &Palette::PRINT,
            scale,
            px_per_mm: Some(CSS_PX_PER_MM),
            language: self.language,
        };
        match &self.content {
            Content::Cycle(scene) => draw_cycle(area, scene, &look),
            Content::Strip(strip) => strip.with(|scene| draw_trace(area, scene, &look)),
        }
    }

    /// The figure as an SVG; `None` when it can't be drawn.
    pub fn svg(&self, width: FigureWidth) -> Option<String> {
        let title = say(self.language, "page.results.figure");
        let description = format!("{}. {}", self.file, self.summary());
        let text = SvgText { title: &title, description: &description };
        to_svg(width.css(self.kind), FINE, text, |area| self.draw(area, FINE.into())).ok()
    }

    /// Its points as rows; `None` for the strip, whose beats have tables of their own.
    pub fn table(&self) -> Option<ChartTable> {
        match &self.content {
            Content::Cycle(scene) => Some(ChartTable::of_cycle(scene, self.language)),
            Content::Strip(_) => None,
        }
    }

    fn summary(&self) -> String {
        match &self.content {
            Content::Cycle(scene) => scene.summary(self.language),
            Content::Strip(strip) => strip.with(|scene| summary(scene, self.language)),
        }
    }
}

impl Strip {
    fn with<T>(&self, act: impl FnOnce(&TraceScene<'_>) -> T) -> T {
        let rate = self.part.rate;
        let viewport = Viewport::fit(&self.envelope, rate);
        let chosen = [Shade { span: self.cycle, tone: Tone::Chosen, label: "" }];
        act(&TraceScene {
            unit: self.part.unit,
            holes: &self.part.holes,
            beats: &self.beats,
            shades: &chosen,
            ..TraceScene::bare(&self.envelope, rate, viewport)
        })
    }
}

fn beat<'a>(
    figures: &Figures,
    recording: &'a Recording,
    language: Language,
) -> Option<(String, Content<'a>)> {
    let own = figures.own.iter().next().is_some();
    let (points, role, caption) = match own {
        true => (figures.own, Role::Student, "page.results.own_beat"),
        false => (figures.computed, Role::Answer, "page.results.unmarked_beat"),
    };
    let mut landmarks = Landmarks::default();
    for (landmark, at) in points.iter() {
        landmarks.set(landmark, inside(at, figures.cycle));
    }
    let samples = recording.samples.get(figures.cycle.range())?;
    let (rate, unit) = (recording.rate, recording.unit);
    let scene = CycleScene { samples, rate, unit, landmarks, role };
    Some((say(language, caption).into_owned(), Content::Cycle(scene)))
}

fn typical(
    reading: &Reading,
    unit: VoltageUnit,
    language: Language,
) -> Option<(String, Content<'_>)> {
    let median = reading.median.as_ref()?;
    let n = median.n.to_string();
    let scene = CycleScene {
        samples: &median.samples,
        rate: median.rate,
        unit,
        landmarks: median.landmarks,
        role: Role::Answer,
    };
    let caption = say_with(language, "page.results.typical_beat", &[("n", &n)]);
    Some((caption, Content::Cycle(scene)))
}

fn strip<'a>(
    figures: &Figures,
    Evidence { recording, reading }: Evidence<'_>,
    language: Language,
) -> Option<(String, Content<'a>)> {
    let part = recording.part(figures.strip);
    let beats = reading.beats.iter().enumerate().filter_map(|(place, beat)| {
        let at = inside(beat.r, figures.strip)?;
        let (origin, standing) = (beat.origin, beat.standing);
        Some(BeatMark { number: place + 1, at, origin, standing })
    });
    let first = figures.strip.start().get();
    let moved = |at: SampleIndex| at.get().saturating_sub(first);
    let cycle = SampleSpan::new(moved(figures.cycle.start()), moved(figures.cycle.end()));
    let ends = [figures.strip.start(), figures.strip.end()];
    let [from, to] = ends.map(|at| seconds(language, recording.rate, at));
    let caption = say_with(language, "report.strip", &[("from", &from), ("to", &to)]);
    let envelope = Envelope::new(part.samples.clone());
    let strip = Strip { beats: beats.collect(), envelope, cycle, part };
    (!strip.part.samples.is_empty()).then(|| (caption, Content::Strip(Box::new(strip))))
}

/// A sample counted from the first of a span, when it lies in it.
fn inside(at: SampleIndex, span: SampleSpan) -> Option<SampleIndex> {
    span.contains(at).then(|| SampleIndex::new(at.get() - span.start().get()))
}

fn seconds(language: Language, rate: SampleRate, at: SampleIndex) -> String {
    crate::words::decimal(language, rate.time_of(at).seconds(), 1)
}
