//! Before recording: cards that a class goes through together, on one page that can be printed.
//!
//! Ticks are for the moment; nothing is kept of them.

use crate::ui::browser::takes_focus;
use crate::ui::drawings::{Drawing, of_preparation};
use crate::ui::parts::PaperPreview;
use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, Screen, tr};
use beatwalk::lesson::{Electrode, Preparation};
use beatwalk::words::say_with;
use leptos::html::H1;
use leptos::prelude::*;

/// How many cards there are.
const CARDS: usize = Preparation::ALL.len();

/// The page before the first recording.
#[component]
pub fn PrepareScreen() -> impl IntoView {
    let app = App::here();
    let done = RwSignal::new([false; CARDS]);
    let heading = takes_focus::<H1>();
    let progress = move || {
        let count = done.read().iter().filter(|&&done| done).count();
        let key = if count == CARDS { "prepare.all_done" } else { "prepare.progress" };
        let places = [("done", &*count.to_string()), ("cards", &*CARDS.to_string())];
        say_with(app.language.get(), key, &places)
    };
    let cards = Preparation::ALL.into_iter().enumerate();
    view! {
        <div class="prepare">
            <header class="prepare__head">
                <h1 tabindex="-1" node_ref=heading>
                    {tr("prepare.title")}
                </h1>
                <p>{tr("prepare.lead")}</p>
                <div class="button-row no-print">
                    <button class="button" on:click=move |_| app.screen.set(Screen::Open)>
                        {tr("prepare.close")}
                    </button>
                    <PaperPreview />
                    <span role="status">{live(progress)}</span>
                </div>
            </header>
            <ol class="prepare__cards">
                {cards.map(|(place, card)| view! { <Card place=place card=card done=done /> }).views()}
            </ol>
        </div>
    }
}

#[component]
fn Card(
    /// Its place among the cards, the first being 0.
    place: usize,
    /// The card.
    card: Preparation,
    /// Which cards are done.
    done: RwSignal<[bool; CARDS]>,
) -> impl IntoView {
    let app = App::here();
    let words = Memo::new(move |_| card.words(app.language.get()));
    let is_done = move || done.read().get(place).copied().unwrap_or_default();
    let tick = move |event| {
        let ticked = event_target_checked(&event);
        done.update(|done| done.iter_mut().skip(place).take(1).for_each(|it| *it = ticked));
    };
    let steps = move || {
        let steps = words.read().steps.clone();
        steps.into_iter().map(|step| view! { <li>{step}</li> }).views()
    };
    let cautions = move || {
        card.cautions()
            .iter()
            .map(|caution| {
                let words = caution.words(app.language.get());
                view! {
                    <p>
                        <strong>{words.title} ". "</strong>
                        {words.text}
                    </p>
                }
            })
            .views()
    };
    view! {
        <li
            class="card prepare__card"
            class:prepare__card--wide=matches!(card, Preparation::Electrodes | Preparation::Worry)
            class:prepare__card--done=is_done
        >
            <h2>{place + 1} ". " {move || words.read().title.clone()}</h2>
            <Drawing
                id=card.key()
                outline=of_preparation(card)
                title=Signal::derive(move || words.read().picture.to_string())
                shows=Signal::derive(move || words.read().shows.to_string())
            />
            <div class="prepare__text">
                <ul>{live(steps)}</ul>
                {live(cautions)}
            </div>
            {(card == Preparation::Electrodes).then(|| view! { <Electrodes /> })}
            <label class="field--check prepare__tick">
                <input type="checkbox" prop:checked=is_done on:change=tick />
                {tr("prepare.done")}
                <span class="hidden-visually">": " {move || words.read().title.clone()}</span>
            </label>
        </li>
    }
}

/// The electrodes by function and by both conventions of names.
#[component]
fn Electrodes() -> impl IntoView {
    let app = App::here();
    let head = |key| view! { <th scope="col">{tr(key)}</th> };
    let row = move |it: Electrode| {
        let language = app.language.get();
        view! {
            <tr>
                <th scope="row">{it.function(language)}</th>
                <td>{it.place(language)}</td>
                <td>{it.aha_name()} " (" {it.aha_colour(language)} ")"</td>
                <td>{it.iec_name()} " (" {it.iec_colour(language)} ")"</td>
            </tr>
        }
    };
    view! {
        <div class="prepare__electrodes">
        <table>
            <caption class="hidden-visually">{tr("prepare.electrodes.table.caption")}</caption>
            <thead>
                <tr>
                    {head("prepare.electrodes.table.function")} {head("prepare.electrodes.table.place")}
                    {head("prepare.electrodes.table.aha")} {head("prepare.electrodes.table.iec")}
                </tr>
            </thead>
            <tbody>{move || Electrode::ALL.map(row).views()}</tbody>
        </table>
        <p>
            <strong>{tr("prepare.electrodes.manual")}</strong> " " <span class="soft">{tr("prepare.electrodes.source")}</span>
        </p>
        </div>
    }
}
