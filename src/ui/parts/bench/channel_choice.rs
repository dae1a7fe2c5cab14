//! A list of ways to find something in a recording, the other traces of its file among them.

use crate::ui::bench::Bench;
use crate::ui::parts::select::Select;
use crate::ui::reactive::live;
use crate::ui::state::{App, tr};
use beatwalk::inquiry::Role;
use beatwalk::words::{say, say_with};
use leptos::prelude::*;

/// First the fixed ways, then one for each other trace of the recording in a place.
#[component]
pub fn ChannelChoice(
    /// The message that says what is chosen.
    label: &'static str,
    /// Whose other traces are offered.
    role: Role,
    /// The messages of the fixed ways.
    fixed: Vec<&'static str>,
    /// The place of the way that is used now.
    chosen: Signal<usize>,
    /// Hears the place of another.
    on_choose: Callback<usize>,
) -> impl IntoView {
    let app = App::here();
    let bench = Bench::here();
    live(move || {
        let language = app.language.get();
        let others = bench.seat(role).map(|seat| {
            let names = seat.others().into_iter().map(|other| other.name.clone());
            names.collect::<Vec<String>>()
        });
        let others = others.unwrap_or_default();
        let channel = |name: &String| say_with(language, "bench.by_channel", &[("name", name)]);
        let ways = fixed.iter().map(|key| say(language, key).into_owned());
        let options: Vec<String> = ways.chain(others.iter().map(channel)).collect();
        view! {
            <Select
                label=Signal::derive(tr(label))
                options=options
                chosen=Some(chosen.get())
                on_choose=on_choose
            />
        }
    })
}
