//! What is being done, what went wrong, and our sign.

use crate::ui::reactive::Show;
use crate::ui::state::{App, tr};
use beatwalk::words::say;
use leptos::prelude::*;

/// How far the worker has come, with a way to stop it.
#[component]
pub fn JobProgress() -> impl IntoView {
    let app = App::here();
    let stage = move || Some(say(app.language.get(), app.job.get()?.0.key()).into_owned());
    let part = Signal::derive(move || app.job.get().map_or(0.0, |(_, part)| part));
    view! {
        <div role="status" class="no-print">
            <Show when=move || app.job.read().is_some() && !app.measures_again()>
                <div class="card">
                    <ProgressLine
                        said=Signal::derive(move || stage().unwrap_or_default())
                        part=part
                        on_stop=Callback::new(move |()| app.cancel())
                    />
                </div>
            </Show>
        </div>
    }
}

/// What is being done, how far it has come, and a way to stop it.
#[component]
pub fn ProgressLine(
    /// What is being done.
    said: Signal<String>,
    /// How far it has come, from 0 to 1.
    part: Signal<f64>,
    /// Stops it.
    on_stop: Callback<()>,
) -> impl IntoView {
    view! {
        <div class="progress">
            <span>{said}</span>
            <progress max="100" value=move || (part.get() * 100.0).round() aria-label=said></progress>
            <button class="button" on:click=move |_| on_stop.run(())>
                {tr("page.job.stop")}
            </button>
        </div>
    }
}

/// What went wrong, where and what to do; what is open stays open.
#[component]
pub fn ProblemNotice() -> impl IntoView {
    let app = App::here();
    view! {
        <div role="alert" class="no-print">
            {move || {
                app.problem
                    .get()
                    .map(|problem| {
                        view! {
                            <div class="notice notice--problem">
                                <p>
                                    <strong>{app.tell(&problem.what)}</strong>
                                </p>
                                <p>{app.tell(&problem.remedy)}</p>
                                <Show when=move || app.shown.read().is_some()>
                                    <p>{tr("page.problem.still_open")}</p>
                                </Show>
                                <button class="button" on:click=move |_| app.problem.set(None)>
                                    {tr("page.problem.close")}
                                </button>
                            </div>
                        }
                    })
            }}
        </div>
    }
}

/// Our sign: one beat with footsteps along its baseline.
#[component]
pub fn Mark() -> impl IntoView {
    view! {
        <svg viewBox="0 0 48 32" aria-hidden="true" focusable="false">
            <path
                d="M2 20h9c2-5 5-5 7 0h3l2 3 4-19 4 22 2-6h3c3-7 7-7 9 0h2"
                fill="none"
                stroke="var(--accent)"
                stroke-width="3"
                stroke-linecap="round"
                stroke-linejoin="round"
            />
            <g fill="var(--focus)">
                <ellipse cx="8" cy="28" rx="3" ry="1.6" />
                <ellipse cx="20" cy="30" rx="3" ry="1.6" />
                <ellipse cx="40" cy="28" rx="3" ry="1.6" />
            </g>
        </svg>
    }
}
