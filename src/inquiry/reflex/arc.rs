//! From latency to speed: how fast the signal ran round the reflex arc, and what that leaves out.
//!
//! The path is there and back: speed = 2·d/(latency - fixed delays). The delays are those at the spindle
//! (about 1.0 ms), at the one synapse in the cord (0.5 to 1 ms, 0.8 taken) and at the nerve's end in the muscle
//! (about 0.8 ms); all from memory. Two sites of one person cancel them: 2·(d₂ - d₁)/(t₂ - t₁). The
//! uncertainty (k = 2) is that of the latency and of the tape measure, by the first derivative (JCGM
//! 100:2008, 5.1.2); the delays and what is left out are not in it.

use crate::inquiry::stats::Estimate;
use crate::signal::Milliseconds;
use crate::words::{Phrase, phrase};

/// Times that do not depend on the length of the path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FixedDelays {
    /// From the stretch to the first impulse of the spindle.
    pub spindle: Milliseconds,
    /// Across the synapse in the cord.
    pub synapse: Milliseconds,
    /// From the nerve's end to the muscle's own impulse.
    pub junction: Milliseconds,
}

/// A path measured along the body, one way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PathLength {
    /// From the muscle to the cord, m.
    pub metres: f64,
    /// How far that may be off (k = 2), m.
    pub uncertainty: f64,
}

/// Why there is no speed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoSpeed {
    /// The path is no length of a body: 0.05 to 2 m.
    Path,
    /// The latency is no longer than the delays, or the further site answered no later.
    Latency,
}

/// What the arithmetic leaves out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeftOutOfArc {
    /// The way to the cord and the way back differ in speed; this is one number for both.
    TwoSpeeds,
    /// The tape on the skin is not the nerve.
    Tape,
    /// The stretch has to run from the tendon to the spindles.
    Stretch,
    /// A sensor may notice the tap late.
    Trigger,
    /// Cold legs conduct more slowly.
    Temperature,
}

impl LeftOutOfArc {
    /// All of it.
    pub const ALL: [Self; 5] =
        [Self::TwoSpeeds, Self::Tape, Self::Stretch, Self::Trigger, Self::Temperature];

    /// In a sentence.
    pub const fn said(self) -> Phrase {
        Phrase::message(match self {
            Self::TwoSpeeds => "reflex.arc.left_out.two_speeds",
            Self::Tape => "reflex.arc.left_out.tape",
            Self::Stretch => "reflex.arc.left_out.stretch",
            Self::Trigger => "reflex.arc.left_out.trigger",
            Self::Temperature => "reflex.arc.left_out.temperature",
        })
    }
}

impl NoSpeed {
    /// What is wrong, and what to do.
    pub fn said(self) -> Phrase {
        match self {
            Self::Path => phrase!("reflex.arc.no_speed.path"),
            Self::Latency => phrase!("reflex.arc.no_speed.latency"),
        }
    }
}

impl Default for FixedDelays {
    fn default() -> Self {
        let [spindle, synapse, junction] = [1.0, 0.8, 0.8].map(Milliseconds::new);
        Self { spindle, synapse, junction }
    }
}

impl FixedDelays {
    /// All together.
    pub fn sum(self) -> Milliseconds {
        self.spindle + self.synapse + self.junction
    }

    /// The latency that a path and a speed each way give: d/v + delays + d/v.
    pub fn latency(self, path: PathLength, inward: f64, outward: f64) -> Milliseconds {
        let run = 1000.0 * path.metres * (1.0 / inward + 1.0 / outward);
        self.sum() + Milliseconds::new(run)
    }

    /// The speed round the arc, m/s, of a latency in ms with its uncertainty.
    ///
    /// # Errors
    /// [`NoSpeed`] when path or latency make none.
    pub fn speed(self, path: PathLength, latency: Estimate) -> Result<Estimate, NoSpeed> {
        let metres = path.checked()?;
        let run = latency.value - self.sum().milliseconds();
        if !(run > 0.0 && run.is_finite()) {
            return Err(NoSpeed::Latency);
        }
        let speed = 2000.0 * metres / run;
        let off = (latency.half_width() / run).hypot(path.uncertainty / metres);
        Ok(Estimate::around(speed, speed * off))
    }
}

impl PathLength {
    fn checked(self) -> Result<f64, NoSpeed> {
        let is_length = (0.05..=2.0).contains(&self.metres) && self.uncertainty >= 0.0;
        if is_length { Ok(self.metres) } else { Err(NoSpeed::Path) }
    }
}

/// The speed, m/s, by two sites of one person, in which the fixed delays cancel; each is a path and a latency
/// in ms, the nearer first.
///
/// # Errors
/// [`NoSpeed`] when the further site has no longer path or answers no later.
pub fn two_site_speed(
    (near_path, near): (PathLength, Estimate),
    (far_path, far): (PathLength, Estimate),
) -> Result<Estimate, NoSpeed> {
    let metres = far_path.checked()? - near_path.checked()?;
    let later = far.value - near.value;
    if metres <= 0.0 {
        return Err(NoSpeed::Path);
    }
    if !(later > 0.0 && later.is_finite()) {
        return Err(NoSpeed::Latency);
    }
    let speed = 2000.0 * metres / later;
    let off = (near.half_width().hypot(far.half_width()) / later)
        .hypot(near_path.uncertainty.hypot(far_path.uncertainty) / metres);
    Ok(Estimate::around(speed, speed * off))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn path(metres: f64) -> PathLength {
        PathLength { metres, uncertainty: 0.0 }
    }

    #[test]
    fn the_worked_examples() {
        // `reflex-01` to `reflex-04`.
        let delays = FixedDelays::default();
        for (metres, right) in [(0.45, 18.2818), (0.85, 32.2212)] {
            let found = delays.latency(path(metres), 60.0, 55.0).milliseconds();
            assert!((found - right).abs() < 1e-3, "{found}");
        }
        let two = FixedDelays { spindle: Milliseconds::new(0.4), ..delays };
        let speed = two.speed(path(0.5), Estimate::around(19.0, 1.0)).unwrap();
        assert!((speed.value - 58.8235).abs() < 1e-3);
        // 1 of 17 ms: 5.9 %.
        assert!((speed.half_width() - 58.8235 / 17.0).abs() < 1e-3);
        let at = |metres, ms| (path(metres), Estimate::around(ms, 0.0));
        let speed = two_site_speed(at(0.45, 17.35), at(0.85, 30.97)).unwrap();
        assert!((speed.value - 58.7372).abs() < 1e-3);
    }

    #[test]
    fn what_makes_no_speed_is_refused() {
        let delays = FixedDelays::default();
        let latency = |ms| Estimate::around(ms, 0.1);
        for metres in [0.0, -1.0, f64::NAN, 9.0] {
            assert_eq!(delays.speed(path(metres), latency(18.0)), Err(NoSpeed::Path));
        }
        for ms in [2.6, -4.0, f64::NAN] {
            assert_eq!(delays.speed(path(0.5), latency(ms)), Err(NoSpeed::Latency));
        }
        let (near, far) = ((path(0.5), latency(18.0)), (path(0.8), latency(17.0)));
        assert_eq!(two_site_speed(near, far), Err(NoSpeed::Latency));
        assert_eq!(two_site_speed(far, near), Err(NoSpeed::Path));
    }
}
