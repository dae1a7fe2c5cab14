//! Pieces of reactivity that exist once, whatever closure they are given.
//!
//! Leptos makes its own anew for each type of closure, and every closure has a type of its own: most of
//! the program would be copies of the same code.

use leptos::prelude::*;
use leptos::reactive::graph::Source;

/// Does something after this moment, and again whenever a signal that it reads has changed.
pub fn follow(act: impl FnMut() + 'static) {
    let act: Box<dyn FnMut()> = Box::new(act);
    Effect::new(act);
}

/// Has a signal that outlives what follows it forget the followers that are gone.
///
/// Leptos leaves a dropped effect in the list of each signal that it read, for good: a lesson's worth of screens
/// would stay in memory. Those that are still there run once more, and are on the list again.
pub fn forget_the_gone(signal: impl Notify + Source) {
    signal.notify();
    signal.clear_subscribers();
}

/// Shows its children while a condition holds, and otherwise the fallback.
#[component]
pub fn Show(
    /// The condition.
    #[prop(into)]
    when: Signal<bool>,
    /// What is shown otherwise; nothing when left out.
    #[prop(optional, into)]
    fallback: ViewFn,
    /// What is shown.
    children: ChildrenFn,
) -> impl IntoView {
    let holds = Memo::new(move |_| when.get());
    view! { {move || if holds.get() { children() } else { fallback.run() }} }
}
