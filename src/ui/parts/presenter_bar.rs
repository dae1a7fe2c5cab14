//! The presenter's keys as buttons, for a mouse or a touch screen, and as a reminder of the keys.

use crate::ui::presenting::Display;
use crate::ui::reactive::Show;
use crate::ui::state::{App, Screen, tr};
use leptos::prelude::*;

/// Shown on the steps of the lesson while the projector view is on.
#[component]
pub fn PresenterBar() -> impl IntoView {
    let app = App::here();
    let shows = move |display: Display| move || (app.display.get() == display).to_string();
    view! {
        <Show when=move || app.projector.get() && Screen::STEPS.contains(&app.screen.get())>
            <nav class="presenter no-print" aria-label=tr("page.present.title")>
                <button class="button" on:click=move |_| app.step_back()>
                    {tr("page.present.back")} " " <kbd>{tr("page.present.page_up")}</kbd>
                </button>
                <button class="button" on:click=move |_| app.step_on()>
                    {tr("page.present.next")} " " <kbd>{tr("page.present.page_down")}</kbd>
                </button>
                <button
                    class="button"
                    aria-pressed=shows(Display::Found)
                    on:click=move |_| app.reveal_to_room()
                >
                    {tr("page.present.reveal")} " " <kbd>"R"</kbd>
                </button>
                <button
                    class="button"
                    aria-pressed=shows(Display::Covered)
                    on:click=move |_| app.cover()
                >
                    {tr("page.present.hide")} " " <kbd>"H"</kbd>
                </button>
            </nav>
        </Show>
    }
}
