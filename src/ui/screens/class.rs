//! The class desk: drop the files of a class, see who is where, compare conditions over people.

use crate::ui::browser::{CanvasSize, dropped_files, save_text};
use crate::ui::class::ClassDesk;
use crate::ui::parts::{
    ChartFigure, Drawing, FilePick, NumbersTable, ProgressLine, Select, look, on_paper,
};
use crate::ui::state::{App, Screen, tr};
use beatwalk::chart::{GroupsScene, draw_groups};
use beatwalk::inquiry::stats::{FiveNumbers, Moments};
use beatwalk::inquiry::{Measured, People, groups_summary};
use beatwalk::report::{PoolEntry, pool_csv};
use beatwalk::words::{Language, Phrase, decimal, say, say_with};
use leptos::html::H1;
use leptos::prelude::*;

/// The screen of the class desk.
#[component]
pub fn ClassScreen() -> impl IntoView {
    let app = App::here();
    let desk = ClassDesk::here();
    let heading = NodeRef::<H1>::new();
    // Whoever comes by keyboard goes on from here.
    Effect::new(move |_| heading.get().map(|heading| heading.focus()));
    let some = move || !desk.entries.read().is_empty();
    view! {
        <div class="bench">
            <header>
                <h1 tabindex="-1" node_ref=heading>
                    {tr("class.title")}
                </h1>
                <p>{tr("class.lead")}</p>
                <button class="button no-print" on:click=move |_| app.screen.set(Screen::Investigate)>
                    {tr("bench.title")}
                </button>
            </header>
            <Files />
            <Refused />
            <Show when=some>
                <Comparison />
                <Rows />
            </Show>
            <p class="notice notice--caution">{tr("class.privacy")}</p>
        </div>
    }
}

#[component]
fn Files() -> impl IntoView {
    let app = App::here();
    let desk = ClassDesk::here();
    let said = Signal::derive(move || {
        let (done, of) = desk.job.get().unwrap_or_default();
        let places = [("done", &*done.to_string()), ("of", &*of.to_string())];
        say_with(app.language.get(), "class.progress", &places)
    });
    let part = Signal::derive(move || {
        desk.job.get().map_or(0.0, |(done, of)| done as f64 / of.max(1) as f64)
    });
    let save = move |_| {
        let entries: Vec<PoolEntry> =
            desk.entries.read_untracked().iter().map(|(_, entry)| entry.clone()).collect();
        if save_text("class.csv", "text/csv", &pool_csv(&entries)).is_err() {
            app.fail(
                Phrase::message("page.results.save_failed"),
                Phrase::message("page.results.save_again"),
            );
        }
    };
    let empty = move || desk.entries.read().is_empty();
    view! {
        <section
            class="card no-print"
            on:drop=move |event| {
                // Else the page would open it on the first screen.
                event.prevent_default();
                event.stop_propagation();
                desk.take(dropped_files(&event));
            }
        >
            <p>{tr("class.drop")}</p>
            <div class="button-row">
                <FilePick
                    text="class.pick"
                    label=Signal::derive(tr("class.pick"))
                    main=true
                    on_files=move |files| desk.take(files)
                />
                <button class="button" disabled=empty on:click=save>
                    {tr("class.save")}
                </button>
                <button class="button" disabled=empty on:click=move |_| desk.clear()>
                    {tr("class.clear")}
                </button>
            </div>
            <div role="status">
                <Show when=move || desk.job.read().is_some()>
                    <ProgressLine said=said part=part on_stop=move || desk.stop() />
                </Show>
            </div>
        </section>
    }
}

/// Files that did not fit, each with the reason and what to do; the others are there all the same.
#[component]
fn Refused() -> impl IntoView {
    let app = App::here();
    let desk = ClassDesk::here();
    let lines = move || {
        let language = app.language.get();
        let line = |(file, problem): &(String, crate::ui::state::Problem)| {
            view! {
                <li>
                    <strong>{file.clone()}</strong>
                    ": "
                    {problem.what.in_words(language)}
                    ". "
                    {problem.remedy.in_words(language)}
                </li>
            }
        };
        desk.refused.read().iter().map(line).collect_view()
    };
    view! {
        <Show when=move || !desk.refused.read().is_empty()>
            <section class="notice notice--problem no-print">
                <h2>{tr("class.refused")}</h2>
                <ul>{lines}</ul>
            </section>
        </Show>
    }
}

