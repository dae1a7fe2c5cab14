//! What is wrong with the signal, and what to do before recording again.

use crate::ui::reactive::{Show, Views, live};
use crate::ui::state::{App, tr};
use beatwalk::analysis::Severity;
use beatwalk::lesson::FindingWords;
use leptos::prelude::*;

/// All findings, gravest first; one calm line when there are none.
#[component]
pub fn FindingsList() -> impl IntoView {
    let app = App::here();
    let rows = move || {
        let language = app.language.get();
        app.with_evidence(|evidence| {
            let rate = evidence.recording.rate;
            let findings = evidence.reading.findings.iter();
            findings
                .map(|finding| {
                    let class = match finding.severity {
                        Severity::Unusable => "notice notice--problem",
                        Severity::Limits => "notice notice--caution",
                        Severity::Remark => "notice",
                    };
                    view! { <li class=class>{FindingWords::of(finding, rate, language).sentences()}</li> }
                })
                .views()
        })
    };
    let none = move || {
        app.reading
            .with(|reading| reading.as_ref().is_some_and(|reading| reading.findings.is_empty()))
    };
    view! {
        <ul class="plain-list">{live(rows)}</ul>
        <Show when=none>
            <p>{tr("page.see.no_findings")}</p>
        </Show>
    }
}
