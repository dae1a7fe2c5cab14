//! What can be taken away from the bench as a file, and printing.

use crate::ui::bench::Bench;
use crate::ui::browser::{print, save_text};
use crate::ui::state::{App, tr};
use beatwalk::inquiry::Investigation;
use beatwalk::report::{EXTENSION, breathing_csv, pool_csv, recovery_csv, reflex_csv};
use beatwalk::words::Phrase;
use leptos::prelude::*;
use wasm_bindgen::JsValue;

/// Buttons for the document, the numbers, and printing.
#[component]
pub fn BenchFiles(investigation: Investigation) -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    let save = move |make: fn(Bench) -> Option<Result<(), JsValue>>| {
        if !matches!(untrack(|| make(bench)), Some(Ok(()))) {
            app.fail(
                Phrase::message("page.results.save_failed"),
                Phrase::message("page.results.save_again"),
            );
        }
    };
    let numbers: fn(Bench) -> Option<Result<(), JsValue>> = match investigation {
        Investigation::Recovery => save_recovery,
        Investigation::Breathing => save_breathing,
        Investigation::Conditions => save_conditions,
        Investigation::Reflex => save_reflex,
    };
    view! {
        <section class="card no-print">
            <h2>{tr("page.results.save")}</h2>
            <div class="button-row">
                <button class="button button--main" on:click=move |_| save(save_all)>
                    {tr("page.results.save_work")}
                </button>
                <button class="button" on:click=move |_| save(numbers)>
                    {tr("bench.save_numbers")}
                </button>
                <button class="button" on:click=move |_| print()>
                    {tr("bench.print")}
                </button>
            </div>
        </section>
    }
}

fn save_all(bench: Bench) -> Option<Result<(), JsValue>> {
    let saved = bench.saved()?;
    let name = format!("{}{EXTENSION}", saved.sheet.investigation.protocol().key);
    Some(save_text(&name, "application/json", &saved.to_json().ok()?))
}

fn save_recovery(bench: Bench) -> Option<Result<(), JsValue>> {
    let found = bench.recovery()?;
    Some(save_text("recovery.csv", "text/csv", &recovery_csv(&bench.student(), &found)))
}

fn save_conditions(bench: Bench) -> Option<Result<(), JsValue>> {
    let entries = bench.condition_entries();
    (!entries.is_empty()).then(|| save_text("conditions.csv", "text/csv", &pool_csv(&entries)))
}

fn save_breathing(bench: Bench) -> Option<Result<(), JsValue>> {
    let student = bench.student();
    let found = Investigation::Breathing.roles().iter();
    let found: Vec<_> =
        found.filter_map(|&role| Some((role, bench.breathing(role)?.ok()?))).collect();
    let some = !found.is_empty();
    some.then(|| save_text("breathing.csv", "text/csv", &breathing_csv(&student, &found)))
}

fn save_reflex(bench: Bench) -> Option<Result<(), JsValue>> {
    let student = bench.student();
    let found = Investigation::Reflex.roles().iter();
    let found: Vec<_> =
        found.filter_map(|&role| Some((role, bench.reflexes(role)?.ok()?.0))).collect();
    let some = !found.is_empty();
    some.then(|| save_text("reflex.csv", "text/csv", &reflex_csv(&student, &found)))
}