/// The rows: whose, which condition, and the numbers.
#[component]
fn Rows() -> impl IntoView {
    let app = App::here();
    let desk = ClassDesk::here();
    let shown = [Measured::ALL[0], Measured::ALL[2], Measured::ALL[3], Measured::ALL[4]];
    let head = move |measured: Measured| {
        view! { <th scope="col">{move || format!("{} ({})", measured.name(app.language.get()), measured.unit())}</th> }
    };
    view! {
        <section class="card">
            <h2>{tr("class.rows")}</h2>
            <p class="soft no-print">{tr("class.rows_hint")}</p>
            <div class="scroll-x class__rows" tabindex="0" role="group" aria-label=tr("class.rows")>
                <table class="results__table">
                    <thead>
                        <tr>
                            <th scope="col">{tr("conditions.table.code")}</th>
                            <th scope="col">{tr("class.condition")}</th>
                            {shown.map(head).collect_view()}
                            <th scope="col">{tr("class.file")}</th>
                            <th scope="col">
                                <span class="hidden-visually">{tr("bench.seat.remove")}</span>
                            </th>
                        </tr>
                    </thead>
                    <tbody>
                        <For each=move || desk.entries.get() key=|(row, _)| *row let((row, entry))>
                            <Row row=row entry=entry shown=shown />
                        </For>
                    </tbody>
                </table>
            </div>
        </section>
    }
}

#[component]
fn Row(row: usize, entry: PoolEntry, shown: [Measured; 4]) -> impl IntoView {
    let app = App::here();
    let desk = ClassDesk::here();
    let values = shown.map(|measured| (entry.value(measured), measured.decimals()));
    let PoolEntry { file, code, condition, .. } = entry;
    let name = move || app.nameless().unwrap_or_else(|| file.clone());
    let cell = move |(value, decimals): (Option<f64>, usize)| {
        view! {
            <td>
                {move || {
                    let language = app.language.get();
                    value.map_or_else(|| say(language, "page.not_measurable").into_owned(), |value| decimal(language, value, decimals))
                }}
            </td>
        }
    };
    let field = move |label: &'static str, text: String, put: fn(&mut PoolEntry, String)| {
        view! {
            <td>
                <input
                    type="text"
                    maxlength="40"
                    autocomplete="off"
                    aria-label=tr(label)
                    prop:value=text
                    on:change=move |event| {
                        let text = event_target_value(&event).trim().to_owned();
                        desk.change(row, |entry| put(entry, text));
                    }
                />
            </td>
        }
    };
    view! {
        <tr>
            {field("conditions.table.code", code, |entry, text| entry.code = text)}
            {field("class.condition", condition, |entry, text| entry.condition = text)}
            {values.map(cell).collect_view()} <td>{name}</td> <td>
                <button class="button no-print" on:click=move |_| desk.remove(row)>
                    {tr("bench.seat.remove")}
                </button>
            </td>
        </tr>
    }
}

/// The comparison by one quantity: drawing, sample statistics, paired differences, what was left out.
#[component]
fn Comparison() -> impl IntoView {
    let app = App::here();
    let desk = ClassDesk::here();
    let quantities = move || {
        let language = app.language.get();
        let names = Measured::ALL.map(|one| format!("{} ({})", one.name(language), one.unit()));
        let chosen = Measured::ALL.iter().position(|one| *one == desk.measured.get());
        let on_choose = Callback::new(move |place: usize| {
            Measured::ALL.get(place).into_iter().for_each(|one| desk.measured.set(*one));
        });
        view! {
            <Select
                label=Signal::derive(tr("class.quantity"))
                options=names.to_vec()
                chosen=chosen
                on_choose=on_choose
            />
        }
    };
    let outcome = move || outcome(app, desk, app.language.get());
    view! {
        <section class="card">
            <h2>{tr("class.comparison")}</h2>
            <div class="button-row no-print">{quantities}</div>
            {outcome}
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
    let people = desk.people();
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
        ["class.condition", "class.count", "class.mean", "class.sd", "class.median", "class.range"]
            .map(|key| say(language, key).into_owned());
    view! {
        <ChartFigure summary=summary paper=paper draw=draw />
        <h3>{tr("class.statistics")}</h3>
        <NumbersTable title="class.statistics" heads=heads.to_vec() rows=statistics />
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
            |it| {
                let [value, low, high] = [it.value, it.low, it.high].map(|it| written(Some(it)));
                let places = [("value", &*value), ("low", &*low), ("high", &*high)];
                say_with(language, "recovery.table.with_interval", &places)
            },
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
    let heads = ["recovery.table.quantity", "recovery.table.value"]
        .map(|key| say(language, key).into_owned());
    let name = |place: usize| {
        people.conditions.get(place).map(|name| named(name, language)).unwrap_or_default()
    };
    let one = |against: &beatwalk::inquiry::AgainstFirst| {
        let places = [("first", &*name(0)), ("second", &*name(against.condition))];
        let title = say_with(language, "conditions.table.difference", &places);
        let rows = people.result_rows(against, measured, language);
        let rows = rows.into_iter().map(|(name, value)| vec![name, value]).collect();
        view! {
            <h3>{title}</h3>
            <NumbersTable title="class.comparison" heads=heads.to_vec() rows=rows />
        }
    };
    view! {
        {people.against_first.iter().map(one).collect_view()}
        <ul>{notes.into_iter().map(|note| view! { <li>{note}</li> }).collect_view()}</ul>
    }
}
