//! When the program breaks: a calm message in place of a frozen page, and a way to what was kept.
//!
//! A panic can't be gone back from: whatever it interrupted is half done. The message is made of plain elements
//! and links, since nothing else of the program may run any more. The link leads to the same page with
//! [`RESCUE`] behind its address, which starts anew and touches nothing but the storage: should the kept work
//! itself be what breaks the page, it can still be saved here.

use super::browser::{Drawer, Store, fetch_messages, save_text};
use crate::ui::reactive::{Views, live};
use beatwalk::report::{EXTENSION, SavedReading, SavedRecording, SavedWork};
use beatwalk::words::{Language, say};
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::panic::PanicHookInfo;
use wasm_bindgen::prelude::*;
use web_sys::{Document, Element, ErrorEvent, Event};

/// What stands behind the address to save what was kept.
const RESCUE: &str = "?rescue";
/// The message, on the page.
const MESSAGE: &str = "broken";

/// Has the student told when the program breaks, by itself or because the browser stopped it.
pub fn watch() {
    std::panic::set_hook(Box::new(|info: &PanicHookInfo<'_>| {
        console_error_panic_hook::hook(info);
        tell();
    }));
    // Memory that runs out ends the program without a panic.
    let stopped = Closure::<dyn Fn(Event)>::new(|event: Event| {
        let error = event.dyn_ref::<ErrorEvent>().map(ErrorEvent::error);
        let name = error.and_then(|it| it.dyn_into::<js_sys::Error>().ok()).map(|it| it.name());
        if name.is_some_and(|name| name == "RuntimeError") {
            tell();
        }
    });
    if let Some(window) = web_sys::window() {
        let stopped = stopped.into_js_value();
        let _ = window.add_event_listener_with_callback("error", stopped.unchecked_ref());
    }
}

/// Whether the page was opened to save what was kept.
pub fn is_wanted() -> bool {
    let search = web_sys::window().and_then(|window| window.location().search().ok());
    search.is_some_and(|search| search == RESCUE)
}

/// Puts the message over the page, once.
fn tell() {
    let Some(document) = web_sys::window().and_then(|window| window.document()) else { return };
    if document.get_element_by_id(MESSAGE).is_none() {
        let _ = message(&document);
    }
}

fn message(document: &Document) -> Result<(), JsValue> {
    let language = language_of(document);
    let body = document.query_selector("body")?.ok_or("no body")?;
    let over = child(document, &body, "div", "")?;
    over.set_id(MESSAGE);
    over.set_attribute("role", "alertdialog")?;
    over.set_attribute("aria-labelledby", "broken-title")?;
    let card = child(document, &over, "div", "")?;
    card.set_class_name("card");
    child(document, &card, "h1", &say(language, "page.broken.title"))?.set_id("broken-title");
    child(document, &card, "p", &say(language, "page.broken.kept"))?;
    let row = child(document, &card, "p", "")?;
    row.set_class_name("button-row");
    for (address, words) in [(RESCUE, "page.broken.save"), ("?", "page.broken.again")] {
        let link = child(document, &row, "a", &say(language, words))?;
        link.set_class_name("button");
        link.set_attribute("href", address)?;
    }
    Ok(())
}

fn child(
    document: &Document,
    parent: &Element,
    name: &str,
    text: &str,
) -> Result<Element, JsValue> {
    let child = document.create_element(name)?;
    child.set_text_content(Some(text));
    parent.append_child(&child)?;
    Ok(child)
}

fn language_of(document: &Document) -> Language {
    let tag = document.document_element().and_then(|root| root.get_attribute("lang"));
    tag.map_or_else(Language::default, |tag| Language::of_tag(&tag))
}

/// Starts the page that saves what was kept.
pub fn start() {
    leptos::mount::mount_to_body(Rescue);
}

#[component]
fn Rescue() -> impl IntoView {
    let document = web_sys::window().and_then(|window| window.document());
    let language = document.map_or_else(Language::default, |document| language_of(&document));
    let language = RwSignal::new(language);
    let words = move |key: &'static str| move || say(language.get(), key).into_owned();
    let kept = RwSignal::new_local(None::<Vec<(String, String)>>);
    let store = StoredValue::new_local(None::<Store>);
    spawn_local(async move {
        let Ok(opened) = Store::open().await else { return kept.set(Some(Vec::new())) };
        if let Ok(Some(spoken)) = opened.take(Drawer::Language).await {
            let spoken = serde_json::from_str(&spoken).unwrap_or_default();
            if fetch_messages(spoken).await.is_ok() {
                language.set(spoken);
            }
        }
        kept.set(Some(kept_in(&opened).await));
        store.set_value(Some(opened));
    });
    let clear = move |_| {
        spawn_local(async move {
            if let Some(store) = store.get_value() {
                let _ = store.clear().await;
            }
            kept.set(Some(Vec::new()));
        });
    };
    let files = move || {
        let one = |(name, text): (String, String)| {
            let shown = name.clone();
            view! {
                <li>
                    <button
                        class="button"
                        on:click=move |_| {
                            let _ = save_text(&name, "application/json", &text);
                        }
                    >
                        {shown}
                    </button>
                </li>
            }
        };
        kept.get().unwrap_or_default().into_iter().map(one).views()
    };
    let none = move || kept.with(|kept| kept.as_ref().is_some_and(Vec::is_empty));
    view! {
        <main class="app__main rescue">
            <h1>{words("page.broken.rescue")}</h1>
            <p>{words("page.broken.rescue_about")}</p>
            <ul>{live(files)}</ul>
            <p role="status">{move || none().then(|| words("page.broken.nothing")())}</p>
            <p class="button-row">
                <a class="button button--main" href="?">
                    {words("page.broken.again")}
                </a>
                <button class="button" on:click=clear>
                    {words("page.broken.clear")}
                </button>
            </p>
        </main>
    }
}

/// Everything that is kept, as files that the app opens; what it can't read any more is saved as it is.
async fn kept_in(store: &Store) -> Vec<(String, String)> {
    let mut files = Vec::new();
    if let Some(recording) = store.text(Drawer::Recording).await {
        let work = store.text(Drawer::Work).await;
        let text = reading(&recording, work.as_deref());
        match text {
            Some(text) => files.push(("reading", text)),
            None => {
                files.push(("recording", recording));
                files.extend(work.map(|work| ("work", work)));
            }
        }
    }
    for (drawer, name) in [
        (Drawer::Replaced, "reading-before"),
        (Drawer::Bench, "investigation"),
        (Drawer::Sheet, "investigation-sheet"),
        (Drawer::Assignment, "assignment"),
        (Drawer::Homework, "homework"),
        (Drawer::Draft, "draft"),
        (Drawer::Marks, "marks"),
    ] {
        files.extend(store.text(drawer).await.map(|text| (name, text)));
    }
    files.into_iter().map(|(name, text)| (format!("{name}{EXTENSION}"), text)).collect()
}

/// The recording and the work on it as one document.
fn reading(recording: &str, work: Option<&str>) -> Option<String> {
    let recording = SavedRecording::from_json(recording).ok()?;
    let work = work.map_or(Ok(SavedWork::default()), SavedWork::from_json).ok()?;
    SavedReading::new(work, recording).to_json().ok()
}
