//! Said when the browser no longer keeps the work, with a way to keep it all the same.

use super::bench::save_inquiry;
use super::results_files::save_work;
use crate::ui::bench::Bench;
use crate::ui::reactive::Show;
use crate::ui::state::{App, Keeping, tr};
use leptos::prelude::*;

/// Shown while something is open that the browser does not keep.
#[component]
pub fn KeepingNotice() -> impl IntoView {
    let (app, bench) = (App::here(), Bench::here());
    let some = move || app.raw.read().is_some() || bench.sheet.read().is_some();
    let unkept = move || some() && matches!(app.keeping.get(), Keeping::Refused | Keeping::Full);
    let why = move || match app.keeping.get() {
        Keeping::Full => "page.keeping.full",
        _ => "page.keeping.refused",
    };
    let save = move |_| {
        untrack(|| {
            save_work(app, "beatwalk");
            save_inquiry(bench);
        });
    };
    view! {
        <div role="alert" class="no-print">
            <Show when=unkept>
                <div class="notice notice--problem button-row">
                    <p>
                        <strong>{move || tr(why())()}</strong>
                    </p>
                    <button class="button" on:click=save>
                        {tr("page.keeping.save")}
                    </button>
                </div>
            </Show>
        </div>
    }
}
