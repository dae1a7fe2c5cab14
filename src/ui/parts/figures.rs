//! Figures of one cycle, drawn as SVG in the page so that they are sharp on paper too.

use super::as_table::AsTable;
use crate::ui::state::App;
use beatwalk::chart::{
    CSS_PX_PER_MM, ChartTable, CycleScene, Look, Palette, Role, SvgText, draw_cycle, to_svg,
};
use beatwalk::signal::{Landmarks, SampleIndex, SampleRate, VoltageUnit};
use beatwalk::words::{Language, say, say_with};
use leptos::prelude::*;

/// The figure's size in CSS pixels: 17 cm wide, as wide as the text of a printed A4 page.
pub const FIGURE: (u32, u32) = (640, 400);
/// How finely the figure is drawn.
pub const FINE: u32 = 4;

/// One cycle with its marks.
pub struct Figure {
    samples: Vec<f32>,
    rate: SampleRate,
    unit: VoltageUnit,
    landmarks: Landmarks,
    role: Role,
    file: String,
    language: Language,
}

impl Figure {
    /// The chosen beat with the student's own marks; those of the app where there are none yet.
    pub fn of_beat(app: App) -> Option<Self> {
        let (file, shown) = (app.file_name()?, app.shown.get()?);
        let language = app.language.get();
        let figures = app.report()?.figures?;
        let samples = shown.recording.samples.get(figures.cycle.range())?.to_vec();
        let own = figures.own.iter().next().is_some();
        let (placed, role) =
            if own { (figures.own, Role::Student) } else { (figures.computed, Role::Answer) };
        let mut landmarks = Landmarks::default();
        for (landmark, at) in placed.iter() {
            let inside = at.get().checked_sub(figures.cycle.start().get());
            landmarks.set(landmark, inside.map(SampleIndex::new));
        }
        let (rate, unit) = (shown.recording.rate, shown.recording.unit);
        Some(Self { samples, rate, unit, landmarks, role, file, language })
    }

    /// The typical beat with the marks of the app.
    fn of_typical(app: App) -> Option<Self> {
        let (file, reading, shown) = (app.file_name()?, app.reading.get()?, app.shown.get()?);
        let median = reading.median.as_ref()?;
        Some(Self {
            samples: median.samples.clone(),
            rate: median.rate,
            unit: shown.recording.unit,
            landmarks: median.landmarks,
            role: Role::Answer,
            file,
            language: app.language.get(),
        })
    }

    /// What to draw.
    pub fn scene(&self) -> CycleScene<'_> {
        CycleScene {
            samples: &self.samples,
            rate: self.rate,
            unit: self.unit,
            landmarks: self.landmarks,
            role: self.role,
        }
    }

    /// How to draw it: on paper.
    pub const fn look(&self, scale: f64) -> Look<'_> {
        Look {
            palette: &Palette::PRINT,
            scale,
            px_per_mm: Some(CSS_PX_PER_MM),
            language: self.language,
        }
    }

    /// The figure as an SVG.
    pub fn svg(&self) -> Option<String> {
        let title = say(self.language, "page.results.figure");
        let description = format!("{}. {}", self.file, self.scene().summary(self.language));
        let text = SvgText { title: &title, description: &description };
        to_svg(FIGURE, FINE, text, |area| draw_cycle(area, &self.scene(), &self.look(FINE.into())))
            .ok()
    }
}

/// The chosen beat and, beside it, the typical one.
#[component]
pub fn Figures() -> impl IntoView {
    let app = App::here();
    let beat = Memo::new(move |_| Figure::of_beat(app).and_then(|figure| figure.svg()));
    let typical = Memo::new(move |_| Figure::of_typical(app).and_then(|figure| figure.svg()));
    let whose = move || {
        let placed = app.lesson.with(|lesson| lesson.session().marks().iter().next().is_some());
        let key = if placed { "page.results.own_beat" } else { "page.results.unmarked_beat" };
        say(app.language.get(), key)
    };
    let typical_from = move || {
        let n =
            app.reading.with(|reading| Some(reading.as_ref()?.median.as_ref()?.n.to_string()))?;
        Some(say_with(app.language.get(), "page.results.typical_beat", &[("n", &n)]))
    };
    let table = move |figure: Option<Figure>| {
        figure.map(|figure| ChartTable::of_cycle(&figure.scene(), figure.language))
    };
    view! {
        <div class="results__figures">
            <figure class="results__figure">
                <div inner_html=move || beat.get().unwrap_or_default()></div>
                <figcaption>
                    {whose} <AsTable what="chart.table.points" table=move || table(Figure::of_beat(app)) />
                </figcaption>
            </figure>
            <Show when=move || typical.read().is_some()>
                <figure class="results__figure">
                    <div inner_html=move || typical.get().unwrap_or_default()></div>
                    <figcaption>
                        {typical_from}
                        <AsTable what="chart.table.points" table=move || table(Figure::of_typical(app)) />
                    </figcaption>
                </figure>
            </Show>
        </div>
    }
}
