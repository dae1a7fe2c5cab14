//! Investigations: choose one, prepare safely, bring the recordings, see what changed, say what it means.

use crate::ui::bench::Bench;
use crate::ui::browser::takes_focus;
use crate::ui::parts::{
    BenchFiles, BreathingParts, BreathingResults, Conclusion, ConditionsResults, PaceCard,
    ProtocolCard, RecoveryParts, RecoveryResults, ReflexParts, ReflexResults, SeatCard, Timer,
};
use crate::ui::reactive::Views;
use crate::ui::state::{App, Screen, tr};
use beatwalk::inquiry::Investigation;
use leptos::html::H1;
use leptos::prelude::*;

/// The screen of investigations.
#[component]
pub fn InvestigateScreen() -> impl IntoView {
    let bench = Bench::here();
    let chosen = Memo::new(move |_| {
        bench.sheet.with(|sheet| sheet.as_ref().map(|sheet| sheet.investigation))
    });
    move || match chosen.get() {
        None => view! { <Choice /> }.into_any(),
        Some(investigation) => view! { <Worked investigation=investigation /> }.into_any(),
    }
}

/// The investigations there are.
#[component]
fn Choice() -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    let one = move |investigation: Investigation| {
        let protocol = investigation.protocol();
        view! {
            <li class="card">
                <h2>{move || protocol.title(app.language.get())}</h2>
                <p>{move || protocol.question(app.language.get())}</p>
                <button class="button button--main" on:click=move |_| bench.choose(investigation)>
                    {tr("bench.begin")}
                    <span class="hidden-visually">{move || protocol.title(app.language.get())}</span>
                </button>
            </li>
        }
    };
    view! {
        <div class="bench">
            <header>
                <h1>{tr("bench.title")}</h1>
                <p>{tr("bench.lead")}</p>
            </header>
            <ul class="bench__choice">
                {Investigation::ALL.map(one).views()} <li class="card">
                    <h2>{tr("class.title")}</h2>
                    <p>{tr("class.invite")}</p>
                    <button class="button button--main" on:click=move |_| app.screen.set(Screen::Class)>
                        {tr("bench.begin")}
                        <span class="hidden-visually">{tr("class.title")}</span>
                    </button>
                </li>
            </ul>
        </div>
    }
}

/// One investigation from its card to its conclusion.
#[component]
fn Worked(investigation: Investigation) -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    let protocol = investigation.protocol();
    let heading = takes_focus::<H1>();
    let results = match investigation {
        Investigation::Recovery => view! { <RecoveryResults /> }.into_any(),
        Investigation::Breathing => view! { <BreathingResults /> }.into_any(),
        Investigation::Conditions => view! { <ConditionsResults /> }.into_any(),
        Investigation::Reflex => view! { <ReflexResults /> }.into_any(),
    };
    let parts = match investigation {
        Investigation::Recovery => view! { <RecoveryParts /> }.into_any(),
        Investigation::Breathing => view! { <BreathingParts /> }.into_any(),
        Investigation::Conditions => ().into_any(),
        Investigation::Reflex => view! { <ReflexParts /> }.into_any(),
    };
    view! {
        <div class="bench">
            <header>
                <h1 tabindex="-1" node_ref=heading>
                    {move || protocol.title(app.language.get())}
                </h1>
                <p>{move || protocol.question(app.language.get())}</p>
                <button class="button no-print" on:click=move |_| bench.leave()>
                    {tr("bench.others")}
                </button>
            </header>
            <div class="bench__before no-print">
                <ProtocolCard protocol=protocol />
                <div class="bench__clocks">
                    <Timer protocol=protocol />
                    {(investigation == Investigation::Breathing).then(|| view! { <PaceCard /> })}
                </div>
            </div>
            <section class="bench__recordings">
                <h2>{tr("bench.recordings")}</h2>
                <div class="bench__seats">
                    {investigation.roles().iter().map(|&role| view! { <SeatCard role=role /> }).views()}
                </div>
                {parts}
            </section>
            <section class="bench__results">
                <h2>{tr("bench.results")}</h2>
                {results}
            </section>
            <Conclusion protocol=protocol />
            <BenchFiles investigation=investigation />
            <p class="notice notice--caution">{tr("cautions.not_a_diagnosis.text")}</p>
        </div>
    }
}
