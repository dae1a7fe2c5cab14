//! The beats that averages leave out, each with its reason, and the way to correct them.

use super::tools::Tools;
use crate::ui::reactive::{Show, Views, live};
use crate::ui::state::{App, tr};
use beatwalk::analysis::Standing;
use beatwalk::lesson::{BeatCommand, aside_words, corrected_words};
use beatwalk::signal::SampleIndex;
use beatwalk::words::{decimal, say, say_with};
use leptos::prelude::*;

/// The most beats that are listed.
const MOST: usize = 200;

/// How many beats were corrected, which are left out and why.
#[component]
pub fn BeatsCard(tools: Tools) -> impl IntoView {
    let app = App::here();
    let some = move || {
        // Of muscle no beats are looked for, and none can be put there.
        app.shown.read().as_ref().is_some_and(|shown| !shown.recording.is_muscle())
            && app.reading.read().is_some()
    };
    let corrected = move || {
        let language = app.language.get();
        let corrected = app.standing.read().as_ref()?.corrected;
        let words = corrected_words(corrected, language);
        Some(match words {
            Some(words) => format!("{}: {words}.", say(language, "beats.corrected.label")),
            None => say(language, "beats.corrected.none").into_owned(),
        })
    };
    let is_corrected =
        move || app.standing.read().as_ref().is_some_and(|reading| reading.corrected.all() > 0);
    view! {
        <Show when=some>
            <section class="card">
                <h2>{tr("beats.title")}</h2>
                <p>{live(corrected)}</p>
                <LeftOut tools=tools />
                <details>
                    <summary>{tr("beats.about")}</summary>
                    <p class="soft">{tr("beats.why")}</p>
                    <p class="soft">{tr("beats.tool.how")}</p>
                </details>
                <div class="button-row">
                    <button
                        class="button"
                        aria-expanded=move || tools.beats.get().to_string()
                        on:click=move |_| tools.toggle_beats()
                    >
                        {tr("beats.open")}
                    </button>
                    <Show when=is_corrected>
                        <button
                            class="button"
                            on:click=move |_| {
                                let _ = app.correct_beat(BeatCommand::PutAllBack);
                            }
                        >
                            {tr("beats.tool.put_all_back")}
                        </button>
                    </Show>
                </div>
            </section>
        </Show>
    }
}

/// The beats that averages leave out; each takes the trace to where it stands.
#[component]
fn LeftOut(tools: Tools) -> impl IntoView {
    let app = App::here();
    let all = Memo::new(move |_| {
        let standing = app.standing.read();
        let beats = standing.as_ref().map(|reading| reading.beats.as_slice()).unwrap_or_default();
        let aside = beats.iter().enumerate().filter_map(|(place, beat)| match beat.standing {
            Standing::SetAside(why) => Some((place + 1, beat.r, why)),
            Standing::Counts => None,
        });
        aside.collect::<Vec<_>>()
    });
    let count = move || {
        let count = all.read().len().to_string();
        say_with(app.language.get(), "beats.aside.list", &[("n", &count)])
    };
    let look_at = move |r: SampleIndex| {
        tools.hand.take(r);
        if !tools.beats.get_untracked() {
            tools.toggle_beats();
            tools.hand.take(r);
        }
    };
    let rows = move || {
        let (language, rate) = (app.language.get(), app.rate()?);
        let row = |&(number, r, why): &(usize, SampleIndex, _)| {
            let time = decimal(language, rate.time_of(r).seconds(), 2);
            let why = aside_words(why, language);
            let places = [("beat", &*number.to_string()), ("time", &*time), ("why", &*why)];
            let words = say_with(language, "beats.aside.item", &places);
            view! {
                <li>
                    <button class="button marks__go" on:click=move |_| look_at(r)>
                        {words}
                    </button>
                </li>
            }
        };
        let all = all.read();
        let more = all.len().saturating_sub(MOST);
        let more = (more > 0).then(|| {
            let more = say_with(language, "beats.aside.more", &[("more", &more.to_string())]);
            view! { <li class="soft">{more}</li> }
        });
        Some(view! { {all.iter().take(MOST).map(row).views()} {more} })
    };
    view! {
        <Show when=move || !all.read().is_empty()>
            <details>
                <summary>{live(count)}</summary>
                <ul class="marks">{live(rows)}</ul>
            </details>
        </Show>
    }
}
