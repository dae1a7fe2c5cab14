//! A class compared by one quantity: drawing, sample statistics, paired differences, what was left out.

use super::quantity_choice::QuantityChoice;
use crate::ui::browser::CanvasSize;
use crate::ui::class::ClassDesk;
use crate::ui::parts::bench::{ChartFigure, on_paper};
use crate::ui::parts::chart::Drawing;
use crate::ui::parts::numbers_table::NumbersTable;
use crate::ui::parts::trace_view::look;
use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, tr};
use beatwalk::chart::{GroupsScene, draw_groups};
use beatwalk::inquiry::stats::{FiveNumbers, Moments};
use beatwalk::inquiry::{AgainstFirst, Measured, People, groups_summary};
use beatwalk::words::{Language, decimal, say, say_all, say_with};
use leptos::prelude::*;

/// The comparison by one quantity: drawing, sample statistics, paired differences, what was left out.
#[component]
pub fn ClassComparison() -> impl IntoView {
    let app = App::here();
    let desk = ClassDesk::here();
    let choose = Callback::new(move |one| desk.measured.set(one));
    let outcome = move || outcome(app, desk, app.language.get());
    view! {
        <section class="card">
            <h2>{tr("class.comparison")}</h2>
            <div class="button-row no-print">
                <QuantityChoice
                    quantities=Measured::ALL.to_vec()
                    chosen=desk.measured.into()
                    on_choose=choose
                />
            </div>
            {live(outcome)}
        </section>
    }
}

fn outcome(app: App, desk: ClassDesk, language: Language) -> impl IntoView {
    let measured = desk.measured.get();
    let names = desk.conditions();
    let compared = desk.compared();
    let in_condition = |name: &String| -> Vec<f64> {
        compared.iter().filter(|it| it.condition == *name).filter_map(|it| it.value).collect()
    };
    let values: Vec<Vec<f64>> = names.iter().map(in_condition).collect();
    let shown: Vec<String> = names.iter().map(|name| named(name, language)).collect();
    let people = People::of(&names, &compared);
    let lines: Vec<Vec<Option<f64>>> = people
        .as_ref()
        .map(|people| people.people.iter().map(|person| person.values.clone()).collect())
        .unwrap_or_default();
    let title = format!("{} ({})", measured.name(language), measured.unit());
    let summary = groups_summary(measured, &shown, &values, language);
    let statistics = statistics(&shown, &values, measured, language);
    let paper = {
        let scene = GroupsScene { names: &shown, values: &values, lines: &lines, measured: &title };
        on_paper(&title, &summary, language, |area, look| draw_groups(area, &scene, look))
    };
    let draw = move |drawing: &Drawing, size: CanvasSize| {
        let scene = GroupsScene { names: &shown, values: &values, lines: &lines, measured: &title };
        let _ = draw_groups(drawing, &scene, &look(app, size, None));
    };
    let heads =
        ["class.condition", "class.count", "class.mean", "class.sd", "class.median", "class.range"];
    view! {
        <ChartFigure summary=summary paper=paper draw=draw />
        <h3>{tr("class.statistics")}</h3>
        <NumbersTable title="class.statistics" heads=say_all(language, &heads) rows=statistics />
        {match people {
            Err(why) => view! { <p class="soft">{why.said().in_words(language)}</p> }.into_any(),
            Ok(people) => paired(&people, measured, language).into_any(),
        }}
    }
}

/// The name of a condition; where none is given, that.
fn named(condition: &str, language: Language) -> String {
    match condition {
        "" => say(language, "class.no_condition").into_owned(),
        name => name.to_owned(),
    }
}

fn statistics(
    names: &[String],
    values: &[Vec<f64>],
    measured: Measured,
    language: Language,
) -> Vec<Vec<String>> {
    let written = |value: Option<f64>| {
        let decimals = measured.decimals();
        value.map_or_else(|| "–".to_owned(), |value| decimal(language, value, decimals))
    };
    let row = |(name, values): (&String, &Vec<f64>)| {
        let (moments, five) = (Moments::of(values), FiveNumbers::of(values));
        let mean = moments.and_then(Moments::mean_interval).map_or_else(
            || written(moments.map(|it| it.mean)),
            |it| it.in_words(measured.decimals(), language),
        );
        let range = five.map(|it| {
            let [low, high] = [it.lowest, it.highest].map(|it| written(Some(it)));
            format!("{low} … {high}")
        });
        vec![
            name.clone(),
            values.len().to_string(),
            mean,
            written(moments.and_then(|it| it.deviation)),
            written(five.map(|it| it.median)),
            range.unwrap_or_default(),
        ]
    };
    names.iter().zip(values).map(row).collect()
}

/// Each later condition against the first, in numbers and with what has to be said beside them.
fn paired(people: &People, measured: Measured, language: Language) -> impl IntoView + use<> {
    let words = people.words().into_iter().map(|told| told.in_words(language));
    let left_out = people.left_out.iter().map(|it| it.said().in_words(language));
    let outlying = people.outlying_words(measured, language);
    let notes: Vec<String> = words.chain(outlying).chain(left_out).collect();
    let heads = say_all(language, &["recovery.table.quantity", "recovery.table.value"]);
    let name = |place: usize| {
        people.conditions.get(place).map(|name| named(name, language)).unwrap_or_default()
    };
    let one = |against: &AgainstFirst| {
        let places = [("first", &*name(0)), ("second", &*name(against.condition))];
        let title = say_with(language, "conditions.table.difference", &places);
        let rows = people.result_rows(against, measured, language);
        let rows = rows.into_iter().map(|(name, value)| vec![name, value]).collect();
        view! {
            <h3>{title}</h3>
            <NumbersTable title="class.comparison" heads=heads.clone() rows=rows />
        }
    };
    view! {
        {people.against_first.iter().map(one).views()}
        <ul>{notes.into_iter().map(|note| view! { <li>{note}</li> }).views()}</ul>
    }
}
