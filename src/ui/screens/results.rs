//! Results: what was measured, beside what is typical; figures; files to take away; the printed page.

use crate::ui::parts::{
    Figures, NumbersTable, ResultsFiles, TextArea, TextField, UnderstoodCard, scrolling_table,
};
use crate::ui::reactive::{Show, Views};
use crate::ui::state::{App, Screen, tr};
use beatwalk::lesson::{Command, Step};
use beatwalk::report::{PlacementLine, Report, ResultLine};
use beatwalk::words::say_all;
use leptos::prelude::*;

/// The fourth screen, which is also the page that is printed.
#[component]
pub fn ResultsScreen() -> impl IntoView {
    let app = App::here();
    // The student's own words are typed on this very page: they are shown by their fields, and must
    // not build the page anew with each letter.
    let report = Memo::new(move |_| app.report());
    view! {
        <div class="results">
            {move || {
                report
                    .get()
                    .map(|report| {
                        view! {
                            <h1>{report.title.clone()}</h1>
                            <Show when=move || !app.projector.get()>
                                <Author />
                            </Show>
                            <ResultsTable lines=report.results.clone() corrected=report.corrected.clone() />
                            <Figures />
                            <ResultsFiles />
                            <Cautions texts=report.cautions.clone() />
                            <Placements lines=report.placements.clone() />
                            <UnderstoodCard />
                            <Facts report=report />
                        }
                    })
            }}
            <p class="no-print">
                <button
                    class="button"
                    on:click=move |_| {
                        app.lesson(Command::GoTo(Step::ChooseBeat));
                        app.screen.set(Screen::Walk);
                    }
                >
                    {tr("page.results.again")}
                </button>
            </p>
        </div>
    }
}

/// Who did it, by a code, and what they noticed.
#[component]
fn Author() -> impl IntoView {
    let app = App::here();
    let student = move || app.work.with(|work| work.student.clone());
    let remark = move || app.work.with(|work| work.remark.clone());
    view! {
        <section class="results__author">
            <TextField
                label=Signal::derive(tr("page.results.student"))
                text=Signal::derive(student)
                on_text=Callback::new(move |text| app.work.update(|work| work.student = text))
            />
            <TextArea
                label=Signal::derive(tr("page.results.remark"))
                text=Signal::derive(remark)
                on_text=Callback::new(move |text| app.work.update(|work| work.remark = text))
            />
        </section>
    }
}

#[component]
fn ResultsTable(lines: Vec<ResultLine>, corrected: Vec<ResultLine>) -> impl IntoView {
    let typical = |line: &ResultLine| {
        let ranges = line.typical.iter().cloned().map(|range| view! { <div>{range}</div> });
        let question = line.question.clone();
        view! {
            {ranges.views()}
            {question.map(|question| view! { <div class="notice notice--caution">{question}</div> })}
        }
        .into_any()
    };
    let rows = lines.into_iter().map(|line| result_row(typical(&line), line)).views();
    view! {
        <section class="card">
            <h2>{tr("page.results.caption")}</h2>
            {scrolling_table("page.results.caption", said(&ResultLine::HEADS), rows.into_any())}
            <p class="soft">{tr("page.results.uncertainty")}</p>
            <Corrected lines=corrected />
        </section>
    }
}

/// QTc by every formula, folded away: a class that compares formulas opens it.
#[component]
fn Corrected(lines: Vec<ResultLine>) -> impl IntoView {
    let heads = said(&ResultLine::CORRECTED_HEADS);
    let explained = |line: ResultLine| result_row(line.explained.clone().into_any(), line);
    let rows = lines.into_iter().map(explained).views();
    view! {
        <details class="results__fold">
            <summary>{tr("page.results.corrected")}</summary>
            {scrolling_table("page.results.corrected", heads, rows.into_any())}
            <p class="soft">{tr("page.results.corrected_rule")}</p>
        </details>
    }
}

/// A line of values, and what stands beside them.
fn result_row(beside: AnyView, line: ResultLine) -> impl IntoView {
    view! {
        <tr>
            <th scope="row">{line.quantity}</th>
            <td class="cover">{line.own}</td>
            <td class="cover">{line.computed}</td>
            <td class="cover">{line.all_beats}</td>
            <td class="results__typical">{beside}</td>
        </tr>
    }
}

/// The messages above some columns. The report around them is made anew in another language.
fn said(heads: &[&str]) -> Vec<String> {
    say_all(App::here().language.get_untracked(), heads)
}

#[component]
fn Placements(lines: Vec<PlacementLine>) -> impl IntoView {
    let rows = lines.iter().map(PlacementLine::cells).collect();
    view! {
        <section class="card">
            <h2>{tr("page.results.placements")}</h2>
            <NumbersTable title="page.results.placements" heads=said(&PlacementLine::HEADS) rows=rows />
        </section>
    }
}

#[component]
fn Cautions(texts: Vec<String>) -> impl IntoView {
    let paragraphs = texts.into_iter().map(|text| view! { <p>{text}</p> }).views();
    view! { <section class="notice notice--caution">{paragraphs}</section> }
}

#[component]
fn Facts(report: Report) -> impl IntoView {
    let list = |title: &'static str, texts: Vec<String>| {
        (!texts.is_empty()).then(|| {
            let items = texts.into_iter().map(|text| view! { <li>{text}</li> }).views();
            view! {
                <h2>{tr(title)}</h2>
                <ul>{items}</ul>
            }
        })
    };
    view! {
        <section class="card">
            <h2>{tr("page.results.recording")}</h2>
            <dl class="facts">
                {report
                    .facts
                    .into_iter()
                    .map(|(name, value)| {
                        view! {
                            <dt>{name}</dt>
                            <dd>{value}</dd>
                        }
                    })
                    .views()}
            </dl>
            {list("page.results.notes", report.notes)}
            {list("page.results.method", report.method)}
            {list("page.results.sources", report.sources)}
        </section>
    }
}
