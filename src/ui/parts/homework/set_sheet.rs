//! The sheet that goes with an assignment, on one page of paper: what to do, how to open it, how to hand it in.

use crate::ui::reactive::{Views, live};
use crate::ui::setting::Setting;
use crate::ui::state::{App, tr};
use beatwalk::words::{figure, say_with};
use leptos::prelude::*;

/// The sheet; on paper only.
#[component]
pub fn InstructionSheet() -> impl IntoView {
    let app = App::here();
    let setting = Setting::here();
    let tasks = move || {
        let task = |task: &beatwalk::homework::Task| {
            let points = points_said(app, task.points);
            view! {
                <li>
                    <span class="tasks__text" dir="auto">{task.text.clone()}</span>
                    " "
                    <span class="soft">{points}</span>
                </li>
            }
        };
        setting.draft.with(|draft| draft.tasks.iter().map(task).views())
    };
    let total = move || points_said(app, setting.draft.with(|draft| draft.points()));
    let due = move || {
        let due = setting.draft.with(|draft| draft.due.clone());
        (!due.is_empty()).then(|| say_with(app.language.get(), "tasks.sheet.due", &[("due", &due)]))
    };
    view! {
        <div class="only-print tasks__sheet">
            <h1>
                <bdi>{move || setting.draft.with(|draft| draft.title.clone())}</bdi>
            </h1>
            <p>{tr("tasks.sheet.name")} " ______________________________"</p>
            <p>{live(due)}</p>
            <p class="tasks__text" dir="auto">
                {move || setting.draft.with(|draft| draft.instructions.clone())}
            </p>
            <h2>{tr("tasks.sheet.tasks")} " (" {total} ")"</h2>
            <ol>{live(tasks)}</ol>
            <h2>{tr("tasks.sheet.how")}</h2>
            <ol>
                <li>{tr("tasks.sheet.open")}</li>
                <li>{tr("tasks.sheet.work")}</li>
                <li>{tr("tasks.sheet.hand_in")}</li>
                <li>{tr("tasks.sheet.shared")}</li>
            </ol>
            <p>{tr("tasks.sheet.body")}</p>
        </div>
    }
}

fn points_said(app: App, points: f64) -> String {
    let points = figure(app.language.get(), points, 1);
    say_with(app.language.get(), "tasks.points", &[("points", &points)])
}
