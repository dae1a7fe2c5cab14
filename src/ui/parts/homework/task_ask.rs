//! What a task asks: the part of its form that differs from kind to kind.

use super::task_answer::{Guide, NumberForm, Options};
use crate::ui::parts::number_field::NumberSetting;
use crate::ui::parts::select::Select;
use crate::ui::reactive::{Views, live};
use crate::ui::setting::Setting;
use crate::ui::state::{App, tr};
use beatwalk::homework::{Ask, Tolerance};
use beatwalk::inquiry::Measured;
use beatwalk::lesson::LandmarkWords;
use beatwalk::signal::{Landmark, put_in_order};
use beatwalk::words::say_all;
use leptos::prelude::*;

/// The form of what one task asks.
#[component]
pub fn AskForm(place: usize) -> impl IntoView {
    let setting = Setting::here();
    let ask = setting.draft.with_untracked(|draft| draft.tasks.get(place).map(|it| it.ask.clone()));
    match ask {
        None => ().into_any(),
        Some(Ask::Points { material, landmarks }) => view! {
            <MaterialChoice place=place chosen=material />
            <LandmarkTicks place=place landmarks=landmarks />
        }
        .into_any(),
        Some(Ask::Measure { material, measured, tolerance }) => view! {
            <MaterialChoice place=place chosen=material />
            <MeasuredChoice place=place chosen=measured />
            <ToleranceField place=place tolerance=tolerance />
        }
        .into_any(),
        Some(Ask::Number { value, unit, tolerance }) => view! {
            <NumberForm place=place value=value unit=unit />
            <ToleranceField place=place tolerance=tolerance />
        }
        .into_any(),
        Some(Ask::Choice { options, .. }) => {
            view! { <Options place=place count=options.len() /> }.into_any()
        }
        Some(Ask::Text { .. }) => view! { <Guide place=place /> }.into_any(),
    }
}

/// Which recording a task is about.
#[component]
fn MaterialChoice(place: usize, chosen: String) -> impl IntoView {
    let setting = Setting::here();
    let materials = setting.draft.with_untracked(|draft| {
        draft.materials.iter().map(|it| (it.key.clone(), it.label.clone())).collect::<Vec<_>>()
    });
    let (keys, labels): (Vec<String>, Vec<String>) = materials.into_iter().unzip();
    let at = keys.iter().position(|key| *key == chosen);
    let choose = move |at: usize| {
        let Some(key) = keys.get(at).cloned() else { return };
        setting.change_task(place, |task| {
            if let Ask::Points { material, .. } | Ask::Measure { material, .. } = &mut task.ask {
                *material = key;
            }
        });
    };
    view! {
        <Select
            label=Signal::derive(tr("tasks.set.recording"))
            options=labels
            chosen=at
            on_choose=Callback::new(choose)
        />
    }
}

#[component]
fn LandmarkTicks(place: usize, landmarks: Vec<Landmark>) -> impl IntoView {
    let app = App::here();
    let setting = Setting::here();
    let one = move |landmark: Landmark| {
        let name = move || LandmarkWords::of(landmark, app.language.get()).name.into_owned();
        let change = move |event| {
            let wanted = event_target_checked(&event);
            setting.change_task(place, |task| {
                if let Ask::Points { landmarks, .. } = &mut task.ask {
                    landmarks.retain(|it| *it != landmark);
                    landmarks.extend(wanted.then_some(landmark));
                    let order = |it: &Landmark| {
                        Landmark::ALL.iter().position(|one| one == it).unwrap_or_default()
                    };
                    put_in_order(landmarks, order);
                }
            });
        };
        view! {
            <label class="tasks__option">
                <input type="checkbox" prop:checked=landmarks.contains(&landmark) on:change=change />
                <span>{live(name)}</span>
            </label>
        }
    };
    view! {
        <fieldset class="tasks__options tasks__options--many">
            <legend>{tr("tasks.set.points")}</legend>
            {Landmark::ALL.iter().copied().map(one).views()}
        </fieldset>
    }
}

#[component]
fn MeasuredChoice(place: usize, chosen: Measured) -> impl IntoView {
    let app = App::here();
    let setting = Setting::here();
    let names = move || {
        let language = app.language.get_untracked();
        Measured::ALL.iter().map(|it| format!("{} ({})", it.name(language), it.unit())).collect()
    };
    let choose = move |at: usize| {
        setting.change_task(place, |task| {
            if let (Ask::Measure { measured, .. }, Some(it)) =
                (&mut task.ask, Measured::ALL.get(at))
            {
                *measured = *it;
            }
        });
    };
    view! {
        <Select
            label=Signal::derive(tr("tasks.set.measured"))
            options=names()
            chosen=Measured::ALL.iter().position(|it| *it == chosen)
            on_choose=Callback::new(choose)
        />
    }
}

/// How near is right: a number, and whether it is a share of the reference.
#[component]
fn ToleranceField(place: usize, tolerance: Tolerance) -> impl IntoView {
    let app = App::here();
    let setting = Setting::here();
    let change = move |make: &dyn Fn(Tolerance) -> Tolerance| {
        setting.change_task(place, |task| {
            if let Ask::Measure { tolerance, .. } | Ask::Number { tolerance, .. } = &mut task.ask {
                *tolerance = make(*tolerance);
            }
        });
    };
    let set_amount = move |amount: Option<f64>| {
        let amount = amount.unwrap_or(f64::NAN);
        change(&|now| match now {
            Tolerance::Within(_) => Tolerance::Within(amount),
            Tolerance::Percent(_) => Tolerance::Percent(amount),
        });
    };
    let kinds = say_all(app.language.get_untracked(), &["tasks.set.within", "tasks.set.percent"]);
    let choose = move |at: usize| {
        change(&|now| match at {
            0 => Tolerance::Within(now.amount()),
            _ => Tolerance::Percent(now.amount()),
        });
    };
    view! {
        <div class="tasks__row">
            <NumberSetting
                label=Signal::derive(tr("tasks.set.tolerance"))
                value=Some(tolerance.amount())
                on_number=Callback::new(set_amount)
            />
            <Select
                label=Signal::derive(tr("tasks.set.tolerance_kind"))
                options=kinds
                chosen=Some(usize::from(matches!(tolerance, Tolerance::Percent(_))))
                on_choose=Callback::new(choose)
            />
        </div>
    }
}
