//! How a text file was understood, to be looked at and corrected; and the question for a missing rate.

use super::select::Select;
use crate::ui::state::{App, tr};
use beatwalk::formats::{
    Choices, DecimalMark, Delimiter, TextLayout, TimeColumn, TimeUnit, ValueUnit,
};
use beatwalk::words::say;
use leptos::prelude::*;

const DELIMITERS: [(Delimiter, &str); 4] = [
    (Delimiter::Comma, "page.layout.comma"),
    (Delimiter::Semicolon, "page.layout.semicolon"),
    (Delimiter::Tab, "page.layout.tab"),
    (Delimiter::Space, "page.layout.space"),
];

const DECIMAL_MARKS: [(DecimalMark, &str); 2] =
    [(DecimalMark::Point, "page.layout.point"), (DecimalMark::Comma, "page.layout.comma")];

const TIME_UNITS: [(TimeUnit, &str); 6] = [
    (TimeUnit::Second, "page.layout.second"),
    (TimeUnit::Millisecond, "page.layout.millisecond"),
    (TimeUnit::Microsecond, "page.layout.microsecond"),
    (TimeUnit::Minute, "page.layout.minute"),
    (TimeUnit::Clock, "page.layout.clock"),
    (TimeUnit::SampleNumber, "page.layout.sample_number"),
];

const VALUE_UNITS: [(ValueUnit, &str); 5] = [
    (ValueUnit::Volt, "page.layout.volt"),
    (ValueUnit::Millivolt, "page.layout.millivolt"),
    (ValueUnit::Microvolt, "page.layout.microvolt"),
    (ValueUnit::Counts, "page.layout.counts"),
    (ValueUnit::Unstated, "page.layout.unstated"),
];

/// What was understood, with a list to correct each part of it. A correction opens the file again.
#[component]
pub fn LayoutForm(
    /// What was understood.
    layout: TextLayout,
) -> impl IntoView {
    let app = App::here();
    // What was understood stands, except for what the student changes.
    let understood = StoredValue::new(choices_of(&layout));
    let correct = move |change: &dyn Fn(&mut Choices)| {
        let mut choices = understood.get_value();
        change(&mut choices);
        app.correct(choices);
    };
    let columns = layout.columns.clone();
    let mut time_columns =
        vec![say(app.language.get_untracked(), "page.layout.no_time").into_owned()];
    time_columns.extend(columns.iter().cloned());
    let time_place = match layout.time_column {
        TimeColumn::Absent => 0,
        TimeColumn::At(column) => column + 1,
    };
    view! {
        <div class="layout-form">
            <Preview layout=layout.clone() />
            <Choice
                label="page.layout.delimiter"
                of=&DELIMITERS
                chosen=Some(layout.delimiter)
                on_choose=move |it| correct(&|choices| *choices = Choices { delimiter: Some(it), ..Choices::default() })
            />
            <Choice
                label="page.layout.decimal_mark"
                of=&DECIMAL_MARKS
                chosen=Some(layout.decimal_mark)
                on_choose=move |it| correct(&|choices| choices.decimal_mark = Some(it))
            />
            <Select
                label=Signal::derive(tr("page.layout.time_column"))
                options=time_columns
                chosen=Some(time_place)
                on_choose=Callback::new(move |place: usize| {
                    let column = place.checked_sub(1).map_or(TimeColumn::Absent, TimeColumn::At);
                    correct(&|choices| {
                        choices.time_column = Some(column);
                        choices.time_unit = None;
                    });
                })
            />
            <Choice
                label="page.layout.time_unit"
                of=&TIME_UNITS
                chosen=layout.time_unit
                on_choose=move |it| correct(&|choices| choices.time_unit = Some(it))
            />
            <Select
                label=Signal::derive(tr("page.layout.value_column"))
                options=columns
                chosen=Some(layout.value_column)
                on_choose=Callback::new(move |column: usize| {
                    correct(&|choices| {
                        choices.value_column = Some(column);
                        choices.value_unit = None;
                    });
                })
            />
            <Choice
                label="page.layout.value_unit"
                of=&VALUE_UNITS
                chosen=Some(layout.value_unit)
                on_choose=move |it| correct(&|choices| choices.value_unit = Some(it))
            />
        </div>
    }
}

/// A question for the one thing that can't be found out: how fast the sensor sampled.
#[component]
pub fn RateForm(
    /// How many values there are.
    samples: usize,
    /// Between which rates the trace would be a heart.
    plausible_hz: Option<(f64, f64)>,
    /// Hears the rate, in Hz.
    on_rate: Callback<f64>,
) -> impl IntoView {
    let app = App::here();
    let typed = RwSignal::new(String::new());
    let rate = move || {
        typed.read().trim().replace(',', ".").parse::<f64>().ok().filter(|rate| *rate > 0.0)
    };
    let hint = move || {
        let language = app.language.get();
        match plausible_hz {
            Some((low, high)) => beatwalk::words::say_with(
                language,
                "page.rate.plausible",
                &[
                    ("low", &format!("{low:.0}")),
                    ("high", &format!("{high:.0}")),
                    ("samples", &samples.to_string()),
                ],
            ),
            None => say(language, "page.rate.manual").into_owned(),
        }
    };
    let submit = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        if let Some(rate) = rate() {
            on_rate.run(rate);
        }
    };
    view! {
        <form class="card" on:submit=submit>
            <h2>{tr("page.rate.title")}</h2>
            <p>{tr("page.rate.why")}</p>
            <p>{hint}</p>
            <div class="button-row">
                <label class="field">
                    {tr("page.rate.label")}
                    <input type="text" inputmode="decimal" bind:value=typed />
                </label>
                <button class="button button--main" disabled=move || rate().is_none()>
                    {tr("page.rate.go")}
                </button>
            </div>
        </form>
    }
}

/// One closed list of choices.
#[component]
fn Choice<T: Copy + PartialEq + Send + Sync + 'static>(
    label: &'static str,
    of: &'static [(T, &'static str)],
    chosen: Option<T>,
    on_choose: impl Fn(T) + Send + Sync + 'static,
) -> impl IntoView {
    let app = App::here();
    let options =
        of.iter().map(|(_, key)| say(app.language.get_untracked(), key).into_owned()).collect();
    let place = of.iter().position(|(value, _)| Some(*value) == chosen);
    let choose = Callback::new(move |place: usize| {
        if let Some((value, _)) = of.get(place) {
            on_choose(*value);
        }
    });
    view! { <Select label=Signal::derive(tr(label)) options=options chosen=place on_choose=choose /> }
}

#[component]
fn Preview(layout: TextLayout) -> impl IntoView {
    let rows = layout
        .preview
        .into_iter()
        .map(|row| view! { <tr>{row.into_iter().map(|cell| view! { <td>{cell}</td> }).collect_view()}</tr> })
        .collect_view();
    let heads =
        layout.columns.into_iter().map(|name| view! { <th scope="col">{name}</th> }).collect_view();
    view! {
        <div class="scroll-x" tabindex="0" role="group" aria-label=tr("page.layout.preview")>
            <table>
                <caption>{tr("page.layout.preview")}</caption>
                <thead>
                    <tr>{heads}</tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        </div>
    }
}

fn choices_of(layout: &TextLayout) -> Choices {
    Choices {
        delimiter: Some(layout.delimiter),
        decimal_mark: Some(layout.decimal_mark),
        time_column: Some(layout.time_column),
        value_column: Some(layout.value_column),
        time_unit: layout.time_unit,
        value_unit: Some(layout.value_unit),
        rate_hz: None,
    }
}
