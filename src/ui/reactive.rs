//! Pieces of reactivity that exist once, whatever closure they are given.
//!
//! Leptos makes its own anew for each type of closure, and every closure has a type of its own: most of
//! the program would be copies of the same code.

use leptos::prelude::*;
use leptos::reactive::graph::Source;
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;

/// How long changes are gathered: a drag makes sixty a second.
pub const GATHER: Duration = Duration::from_millis(300);
/// After how long whatever is gathered anywhere on the page is on its way.
pub const GATHERED: Duration = Duration::from_millis(600);

/// Does something in a task of its own, so that the page can hear and draw before.
pub fn soon(act: impl FnOnce() + 'static) {
    set_timeout(act, Duration::ZERO);
}

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

/// Does something soon after a change, once for all changes until then. `changed` reads what may change, and says
/// whether there is anything to do.
pub fn follow_gathered(changed: impl Fn() -> bool + 'static, act: impl Fn() + 'static) {
    gather(Box::new(changed), Rc::new(act));
}

fn gather(changed: Box<dyn Fn() -> bool>, act: Rc<dyn Fn()>) {
    let waits = Rc::new(Cell::new(false));
    follow(move || {
        if changed() && !waits.replace(true) {
            let (act, waits) = (act.clone(), waits.clone());
            set_timeout(
                move || {
                    waits.set(false);
                    act();
                },
                GATHER,
            );
        }
    });
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

/// Shows its children in a task of their own: a large screen is built in parts, and the page hears and draws between
/// them.
#[component]
pub fn Later(
    /// What is shown.
    children: ChildrenFn,
) -> impl IntoView {
    let now = RwSignal::new(false);
    soon(move || {
        // The screen may have been left meanwhile.
        if !now.is_disposed() {
            now.set(true);
        }
    });
    view! { <Show when=now>{children()}</Show> }
}
