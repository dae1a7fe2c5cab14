//! stub
use leptos::prelude::*;
/// stub
#[component]
pub fn WalkScreen() -> impl IntoView { view! { <p>"stub"</p> } }
