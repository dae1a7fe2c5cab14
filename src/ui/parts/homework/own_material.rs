//! A recording that the student brings to the homework.

use crate::ui::homework::HomeworkDesk;
use crate::ui::state::{App, Screen, tr};
use beatwalk::homework::Material;
use beatwalk::words::say_with;
use leptos::prelude::*;

/// What is to be brought, what was, and the way to do it: open it, then take what is open.
#[component]
pub fn OwnMaterial(material: Material) -> impl IntoView {
    let app = App::here();
    let desk = HomeworkDesk::here();
    let key = StoredValue::new(material.key);
    let brought =
        move || desk.done.with(|done| done.own.get(&key.get_value()).map(|own| own.file.clone()));
    let take = move || {
        let file = app.file_name()?;
        let places = [("file", &*file)];
        Some(say_with(app.language.get(), "tasks.own_take", &places))
    };
    view! {
        <section class="card">
            <h2>
                <bdi>{material.label}</bdi>
            </h2>
            <p>{tr("tasks.own_about")}</p>
            <p role="status">
                {move || brought().map(|file| view! { {tr("tasks.own_is")} " " <bdi>{file}</bdi> })}
            </p>
            <div class="button-row">
                <button class="button" on:click=move |_| app.screen.set(Screen::Open)>
                    {tr("tasks.own_open")}
                </button>
                {move || {
                    take()
                        .map(|words| {
                            view! {
                                <button class="button" on:click=move |_| desk.bring(&key.get_value())>
                                    {words}
                                </button>
                            }
                        })
                }}
            </div>
        </section>
    }
}
