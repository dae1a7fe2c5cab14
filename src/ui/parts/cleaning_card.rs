//! Quietening the trace: what to take out, and what that costs.

use super::cleaning_price::CleaningPrice;
use super::number_field::NumberField;
use super::select::Select;
use crate::ui::reactive::{Show, follow, live};
use crate::ui::state::{App, tr};
use beatwalk::analysis::{
    Cleaning, Corner, Mains, Price, Smoother, SmootherKind, Window, price, strongest_window,
};
use beatwalk::lesson::cleaning_words;
use beatwalk::words::{figure, say, say_with, typed};
use leptos::prelude::*;

/// Corners worth comparing: what equipment must pass (AHA/ACC/HRS 2007), a middle one, and the usual
/// setting of monitors, which costs the R wave most (Berson 1977, Comput Biomed Res 10:605).
const CORNERS: [f64; 3] = [150.0, 100.0, 40.0];

/// The choice and its price; what is chosen takes effect at once.
#[component]
pub fn CleaningCard() -> impl IntoView {
    let app = App::here();
    let cleaning = Memo::new(move |_| app.work.with(|work| work.settings.cleaning));
    let is_clean = move || !cleaning.read().is_none();
    let cost = Memo::new(move |_| {
        let uncleaned = app.shown.get()?.uncleaned.clone()?;
        app.with_evidence(|copy| price(&uncleaned.recording, copy.recording, copy.reading))
    });
    let told = move || {
        let language = app.language.get();
        let rate = app.rate()?;
        let what = cleaning_words(&cleaning.read(), rate, language)?;
        Some(say_with(language, "cleaning.reading_from", &[("what", &what)]))
    };
    view! {
        <section class="card">
            <h2>{tr("cleaning.title")}</h2>
            <p role="status">{live(told)}</p>
            <Show when=is_clean>
                <CleaningPrice cost=cost />
                <button class="button" on:click=move |_| app.clean(Cleaning::default())>
                    {tr("cleaning.undo")}
                </button>
            </Show>
            <details>
                <summary>{tr("cleaning.summary")}</summary>
                <p class="soft">{tr("cleaning.why")}</p>
                <Filters cleaning=cleaning />
                <Smoothing cleaning=cleaning cost=cost />
            </details>
        </section>
    }
}

#[component]
fn Filters(cleaning: Memo<Cleaning>) -> impl IntoView {
    let app = App::here();
    let lists = move || {
        let (language, now) = (app.language.get(), cleaning.get());
        let hz = |key: &'static str, hz: f64| {
            say_with(language, key, &[("hz", &figure(language, hz, 0))])
        };
        let hums = Mains::ALL.map(|it| (it, hz("cleaning.hum.hz", it.frequency().hertz())));
        let corners = CORNERS
            .into_iter()
            .filter_map(|it| Some((Corner::new(it).ok()?, hz("cleaning.low_pass.hz", it))));
        view! {
            <OrNone
                label="cleaning.hum.label"
                none="cleaning.hum.none"
                of=hums.into()
                chosen=now.mains
                on_choose=move |mains| app.clean(Cleaning { mains, ..cleaning.get_untracked() })
            />
            <OrNone
                label="cleaning.low_pass.label"
                none="cleaning.low_pass.none"
                of=corners.collect()
                chosen=now.low_pass
                on_choose=move |low_pass| app.clean(Cleaning { low_pass, ..cleaning.get_untracked() })
            />
        }
    };
    let drift = move |_| {
        let now = cleaning.get_untracked();
        app.clean(Cleaning { drift: !now.drift, ..now });
    };
    view! {
        <label class="field field--check">
            <input type="checkbox" prop:checked=move || cleaning.read().drift on:change=drift />
            {tr("cleaning.drift.label")}
        </label>
        {live(lists)}
    }
}

#[component]
fn Smoothing(cleaning: Memo<Cleaning>, cost: Memo<Option<Price>>) -> impl IntoView {
    let app = App::here();
    let now = move || cleaning.with(|cleaning| cleaning.smoother);
    let points = RwSignal::new(String::new());
    follow(move || {
        if let Some(smoother) = now() {
            points.set(smoother.window.points().to_string());
        }
    });
    let smooth = move |smoother: Option<Smoother>| {
        app.clean(Cleaning { smoother, ..cleaning.get_untracked() });
    };
    let kinds = move || {
        let language = app.language.get();
        let named = |kind: SmootherKind| {
            (kind, say(language, &format!("cleaning.smoother.{}", kind.key())).into_owned())
        };
        view! {
            <OrNone
                label="cleaning.smoother.label"
                none="cleaning.smoother.none"
                of=SmootherKind::ALL.map(named).into()
                chosen=now().map(|it| it.kind)
                on_choose=move |kind| {
                    let window = untrack(now).map_or(Window::NARROWEST, |it| it.window);
                    smooth(kind.map(|kind| Smoother { kind, window }));
                }
            />
        }
    };
    // A number that is no window is refused with the reason, and nothing changes.
    let window = move || {
        let points = typed(&points.read())?;
        let whole = points.fract() == 0.0 && points >= 0.0;
        whole.then(|| Window::new(points as usize))
    };
    let refusal = move || window()?.err().map(|error| error.said().in_words(app.language.get()));
    let use_points = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        if let (Some(Ok(window)), Some(smoother)) = (untrack(window), untrack(now)) {
            smooth(Some(Smoother { window, ..smoother }));
        }
    };
    let suggestion = move || {
        let smoother = now()?;
        let widest =
            cost.with(|cost| strongest_window(smoother.kind, cost.as_ref()?.typical.as_ref()?));
        Some(match widest {
            Some(window) => {
                let take = move |_| smooth(Some(Smoother { window, ..smoother }));
                let points = window.points().to_string();
                let label =
                    say_with(app.language.get(), "cleaning.suggest", &[("points", &points)]);
                view! { <button class="button" on:click=take>{label}</button> }.into_any()
            }
            None => view! { <p>{tr("cleaning.suggest_none")}</p> }.into_any(),
        })
    };
    view! {
        {live(kinds)}
        <Show when=move || now().is_some()>
            <form class="layout-form" on:submit=use_points>
                <NumberField label=Signal::derive(tr("cleaning.smoother.points")) text=points />
                <p role="status">{live(refusal)}</p>
                <button class="button" disabled=move || !matches!(window(), Some(Ok(_)))>
                    {tr("cleaning.smoother.use_points")}
                </button>
            </form>
            {live(suggestion)}
        </Show>
    }
}

/// A list to choose from, with nothing as its first entry.
#[component]
fn OrNone<T: Copy + PartialEq + Send + Sync + 'static>(
    label: &'static str,
    none: &'static str,
    of: Vec<(T, String)>,
    chosen: Option<T>,
    on_choose: impl Fn(Option<T>) + Send + Sync + 'static,
) -> impl IntoView {
    let none = say(App::here().language.get_untracked(), none).into_owned();
    let place = of.iter().position(|(value, _)| Some(*value) == chosen);
    let (values, names): (Vec<T>, Vec<String>) = of.into_iter().unzip();
    let choose = Callback::new(move |place: usize| {
        on_choose(place.checked_sub(1).and_then(|place| values.get(place).copied()));
    });
    view! {
        <Select
            label=Signal::derive(tr(label))
            options=std::iter::once(none).chain(names).collect()
            chosen=Some(place.map_or(0, |place| place + 1))
            on_choose=choose
        />
    }
}
