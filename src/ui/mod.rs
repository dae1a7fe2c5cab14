//! The page: shows what the core found and sends the student's wishes to it. It decides nothing.

mod app;
mod bench;
mod browser;
mod class;
mod correcting;
mod desk;
mod drawings;
mod hand_ins;
mod homework;
mod keep;
mod marking;
mod opening;
mod paper;
mod parts;
mod presenting;
mod queue;
mod reactive;
mod rescue;
mod screens;
mod setting;
mod state;
mod taking;

use beatwalk::words::Language;
use browser::fetch_messages;
use wasm_bindgen_futures::spawn_local;

/// What stands on a page that got no words, in the languages there are.
const WORDLESS: &str = "The words of this page did not come. Load it again. \
    No llegaron los textos de esta página. Vuelve a cargarla.";

/// Starts the page once it has words; those of the other languages follow.
pub fn start() {
    rescue::watch();
    spawn_local(async {
        if fetch_messages(state::preferred_language()).await.is_err() {
            let body = web_sys::window().and_then(|window| window.document()?.body());
            return body.map_or((), |body| body.set_text_content(Some(WORDLESS)));
        }
        if rescue::is_wanted() {
            rescue::start();
        } else {
            app::start();
        }
        for language in Language::ALL {
            let _ = fetch_messages(language).await;
        }
    });
}
