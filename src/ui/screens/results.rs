//! stub
use leptos::prelude::*;
/// stub
#[component]
pub fn ResultsScreen() -> impl IntoView { view! { <p>"stub"</p> } }
