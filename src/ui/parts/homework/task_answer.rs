//! What is right in a task whose answer is known: a number, one of several answers, what a text should say.

use crate::ui::parts::number_field::NumberSetting;
use crate::ui::parts::text_area::TextArea;
use crate::ui::reactive::Views;
use crate::ui::setting::Setting;
use crate::ui::state::{App, tr};
use beatwalk::homework::Ask;
use beatwalk::words::say_with;
use leptos::prelude::*;

/// A known number and its unit.
#[component]
pub fn NumberForm(place: usize, value: Option<f64>, unit: String) -> impl IntoView {
    let setting = Setting::here();
    let set_value = move |typed| {
        setting.change_task(place, |task| {
            if let Ask::Number { value, .. } = &mut task.ask {
                *value = typed;
            }
        });
    };
    let set_unit = move |event| {
        let text = event_target_value(&event);
        setting.change_task(place, |task| {
            if let Ask::Number { unit, .. } = &mut task.ask {
                *unit = text;
            }
        });
    };
    view! {
        <div class="tasks__row">
            <NumberSetting
                label=Signal::derive(tr("tasks.set.value"))
                value=value
                on_number=Callback::new(set_value)
            />
            <label class="field field--number">
                {tr("tasks.set.unit")}
                <input type="text" maxlength="20" autocomplete="off" prop:value=unit on:input=set_unit />
            </label>
        </div>
    }
}

/// The answers to choose from; the right one is ticked.
#[component]
pub fn Options(place: usize, count: usize) -> impl IntoView {
    let app = App::here();
    let setting = Setting::here();
    let with_choice = move |act: &mut dyn FnMut(&mut Vec<String>, &mut Option<usize>)| {
        setting.change_task(place, |task| {
            if let Ask::Choice { options, right } = &mut task.ask {
                act(options, right);
            }
        });
    };
    let one = move |at: usize| {
        let number = (at + 1).to_string();
        let label = Signal::derive(move || {
            say_with(app.language.get(), "tasks.set.option", &[("number", &number)])
        });
        let now = setting.draft.with_untracked(|draft| match &draft.tasks.get(place)?.ask {
            Ask::Choice { options, right } => Some((options.get(at)?.clone(), *right == Some(at))),
            _ => None,
        });
        let (text, is_right) = now.unwrap_or_default();
        view! {
            <li class="tasks__row">
                <label class="field">
                    {label}
                    <input
                        type="text"
                        maxlength="300"
                        autocomplete="off"
                        prop:value=text
                        on:input=move |event| {
                            let text = event_target_value(&event);
                            with_choice(&mut |options, _| {
                                options.get_mut(at).into_iter().for_each(|it| it.clone_from(&text));
                            });
                        }
                    />
                </label>
                <label class="tasks__option">
                    <input
                        type="radio"
                        name=format!("right-{place}")
                        prop:checked=is_right
                        on:change=move |_| with_choice(&mut |_, right| *right = Some(at))
                    />
                    <span>{tr("tasks.set.right")} <span class="hidden-visually">{label}</span></span>
                </label>
            </li>
        }
    };
    let more = move |_| {
        with_choice(&mut |options, _| options.push(String::new()));
        setting.reshape(|_| {});
    };
    let fewer = move |_| {
        with_choice(&mut |options, right| {
            options.pop();
            *right = right.filter(|at| *at < options.len());
        });
        setting.reshape(|_| {});
    };
    view! {
        <ul class="tasks__rows">{(0..count).map(one).views()}</ul>
        <div class="button-row">
            <button class="button" on:click=more>
                {tr("tasks.set.more_options")}
            </button>
            <button class="button" disabled=count <= 2 on:click=fewer>
                {tr("tasks.set.fewer_options")}
            </button>
        </div>
    }
}

/// What the teacher looks for in a text.
#[component]
pub fn Guide(place: usize) -> impl IntoView {
    let setting = Setting::here();
    let guide = move || {
        setting.draft.with(|draft| match &draft.tasks.get(place)?.ask {
            Ask::Text { guide } => guide.clone(),
            _ => None,
        })
    };
    view! {
        <TextArea
            label=Signal::derive(tr("tasks.set.guide"))
            text=Signal::derive(move || guide().unwrap_or_default())
            on_text=Callback::new(move |text: String| {
                setting.change_task(place, |task| {
                    if let Ask::Text { guide } = &mut task.ask {
                        *guide = Some(text).filter(|text| !text.is_empty());
                    }
                });
            })
        />
    }
}
