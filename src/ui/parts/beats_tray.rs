//! Buttons for correcting beats, right under the trace, and what was done last.

use super::tools::Tools;
use crate::ui::reactive::{Show, live};
use crate::ui::state::{App, tr};
use beatwalk::analysis::Standing;
use beatwalk::lesson::{BeatCommand, Grip, aside_words, deed_words};
use beatwalk::words::{decimal, say, say_with};
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;

/// The tool for correcting beats.
#[component]
pub fn BeatButtons(tools: Tools) -> impl IntoView {
    let app = App::here();
    let hand = tools.hand;
    let holds = move || hand.held().is_some();
    let counting = move || {
        let counts = !holds() || hand.counts();
        let key = if counts { "beats.tool.leave_out" } else { "beats.tool.count" };
        say(app.language.get(), key).into_owned()
    };
    // The arrows work from the buttons too; Enter presses them.
    let on_key = move |event: KeyboardEvent| {
        if event.key() != "Enter" && event.key() != "Escape" && hand.key(&event) {
            event.prevent_default();
        }
    };
    view! {
        <div class="beats" on:keydown=on_key>
            <p class="beats__told">
                <span>{move || told(tools)}</span>
                " "
                <span role="status">{move || deed(app)}</span>
                " "
                <Show when=move || app.measures_again()>
                    <span class="soft">{tr("beats.tool.measuring")}</span>
                </Show>
            </p>
            <div class="button-row">
                <button
                    class="button"
                    aria-label=tr("beats.tool.earlier")
                    title=tr("beats.tool.earlier")
                    on:click=move |_| hand.nudge(-1, Grip::Fresh)
                >
                    "◀"
                </button>
                <button
                    class="button"
                    aria-label=tr("beats.tool.later")
                    title=tr("beats.tool.later")
                    on:click=move |_| hand.nudge(1, Grip::Fresh)
                >
                    "▶"
                </button>
                <button class="button" disabled=move || !holds() on:click=move |_| hand.take_away()>
                    {tr("beats.tool.take_away")}
                </button>
                <button class="button" disabled=move || !holds() on:click=move |_| hand.toggle_counting()>
                    {live(counting)}
                </button>
                <button class="button" disabled=holds on:click=move |_| hand.add_at_line()>
                    {tr("beats.tool.add_here")}
                </button>
                <button
                    class="button"
                    aria-pressed=move || hand.adding.get().to_string()
                    on:click=move |_| hand.adding.update(|adding| *adding = !*adding)
                >
                    {tr("beats.tool.add")}
                </button>
                <button
                    class="button"
                    disabled=move || !app.editor.read().can_undo()
                    on:click=move |_| hand.history(BeatCommand::Undo)
                >
                    {tr("page.walk.undo")}
                </button>
                <button
                    class="button"
                    disabled=move || !app.editor.read().can_redo()
                    on:click=move |_| hand.history(BeatCommand::Redo)
                >
                    {tr("page.walk.redo")}
                </button>
                <button class="button button--main" on:click=move |_| tools.put_away()>
                    {tr("beats.done")}
                </button>
            </div>
        </div>
    }
}

/// Which beat is held, who put it there and why averages leave it out, or where the line stands.
fn told(tools: Tools) -> Option<String> {
    let app = App::here();
    let (language, rate) = (app.language.get(), app.rate()?);
    let time = |at| decimal(language, rate.time_of(at).seconds(), 3);
    if tools.hand.adding.get() {
        return Some(say(language, "beats.tool.tap_to_add").into_owned());
    }
    let Some((place, beat)) = tools.hand.held() else {
        let line = time(tools.hand.line()?);
        return Some(say_with(language, "beats.tool.line", &[("time", &line)]));
    };
    let beats = app.standing.read().as_ref().map_or(0, |reading| reading.beats.len());
    let mut told = say_with(
        language,
        "beats.tool.beat",
        &[
            ("beat", &(place + 1).to_string()),
            ("beats", &beats.to_string()),
            ("time", &time(beat.r)),
            ("origin", &say(language, &format!("beats.origin.{}", beat.origin.key()))),
        ],
    );
    if let Standing::SetAside(why) = beat.standing {
        let why = aside_words(why, language);
        told.push_str(&say_with(language, "beats.aside.told", &[("why", &why)]));
    }
    Some(told + ".")
}

/// What was done last, or why it was not.
fn deed(app: App) -> Option<String> {
    let (language, rate) = (app.language.get(), app.rate()?);
    Some(deed_words(app.deed.get()?, rate, language))
}
