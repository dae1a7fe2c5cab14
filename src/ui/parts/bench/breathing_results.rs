//! What came out of breathing: the rate as it rises and falls, breath by breath, and how breaths were told.

use super::channel_choice::ChannelChoice;
use super::figure::{ChartFigure, on_paper};
use crate::ui::bench::Bench;
use crate::ui::browser::CanvasSize;
use crate::ui::parts::chart::Drawing;
use crate::ui::parts::number_field::NumberField;
use crate::ui::parts::numbers_table::NumbersTable;
use crate::ui::parts::trace_view::look;
use crate::ui::reactive::{Show, Views, follow, live};
use crate::ui::state::{App, tr};
use beatwalk::chart::draw_breathing;
use beatwalk::inquiry::{Breathing, BreathingPlan, NoBreathing, Role};
use beatwalk::signal::Seconds;
use beatwalk::words::{figure, say, say_all, typed};
use leptos::prelude::*;

impl Bench {
    /// The breathing of a recording; `None` while it is missing or not read yet.
    pub fn breathing(self, role: Role) -> Option<Result<Breathing, NoBreathing>> {
        let plan = self.plan.with(|plan| plan.as_ref().map(|plan| plan.breathing))?;
        let seat = self.seat(role)?;
        Some(plan.find(seat.evidence()?, &seat.others()))
    }
}

/// How breaths are told: a list, and the moment at which a timer was started.
#[component]
pub fn BreathingParts() -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    let plan = Memo::new(move |_| {
        bench.sheet.with(|sheet| sheet.as_ref().map(|sheet| sheet.breathing)).unwrap_or_default()
    });
    let put = move |plan: BreathingPlan| bench.change(|sheet| sheet.breathing = plan);
    let from = RwSignal::new(match plan.get_untracked() {
        BreathingPlan::Timer(from) => figure(app.language.get_untracked(), from.seconds(), 1),
        _ => String::new(),
    });
    let moment = move || Seconds::new(typed(&from.read()).unwrap_or_default().max(0.0));
    follow(move || {
        let moment = moment();
        if let BreathingPlan::Timer(now) = plan.get_untracked()
            && now != moment
        {
            put(BreathingPlan::Timer(moment));
        }
    });
    let fixed = [
        ("bench.breaths.as_offered", BreathingPlan::AsOffered),
        ("bench.breaths.marks", BreathingPlan::Marks),
        ("bench.breaths.timer", BreathingPlan::Timer(Seconds::default())),
        ("bench.breaths.estimate", BreathingPlan::Estimate),
    ];
    let chosen = move || match plan.get() {
        BreathingPlan::AsOffered => 0,
        BreathingPlan::Marks => 1,
        BreathingPlan::Timer(_) => 2,
        BreathingPlan::Estimate => 3,
        BreathingPlan::Channel(place) => 4 + place,
    };
    let choose = Callback::new(move |place: usize| match fixed.get(place) {
        Some((_, BreathingPlan::Timer(_))) => put(BreathingPlan::Timer(moment())),
        Some((_, plan)) => put(*plan),
        None => put(BreathingPlan::Channel(place - fixed.len())),
    });
    view! {
        <section class="card no-print button-row button-row--fields">
            <ChannelChoice
                label="bench.breaths.label"
                role=Role::Quiet
                fixed=fixed.map(|(key, _)| key).to_vec()
                chosen=Signal::derive(chosen)
                on_choose=choose
            />
            <Show when=move || matches!(plan.get(), BreathingPlan::Timer(_))>
                <NumberField label=Signal::derive(tr("bench.breaths.from")) text=from />
            </Show>
        </section>
    }
}

/// The results of breathing, one card a recording.
#[component]
pub fn BreathingResults() -> impl IntoView {
    let bench = Bench::here();
    let none = move || [Role::Quiet, Role::Slow].iter().all(|&role| bench.seat(role).is_none());
    view! {
        <Show when=none>
            <p class="soft">{tr("bench.waiting")}</p>
        </Show>
        <One role=Role::Quiet />
        <One role=Role::Slow />
    }
}

#[component]
fn One(role: Role) -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    live(move || {
        let language = app.language.get();
        let name = role.name(language);
        match bench.breathing(role)? {
            Err(why) => Some(
                view! {
                    <section class="card">
                        <h3>{name}</h3>
                        <p class="notice">{why.said().in_words(language)}</p>
                    </section>
                }
                .into_any(),
            ),
            Ok(found) => Some(told(app, name.into_owned(), found).into_any()),
        }
    })
}

fn told(app: App, name: String, found: Breathing) -> impl IntoView {
    let language = app.language.get();
    let summary = found.summary(language);
    let title = say(language, "breathing.chart.title");
    let paper =
        on_paper(&title, &summary, language, |area, look| draw_breathing(area, &found, look));
    let rows = found.rows(language).into_iter().map(|(name, value)| vec![name, value]).collect();
    let heads = say_all(language, &["recovery.table.quantity", "recovery.table.value"]);
    let breaths = found.lines(language).into_iter();
    let breaths =
        breaths.map(|line| vec![line.number, line.from, line.to, line.rr, line.rate, line.counts]);
    let breaths = breaths.collect();
    let words = found.words().into_iter().map(|told| view! { <li>{told.in_words(language)}</li> });
    let words = words.views();
    let draw = move |drawing: &Drawing, size: CanvasSize| {
        let _ = draw_breathing(drawing, &found, &look(app, size, None));
    };
    view! {
        <section class="card">
            <h3>{name}</h3>
            <ChartFigure summary=summary paper=paper draw=draw />
            <NumbersTable title="breathing.chart.title" heads=heads rows=rows />
            <ul>{words}</ul>
            <details class="results__fold">
                <summary>{tr("bench.breaths.each")}</summary>
                <NumbersTable
                    title="bench.breaths.each"
                    heads=Breathing::heads(language).to_vec()
                    rows=breaths
                />
            </details>
        </section>
    }
}
