//! What came out of reflexes: taps laid over each other, each tap, conditions compared, and the speed of the arc.

use super::figure::{ChartFigure, on_paper};
use crate::ui::bench::Bench;
use crate::ui::browser::CanvasSize;
use crate::ui::parts::chart::Drawing;
use crate::ui::parts::numbers_table::NumbersTable;
use crate::ui::parts::trace_view::look;
use crate::ui::reactive::{Show, Views, live};
use crate::ui::state::{App, tr};
use beatwalk::chart::{ReflexScene, draw_reflexes};
use beatwalk::inquiry::{
    FixedDelays, LeftOutOfArc, NoReflex, PathLength, Reflexes, Role, Sweeps, compare,
};
use beatwalk::signal::Milliseconds;
use beatwalk::words::{Language, decimal, figure, say, say_all, say_with, with_uncertainty};
use leptos::prelude::*;
use std::sync::Arc as Shared;

/// What was found in a recording, and the EMG about each tap.
type Found = Shared<(Reflexes, Sweeps)>;

/// What was found in the recording of a place, found once for all who show it.
type Outcome = Memo<Option<Result<Found, NoReflex>>>;

/// The places of an investigation of reflexes.
const PLACES: [Role; 3] = [Role::Plain, Role::Reinforced, Role::Voluntary];
/// How far a path along the body may be off (k = 2), m: a tape laid twice (common practice).
const TAPE: f64 = 0.02;

impl Bench {
    /// The reflexes of a recording; `None` while it is missing.
    pub fn reflexes(self, role: Role) -> Option<Result<Found, NoReflex>> {
        let plan = self.plan.with(|plan| plan.as_ref().map(|plan| plan.reflex))?;
        let seat = self.seat(role)?;
        let (recording, others) = (&*seat.recording, seat.others());
        let found = match role {
            Role::Voluntary => plan.find_voluntary(recording, &others),
            _ => plan.find(recording, &others),
        };
        Some(found.map(|found| {
            let before = Milliseconds::new(20.0);
            let after = Milliseconds::new(found.settings.until.milliseconds() + 40.0);
            let sweeps = Sweeps::of(recording, &found, before, after);
            Shared::new((found, sweeps))
        }))
    }
}

/// The results of reflexes.
#[component]
pub fn ReflexResults() -> impl IntoView {
    let bench = Bench::here();
    let none = move || PLACES.iter().all(|&role| bench.seat(role).is_none());
    let outcomes = PLACES.map(|role| (role, Memo::new(move |_| bench.reflexes(role))));
    let [(_, plain), others @ ..] = outcomes;
    view! {
        <Show when=none>
            <p class="soft">{tr("bench.waiting")}</p>
        </Show>
        {outcomes.map(|(role, outcome)| view! { <One role=role outcome=outcome /> }).views()}
        <Compared plain=plain others=others />
        <Arc plain=plain />
    }
}

#[component]
fn One(role: Role, outcome: Outcome) -> impl IntoView {
    let app = App::here();
    live(move || {
        let language = app.language.get();
        let name = role.name(language).into_owned();
        Some(match outcome.get()? {
            Err(why) => view! {
                <section class="card">
                    <h3>{name}</h3>
                    <p class="notice">{why.said().in_words(language)}</p>
                </section>
            }
            .into_any(),
            Ok(found) => told(app, name, found).into_any(),
        })
    })
}

fn told(app: App, name: String, both: Found) -> impl IntoView {
    let language = app.language.get();
    let found = &both.0;
    let (title, summary) = (say(language, "reflex.chart.title"), found.summary(language));
    let paper = {
        let scene = ReflexScene { reflexes: found, sweeps: &both.1 };
        on_paper(&title, &summary, language, |area, look| draw_reflexes(area, &scene, look))
    };
    let rows = found.lines(language).into_iter().map(|line| {
        let first = [line.tap, line.at, line.latency, line.duration];
        let last = [line.rectified, line.rms, line.peak_to_peak, line.note];
        first.into_iter().chain(last).collect()
    });
    let (rows, heads) = (rows.collect(), found.heads(language).to_vec());
    let words = found.words().into_iter().map(|told| view! { <li>{told.in_words(language)}</li> });
    let words = words.views();
    let draw = move |drawing: &Drawing, size: CanvasSize| {
        let scene = ReflexScene { reflexes: &both.0, sweeps: &both.1 };
        let _ = draw_reflexes(drawing, &scene, &look(app, size, None));
    };
    view! {
        <section class="card">
            <h3>{name}</h3>
            <ChartFigure summary=summary paper=paper draw=draw />
            <NumbersTable title="reflex.chart.title" heads=heads rows=rows />
            <ul>{words}</ul>
        </section>
    }
}

