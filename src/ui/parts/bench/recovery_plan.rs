//! How the recordings of a recovery are parted: where exercise ended, and where rest ended in one long file.

use crate::ui::bench::Bench;
use crate::ui::parts::number_field::NumberSetting;
use crate::ui::parts::select::Select;
use crate::ui::reactive::{Show, live};
use crate::ui::state::{App, tr};
use beatwalk::inquiry::Role;
use beatwalk::signal::{Mark, MarkKind, SampleIndex, Seconds};
use beatwalk::words::{figure, say, say_with};
use leptos::prelude::*;

/// Lists of the marks of the recording, and the seconds that passed before it.
#[component]
pub fn RecoveryParts() -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    let marks = Memo::new(move |_| {
        let seat = bench.seat(Role::Recovery)?;
        let rate = seat.recording.rate;
        let is_note = |mark: &&Mark| mark.kind == MarkKind::Note;
        let marks = seat.recording.marks.iter().filter(is_note);
        let at = |mark: &Mark| (mark.at, rate.time_of(mark.at).seconds(), mark.text.clone());
        Some(marks.map(at).collect::<Vec<_>>()).filter(|marks| !marks.is_empty())
    });
    let plan = Memo::new(move |_| {
        bench.sheet.with(|sheet| sheet.as_ref().map(|sheet| sheet.recovery)).unwrap_or_default()
    });
    let alone = move || bench.seat(Role::Rest).is_none();
    let list =
        move |label: &'static str,
              none: &'static str,
              chosen: Option<SampleIndex>,
              choose: fn(&mut beatwalk::inquiry::RecoveryPlan, Option<SampleIndex>)| {
            let language = app.language.get();
            let marks = marks.get()?;
            let name = |(_, seconds, text): &(SampleIndex, f64, String)| {
                let seconds = figure(language, *seconds, 1);
                say_with(language, "bench.parts.mark", &[("seconds", &seconds), ("text", text)])
            };
            let options: Vec<String> = std::iter::once(say(language, none).into_owned())
                .chain(marks.iter().map(name))
                .collect();
            let place = chosen.and_then(|at| marks.iter().position(|mark| mark.0 == at));
            let places: Vec<SampleIndex> = marks.iter().map(|mark| mark.0).collect();
            let on_choose = Callback::new(move |place: usize| {
                let at = place.checked_sub(1).and_then(|place| places.get(place).copied());
                bench.change(|sheet| choose(&mut sheet.recovery, at));
            });
            let chosen = Some(place.map_or(0, |place| place + 1));
            Some(
                view! { <Select label=Signal::derive(tr(label)) options=options chosen=chosen on_choose=on_choose /> },
            )
        };
    let exercise = move || {
        list(
            "bench.parts.exercise_until",
            "bench.parts.at_start",
            plan.read().exercise_until,
            |plan, at| plan.exercise_until = at,
        )
    };
    let rest = move || {
        alone()
            .then(|| {
                list(
                    "bench.parts.rest_until",
                    "bench.parts.not_marked",
                    plan.read().rest_until,
                    |plan, at| plan.rest_until = at,
                )
            })
            .flatten()
    };
    let waited = move || plan.with_untracked(|plan| plan.waited.seconds());
    let wait = Callback::new(move |typed: Option<f64>| {
        let seconds = typed.filter(|seconds| (0.0..=600.0).contains(seconds));
        let waited = Seconds::new(seconds.unwrap_or_default());
        bench.change(|sheet| sheet.recovery.waited = waited);
    });
    view! {
        <Show when=move || bench.seat(Role::Recovery).is_some()>
            <section class="card bench__parts no-print">
                <h3>{tr("bench.parts.title")}</h3>
                <div class="button-row button-row--fields">
                    {live(exercise)} {rest}
                    <Show when=move || plan.read().exercise_until.is_none()>
                        <NumberSetting
                            label=Signal::derive(tr("bench.parts.waited"))
                            value=Some(waited()).filter(|seconds| *seconds > 0.0)
                            decimals=1
                            on_number=wait
                        />
                    </Show>
                </div>
                <Show when=move || marks.read().is_none()>
                    <p class="soft">{tr("bench.parts.no_marks")}</p>
                </Show>
            </section>
        </Show>
    }
}
