//! A place for one recording: what belongs there, the ways to bring it, and what it is once it is there.

use crate::ui::bench::{Bench, Seat};
use crate::ui::parts::drop_zone::DropZone;
use crate::ui::parts::file_pick::FilePick;
use crate::ui::parts::notices::ProgressLine;
use crate::ui::parts::select::Select;
use crate::ui::reactive::{Show, live};
use crate::ui::state::{App, tr};
use beatwalk::analysis::Standing;
use beatwalk::inquiry::Role;
use beatwalk::synth::Demo;
use beatwalk::words::{Language, figure, say, say_with};
use leptos::prelude::*;

/// One place on the bench.
#[component]
pub fn SeatCard(role: Role) -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    let open = Callback::new(move |files| bench.open_files(role, files));
    let stop = Callback::new(move |()| bench.stop());
    let facts = move || {
        let seat = bench.seat(role)?;
        let name = app.nameless().unwrap_or_else(|| seat.saved.recording.file.clone());
        Some((name, facts(&seat, app.language.get())))
    };
    let job = Memo::new(move |_| bench.job.get().filter(|(at, ..)| *at == role));
    let at_work = move || job.read().is_some();
    let said = Signal::derive(move || {
        let stage = job.get().map(|(_, stage, _)| say(app.language.get(), stage.key()));
        stage.unwrap_or_default().into_owned()
    });
    let part = Signal::derive(move || job.get().map_or(0.0, |(.., part)| part));
    let id = format!("seat-{}", role.key());
    view! {
        <DropZone class="card bench__seat" labelled_by=id.clone() on_files=open>
            <h3 id=id>{move || role.name(app.language.get())}</h3>
            <div role="status">
                {move || match facts() {
                    Some((name, said)) => {
                        view! {
                            <p>
                                <strong>{name}</strong>
                            </p>
                            <p>{said}</p>
                        }
                            .into_any()
                    }
                    None => view! { <p class="soft">{role.about(app.language.get())}</p> }.into_any(),
                }}
                <Show when=at_work>
                    <ProgressLine said=said part=part on_stop=stop />
                </Show>
            </div>
            <TraceChoice role=role />
            <div class="button-row no-print">
                <FilePick
                    text="bench.seat.pick"
                    label=Signal::derive(move || pick_label(role, app.language.get()))
                    on_files=open
                />
                <Show when=move || app.shown.read().is_some()>
                    <button class="button" on:click=move |_| bench.take_open(role)>
                        {tr("bench.seat.take_open")}
                    </button>
                </Show>
                <Show when=move || bench.seat(role).is_none()>
                    <button class="button" on:click=move |_| bench.open_demo(role, stand_in(role))>
                        {tr("bench.seat.demo")}
                    </button>
                </Show>
                <Show when=move || bench.seat(role).is_some()>
                    <button class="button" on:click=move |_| bench.remove(role)>
                        {tr("bench.seat.remove")}
                    </button>
                </Show>
            </div>
        </DropZone>
    }
}

/// Which trace of the file is meant, where there are several.
#[component]
fn TraceChoice(role: Role) -> impl IntoView {
    let bench = Bench::here();
    live(move || {
        let seat = bench.seat(role).filter(|seat| seat.traces.len() > 1)?;
        let names = seat.traces.iter().map(|trace| trace.name.clone()).collect();
        let on_choose = Callback::new(move |place| bench.choose_trace(role, place));
        Some(view! {
            <Select
                label=Signal::derive(tr("bench.seat.trace"))
                options=names
                chosen=Some(seat.trace)
                on_choose=on_choose
            />
        })
    })
}

fn pick_label(role: Role, language: Language) -> String {
    let name = role.name(language);
    say_with(language, "bench.seat.pick_for", &[("role", &*name)])
}

/// The invented recording that can stand in.
const fn stand_in(role: Role) -> Demo {
    match role {
        Role::Rest | Role::First | Role::Quiet => Demo::Resting,
        Role::Recovery | Role::Second => Demo::AfterStairs,
        Role::Slow => Demo::Resting,
        Role::Plain | Role::Reinforced | Role::Voluntary => Demo::KneeReflex,
        Role::Third => Demo::SwappedArms,
    }
}

/// How long it is, and what was found in it.
fn facts(seat: &Seat, language: Language) -> String {
    let seconds = figure(language, seat.recording.duration().seconds(), 1);
    let hz = figure(language, seat.recording.rate.hz(), 0);
    let Some(reading) = &seat.reading else {
        return say_with(language, "bench.seat.unread", &[("seconds", &seconds), ("hz", &hz)]);
    };
    let counted =
        reading.beats.iter().filter(|beat| beat.standing == Standing::Counts).count().to_string();
    let beats = reading.beats.len().to_string();
    let places = [("seconds", &*seconds), ("hz", &*hz), ("beats", &*beats), ("counted", &*counted)];
    say_with(language, "bench.seat.facts", &places)
}