/// The other recordings against the plain one.
#[component]
fn Compared(plain: Outcome, others: [(Role, Outcome); 2]) -> impl IntoView {
    let app = App::here();
    live(move || {
        let language = app.language.get();
        let plain = plain.get()?.ok()?;
        let against = |(role, other): (Role, Found)| difference(role, &plain.0, &other.0, language);
        let rows: Vec<Vec<String>> = others
            .into_iter()
            .filter_map(|(role, other)| Some(against((role, other.get()?.ok()?))))
            .collect();
        let heads =
            ["class.condition", "bench.taps.later", "bench.taps.larger", "bench.taps.welch"];
        (!rows.is_empty()).then(|| {
            view! {
                <section class="card">
                    <h3>{tr("bench.taps.compared")}</h3>
                    <NumbersTable title="bench.taps.compared" heads=say_all(language, &heads) rows=rows />
                </section>
            }
        })
    })
}

/// Name, how much later, how many times larger, and the test.
fn difference(role: Role, plain: &Reflexes, other: &Reflexes, language: Language) -> Vec<String> {
    let dash = || "–".to_owned();
    let found = compare(plain, other);
    let later = found.latency_ms.map_or_else(dash, |it| match it.interval {
        Some(interval) => with_uncertainty(language, interval.value, interval.half_width()),
        None => decimal(language, it.difference, 1),
    });
    let larger = found.rms_ratio.map_or_else(dash, |ratio| decimal(language, ratio, 2));
    let test = found.latency_ms.and_then(|it| it.t_test).map(|test| {
        let places = [
            ("t", &*decimal(language, test.t, 2)),
            ("df", &*figure(language, test.degrees_of_freedom, 1)),
            ("p", &*decimal(language, test.p, 3)),
        ];
        say_with(language, "bench.taps.t_result", &places)
    });
    vec![role.name(language).into_owned(), later, larger, test.unwrap_or_else(dash)]
}

/// The speed round the arc, once a path was measured, and all that it leaves out.
#[component]
fn Arc(plain: Outcome) -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    live(move || {
        let language = app.language.get();
        let metres = bench.plan.with(|plan| plan.as_ref().and_then(|it| it.reflex.path))?;
        let latency = plain.get()?.ok()?.0.latency_ms?.mean_interval()?;
        let delays = FixedDelays::default();
        let path = PathLength { metres, uncertainty: TAPE };
        let speed = match delays.speed(path, latency) {
            Err(why) => why.said().in_words(language),
            Ok(speed) => {
                let speed = with_uncertainty(language, speed.value, speed.half_width());
                say_with(language, "bench.taps.speed", &[("speed", &speed)])
            }
        };
        let ms = |time: Milliseconds| figure(language, time.milliseconds(), 1);
        let places = [
            ("delays", &*ms(delays.sum())),
            ("spindle", &*ms(delays.spindle)),
            ("synapse", &*ms(delays.synapse)),
            ("junction", &*ms(delays.junction)),
        ];
        let formula = say_with(language, "reflex.arc.formula", &places);
        let left_out =
            LeftOutOfArc::ALL.map(|it| view! { <li>{it.said().in_words(language)}</li> }).views();
        Some(view! {
            <section class="card">
                <h3>{tr("reflex.arc.title")}</h3>
                <p>{formula}</p>
                <p>
                    <strong>{speed}</strong>
                </p>
                <ul>{left_out}</ul>
            </section>
        })
    })
}
