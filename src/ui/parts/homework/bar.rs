//! Above the trace while a recording of the homework lies on the desk: which one, and the way back.

use crate::ui::homework::HomeworkDesk;
use crate::ui::reactive::Show;
use crate::ui::state::{App, Screen, tr};
use leptos::prelude::*;

/// Which homework the trace belongs to; nothing when it belongs to none.
#[component]
pub fn HomeworkBar() -> impl IntoView {
    let app = App::here();
    let desk = HomeworkDesk::here();
    let set = move || desk.assignment.read().is_some() && app.screen.get() != Screen::Homework;
    let label = move || desk.on_desk().map(|material| material.label);
    view! {
        <Show when=set>
            <p class="tasks__bar">
                <span>
                    {tr("tasks.bar")} " "
                    <bdi>{move || desk.done.with(|done| done.title.clone())}</bdi>
                    {move || label().map(|label| view! { " · " <bdi>{label}</bdi> })}
                </span>
                <button class="button" on:click=move |_| app.screen.set(Screen::Homework)>
                    {tr("tasks.back")}
                </button>
            </p>
        </Show>
    }
}
