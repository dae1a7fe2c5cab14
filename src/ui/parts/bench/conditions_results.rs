//! What came out of conditions of one person: names, the quantity, how the beats lie, and the differences.

use super::figure::{ChartFigure, on_paper};
use crate::ui::bench::Bench;
use crate::ui::browser::CanvasSize;
use crate::ui::parts::chart::Drawing;
use crate::ui::parts::class::QuantityChoice;
use crate::ui::parts::numbers_table::NumbersTable;
use crate::ui::parts::text_field::TextField;
use crate::ui::parts::trace_view::look;
use crate::ui::reactive::{Show, Views};
use crate::ui::state::{App, tr};
use beatwalk::chart::{GroupsScene, draw_groups};
use beatwalk::inquiry::{Investigation, Measured, OnePerson, Role, Stretch, groups_summary};
use beatwalk::report::{InquirySheet, PoolEntry};
use beatwalk::words::{Language, figure, say, say_all, with_uncertainty};
use leptos::prelude::*;

/// The quantities that single beats have.
fn of_beats() -> Vec<Measured> {
    Measured::ALL.into_iter().filter(|one| matches!(one, Measured::Of(_))).collect()
}

impl Bench {
    /// The numbers of each recording as an entry of a table.
    pub fn condition_entries(self) -> Vec<PoolEntry> {
        let Some(sheet) = self.sheet.get() else { return Vec::new() };
        let entry = |role: &Role| {
            let seat = self.seat(*role)?;
            let evidence = seat.evidence()?;
            let file = &seat.saved.recording.file;
            let found = PoolEntry::of(file, evidence.recording, evidence.reading);
            let (code, condition) = (sheet.student.clone(), sheet.condition(*role));
            Some(PoolEntry { code, condition, ..found })
        };
        Investigation::Conditions.roles().iter().filter_map(entry).collect()
    }
}

/// The results of a comparison of conditions.
#[component]
pub fn ConditionsResults() -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    let measured = Signal::derive(move || {
        let [first, ..] = Measured::ALL;
        bench.sheet.with(|sheet| sheet.as_ref().map_or(first, InquirySheet::measured))
    });
    let choose = Callback::new(move |one: Measured| {
        bench.change(|sheet| sheet.measured = one.key().to_owned());
    });
    view! {
        <section class="card no-print">
            <div class="button-row button-row--fields">
                {Investigation::Conditions.roles().iter().map(|&role| view! { <Name role=role /> }).views()}
                <QuantityChoice quantities=of_beats() chosen=measured on_choose=choose />
            </div>
        </section>
        {move || compared(app, bench, app.language.get())}
        <p class="soft">{tr("bench.for_people")}</p>
    }
}

/// A field for the name of a condition, once its recording is there.
#[component]
fn Name(role: Role) -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    let name = move || {
        let sheet = bench.sheet.read();
        sheet.as_ref().and_then(|sheet| sheet.conditions.get(&role).cloned()).unwrap_or_default()
    };
    let label = move || {
        let language = app.language.get();
        format!("{}: {}", role.name(language), say(language, "bench.condition_name"))
    };
    view! {
        <Show when=move || bench.seat(role).is_some()>
            <TextField
                label=Signal::derive(label)
                text=Signal::derive(name)
                on_text=Callback::new(move |name| {
                    bench.change(|sheet| {
                        sheet.conditions.insert(role, name);
                    });
                })
            />
        </Show>
    }
}

fn compared(app: App, bench: Bench, language: Language) -> AnyView {
    let Some(plan) = bench.plan.get() else { return ().into_any() };
    let measured = plan.measured();
    let name = |role: Role| match plan.conditions.get(&role) {
        Some(name) if !name.trim().is_empty() => name.trim().to_owned(),
        _ => role.name(language).into_owned(),
    };
    let roles = Investigation::Conditions.roles().iter();
    let seats: Vec<_> = roles.filter_map(|role| Some((name(*role), bench.seat(*role)?))).collect();
    let stretches: Vec<(String, Stretch<'_>)> = seats
        .iter()
        .filter_map(|(name, seat)| Some((name.clone(), Stretch::whole(seat.evidence()?))))
        .collect();
    if stretches.len() < 2 {
        return view! { <p class="soft">{tr("bench.waiting")}</p> }.into_any();
    }
    let found = match OnePerson::of(measured, &stretches) {
        Ok(found) => found,
        Err(why) => {
            return view! { <p class="notice">{why.said().in_words(language)}</p> }.into_any();
        }
    };
    let names: Vec<String> = found.conditions.iter().map(|it| it.condition.clone()).collect();
    let values: Vec<Vec<f64>> = found.conditions.iter().map(|it| it.values.clone()).collect();
    let quantity = format!("{} ({})", measured.name(language), measured.unit());
    let summary = groups_summary(measured, &names, &values, language);
    let paper = {
        let scene = GroupsScene { names: &names, values: &values, lines: &[], measured: &quantity };
        on_paper(&quantity, &summary, language, |area, look| draw_groups(area, &scene, look))
    };
    let medians = found.conditions.iter().map(|it| {
        let median = it.median;
        let spread = figure(language, median.spread, measured.decimals() + 1);
        let median = with_uncertainty(language, median.value, median.expanded_uncertainty);
        vec![it.condition.clone(), median, spread, it.values.len().to_string()]
    });
    let medians = medians.collect();
    let differences = found.rows(measured, language).into_iter();
    let differences = differences.map(|(name, value)| vec![name, value]).collect();
    let words = found.words().into_iter().map(|told| view! { <p>{told.in_words(language)}</p> });
    let words = words.views();
    let heads = ["class.condition", "class.median", "class.sd", "class.count"];
    let draw = move |drawing: &Drawing, size: CanvasSize| {
        let scene = GroupsScene { names: &names, values: &values, lines: &[], measured: &quantity };
        let _ = draw_groups(drawing, &scene, &look(app, size, None));
    };
    view! {
        <section class="card">
            <h3>{tr("bench.each_beat")}</h3>
            <ChartFigure summary=summary paper=paper draw=draw />
            <NumbersTable title="class.statistics" heads=say_all(language, &heads) rows=medians />
            <NumbersTable
                title="bench.difference"
                heads=say_all(language, &["bench.difference", "recovery.table.value"])
                rows=differences
            />
            {words}
        </section>
    }
    .into_any()
}
