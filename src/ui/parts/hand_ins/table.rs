//! Who did what: a row a hand-in, a column a task, each a way to look closer.

use crate::ui::hand_ins::HandIns;
use crate::ui::reactive::{Views, live};
use crate::ui::screens::LookAt;
use crate::ui::state::{App, tr};
use beatwalk::homework::{Doubled, Origin, Seal, Sheet, TaskLine, Verdict};
use beatwalk::words::{Language, Phrase, figure, say, say_with};
use leptos::prelude::*;

/// The table of a class.
#[component]
pub fn HandInsTable(look_at: RwSignal<Option<LookAt>>) -> impl IntoView {
    let app = App::here();
    let hand_ins = HandIns::here();
    let heads = move || {
        let tasks = hand_ins.assignment.with(|set| set.as_ref().map_or(0, |set| set.tasks.len()));
        let head = move |place: usize| {
            let number = (place + 1).to_string();
            let name = move || {
                say_with(app.language.get(), "hand_ins.task_number", &[("number", &number)])
            };
            view! {
                <th scope="col">
                    <button
                        class="button hand-ins__way"
                        aria-pressed=move || (look_at.get() == Some(LookAt::Task(place))).to_string()
                        on:click=move |_| look_at.set(Some(LookAt::Task(place)))
                    >
                        {live(name)}
                    </button>
                </th>
            }
        };
        (0..tasks).map(head).views()
    };
    let rows = move || {
        let doubled = hand_ins.doubled();
        hand_ins.sheets.with(|sheets| {
            let row = |(place, sheet): (usize, &Sheet)| {
                let double = doubled.get(place).copied().flatten();
                let flags = flags(sheet, double, sheets);
                view! { <Row place=place sheet=sheet.clone() flags=flags look_at=look_at /> }
            };
            sheets.iter().enumerate().map(row).views()
        })
    };
    view! {
        <section class="card" aria-labelledby="hand-ins-all">
            <h2 id="hand-ins-all">{tr("hand_ins.all")}</h2>
            <p class="soft">{tr("hand_ins.all_about")}</p>
            <div class="scroll-x" tabindex="0" role="group" aria-labelledby="hand-ins-all">
                <table class="results__table hand-ins__table">
                    <thead>
                        <tr>
                            <th scope="col">{tr("hand_ins.student")}</th>
                            {live(heads)}
                            <th scope="col">{tr("hand_ins.points")}</th>
                            <th scope="col">{tr("hand_ins.help_and_time")}</th>
                        </tr>
                    </thead>
                    <tbody>{live(rows)}</tbody>
                </table>
            </div>
        </section>
    }
}

#[component]
fn Row(
    place: usize,
    sheet: Sheet,
    flags: Vec<Phrase>,
    look_at: RwSignal<Option<LookAt>>,
) -> impl IntoView {
    let app = App::here();
    let hand_ins = HandIns::here();
    let sheet = StoredValue::new(sheet);
    let who = move || {
        let own = sheet.with_value(who);
        app.nameless().unwrap_or(own)
    };
    let total = move || {
        let total = sheet.with_value(|sheet| hand_ins.marks.with(|marks| marks.total(sheet)));
        let language = app.language.get();
        let [earned, of] = [total.earned, total.of].map(|it| figure(language, it, 2));
        match total.open {
            0 => format!("{earned} / {of}"),
            open => {
                let places = [("earned", &*earned), ("of", &*of), ("open", &open.to_string())];
                say_with(language, "hand_ins.total_open", &places)
            }
        }
    };
    let lines = sheet.with_value(|sheet| sheet.lines.clone());
    let cells = {
        let cell = |line: TaskLine| {
            let class = match line.verdict {
                Verdict::Right => "hand-ins__cell hand-ins__cell--right",
                Verdict::Wrong | Verdict::Missing => "hand-ins__cell hand-ins__cell--wrong",
                _ => "hand-ins__cell",
            };
            let text = move || cell_text(app, hand_ins, sheet, &line);
            view! { <td class=class>{live(text)}</td> }
        };
        lines.into_iter().map(cell).views()
    };
    let missing = sheet.with_value(|sheet| sheet.lines.is_empty());
    let tasks =
        hand_ins.assignment.with_untracked(|set| set.as_ref().map_or(0, |it| it.tasks.len()));
    let help = move || sheet.with_value(|sheet| help_and_time(sheet, app.language.get()));
    let flag = |flag| view! { <div class="hand-ins__flag">{move || app.tell(&flag)}</div> };
    let flags = flags.into_iter().map(flag);
    view! {
        <tr>
            <th scope="row">
                <button
                    class="button hand-ins__way"
                    aria-pressed=move || (look_at.get() == Some(LookAt::HandIn(place))).to_string()
                    on:click=move |_| look_at.set(Some(LookAt::HandIn(place)))
                >
                    <bdi>{live(who)}</bdi>
                </button>
                {flags.views()}
            </th>
            {cells}
            {missing.then(|| view! { <td colspan=tasks.to_string()>"–"</td> })}
            <td class="cover">{live(total)}</td>
            <td>{live(help)}</td>
        </tr>
    }
}

/// Whose hand-in it is: by code or name, or else by the file.
pub(super) fn who(sheet: &Sheet) -> String {
    let own = if sheet.student.is_empty() { &sheet.file } else { &sheet.student };
    own.chars().take(120).collect()
}

/// A text, or a sign that there is none.
pub(super) fn or_dash(text: String) -> String {
    if text.is_empty() { "–".to_owned() } else { text }
}

/// The points, and a sign that says how they came about; a text waits for the teacher.
fn cell_text(app: App, hand_ins: HandIns, sheet: StoredValue<Sheet>, line: &TaskLine) -> String {
    let language = app.language.get();
    let earned = sheet.with_value(|sheet| hand_ins.marks.with(|marks| marks.earned(sheet, line)));
    let sign = match line.verdict {
        Verdict::Right => "✓ ",
        Verdict::Wrong => "✗ ",
        Verdict::Missing => "– ",
        Verdict::Partly | Verdict::ForTeacher | Verdict::NoReference => "",
    };
    match earned {
        Some(earned) => format!("{sign}{}", figure(language, earned, 2)),
        None => say(language, "hand_ins.to_read").into_owned(),
    }
}

fn help_and_time(sheet: &Sheet, language: Language) -> String {
    let help = sheet.help_used;
    let minutes = sheet.seconds.map_or_else(|| "–".to_owned(), |it| figure(language, it / 60.0, 0));
    let places = [
        ("checks", &*help.checks.to_string()),
        ("worked", &*help.worked_answers.to_string()),
        ("minutes", &*minutes),
    ];
    say_with(language, "hand_ins.help_said", &places)
}

/// What a teacher should know about a hand-in before trusting it.
fn flags(sheet: &Sheet, double: Option<Doubled>, sheets: &[Sheet]) -> Vec<Phrase> {
    let other = (sheet.origin != Origin::This).then(|| sheet.origin.said());
    let seal = (sheet.seal != Seal::Whole).then(|| sheet.seal.said());
    let double = double.map(|double| double.said(sheets));
    [other, seal, double].into_iter().flatten().collect()
}
