//! How a text file was understood, to be looked at and corrected.

use super::select::Select;
use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, tr};
use beatwalk::formats::{
    Choices, DecimalMark, Delimiter, TextLayout, TimeColumn, TimeUnit, ValueUnit,
};
use beatwalk::words::{figure, say, typed};
use leptos::prelude::*;

const DELIMITERS: [(Delimiter, &str); 5] = [
    (Delimiter::Comma, "page.layout.comma"),
    (Delimiter::Semicolon, "page.layout.semicolon"),
    (Delimiter::Tab, "page.layout.tab"),
    (Delimiter::Space, "page.layout.space"),
    (Delimiter::Bar, "page.layout.bar"),
];

const DECIMAL_MARKS: [(DecimalMark, &str); 2] =
    [(DecimalMark::Point, "page.layout.point"), (DecimalMark::Comma, "page.layout.comma")];

const TIME_UNITS: [(TimeUnit, &str); 9] = [
    (TimeUnit::Second, "page.layout.second"),
    (TimeUnit::Millisecond, "page.layout.millisecond"),
    (TimeUnit::Microsecond, "page.layout.microsecond"),
    (TimeUnit::Nanosecond, "page.layout.nanosecond"),
    (TimeUnit::Minute, "page.layout.minute"),
    (TimeUnit::Hour, "page.layout.hour"),
    (TimeUnit::Day, "page.layout.day"),
    (TimeUnit::Clock, "page.layout.clock"),
    (TimeUnit::SampleNumber, "page.layout.sample_number"),
];

const VALUE_UNITS: [(ValueUnit, &str); 6] = [
    (ValueUnit::Volt, "page.layout.volt"),
    (ValueUnit::Millivolt, "page.layout.millivolt"),
    (ValueUnit::Microvolt, "page.layout.microvolt"),
    (ValueUnit::Nanovolt, "page.layout.nanovolt"),
    (ValueUnit::Counts, "page.layout.counts"),
    (ValueUnit::Unstated, "page.layout.unstated"),
];

/// How a file was read; not before a room, because its first rows may name somebody.
#[component]
pub fn LayoutForm(
    /// What was understood.
    layout: TextLayout,
    /// The choices it was read with.
    choices: Choices,
    /// Hears how to read it instead.
    on_correct: Callback<Choices>,
) -> impl IntoView {
    let app = App::here();
    live(move || {
        if app.projector.get() {
            return view! { <p>{tr("page.layout.not_to_room")}</p> }.into_any();
        }
        let (layout, choices) = (layout.clone(), choices.clone());
        view! { <Corrections layout=layout choices=choices on_correct=on_correct /> }.into_any()
    })
}

/// What was understood, with a list to correct each part of it. A correction opens the file again.
#[component]
fn Corrections(
    /// What was understood.
    layout: TextLayout,
    /// The choices it was read with.
    choices: Choices,
    /// Hears how to read it instead.
    on_correct: Callback<Choices>,
) -> impl IntoView {
    let app = App::here();
    let rate_hz = choices.rate_hz;
    // What was understood stands, except for what the student changes.
    let understood = StoredValue::new(Choices { rate_hz, ..choices_of(&layout) });
    let correct = move |change: &dyn Fn(&mut Choices)| {
        let mut choices = understood.get_value();
        change(&mut choices);
        on_correct.run(choices);
    };
    let rate = move |event: web_sys::Event| {
        let rate_hz = typed(&event_target_value(&event)).filter(|rate| *rate > 0.0);
        correct(&|choices| choices.rate_hz = rate_hz);
    };
    let language = app.language.get_untracked();
    let rate_now = layout.rate_hz.map(|rate| figure(language, rate, 3)).unwrap_or_default();
    let columns = layout.columns.clone();
    let mut time_columns = vec![say(language, "page.layout.no_time").into_owned()];
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
            <label class="field">
                {tr("page.layout.rate")}
                <input type="text" inputmode="decimal" autocomplete="off" value=rate_now on:change=rate />
                <small class="soft">{tr("page.layout.rate_hint")}</small>
            </label>
        </div>
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

/// The first rows, with the columns picked out that are the time and the voltage.
#[component]
fn Preview(layout: TextLayout) -> impl IntoView {
    let part_of = move |column: usize| match layout.time_column {
        TimeColumn::At(time) if time == column => Some(("layout__time", "page.layout.is_time")),
        _ if column == layout.value_column => Some(("layout__voltage", "page.layout.is_voltage")),
        _ => None,
    };
    let class = move |column: usize| part_of(column).map(|(class, _)| class);
    let heads = layout.columns.into_iter().enumerate().map(|(column, name)| {
        view! {
            <th scope="col" class=class(column)>
                {name}
                {part_of(column).map(|(_, key)| view! { <small>{tr(key)}</small> })}
            </th>
        }
    });
    let row = |row: Vec<String>| {
        let cells = row.into_iter().enumerate();
        cells.map(|(column, cell)| view! { <td class=class(column)>{cell}</td> }).views()
    };
    let rows = layout.preview.into_iter().map(|cells| view! { <tr>{row(cells)}</tr> });
    view! {
        <div class="scroll-x" tabindex="0" role="group" aria-label=tr("page.layout.preview")>
            <table class="layout__rows">
                <caption>{tr("page.layout.preview")}</caption>
                <thead>
                    <tr>{heads.views()}</tr>
                </thead>
                <tbody>{rows.views()}</tbody>
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
