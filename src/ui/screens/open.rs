//! Open a recording: drop it, pick it, paste it, or take an invented one.

use crate::ui::parts::{DropZone, FilePick, LayoutForm, RateForm};
use crate::ui::reactive::{Show, Views, live};
use crate::ui::state::{App, Screen, tr};
use beatwalk::synth::Demo;
use beatwalk::words::say;
use leptos::prelude::*;

/// The first screen.
#[component]
pub fn OpenScreen() -> impl IntoView {
    let app = App::here();
    let rate = move || {
        app.rate_wanted.get().map(|wanted| {
            let layout = wanted.layout.map(|layout| {
                view! {
                    <details>
                        <summary>{tr("page.rate.layout")}</summary>
                        <LayoutForm
                            layout=layout
                            choices=wanted.choices
                            on_correct=Callback::new(move |choices| app.correct_waiting(choices))
                        />
                    </details>
                }
            });
            view! {
                <section class="card">
                    <RateForm
                        samples=wanted.samples
                        plausible_hz=wanted.plausible_hz
                        on_rate=Callback::new(move |rate: f64| app.answer_rate(rate))
                    />
                    {layout}
                </section>
            }
        })
    };
    view! {
        <h1 class="hidden-visually">{tr("page.screen.open")}</h1>
        {live(rate)}
        <OpenNow />
        <div class="open">
            <section class="open__own" aria-labelledby="own-title">
                <Bring />
                <Way screen=Screen::Prepare name="prepare.open" about="prepare.about" />
                <Way screen=Screen::Investigate name="bench.title" about="bench.invite" />
                <Way screen=Screen::Homework name="tasks.title" about="tasks.lead" />
                <Paste />
            </section>
            <section aria-labelledby="demo-title">
                <h2 id="demo-title">{tr("page.open.demo_title")}</h2>
                <p>{tr("demo.class")} ". " {tr("demo.invented")}</p>
                <Demos />
            </section>
        </div>
    }
}

/// What is open already, with the ways to go on or to forget it.
#[component]
fn OpenNow() -> impl IntoView {
    let app = App::here();
    let file = move || app.file_name();
    view! {
        <Show when=move || file().is_some()>
            <section class="card button-row">
                <span>{tr("page.open.go_on")} " " <strong>{live(file)}</strong></span>
                <button class="button" on:click=move |_| app.screen.set(Screen::See)>
                    {tr("page.screen.see")}
                </button>
                <button class="button" on:click=move |_| app.clear()>
                    {tr("page.open.clear")}
                </button>
            </section>
        </Show>
        {move || {
            let left = app.left_behind.get();
            left.into_iter()
                .map(|shelf| {
                    view! {
                        <p class="notice button-row">
                            {tr("page.keeping.left_behind")}
                            <button class="button" on:click=move |_| app.go_on_with(shelf)>
                                {tr("page.keeping.go_on")}
                            </button>
                        </p>
                    }
                })
                .views()
        }}
        <Show when=move || app.replaced.get()>
            <p class="notice button-row">
                {tr("page.open.replaced")}
                <button class="button" on:click=move |_| app.bring_back()>
                    {tr("page.open.bring_back")}
                </button>
            </p>
        </Show>
    }
}

#[component]
fn Bring() -> impl IntoView {
    let app = App::here();
    let open = Callback::new(move |files| app.open_files(files));
    view! {
        <DropZone class="open__drop" on_files=open>
            <h2 id="own-title">{tr("page.open.own_title")}</h2>
            <p>{tr("page.open.drop")}</p>
            <FilePick
                text="page.open.pick"
                label=Signal::derive(tr("page.open.pick"))
                main=true
                on_files=open
            />
            <p class="soft">{tr("page.open.kinds")}</p>
        </DropZone>
    }
}

#[component]
fn Paste() -> impl IntoView {
    let app = App::here();
    let text = RwSignal::new(String::new());
    view! {
        <details class="card">
            <summary>{tr("page.open.paste_title")}</summary>
            <label class="field">
                {tr("page.open.paste_label")}
                <textarea rows="6" spellcheck="false" bind:value=text></textarea>
            </label>
            <button
                class="button"
                disabled=move || text.read().trim().is_empty()
                on:click=move |_| app.open_pasted(&text.get())
            >
                {tr("page.open.paste_go")}
            </button>
        </details>
    }
}

#[component]
fn Demos() -> impl IntoView {
    let app = App::here();
    let entry = move |demo: Demo| {
        let said = move |part: &str| {
            say(app.language.get(), &format!("demo.{}.{part}", demo.key())).into_owned()
        };
        view! {
            <li>
                <button class="button open__demo" on:click=move |_| app.open_demo(demo.key())>
                    <span>{move || said("name")}</span>
                    <small>{move || said("about")}</small>
                </button>
            </li>
        }
    };
    view! { <ul class="open__demos">{Demo::ALL.map(entry).views()}</ul> }
}

/// The way to another screen, and what waits there.
#[component]
fn Way(screen: Screen, name: &'static str, about: &'static str) -> impl IntoView {
    let app = App::here();
    view! {
        <section class="card prepare__open">
            <button class="button" on:click=move |_| app.screen.set(screen)>
                {tr(name)}
            </button>
            <p class="soft">{tr(about)}</p>
        </section>
    }
}
