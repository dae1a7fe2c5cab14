//! What was understood, on the results: the scores, the final check and the questions left.

use super::check_card::{CheckDoor, CheckTable};
use super::question_card::{QuestionCard, QuestionsLeft};
use crate::ui::state::tr;
use beatwalk::lesson::{Question, Step};
use leptos::prelude::*;

/// A few lines of scores, and the ways to what is not done yet.
#[component]
pub fn UnderstoodCard() -> impl IntoView {
    view! {
        <section class="card">
            <h2>{tr("check.report.title")}</h2>
            <CheckTable />
            <div class="no-print">
                <p>{tr("check.about")}</p>
                <CheckDoor class="button" />
            </div>
        </section>
        <div class="no-print">
            <QuestionCard question=Question::of(Step::Results) />
        </div>
        <QuestionsLeft />
    }
}
