//! Heights in millivolts, where the file only has counts or an unknown unit: what the class knows of its
//! sensor, and what comes out.

use super::number_field::NumberField;
use super::select::Select;
use crate::ui::reactive::{Show, live};
use crate::ui::state::{App, ScaleTyped, tr};
use beatwalk::signal::{
    Calibration, Converter, Extent, Millivolts, Recording, UnusableCalibration, VoltageUnit,
};
use beatwalk::words::{Language, decimal, figure, say, say_with, typed};
use leptos::prelude::*;

/// The question for the scale; open by itself where the file holds counts.
#[component]
pub fn ScaleCard() -> impl IntoView {
    let app = App::here();
    // Asked anew for each recording, and only for one without a voltage.
    let asked = Memo::new(move |_| {
        let raw = app.raw.get().filter(|raw| raw.recording.unit != VoltageUnit::Millivolt)?;
        let Recording { unit, samples, .. } = &raw.recording;
        let reach = Extent::of(samples)?;
        Some(Asked { unit: *unit, level: raw.recording.level(), reach })
    });
    let scale = move || app.work.with(|work| work.settings.calibration);
    let scaled = move || {
        scale().map(|scale| {
            let language = app.language.get();
            let places = [
                ("units", &*figure(language, scale.units_per_millivolt(), 3)),
                ("centre", &*figure(language, scale.centre(), 1)),
            ];
            view! {
                <p role="status">{say_with(language, "page.scale.done", &places)}</p>
                <button class="button" on:click=move |_| app.calibrate(None)>
                    {tr("page.scale.undo")}
                </button>
            }
        })
    };
    let card = move || {
        asked.get().map(|asked| {
            view! {
                <section class="card">
                    <h2>{tr("page.scale.title")}</h2>
                    {live(scaled)}
                    <Show when=move || scale().is_none()>
                        <details open=asked.unit == VoltageUnit::Counts>
                            <summary>{tr("page.scale.summary")}</summary>
                            <ScaleForm asked=asked />
                        </details>
                    </Show>
                </section>
            }
        })
    };
    view! { {card} }
}

/// What is known of a trace without a voltage.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Asked {
    unit: VoltageUnit,
    level: f64,
    reach: Extent,
}

/// What the class fills in.
#[derive(Clone, Copy)]
struct Filled {
    by_converter: RwSignal<bool>,
    range: RwSignal<String>,
    bits: RwSignal<Option<u32>>,
    gain: RwSignal<String>,
    units: RwSignal<String>,
    centre: RwSignal<String>,
}

impl Filled {
    /// As last time, or with what the trace itself says.
    fn at_first(asked: Asked, before: Option<ScaleTyped>, language: Language) -> Self {
        let counts = asked.unit == VoltageUnit::Counts;
        let typed = before.unwrap_or_else(|| ScaleTyped {
            by_converter: counts,
            bits: if counts { Converter::fewest_bits(asked.reach) } else { None },
            ..ScaleTyped::default()
        });
        Self {
            by_converter: RwSignal::new(typed.by_converter),
            range: RwSignal::new(typed.range),
            bits: RwSignal::new(typed.bits),
            gain: RwSignal::new(typed.gain),
            units: RwSignal::new(typed.units),
            centre: RwSignal::new(figure(language, asked.level, 3)),
        }
    }

    fn typed(self) -> ScaleTyped {
        ScaleTyped {
            by_converter: self.by_converter.get_untracked(),
            range: self.range.get_untracked(),
            bits: self.bits.get_untracked(),
            gain: self.gain.get_untracked(),
            units: self.units.get_untracked(),
        }
    }

    /// The scale so far; `None` while something is missing.
    fn scale(self) -> Option<Result<Calibration, UnusableCalibration>> {
        let number = |text: RwSignal<String>| typed(&text.read());
        let centre = number(self.centre)?;
        Some(if self.by_converter.get() {
            let range = Millivolts::new(number(self.range)? * 1000.0);
            let (bits, gain) = (self.bits.get()?, number(self.gain)?);
            Calibration::of_converter(Converter { range, bits, gain }, centre)
        } else {
            Calibration::new(number(self.units)?, centre)
        })
    }
}

#[component]
fn ScaleForm(asked: Asked) -> impl IntoView {
    let app = App::here();
    let before = app.scale_before.get_untracked();
    let as_before = before.is_some();
    let filled = Filled::at_first(asked, before, app.language.get_untracked());
    let scale = Memo::new(move |_| filled.scale());
    let told = move || {
        let language = app.language.get();
        scale.get().map(|scale| match scale {
            Ok(scale) => outcome(scale, asked.reach, language),
            Err(error) => error.said().in_words(language),
        })
    };
    let unlikely =
        move || scale.get().is_some_and(|it| it.is_ok_and(|scale| !scale.is_likely(asked.reach)));
    let submit = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        if let Some(Ok(scale)) = scale.get_untracked() {
            app.keep_scale(filled.typed());
            app.calibrate(Some(scale));
        }
    };
    let ways = move || {
        ["page.scale.by_converter", "page.scale.by_units"]
            .map(|key| say(app.language.get(), key).into_owned())
            .into()
    };
    let bits = Converter::USUAL_BITS;
    let chosen_bits = filled.bits.get_untracked().and_then(|it| bits.iter().position(|b| *b == it));
    view! {
        <form class="layout-form" on:submit=submit>
            <p class="soft">{tr("page.scale.why")}</p>
            <Show when=move || as_before>
                <p class="notice">{tr("page.scale.as_before")}</p>
            </Show>
            <Select
                label=Signal::derive(tr("page.scale.way"))
                options=untrack(ways)
                chosen=Some(usize::from(!filled.by_converter.get_untracked()))
                on_choose=Callback::new(move |way: usize| filled.by_converter.set(way == 0))
            />
            <Show
                when=move || filled.by_converter.get()
                fallback=move || {
                    view! { <NumberField label=Signal::derive(tr("page.scale.units")) text=filled.units /> }
                }
            >
                <NumberField label=Signal::derive(tr("page.scale.range")) text=filled.range />
                <Select
                    label=Signal::derive(tr("page.scale.bits"))
                    options=bits.map(|bits| bits.to_string()).into()
                    chosen=chosen_bits
                    on_choose=Callback::new(move |place: usize| filled.bits.set(bits.get(place).copied()))
                />
                <NumberField label=Signal::derive(tr("page.scale.gain")) text=filled.gain />
            </Show>
            <NumberField label=Signal::derive(tr("page.scale.centre")) text=filled.centre />
            <p role="status">{live(told)}</p>
            <Show when=unlikely>
                <p class="notice notice--caution">{tr("page.scale.unlikely")}</p>
            </Show>
            <button
                class="button button--main"
                disabled=move || scale.with(|scale| !matches!(scale, Some(Ok(_))))
            >
                {tr("page.scale.go")}
            </button>
        </form>
    }
}

/// What one millivolt is, and how far the trace reaches then.
fn outcome(scale: Calibration, reach: Extent, language: Language) -> String {
    let millivolts = |value: f32| decimal(language, scale.millivolts(value.into()).millivolts(), 2);
    say_with(
        language,
        "page.scale.outcome",
        &[
            ("units", &figure(language, scale.units_per_millivolt(), 3)),
            ("low", &millivolts(reach.low)),
            ("high", &millivolts(reach.high)),
        ],
    )
}
