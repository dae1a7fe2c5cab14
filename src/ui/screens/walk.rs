//! Walk one beat: choose it, place each point, hear how far off, read what the heart does there.

use crate::ui::parts::{
    BeatsTable, CheckPath, FlawTasks, HeartCard, Overlay, PlacePad, PointsTable, StepCard,
    StonePath, TraceView, is_checking, zoom_key, zoom_middle,
};
use crate::ui::presenting::Display;
use crate::ui::reactive::{Show, live};
use crate::ui::state::{App, tr};
use beatwalk::chart::{PointMark, Role};
use beatwalk::lesson::{Command, Grip, Session, Step};
use beatwalk::signal::{Landmark, SampleIndex, VoltageUnit, put_in_order};
use beatwalk::words::{decimal, say, say_with};
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;

/// How many samples one press of an arrow moves the mark with Shift.
const STRIDE: isize = 10;

/// The third screen.
#[component]
pub fn WalkScreen() -> impl IntoView {
    let app = App::here();
    let overlay = Signal::derive(move || overlay(app));
    let landmark = move || app.lesson.with(|lesson| lesson.session().step().landmark());
    let on_point = Callback::new(move |(at, grip): (SampleIndex, Grip)| app.point_at(at, grip));
    let on_key = move |event: KeyboardEvent| {
        let stride = if event.shift_key() { STRIDE } else { 1 };
        let Some(shown) = app.shown.get_untracked() else { return };
        match event.key().as_str() {
            "ArrowRight" => app.nudge(stride, event.repeat()),
            "ArrowLeft" => app.nudge(-stride, event.repeat()),
            "Enter" => match untrack(landmark) {
                Some(_) if untrack(|| is_checking(app)) => app.check_step(Step::next),
                Some(landmark) => app.lesson(Command::Check(landmark)),
                None => app.lesson(Command::Next),
            },
            _ if zoom_key(&event, app.walk_view, &shown) => {}
            _ => return,
        }
        event.prevent_default();
    };
    let told = move || told_mark(app);
    let keys = move || {
        let key = match landmark() {
            None => "page.walk.keys_choose",
            Some(_) if is_checking(app) => "page.walk.keys_check",
            Some(_) => "page.walk.keys",
        };
        say(app.language.get(), key)
    };
    let place = move || app.mark_now().map(|at| at.get().to_string());
    let last = move || {
        app.shown.with(|shown| {
            shown.as_ref().map(|shown| shown.recording.samples.len().saturating_sub(1).to_string())
        })
    };
    view! {
        <h1 class="hidden-visually">{tr("page.screen.walk")}</h1>
        <Show when=move || is_checking(app) fallback=|| view! { <StonePath /> }>
            <CheckPath />
        </Show>
        <div class="walk">
            <section class="walk__trace" aria-label=tr("page.walk.beat")>
                <div
                    class="chart chart--placing walk__chart"
                    tabindex="0"
                    role="slider"
                    aria-label=move || {
                        say(app.language.get(), &app.lesson.with(|lesson| lesson.session().step().title_key())).into_owned()
                    }
                    aria-valuemin="0"
                    aria-valuemax=last
                    aria-valuenow=place
                    aria-valuetext=told
                    aria-describedby="chart-summary walk-keys"
                    on:keydown=on_key
                >
                    <TraceView viewport=app.walk_view overlay=overlay on_point=on_point />
                </div>
                <div class="button-row">
                    <Zoom />
                    <PlacePad />
                </div>
                <p id="walk-keys" class="soft">
                    {live(keys)}
                </p>
            </section>
            <aside class="walk__card">
                <StepCard />
                <Show when=move || !is_checking(app)>
                    <HeartCard />
                </Show>
                <div class="card">
                    <Show
                        when=move || landmark().is_some()
                        fallback=move || view! { <BeatsTable viewport=app.walk_view /> }
                    >
                        <PointsTable overlay=overlay />
                    </Show>
                </div>
            </aside>
        </div>
        <Show when=move || is_checking(app)>
            <FlawTasks />
        </Show>
    }
}

