//! The drawing of the heart. It says by attributes what goes on, and `style/heart.css` shows it.

use crate::ui::drawings::{Drawing, HEART};
use crate::ui::state::tr;
use beatwalk::lesson::{MechanicalPhase, Moment, Valve};
use leptos::prelude::*;

/// The heart at a moment.
#[component]
pub fn Figure(moment: Memo<Option<Moment>>) -> impl IntoView {
    let conduction = move || moment.get()?.conduction.map(|conduction| conduction.key());
    let phase = move || moment.get()?.mechanical;
    let inlets = move || phase().map(|phase| valve(phase.inlet_valves()));
    let outlets = move || phase().map(|phase| valve(phase.outlet_valves()));
    view! {
        <div
            class="heart__picture"
            data-conduction=conduction
            data-mechanics=move || phase().map(MechanicalPhase::key)
            data-inlets=inlets
            data-outlets=outlets
        >
            <Drawing
                id="heart"
                outline=HEART
                height=230
                title=Signal::derive(tr("heart.picture"))
                shows=Signal::derive(tr("heart.shows"))
            />
        </div>
    }
}

const fn valve(valve: Valve) -> &'static str {
    match valve {
        Valve::Open => "open",
        Valve::Shut => "shut",
    }
}
