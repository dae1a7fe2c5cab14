//! What a student may use, and in which language the assignment is done.

use crate::ui::parts::select::Select;
use crate::ui::setting::Setting;
use crate::ui::state::{App, tr};
use beatwalk::homework::Help;
use beatwalk::words::{Language, say};
use leptos::prelude::*;

/// Three kinds of help and the language.
#[component]
pub fn SetHelp() -> impl IntoView {
    let app = App::here();
    let setting = Setting::here();
    let tick = move |words: &'static str, part: fn(&mut Help) -> &mut bool| {
        let on = move || setting.draft.with(|draft| *part(&mut draft.help.clone()));
        view! {
            <label class="tasks__option">
                <input
                    type="checkbox"
                    prop:checked=on
                    on:change=move |event| {
                        let checked = event_target_checked(&event);
                        setting.draft.update(|draft| *part(&mut draft.help) = checked);
                    }
                />
                <span>{tr(words)}</span>
            </label>
        }
    };
    let languages = move || {
        let free = say(app.language.get(), "tasks.set.any_language").into_owned();
        let names = Language::ALL.iter().map(|language| language.own_name().to_owned());
        let chosen = setting.draft.with(|draft| {
            let place = |it: Language| Language::ALL.iter().position(|one| *one == it);
            draft.language.and_then(place).map_or(0, |place| place + 1)
        });
        view! {
            <Select
                label=Signal::derive(tr("tasks.set.language"))
                options=std::iter::once(free).chain(names).collect()
                chosen=Some(chosen)
                on_choose=Callback::new(move |place: usize| {
                    let language = place.checked_sub(1).and_then(|it| Language::ALL.get(it).copied());
                    setting.draft.update(|draft| draft.language = language);
                })
            />
        }
    };
    let shape = setting.shape;
    view! {
        <fieldset class="tasks__options">
            <legend>{tr("tasks.set.help")}</legend>
            {tick("tasks.set.help_verdicts", |help| &mut help.verdicts)}
            {tick("tasks.set.help_worked", |help| &mut help.worked_answers)}
            {tick("tasks.set.help_questions", |help| &mut help.questions)}
        </fieldset>
        {move || {
            shape.track();
            untrack(languages)
        }}
    }
}
