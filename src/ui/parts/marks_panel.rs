//! Notes on the recording: those that came with the file and those added by hand.

use super::tools::Tools;
use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, tr};
use beatwalk::signal::{Mark, MarkKind, SampleIndex, Seconds};
use beatwalk::words::{decimal, say, say_with};
use leptos::prelude::*;

/// The most notes that are listed; a file may hold thousands.
const MOST: usize = 200;
/// What is often noted.
const SUGGESTED: [&str; 3] =
    ["page.marks.tap", "page.marks.exercise_starts", "page.marks.exercise_ends"];

/// The sample in the middle of what is in view, where a new note goes.
pub fn middle_of_view(app: App) -> Option<SampleIndex> {
    let (shown, view) = (app.shown.get()?, app.view.get()?);
    let middle = Seconds::new(view.start.seconds() + view.span.seconds() / 2.0);
    let last = shown.recording.samples.len().checked_sub(1)?;
    Some(shown.recording.rate.nearest(middle).min(SampleIndex::new(last)))
}

/// The list, with a way to add and take away.
#[component]
pub fn MarksPanel(tools: Tools) -> impl IntoView {
    let app = App::here();
    let counts = move || {
        let shown = app.shown.get()?;
        let beats = shown.recording.marks.iter().filter(|mark| is_beat(mark)).count();
        let notes = shown.recording.marks.len() - beats;
        let language = app.language.get();
        let notes = [("notes", &*notes.to_string())];
        let mut told = say_with(language, "page.marks.notes", &notes);
        if beats > 0 {
            told.push(' ');
            told.push_str(&say_with(
                language,
                "page.marks.beats",
                &[("beats", &beats.to_string())],
            ));
        }
        Some(told)
    };
    view! {
        <p role="status">{live(counts)}</p>
        <NoteList />
        <button
            class="button"
            aria-expanded=move || tools.note.get().to_string()
            on:click=move |_| tools.toggle_note()
        >
            {tr("page.marks.add")}
        </button>
    }
}

fn is_beat(mark: &Mark) -> bool {
    matches!(mark.kind, MarkKind::Beat(_))
}

/// One note of the list: where it is, what it says, and its place among those added by hand.
#[derive(Clone, PartialEq)]
struct Listed {
    at: SampleIndex,
    text: String,
    by_hand: Option<usize>,
}

/// The notes on the part that is worked on.
fn listed(app: App) -> Vec<Listed> {
    let Some(shown) = app.shown.get() else { return Vec::new() };
    let notes = shown.recording.marks.iter().filter(|mark| !is_beat(mark));
    app.work.with(|work| {
        let listed = notes.map(|mark| Listed {
            at: mark.at,
            text: app.note_text(mark).to_owned(),
            by_hand: work.settings.place_by_hand(mark),
        });
        listed.collect()
    })
}

#[component]
fn NoteList() -> impl IntoView {
    let app = App::here();
    let notes = Memo::new(move |_| listed(app));
    let rows = move || {
        let rate = app.rate()?;
        let language = app.language.get();
        let row = |note: &Listed| {
            let moment = rate.time_of(note.at);
            let time = decimal(language, moment.seconds(), 2);
            let text = if note.text.is_empty() {
                say(language, "page.marks.wordless").into_owned()
            } else {
                note.text.clone()
            };
            let go = say_with(language, "page.marks.at", &[("time", &time), ("text", &text)]);
            let away = say_with(language, "page.marks.away", &[("text", &text), ("time", &time)]);
            let delete = note.by_hand.map(|place| {
                view! {
                    <button class="button" aria-label=away on:click=move |_| app.remove_mark(place)>
                        "✕"
                    </button>
                }
            });
            view! {
                <li>
                    <button class="button marks__go" on:click=move |_| look_at(app, moment)>
                        {go}
                    </button>
                    {delete}
                </li>
            }
        };
        let notes = notes.read();
        let more = notes.len().saturating_sub(MOST);
        let more = (more > 0).then(|| {
            let more = say_with(language, "page.marks.more", &[("more", &more.to_string())]);
            view! { <li class="soft">{more}</li> }
        });
        let any = !notes.is_empty();
        any.then(|| {
            view! {
                <ul class="marks">{notes.iter().take(MOST).map(row).views()} {more}</ul>
            }
        })
    };
    view! { {rows} }
}

/// Brings a moment into the middle of the view.
fn look_at(app: App, moment: Seconds) {
    if let Some(shown) = app.shown.get_untracked() {
        app.view.update(|view| *view = view.map(|view| view.centred(moment, &shown.bounds)));
    }
}

/// What happened, put to the middle of the trace in view; the trace shows where that is.
#[component]
pub fn AddNote(tools: Tools) -> impl IntoView {
    let app = App::here();
    let text = RwSignal::new(String::new());
    let place = move || {
        let at = middle_of_view(app)?;
        let rate = app.rate()?;
        let language = app.language.get();
        let time = decimal(language, rate.time_of(at).seconds(), 2);
        Some(say_with(language, "page.marks.where", &[("time", &time)]))
    };
    let submit = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        if let Some(at) = untrack(|| middle_of_view(app)) {
            app.add_mark(at, &text.get_untracked());
            text.set(String::new());
        }
    };
    let suggest = |key: &'static str| {
        view! {
            <button type="button" class="button" on:click=move |_| text.set(untrack(tr(key)))>
                {tr(key)}
            </button>
        }
    };
    view! {
        <form class="layout-form" on:submit=submit>
            <p class="soft">{live(place)}</p>
            <div class="button-row button-row--fields">
                <label class="field field--wide">
                    {tr("page.marks.text")}
                    <input type="text" maxlength="80" autocomplete="off" bind:value=text />
                </label>
                <button class="button button--main">{tr("page.marks.go")}</button>
                <button type="button" class="button" on:click=move |_| tools.put_away()>
                    {tr("page.marks.done")}
                </button>
            </div>
            <div class="button-row" role="group" aria-label=tr("page.marks.often")>
                {SUGGESTED.map(suggest).views()}
            </div>
        </form>
    }
}
