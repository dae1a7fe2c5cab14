//! Invented recordings: a heart, a muscle and a poor contact that nobody has, with known answers.
//!
//! A [`Pace`] says when the beats come, a [`Heart`] what each looks like, [`trace`] integrates the
//! model and [`Disturbance`]s spoil it as a classroom does. [`Demo`] is the invented class that the
//! app offers to open. Everything is drawn from a seed: the same seed gives the same samples.

mod converter;
mod demo;
mod disturbance;
mod dynamics;
mod heart;
mod muscle;
mod pace;
mod random;
mod reflex;
mod spectrum;
mod table;

pub use converter::Converter;
pub use demo::Demo;
pub use disturbance::Disturbance;
pub use dynamics::{Breath, trace};
pub use heart::{Bell, Heart, Wave};
pub use pace::{Base, Beat, Breathing, Pace};
pub use random::Random;
pub use reflex::{Reflex, Tap};
pub use spectrum::RrSpectrum;
