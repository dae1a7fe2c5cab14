//! The recordings of an assignment: those that are given, and those that each student brings.

use crate::ui::parts::text_field::TextField;
use crate::ui::reactive::{Views, live};
use crate::ui::setting::Setting;
use crate::ui::state::{App, Screen, tr};
use beatwalk::words::{say, say_with};
use leptos::prelude::*;

/// The list of recordings, and the ways to add one.
#[component]
pub fn MaterialForms() -> impl IntoView {
    let app = App::here();
    let setting = Setting::here();
    let one = move |place: usize| {
        let label = move || {
            setting.draft.with(|draft| draft.materials.get(place).map(|it| it.label.clone()))
        };
        let kind = move || {
            let file = setting.draft.with(|draft| {
                let given = draft.materials.get(place)?.given.as_ref()?;
                Some(given.recording.file.clone())
            });
            let language = app.language.get();
            match file {
                None => say(language, "tasks.set.brought").into_owned(),
                Some(file) => say_with(language, "tasks.set.given", &[("file", &file)]),
            }
        };
        view! {
            <li class="tasks__row">
                <TextField
                    label=Signal::derive(tr("tasks.set.label"))
                    text=Signal::derive(move || label().unwrap_or_default())
                    longest=80
                    on_text=Callback::new(move |text| {
                        setting.draft.update(|draft| {
                            draft.materials.get_mut(place).into_iter().for_each(|it| it.label.clone_from(&text));
                        });
                    })
                />
                <span class="soft">
                    <bdi>{live(kind)}</bdi>
                </span>
                <button
                    class="button"
                    on:click=move |_| setting.reshape(|draft| {
                        draft.materials.remove(place);
                    })
                >
                    {tr("tasks.set.remove")}
                    <span class="hidden-visually">{live(label)}</span>
                </button>
            </li>
        }
    };
    let rows = move || {
        setting.shape.track();
        (0..setting.draft.with_untracked(|draft| draft.materials.len())).map(one).views()
    };
    let add_open = move || {
        let file = app.file_name()?;
        Some(say_with(app.language.get(), "tasks.set.add_open", &[("file", &file)]))
    };
    let own_label = move || say(app.language.get_untracked(), "tasks.set.own_label").into_owned();
    view! {
        <section class="card" aria-labelledby="set-recordings">
            <h2 id="set-recordings">{tr("tasks.set.recordings")}</h2>
            <p>{tr("tasks.set.recordings_about")}</p>
            <ul class="tasks__rows">{live(rows)}</ul>
            <div class="button-row">
                {move || {
                    add_open()
                        .map(|words| {
                            view! {
                                <button class="button" on:click=move |_| setting.add_open()>
                                    {words}
                                </button>
                            }
                        })
                }}
                <button class="button" on:click=move |_| app.screen.set(Screen::Open)>
                    {tr("tasks.set.open_other")}
                </button>
                <button class="button" on:click=move |_| setting.add_own(&own_label())>
                    {tr("tasks.set.add_own")}
                </button>
            </div>
        </section>
    }
}
