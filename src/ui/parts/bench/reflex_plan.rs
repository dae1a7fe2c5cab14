//! How reflexes are looked for: where the taps are, the rule for an answer, the length of the path.

use super::channel_choice::ChannelChoice;
use crate::ui::bench::Bench;
use crate::ui::parts::number_field::NumberSetting;
use crate::ui::reactive::Views;
use crate::ui::state::tr;
use beatwalk::inquiry::{ReflexPlan, Role, TapPlan};
use beatwalk::signal::Milliseconds;
use leptos::prelude::*;

/// How taps and answers are looked for.
#[derive(Clone, Copy)]
struct Setting {
    label: &'static str,
    now: fn(&ReflexPlan) -> f64,
    put: fn(&mut ReflexPlan, f64),
}

const SETTINGS: [Setting; 4] = [
    Setting {
        label: "reflex.settings.deviations",
        now: |plan| plan.settings.deviations,
        put: |plan, value| plan.settings.deviations = value,
    },
    Setting {
        label: "reflex.settings.hold",
        now: |plan| plan.settings.hold.milliseconds(),
        put: |plan, value| plan.settings.hold = Milliseconds::new(value),
    },
    Setting {
        label: "reflex.settings.skip",
        now: |plan| plan.settings.skip.milliseconds(),
        put: |plan, value| plan.settings.skip = Milliseconds::new(value),
    },
    Setting {
        label: "reflex.settings.until",
        now: |plan| plan.settings.until.milliseconds(),
        put: |plan, value| plan.settings.until = Milliseconds::new(value),
    },
];

/// How taps are found, the rule for an answer, and the length of the path.
#[component]
pub fn ReflexParts() -> impl IntoView {
    let bench = Bench::here();
    let plan = Memo::new(move |_| {
        bench.sheet.with(|sheet| sheet.as_ref().map(|sheet| sheet.reflex)).unwrap_or_default()
    });
    let fixed = [
        ("bench.taps.as_offered", TapPlan::AsOffered),
        ("bench.taps.marks", TapPlan::Marks),
        ("bench.taps.spike", TapPlan::Spike),
    ];
    let chosen = move || match plan.get().taps {
        TapPlan::AsOffered => 0,
        TapPlan::Marks => 1,
        TapPlan::Spike => 2,
        TapPlan::Channel(place) => 3 + place,
    };
    let choose = Callback::new(move |place: usize| {
        let taps = fixed
            .get(place)
            .map_or_else(|| TapPlan::Channel(place - fixed.len()), |(_, taps)| *taps);
        bench.change(|sheet| sheet.reflex.taps = taps);
    });
    let field = move |setting: Setting| {
        let put = move |value: Option<f64>| {
            if let Some(value) = value {
                bench.change(|sheet| (setting.put)(&mut sheet.reflex, value));
            }
        };
        view! {
            <NumberSetting
                label=Signal::derive(tr(setting.label))
                value=Some((setting.now)(&plan.get_untracked()))
                decimals=1
                on_number=Callback::new(put)
            />
        }
    };
    let put_path = move |metres| bench.change(|sheet| sheet.reflex.path = metres);
    view! {
        <section class="card no-print">
            <h3>{tr("bench.taps.title")}</h3>
            <div class="button-row button-row--fields">
                <ChannelChoice
                    label="bench.taps.label"
                    role=Role::Plain
                    fixed=fixed.map(|(key, _)| key).to_vec()
                    chosen=Signal::derive(chosen)
                    on_choose=choose
                />
                {SETTINGS.map(field).views()}
                <NumberSetting
                    label=Signal::derive(tr("bench.taps.path"))
                    value=plan.with_untracked(|plan| plan.path)
                    decimals=2
                    on_number=Callback::new(put_path)
                />
            </div>
            <p class="soft">{tr("bench.taps.by_hand")}</p>
        </section>
    }
}
