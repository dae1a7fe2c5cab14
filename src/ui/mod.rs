//! The page: shows what the core found and sends the student's wishes to it. It decides nothing.

mod app;
mod bench;
mod browser;
mod class;
mod correcting;
mod desk;
mod drawings;
mod hand_ins;
mod homework;
mod keep;
mod marking;
mod opening;
mod paper;
mod parts;
mod presenting;
mod reactive;
mod rescue;
mod screens;
mod setting;
mod state;
mod taking;

/// Starts the page.
pub fn start() {
    rescue::watch();
    if rescue::is_wanted() { rescue::start() } else { app::start() }
}