#[component]
fn Zoom() -> impl IntoView {
    let app = App::here();
    let zoom = move |time: f64, value: f64| {
        if let Some(shown) = app.shown.get_untracked() {
            zoom_middle(app.walk_view, &shown, time, value);
        }
    };
    view! {
        <button class="button" on:click=move |_| zoom(0.7, 1.0)>
            {tr("page.see.nearer")}
        </button>
        <button class="button" on:click=move |_| zoom(1.4, 1.0)>
            {tr("page.see.farther")}
        </button>
        <button class="button" on:click=move |_| zoom(1.0, 0.7)>
            {tr("page.walk.taller")}
        </button>
        <button class="button" on:click=move |_| app.look_at_beat()>
            {tr("page.walk.whole_beat")}
        </button>
    }
}

/// What the student has placed, what is being placed, and worked answers that were asked for.
fn overlay(app: App) -> Overlay {
    let lesson = app.lesson.read();
    let session = lesson.session();
    let active = session.step().landmark();
    let checking = session.is_checking();
    let marked = session.final_check().is_some_and(|check| check.marked);
    let hides_beats = checking && !marked;
    match app.display.get() {
        Display::Placed => {}
        Display::Covered => return Overlay { hides_beats, ..Overlay::default() },
        Display::Found => return Overlay { hides_beats, ..found_so_far(app, session) },
    }
    let mut points: Vec<PointMark> = session
        .marks_in_hand()
        .iter()
        .map(|(landmark, at)| {
            let role = if Some(landmark) == active { Role::Active } else { Role::Student };
            PointMark { landmark, at, role }
        })
        .collect();
    let computed = app.with_evidence(|evidence| {
        evidence.in_hand(session).map(|(_, beat)| beat.landmarks).unwrap_or_default()
    });
    let revealed = |landmark: Landmark| match checking {
        true => marked,
        false => session.placement(landmark).is_some_and(|placement| placement.revealed),
    };
    points.extend(
        computed
            .unwrap_or_default()
            .iter()
            .filter(|(landmark, _)| revealed(*landmark))
            .map(|(landmark, at)| PointMark { landmark, at, role: Role::Answer }),
    );
    put_in_order(&mut points, |point| point.at.get());
    let cursor = match session.step() {
        Step::ChooseBeat => session.beat(),
        _ => active.and_then(|landmark| session.marks_in_hand().at(landmark)),
    };
    Overlay { points, cursor, hides_beats, ..Overlay::default() }
}

/// The points that the analysis found, up to the step that is walked; those of the final check once that
/// is marked, and none before.
fn found_so_far(app: App, session: &Session) -> Overlay {
    let check = session.final_check().filter(|check| check.open);
    let found = app
        .with_evidence(|evidence| evidence.in_hand(session).map(|(_, beat)| beat.landmarks))
        .flatten()
        .unwrap_or_default();
    let walked = |landmark| match check {
        Some(check) => check.marked,
        None => Step::Place(landmark).position() <= session.step().position(),
    };
    let mut points: Vec<PointMark> = found
        .iter()
        .filter(|(landmark, _)| walked(*landmark))
        .map(|(landmark, at)| PointMark { landmark, at, role: Role::Answer })
        .collect();
    put_in_order(&mut points, |point| point.at.get());
    Overlay { points, ..Overlay::default() }
}

/// Where the mark stands, in words.
fn told_mark(app: App) -> String {
    let language = app.language.get();
    let (Some(shown), Some(at)) = (app.shown.get(), app.mark_now()) else {
        return say(language, "page.walk.no_mark").into_owned();
    };
    let recording = &shown.recording;
    let time = decimal(language, recording.rate.time_of(at).seconds(), 3);
    let (key, decimals) = match recording.unit {
        VoltageUnit::Millivolt => ("page.walk.mark_at_millivolts", 3),
        VoltageUnit::Counts => ("page.walk.mark_at_counts", 0),
        VoltageUnit::Unstated => ("page.walk.mark_at", 3),
    };
    let value =
        recording.samples.get(at.get()).map(|&value| decimal(language, value.into(), decimals));
    say_with(language, key, &[("time", &time), ("value", &value.unwrap_or_default())])
}
