//! Fetches the messages of a language.
//!
//! The build names their files in the head of the page (`demo/pack`); in the page of one file the messages
//! themselves stand there. A language is fetched once.

use beatwalk::words::{Language, is_learnt, learn};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{HtmlLinkElement, Response};

/// Sees to it that the messages of a language are there; what stands in the way as an error.
pub async fn fetch_messages(language: Language) -> Result<(), String> {
    if is_learnt(language) {
        return Ok(());
    }
    let text = written(language).await.map_err(|fault| format!("{fault:?}"))?;
    learn(language, &text).map_err(|fault| fault.to_string())
}

async fn written(language: Language) -> Result<String, JsValue> {
    let window = web_sys::window().ok_or("there is no page")?;
    let id = format!("words-{}", language.tag());
    let place = window.document().and_then(|document| document.get_element_by_id(&id));
    let link = match place.ok_or("the page does not name its messages")?.dyn_into() {
        Ok(link) => HtmlLinkElement::href(&link),
        Err(inside) => return Ok(inside.text_content().unwrap_or_default()),
    };
    let response: Response = JsFuture::from(window.fetch_with_str(&link)).await?.dyn_into()?;
    if !response.ok() {
        return Err(response.status_text().into());
    }
    let text = JsFuture::from(response.text()?).await?;
    Ok(text.as_string().unwrap_or_default())
}
