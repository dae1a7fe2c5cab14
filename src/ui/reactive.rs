//! Pieces of reactivity that exist once, whatever closure they are given.
//!
//! Leptos makes its own anew for each type of closure, and every closure has a type of its own: most of
//! the program would be copies of the same code.

use leptos::prelude::*;

/// Does something after this moment, and again whenever a signal that it reads has changed.
pub fn follow(act: impl FnMut() + 'static) {
    let act: Box<dyn FnMut()> = Box::new(act);
    Effect::new(act);
}

/// What a view gives now, and again whenever a signal that it reads has changed.
///
/// A closure that stands in the braces itself needs no such help; one with a name, or one that is all a
/// component gives, would be a type of view of its own.
pub fn live<V: IntoView + 'static>(view: impl Fn() -> V + Send + 'static) -> AnyView {
    view! { {move || view().into_any()} }.into_any()
}

/// Many views as one list.
pub trait Views: IntoIterator {
    /// A list of one kind, whatever its views are made of.
    fn views(self) -> Vec<AnyView>;
}

impl<I: IntoIterator> Views for I
where
    I::Item: IntoView + 'static,
{
    fn views(self) -> Vec<AnyView> {
        self.into_iter().map(IntoAny::into_any).collect()
    }
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
