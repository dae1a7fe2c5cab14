//! Measuring by hand, right under the trace: the legs as sliders, what they span in boxes, and three
//! rules for a rate beside the computed one.

use super::calipers::{Calipers, Leg};
use super::tools::Tools;
use crate::ui::reactive::{Views, live};
use crate::ui::state::{App, tr};
use beatwalk::analysis::BeatSeries;
use beatwalk::lesson::{HandRate, HandRule, NoHandRate, Spanned, rate_by_hand, spanned};
use beatwalk::signal::{SampleIndex, SampleSpan};
use beatwalk::words::{Language, decimal, figure, say, say_with};
use leptos::prelude::*;

const RULES: [HandRule; 3] = [HandRule::LargeBoxes, HandRule::SmallBoxes, HandRule::SixSeconds];

/// The tool for measuring by hand.
#[component]
pub fn CaliperFields(tools: Tools) -> impl IntoView {
    let app = App::here();
    let calipers = tools.calipers;
    let told = move || {
        let (shown, legs) = (app.shown.get()?, calipers.legs.get()?);
        Some(span_words(spanned(&shown.recording, legs), app.language.get()))
    };
    view! {
        <p class="soft">{tr("by_hand.how")}</p>
        <div class="button-row button-row--fields">
            <LegSlider calipers=calipers leg=Leg::Left />
            <LegSlider calipers=calipers leg=Leg::Right />
            <button class="button button--main" on:click=move |_| tools.put_away()>
                {tr("by_hand.done")}
            </button>
        </div>
        <p role="status">
            <strong>{live(told)}</strong>
        </p>
        <Rates calipers=calipers />
    }
}

/// A leg as a slider over what is in view: one sample a press of an arrow.
#[component]
fn LegSlider(calipers: Calipers, leg: Leg) -> impl IntoView {
    let app = App::here();
    let label = if leg == Leg::Left { "by_hand.left" } else { "by_hand.right" };
    let place = move || {
        calipers.legs.get().map(|legs| if leg == Leg::Left { legs.start() } else { legs.end() })
    };
    let reach = Memo::new(move |_| {
        app.view.track();
        calipers.reach()
    });
    let end = move |of: fn(SampleSpan) -> SampleIndex| {
        reach.get().map(|reach| of(reach).get().to_string())
    };
    let told = move || {
        let time = app.rate()?.time_of(place()?).seconds();
        let language = app.language.get();
        Some(say_with(language, "by_hand.at", &[("time", &decimal(language, time, 3))]))
    };
    let slide = move |event: web_sys::Event| {
        if let Ok(to) = event_target_value(&event).parse() {
            calipers.move_leg(leg, SampleIndex::new(to));
        }
    };
    view! {
        <label class="field">
            {tr(label)}
            <input
                type="range"
                step="1"
                min=move || end(SampleSpan::start)
                max=move || end(SampleSpan::end)
                aria-valuetext=told
                prop:value=move || place().map(|at| at.get().to_string()).unwrap_or_default()
                on:input=slide
            />
        </label>
    }
}

/// What the legs span, short, for the trace.
pub fn span_label(app: App, legs: SampleSpan) -> Option<String> {
    let shown = app.shown.get()?;
    let (span, language) = (spanned(&shown.recording, legs), app.language.get());
    let places = [
        ("ms", &*decimal(language, span.time.milliseconds(), 0)),
        ("small", &*decimal(language, span.small_boxes, 1)),
    ];
    Some(say_with(language, "by_hand.label", &places))
}

fn span_words(span: Spanned, language: Language) -> String {
    let across = say_with(
        language,
        "by_hand.across",
        &[
            ("ms", &decimal(language, span.time.milliseconds(), 0)),
            ("small", &decimal(language, span.small_boxes, 1)),
            ("large", &decimal(language, span.large_boxes, 1)),
        ],
    );
    let up = span.height.zip(span.height_boxes).map(|(height, boxes)| {
        let places = [
            ("mv", &*decimal(language, height.millivolts(), 2)),
            ("small", &*decimal(language, boxes, 1)),
        ];
        say_with(language, "by_hand.up", &places)
    });
    [Some(across), up].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

#[component]
fn Rates(calipers: Calipers) -> impl IntoView {
    let app = App::here();
    let rows = move || {
        let (shown, legs) = (app.shown.get()?, calipers.legs.get()?);
        let language = app.language.get();
        let standing = app.standing.read();
        let none = || BeatSeries::new(&shown.recording, &[], &[]);
        let series = standing.as_ref().map(|reading| reading.series(&shown.recording));
        let series = series.unwrap_or_else(none);
        let row = |rule| rate_row(rule, rate_by_hand(rule, series, legs), language);
        Some(RULES.map(row).views())
    };
    let heads = ["rule", "counted", "rate", "computed", "error"];
    let heads = heads.map(|head| {
        let head = move || say(app.language.get(), &format!("by_hand.head.{head}")).into_owned();
        view! { <th scope="col">{live(head)}</th> }
    });
    view! {
        <details>
            <summary>{tr("by_hand.rates")}</summary>
            <div class="scroll-x" tabindex="0" role="group" aria-label=tr("by_hand.rates")>
                <table class="by-hand">
                    <thead>
                        <tr>{heads.views()}</tr>
                    </thead>
                    <tbody>{live(rows)}</tbody>
                </table>
            </div>
            <p class="soft">{tr("by_hand.why")}</p>
        </details>
    }
}

fn rate_row(
    rule: HandRule,
    rate: Result<HandRate, NoHandRate>,
    language: Language,
) -> impl IntoView + use<> {
    let name = say(language, &format!("by_hand.rule.{}", rule_key(rule))).into_owned();
    let cells = match rate {
        Ok(rate) => {
            let (low, high) = rate.between;
            let places = [
                ("rate", &*figure(language, rate.rate.per_minute(), 1)),
                ("low", &*figure(language, low.per_minute(), 0)),
                ("high", &*figure(language, high.per_minute(), 0)),
            ];
            view! {
                <td>{rate.counted.to_string()}</td>
                <td>{say_with(language, "by_hand.between", &places)}</td>
                <td>{decimal(language, rate.computed.per_minute(), 1)}</td>
                <td>{decimal(language, rate.error(), 1)}</td>
            }
            .into_any()
        }
        Err(why) => {
            let key = format!("by_hand.none.{}", none_key(why));
            view! { <td colspan="4">{say(language, &key).into_owned()}</td> }.into_any()
        }
    };
    view! {
        <tr>
            <th scope="row">{name}</th>
            {cells}
        </tr>
    }
}

const fn rule_key(rule: HandRule) -> &'static str {
    match rule {
        HandRule::LargeBoxes => "large_boxes",
        HandRule::SmallBoxes => "small_boxes",
        HandRule::SixSeconds => "six_seconds",
    }
}

const fn none_key(why: NoHandRate) -> &'static str {
    match why {
        NoHandRate::NotOnBeats => "not_on_beats",
        NoHandRate::TooNear => "too_near",
        NoHandRate::TooShort => "too_short",
        NoHandRate::TooFewBeats => "too_few_beats",
    }
}
