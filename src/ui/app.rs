//! The frame around the screens: name, the steps of the lesson, what is being done, what went wrong.

use super::browser::{PageKept, dropped_files, keep_current_in_sight, keep_page, pasted_text};
use super::parts::{
    HomeworkBar, JobProgress, KeepingNotice, Mark, PaperBar, PresenterBar, ProblemNotice,
};
use super::presenting::Display;
use super::screens::{
    ClassScreen, HandInsScreen, HomeworkScreen, InvestigateScreen, OpenScreen, PrepareScreen,
    ResultsScreen, SeeScreen, SetScreen, WalkScreen,
};
use super::state::{App, Keeping, Screen, tr};
use crate::ui::reactive::{Show, Views, follow, live};
use beatwalk::words::{Language, say};
use leptos::html::Nav;
use leptos::prelude::*;

/// Puts the app on the page.
pub fn start() {
    leptos::mount::mount_to_body(Root);
}

#[component]
fn Root() -> impl IntoView {
    let app = App::new();
    provide_context(app);
    app.connect();
    app.resume();
    app.keep_up();
    app.hear_presenter();
    app.bench().connect();
    app.class_desk().connect();
    app.hand_ins().connect();
    app.bench().keep_up();
    app.homework().keep_up();
    app.homework().keep_time();
    app.setting().keep_up();
    app.hand_ins().keep_up();
    name_the_page(app);
    app.show_paper();
    keep_page(app.page_kept);

    view! {
        <div
            class="app"
            on:dragover=move |event| event.prevent_default()
            on:drop=move |event| {
                // Anywhere on the page: a file that misses the zone must not replace the page.
                event.prevent_default();
                app.open_files(dropped_files(&event));
            }
            on:paste=move |event| {
                if let Some(text) = pasted_text(&event) {
                    app.open_pasted(&text);
                }
            }
        >
            <a class="skip-link" href="#main">{tr("page.skip")}</a>
            <Bar />
            <PresenterBar />
            <PaperBar />
            <main id="main" class="app__main" tabindex="-1">
                <div class="app__news no-print">
                    <JobProgress />
                    <ProblemNotice />
                    <KeepingNotice />
                    <HomeworkBar />
                </div>
                {move || {
                    let screen = app.screen.get();
                    app.forget_the_screen_before();
                    match screen {
                        Screen::Prepare => view! { <PrepareScreen /> }.into_any(),
                        Screen::Open => view! { <OpenScreen /> }.into_any(),
                        Screen::See => view! { <SeeScreen /> }.into_any(),
                        Screen::Walk => view! { <WalkScreen /> }.into_any(),
                        Screen::Results => view! { <ResultsScreen /> }.into_any(),
                        Screen::Investigate => view! { <InvestigateScreen /> }.into_any(),
                        Screen::Class => view! { <ClassScreen /> }.into_any(),
                        Screen::Homework => view! { <HomeworkScreen /> }.into_any(),
                        Screen::Set => view! { <SetScreen /> }.into_any(),
                        Screen::HandIns => view! { <HandInsScreen /> }.into_any(),
                    }
                }}
            </main>
            <Foot />
        </div>
    }
}

/// The title, the language and the projector's style belong to the document, not to a component.
fn name_the_page(app: App) {
    follow(move || {
        let Some(document) = web_sys::window().and_then(|window| window.document()) else { return };
        let language = app.language.get();
        let screen = say(language, app.screen.get().name_key());
        document.set_title(&format!("{screen} · {}", say(language, "app.name")));
        if let Some(root) = document.document_element() {
            let _ = root.set_attribute("lang", language.tag());
            let classes = root.class_list();
            let _ = classes.toggle_with_force("projector", app.projector.get());
            let _ = classes.toggle_with_force("covered", app.display.get() == Display::Covered);
        }
    });
}

#[component]
fn Bar() -> impl IntoView {
    let app = App::here();
    let row = NodeRef::<Nav>::new();
    keep_current_in_sight(row, Signal::<Screen>::from(app.screen));
    view! {
        <header class="app__bar">
            <span class="app__name">
                <Mark />
                {tr("app.name")}
            </span>
            <nav aria-label=tr("page.steps") node_ref=row>
                <ol class="app__steps">
                    {Screen::STEPS
                        .map(|screen| {
                            view! {
                                <li>
                                    <button
                                        class="app__step"
                                        aria-current=move || (app.screen.get() == screen).then_some("page")
                                        disabled=move || !app.can_show(screen)
                                        on:click=move |_| app.screen.set(screen)
                                    >
                                        {tr(screen.name_key())}
                                    </button>
                                </li>
                            }
                        })
                        .views()}
                </ol>
            </nav>
            <div class="app__tools">
                <LanguageChoice />
                <button
                    class="button"
                    aria-pressed=move || app.projector.get().to_string()
                    on:click=move |_| app.present(!app.projector.get_untracked())
                >
                    {tr("page.projector")}
                </button>
            </div>
        </header>
    }
}

/// The languages, each by its own name, so that it is found by those who read no other.
#[component]
fn LanguageChoice() -> impl IntoView {
    let app = App::here();
    let choose = move |event| app.speak(Language::of_tag(&event_target_value(&event)));
    view! {
        <select
            class="app__language"
            aria-label=tr("page.language")
            prop:value=move || app.language.get().tag()
            on:change=choose
        >
            {Language::ALL
                .map(|language| {
                    view! {
                        <option value=language.tag() lang=language.tag() selected=move || app.language.get() == language>
                            {language.own_name()}
                        </option>
                    }
                })
                .views()}
        </select>
    }
}

#[component]
fn Foot() -> impl IntoView {
    let app = App::here();
    let keeping = move || {
        let key = match app.keeping.get() {
            Keeping::Refused => "page.keeping.refused",
            Keeping::Full => "page.keeping.full",
            Keeping::Kept | Keeping::Unknown => "page.keeping.kept",
        };
        say(app.language.get(), key)
    };
    let page_kept = move || match app.page_kept.get() {
        PageKept::No => String::new(),
        PageKept::Whole => say(app.language.get(), "page.offline.whole").into_owned(),
        PageKept::Newer => say(app.language.get(), "page.offline.newer").into_owned(),
    };
    view! {
        <footer class="app__foot">
            <p>
                {tr("page.teaching")} " " {tr("page.private")} " " <span role="status">{live(keeping)} " " {page_kept}</span>
            </p>
            <Show when=move || app.page_kept.get() == PageKept::Newer>
                <button class="button" on:click=move |_| app.use_newer()>
                    {tr("page.offline.use")}
                </button>
            </Show>
        </footer>
    }
}
