//! What is wrong with the signal, and what to do before recording again.

use crate::ui::state::{App, tr};
use beatwalk::analysis::{FindingKind, Severity};
use beatwalk::words::{Language, say};
use leptos::prelude::*;

/// The word that stands on the trace where a finding is.
pub fn finding_word(kind: FindingKind, language: Language) -> String {
    let key = match kind {
        FindingKind::Flat => "page.finding.flat",
        FindingKind::Clipped => "page.finding.clipped",
        FindingKind::Noisy => "page.finding.noisy",
        FindingKind::Stuck => "page.finding.stuck",
        _ => "page.finding.other",
    };
    say(language, key).into_owned()
}

/// All findings, gravest first; one calm line when there are none.
#[component]
pub fn FindingsList() -> impl IntoView {
    let app = App::here();
    let rows = move || {
        app.reading.with(|reading| {
            let findings =
                reading.as_ref().map(|reading| reading.findings.clone()).unwrap_or_default();
            findings
                .into_iter()
                .map(|finding| {
                    let class = match finding.severity {
                        Severity::Unusable => "notice notice--problem",
                        Severity::Limits => "notice notice--caution",
                        Severity::Remark => "notice",
                    };
                    view! { <li class=class>{finding.to_string()}</li> }
                })
                .collect_view()
        })
    };
    let none = move || {
        app.reading
            .with(|reading| reading.as_ref().is_some_and(|reading| reading.findings.is_empty()))
    };
    view! {
        <ul class="plain-list">{rows}</ul>
        <Show when=none>
            <p>{tr("page.see.no_findings")}</p>
        </Show>
    }
}
