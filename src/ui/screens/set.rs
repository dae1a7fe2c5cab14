//! Setting homework: recordings, tasks, what help is allowed, the files to give out, the sheet to print.

use crate::ui::browser::{save_text, takes_focus};
use crate::ui::homework::as_file_name;
use crate::ui::parts::{
    AddTask, FilePick, InstructionSheet, MaterialForms, PaperPreview, SetHelp, TaskForms, TextArea,
    TextField,
};
use crate::ui::reactive::{Show, Views, live};
use crate::ui::setting::Setting;
use crate::ui::state::{App, Screen, tr};
use beatwalk::homework::{Assignment, SetProblem};
use beatwalk::report::EXTENSION;
use beatwalk::words::Phrase;
use leptos::html::H1;
use leptos::prelude::*;

/// The screen on which a teacher sets homework.
#[component]
pub fn SetScreen() -> impl IntoView {
    let app = App::here();
    let setting = Setting::here();
    let heading = takes_focus::<H1>();
    let said = move |part: fn(&Assignment) -> &String| {
        Signal::derive(move || setting.draft.with(|draft| part(draft).clone()))
    };
    view! {
        <div class="tasks no-print">
            <header>
                <h1 tabindex="-1" node_ref=heading>
                    {tr("tasks.set.title")}
                </h1>
                <p>{tr("tasks.set.lead")}</p>
                <div class="button-row">
                    <FilePick
                        text="tasks.set.open"
                        label=Signal::derive(tr("tasks.set.open"))
                        on_files=Callback::new(move |files| app.open_files(files))
                    />
                    <button class="button" on:click=move |_| app.screen.set(Screen::Homework)>
                        {tr("tasks.title")}
                    </button>
                    <button class="button" on:click=move |_| setting.leave()>
                        {tr("tasks.set.anew")}
                    </button>
                </div>
            </header>
            <section class="card" aria-labelledby="set-what">
                <h2 id="set-what">{tr("tasks.set.what")}</h2>
                <TextField
                    label=Signal::derive(tr("tasks.set.name"))
                    text=said(|draft| &draft.title)
                    longest=120
                    on_text=Callback::new(move |text| setting.draft.update(|draft| draft.title = text))
                />
                <TextArea
                    label=Signal::derive(tr("tasks.set.instructions"))
                    text=said(|draft| &draft.instructions)
                    on_text=Callback::new(move |text| setting.draft.update(|draft| draft.instructions = text))
                />
                <TextField
                    label=Signal::derive(tr("tasks.set.due"))
                    text=said(|draft| &draft.due)
                    on_text=Callback::new(move |text| setting.draft.update(|draft| draft.due = text))
                />
                <SetHelp />
            </section>
            <MaterialForms />
            <TaskForms />
            <AddTask />
            <GivingOut />
        </div>
        <InstructionSheet />
    }
}

/// What must be mended first, and the files.
#[component]
fn GivingOut() -> impl IntoView {
    let app = App::here();
    let setting = Setting::here();
    let problems = Memo::new(move |_| {
        setting.draft.with(|draft| draft.problems().iter().map(said_problem).collect::<Vec<_>>())
    });
    let ready = move || problems.read().is_empty();
    let save = move |ending: &'static str, copy: fn(&Assignment) -> Assignment| {
        let saved = setting.draft.with_untracked(|draft| {
            let name = format!("{}{ending}{EXTENSION}", as_file_name(&draft.title));
            Some(save_text(&name, "application/json", &copy(draft).to_json().ok()?))
        });
        app.check_saved(saved);
    };
    let list = move || {
        let line = |said: Phrase| view! { <li>{said.in_words(app.language.get())}</li> };
        problems.get().into_iter().map(line).views()
    };
    view! {
        <section class="card" aria-labelledby="set-files">
            <h2 id="set-files">{tr("tasks.set.files")}</h2>
            <Show when=move || !ready()>
                <div class="notice notice--caution">
                    <p>{tr("tasks.set.mend")}</p>
                    <ul>{live(list)}</ul>
                </div>
            </Show>
            <p>{tr("tasks.set.two_copies")}</p>
            <div class="button-row">
                <button
                    class="button button--main"
                    disabled=move || !ready()
                    on:click=move |_| save("", Assignment::for_students)
                >
                    {tr("tasks.set.for_students")}
                </button>
                <button
                    class="button"
                    on:click=move |_| save("-with-answers", Assignment::clone)
                >
                    {tr("tasks.set.for_me")}
                </button>
                <PaperPreview />
            </div>
        </section>
    }
}

/// What is wrong, with the number of the task.
fn said_problem(problem: &SetProblem) -> Phrase {
    let said = problem.fault.said();
    match problem.task {
        None => said,
        Some(place) => {
            Phrase::message("tasks.set.at_task").with("number", place + 1).with("said", said)
        }
    }
}
