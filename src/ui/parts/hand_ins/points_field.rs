//! Points and a comment for one task of one hand-in.

use crate::ui::hand_ins::HandIns;
use crate::ui::reactive::live;
use crate::ui::state::{App, tr};
use beatwalk::homework::{Sheet, TaskLine};
use beatwalk::words::{figure, say_with, typed};
use leptos::prelude::*;

/// The points as they stand, which the teacher may change, and a comment.
#[component]
pub fn PointsField(sheet: StoredValue<Sheet>, line: TaskLine) -> impl IntoView {
    let app = App::here();
    let hand_ins = HandIns::here();
    let (key, own) = (line.key.clone(), line.key.clone());
    let of = line.of;
    let label = move || {
        let of = figure(app.language.get(), of, 2);
        say_with(app.language.get(), "hand_ins.points_of", &[("of", &of)])
    };
    let earned =
        sheet.with_value(|sheet| hand_ins.marks.with_untracked(|marks| marks.earned(sheet, &line)));
    let earned = earned.map(|earned| figure(app.language.get_untracked(), earned, 2));
    let comment = sheet.with_value(|sheet| {
        hand_ins.marks.with_untracked(|marks| marks.comment(sheet, &line.key).to_owned())
    });
    view! {
        <div class="tasks__row">
            <label class="field tasks__number">
                {live(label)}
                <input
                    type="text"
                    inputmode="decimal"
                    autocomplete="off"
                    prop:value=earned.unwrap_or_default()
                    on:input=move |event| {
                        let points = typed(&event_target_value(&event));
                        sheet.with_value(|sheet| hand_ins.give(sheet, &key, points));
                    }
                />
            </label>
            <label class="field">
                {tr("hand_ins.comment")}
                <input
                    type="text"
                    maxlength="2000"
                    autocomplete="off"
                    dir="auto"
                    prop:value=comment
                    on:input=move |event| {
                        let text = event_target_value(&event);
                        sheet.with_value(|sheet| hand_ins.comment(sheet, &own, &text));
                    }
                />
            </label>
        </div>
    }
}
