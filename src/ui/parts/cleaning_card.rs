//! Quietening the trace: what to take out, and what that costs.

use super::cleaning_price::CleaningPrice;
use super::number_field::NumberField;
use super::select::Select;
use crate::ui::state::{App, tr};
use beatwalk::analysis::{
    Cleaning, Corner, Mains, Price, Smoother, SmootherKind, Window, price, strongest_window,
};
use beatwalk::lesson::cleaning_words;
use beatwalk::words::{Language, figure, say, say_with, typed};
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
        let rate = app.shown.with(|shown| shown.as_ref().map(|shown| shown.recording.rate))?;
        let what = cleaning_words(&cleaning.read(), rate, language)?;
        Some(say_with(language, "cleaning.reading_from", &[("what", &what)]))
    };
    view! {
        <section class="card">
            <h2>{tr("cleaning.title")}</h2>
            <p role="status">{told}</p>
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
        let hz = |key: &'static str, hz: f64| say_with(language, key, &[("hz", &figure(hz, 0))]);
        let first = |key: &'static str| std::iter::once(say(language, key).into_owned());
        let hums = Mains::ALL.map(|mains| hz("cleaning.hum.hz", mains.frequency().hertz()));
        let corners = CORNERS.map(|corner| hz("cleaning.low_pass.hz", corner));
        let hum = now.mains.and_then(|mains| Mains::ALL.iter().position(|other| *other == mains));
        let corner =
            now.low_pass.and_then(|corner| CORNERS.iter().position(|other| *other == corner.hz()));
        view! {
            <Select
                label=Signal::derive(tr("cleaning.hum.label"))
                options=first("cleaning.hum.none").chain(hums).collect()
                chosen=Some(hum.map_or(0, |place| place + 1))
                on_choose=Callback::new(move |place: usize| {
                    let mains = place.checked_sub(1).and_then(|place| Mains::ALL.get(place).copied());
                    app.clean(Cleaning { mains, ..cleaning.get_untracked() });
                })
            />
            <Select
                label=Signal::derive(tr("cleaning.low_pass.label"))
                options=first("cleaning.low_pass.none").chain(corners).collect()
                chosen=Some(corner.map_or(0, |place| place + 1))
                on_choose=Callback::new(move |place: usize| {
                    let corner = place.checked_sub(1).and_then(|place| CORNERS.get(place).copied());
                    let low_pass = corner.and_then(|hz| Corner::new(hz).ok());
                    app.clean(Cleaning { low_pass, ..cleaning.get_untracked() });
                })
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
        {lists}
    }
}

#[component]
fn Smoothing(cleaning: Memo<Cleaning>, cost: Memo<Option<Price>>) -> impl IntoView {
    let app = App::here();
    let now = move || cleaning.with(|cleaning| cleaning.smoother);
    let points = RwSignal::new(String::new());
    Effect::new(move |_| {
        if let Some(smoother) = now() {
            points.set(smoother.window.points().to_string());
        }
    });
    let smooth = move |smoother: Option<Smoother>| {
        app.clean(Cleaning { smoother, ..cleaning.get_untracked() });
    };
    let kinds = move || {
        let language = app.language.get();
        let chosen =
            now().and_then(|it| SmootherKind::ALL.iter().position(|kind| *kind == it.kind));
        view! {
            <Select
                label=Signal::derive(tr("cleaning.smoother.label"))
                options=names(language)
                chosen=Some(chosen.map_or(0, |place| place + 1))
                on_choose=Callback::new(move |place: usize| {
                    let kind = place.checked_sub(1).and_then(|place| SmootherKind::ALL.get(place));
                    let window = untrack(now).map_or(Window::NARROWEST, |it| it.window);
                    smooth(kind.map(|kind| Smoother { kind: *kind, window }));
                })
            />
        }
    };
    // A number that is no window is refused with the reason, and nothing changes.
    let window = move || {
        let points = typed(&points.read())?;
        let whole = points.fract() == 0.0 && points >= 0.0;
        whole.then(|| Window::new(points as usize))
    };
    let refusal = move || window()?.err().map(|error| error.to_string());
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
        {kinds}
        <Show when=move || now().is_some()>
            <form class="layout-form" on:submit=use_points>
                <NumberField label=Signal::derive(tr("cleaning.smoother.points")) text=points />
                <p role="status">{refusal}</p>
                <button class="button" disabled=move || !matches!(window(), Some(Ok(_)))>
                    {tr("cleaning.smoother.use_points")}
                </button>
            </form>
            {suggestion}
        </Show>
    }
}

/// The kinds of smoothing to choose from, none of them first.
fn names(language: Language) -> Vec<String> {
    let none = std::iter::once(say(language, "cleaning.smoother.none"));
    let kinds =
        SmootherKind::ALL.map(|kind| say(language, &format!("cleaning.smoother.{}", kind.key())));
    none.chain(kinds).map(std::borrow::Cow::into_owned).collect()
}
