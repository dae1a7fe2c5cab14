//! The list of quantities that conditions can be compared by.

use crate::ui::parts::select::Select;
use crate::ui::reactive::live;
use crate::ui::state::{App, tr};
use beatwalk::inquiry::Measured;
use leptos::prelude::*;

/// Which quantity is compared.
#[component]
pub fn QuantityChoice(
    /// What there is to choose from.
    quantities: Vec<Measured>,
    /// The one that is compared now.
    chosen: Signal<Measured>,
    /// Hears another.
    on_choose: Callback<Measured>,
) -> impl IntoView {
    let app = App::here();
    live(move || {
        let language = app.language.get();
        let name = |one: &Measured| format!("{} ({})", one.name(language), one.unit());
        let options = quantities.iter().map(name).collect();
        let place = quantities.iter().position(|one| *one == chosen.get());
        let quantities = quantities.clone();
        let choose = Callback::new(move |place: usize| {
            quantities.get(place).into_iter().for_each(|one| on_choose.run(*one));
        });
        view! {
            <Select
                label=Signal::derive(tr("class.quantity"))
                options=options
                chosen=place
                on_choose=choose
            />
        }
    })
}
