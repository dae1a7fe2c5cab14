//! The invented class: five recordings that nobody made, each with something to find.
//!
//! Quillmere Bay School, class 10 K and its students do not exist. The recordings are made anew
//! from their seeds whenever they are asked for; `demo/recordings/` holds the same files, and a
//! test compares the two.

use super::converter::Converter;
use super::disturbance::Disturbance;
use super::dynamics::{Breath, trace};
use super::heart::Heart;
use super::pace::{Base, Breathing, Pace};
use super::random::Random;
use super::reflex::Reflex;
use super::spectrum::RrSpectrum;
use super::table::table;
use crate::signal::{
    BeatsPerMinute, Hertz, Mark, MarkKind, Millivolts, Recording, SampleRate, Seconds,
    UnusableRate, VoltageUnit,
};

/// One recording of the invented class.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Demo {
    /// Sitting still, good contact: the one to begin with.
    Resting,
    /// The same student, seated right after four flights of stairs: the rate falls.
    AfterStairs,
    /// A loose lead beside a mains adapter, tense arms, a wandering baseline.
    Noisy,
    /// The electrodes of the two arms are swapped.
    SwappedArms,
    /// Muscle, not heart: taps below the knee cap, with the hammer's contact in a column.
    KneeReflex,
}

impl Demo {
    /// All of them, in the order in which a class would open them.
    pub const ALL: [Self; 5] =
        [Self::Resting, Self::AfterStairs, Self::Noisy, Self::SwappedArms, Self::KneeReflex];

    /// The name in message keys: `demo.<key>.name` and `demo.<key>.about`.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Resting => "resting",
            Self::AfterStairs => "after_stairs",
            Self::Noisy => "noisy",
            Self::SwappedArms => "swapped_arms",
            Self::KneeReflex => "knee_reflex",
        }
    }

    /// The name of the file, with the invented student's code.
    pub const fn file_name(self) -> &'static str {
        match self {
            Self::Resting => "quillmere-10k-q03-resting.csv",
            Self::AfterStairs => "quillmere-10k-q03-after-stairs.csv",
            Self::Noisy => "quillmere-10k-q11-noisy.csv",
            Self::SwappedArms => "quillmere-10k-q07-swapped-arms.csv",
            Self::KneeReflex => "quillmere-10k-q14-knee-reflex.csv",
        }
    }

    /// The samples, with a mark at each tap of the hammer.
    ///
    /// # Errors
    /// Never in practice: the sampling rates are constants above 0.
    pub fn recording(self) -> Result<Recording, UnusableRate> {
        let random = &mut Random::new(0x1000 + self as u64);
        match self {
            Self::Resting => heart(Self::rest(64.0), 30.0, &[], random),
            Self::AfterStairs => {
                let base = Base::Recovery {
                    resting: BeatsPerMinute::new(76.0),
                    rise: BeatsPerMinute::new(62.0),
                    time_constant: Seconds::new(38.0),
                };
                let pace = Pace { base, ..Self::rest(64.0) };
                let panting = Disturbance::Wander { height: Millivolts::new(0.12) };
                heart(pace, 180.0, &[panting], random)
            }
            Self::Noisy => {
                let spoiled = [
                    Disturbance::Hum { mains: Hertz::new(50.0), height: Millivolts::new(0.16) },
                    Disturbance::Wander { height: Millivolts::new(0.7) },
                    Disturbance::Tremor { spread: Millivolts::new(0.035) },
                ];
                heart(Self::rest(74.0), 30.0, &spoiled, random)
            }
            Self::SwappedArms => heart(Self::rest(69.0), 30.0, &[Disturbance::SwappedArms], random),
            Self::KneeReflex => knee(random),
        }
    }

    /// The file a class would have: what [`Self::recording`] gives, as text.
    ///
    /// # Errors
    /// As [`Self::recording`].
    pub fn csv(self) -> Result<String, UnusableRate> {
        let marked = (self == Self::KneeReflex).then_some("tap");
        Ok(table(&self.recording()?, "Invented recording: no such school class or student", marked))
    }

    /// A student at rest who breathes 15 times a minute.
    fn rest(rate: f64) -> Pace {
        let spectrum = RrSpectrum::default();
        Pace {
            wavering: Some((spectrum, Seconds::new(0.022))),
            breathing: Some(Breathing { frequency: spectrum.high, depth: Seconds::new(0.02) }),
            ..Pace::steady(BeatsPerMinute::new(rate))
        }
    }
}

fn heart(
    pace: Pace,
    seconds: f64,
    spoiled_by: &[Disturbance],
    random: &mut Random,
) -> Result<Recording, UnusableRate> {
    let rate = SampleRate::new(250.0)?;
    let samples = rate.count(Seconds::new(seconds));
    let beats = pace.beats(Seconds::new(seconds), random);
    let breath = Breath { frequency: Hertz::new(0.25), height: 0.06 };
    let mut voltage = trace(&Heart::VOLUNTEER, &beats, breath, rate, samples);
    let amplifier = Disturbance::Tremor { spread: Millivolts::new(0.006) };
    for disturbance in spoiled_by.iter().chain([&amplifier]) {
        disturbance.apply(&mut voltage, rate, random);
    }
    Ok(recorded("lead I", rate, voltage, Vec::new()))
}

fn knee(random: &mut Random) -> Result<Recording, UnusableRate> {
    let rate = SampleRate::new(2000.0)?;
    let taps = [0.6, 1.45, 2.4, 3.3].map(Seconds::new);
    let (voltage, answered) =
        Reflex::KNEE.record(&taps, rate, rate.count(Seconds::new(4.0)), random);
    let marks = answered
        .iter()
        .map(|tap| Mark { at: rate.nearest(tap.at), kind: MarkKind::Note, text: "tap".to_owned() })
        .collect();
    Ok(recorded("EMG rectus femoris", rate, voltage, marks))
}

fn recorded(name: &str, rate: SampleRate, mut voltage: Vec<f32>, marks: Vec<Mark>) -> Recording {
    Converter::CLASSROOM.convert(&mut voltage);
    Recording {
        name: name.to_owned(),
        rate,
        unit: VoltageUnit::Millivolt,
        samples: voltage.into(),
        holes: Vec::new(),
        marks,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::{Language, say};

    #[test]
    fn every_recording_has_a_name_and_says_that_it_is_invented() {
        for demo in Demo::ALL {
            for part in ["name", "about"] {
                let key = format!("demo.{}.{part}", demo.key());
                assert_ne!(say(Language::English, &key), key, "no message under {key}");
            }
            assert!(demo.csv().unwrap().starts_with("# Invented"));
        }
    }

    #[test]
    fn a_recording_comes_out_the_same_every_time() {
        for demo in Demo::ALL {
            assert_eq!(demo.csv().unwrap(), demo.csv().unwrap());
        }
    }

    #[test]
    fn swapped_arms_point_down_and_the_others_up() {
        let reach = |demo: Demo| {
            let samples = demo.recording().unwrap().samples;
            let high = samples.iter().copied().fold(f32::MIN, f32::max);
            let low = samples.iter().copied().fold(f32::MAX, f32::min);
            high + low
        };
        assert!(reach(Demo::SwappedArms) < -0.3);
        assert!(reach(Demo::Resting) > 0.3 && reach(Demo::AfterStairs) > 0.3);
    }
}
