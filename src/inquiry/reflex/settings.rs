//! Where the baseline, the answer and the line between them are looked for; all shown, all adjustable.
//!
//! The rule is of the family of Hodges and Bui 1996 (EEG Clin Neurophysiol 101:511; details from memory): the
//! rectified EMG stays above the mean of the baseline plus k standard deviations for a hold time. They tried k
//! of 1 to 3 and holds of 10 ms and more for voluntary contractions. A reflex burst may last 11 ms
//! only (ankle 11.05 ± 1.08 ms, Kim 1997), so a hold of 3 to 5 ms is taken for one (common practice).

use crate::signal::{Milliseconds, SampleRate};
use crate::words::{Phrase, errors_as_said, phrase};
use serde::{Deserialize, Serialize};

/// How an answer to a tap is looked for. Times count from the tap.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ReflexSettings {
    /// How long before the tap the baseline begins.
    pub baseline: Milliseconds,
    /// How long before the tap it ends: a hammer may touch before it is noticed.
    pub guard: Milliseconds,
    /// How many standard deviations above the mean of the baseline the line lies.
    pub deviations: f64,
    /// How long the EMG has to stay above the line.
    pub hold: Milliseconds,
    /// Dips below the line no longer than this are passed over: between its phases a burst goes through zero.
    pub dip: Milliseconds,
    /// So much after the tap is skipped: the jolt of the hammer shows there.
    pub skip: Milliseconds,
    /// Until when an answer may begin.
    pub until: Milliseconds,
}

/// A setting that can't be used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum UnusableReflexSettings {
    /// The baseline is shorter than 20 ms, longer than 2 s, or its guard is no time.
    Baseline,
    /// k lies outside 1 to 20.
    Deviations,
    /// The hold lies outside 1 to 100 ms, or the dip outside 0 to the hold or 20 ms.
    Hold,
    /// The window for the answer is empty or ends after 2 s.
    Window,
    /// So few samples a second that a hold of the shortest burst can't be seen.
    SlowRate(u32),
}

/// The fewest samples a second (common practice: better 1000 and more).
const SLOWEST: f64 = 500.0;
/// Below this a millisecond is less than a sample, which is worth a remark.
const GOOD: f64 = 1000.0;

impl ReflexSettings {
    /// For a stretch reflex of the leg: adults have 17.35 ± 1.56 ms at the knee and 30.97 ± 2.99 ms at the
    /// ankle (Chon 1996), in a class 14 to 25 and 26 to 40 ms; nothing before about 60 ms can be meant.
    pub const REFLEX: Self = Self {
        baseline: Milliseconds::new(105.0),
        guard: Milliseconds::new(5.0),
        deviations: 3.0,
        hold: Milliseconds::new(3.0),
        dip: Milliseconds::new(1.5),
        skip: Milliseconds::new(10.0),
        until: Milliseconds::new(60.0),
    };

    /// For a voluntary answer to a signal, by the same rule: to light about 190 ms, to sound about 160 ms until
    /// something is pressed (teaching texts).
    pub const VOLUNTARY: Self = Self {
        hold: Milliseconds::new(10.0),
        dip: Milliseconds::new(5.0),
        skip: Milliseconds::new(60.0),
        until: Milliseconds::new(600.0),
        ..Self::REFLEX
    };

    /// Whether an answer can be looked for with these numbers at a rate.
    ///
    /// # Errors
    /// [`UnusableReflexSettings`] names the first number that makes no sense.
    pub fn check(&self, rate: SampleRate) -> Result<(), UnusableReflexSettings> {
        let Self { baseline, guard, deviations, hold, dip, skip, until } = *self;
        let [baseline, guard, hold, dip, skip, until] =
            [baseline, guard, hold, dip, skip, until].map(Milliseconds::milliseconds);
        // Written so that what is not a number is refused.
        if !(guard >= 0.0 && baseline - guard >= 20.0 && baseline <= 2000.0) {
            return Err(UnusableReflexSettings::Baseline);
        }
        if !(1.0..=20.0).contains(&deviations) {
            return Err(UnusableReflexSettings::Deviations);
        }
        if !((1.0..=100.0).contains(&hold) && (0.0..=hold.min(20.0)).contains(&dip)) {
            return Err(UnusableReflexSettings::Hold);
        }
        if !(skip >= 0.0 && until - skip >= hold && until <= 2000.0) {
            return Err(UnusableReflexSettings::Window);
        }
        if rate.hz() < SLOWEST {
            return Err(UnusableReflexSettings::SlowRate(rate.hz() as u32));
        }
        Ok(())
    }

    /// Whether latencies at a rate are coarse: a sample is more than a millisecond.
    pub fn is_coarse(rate: SampleRate) -> bool {
        rate.hz() < GOOD
    }
}

impl UnusableReflexSettings {
    /// What is wrong, and what to do.
    pub fn said(self) -> Phrase {
        match self {
            Self::Baseline => phrase!("reflex.settings.unusable.baseline"),
            Self::Deviations => phrase!("reflex.settings.unusable.deviations"),
            Self::Hold => phrase!("reflex.settings.unusable.hold"),
            Self::Window => phrase!("reflex.settings.unusable.window"),
            Self::SlowRate(hz) => phrase!("reflex.settings.unusable.slow_rate", hz),
        }
    }
}

errors_as_said!(UnusableReflexSettings);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_presets_are_usable_and_nonsense_is_not() {
        let rate = SampleRate::new(2000.0).unwrap();
        let usual = ReflexSettings::REFLEX;
        assert_eq!(usual.check(rate), Ok(()));
        assert_eq!(ReflexSettings::VOLUNTARY.check(rate), Ok(()));
        let ms = Milliseconds::new;
        for (settings, wrong) in [
            (ReflexSettings { baseline: ms(20.0), ..usual }, UnusableReflexSettings::Baseline),
            (ReflexSettings { guard: ms(f64::NAN), ..usual }, UnusableReflexSettings::Baseline),
            (ReflexSettings { deviations: 0.5, ..usual }, UnusableReflexSettings::Deviations),
            (ReflexSettings { hold: ms(0.0), ..usual }, UnusableReflexSettings::Hold),
            (ReflexSettings { dip: ms(9.0), ..usual }, UnusableReflexSettings::Hold),
            (ReflexSettings { skip: ms(59.0), ..usual }, UnusableReflexSettings::Window),
            (ReflexSettings { until: ms(f64::INFINITY), ..usual }, UnusableReflexSettings::Window),
        ] {
            assert_eq!(settings.check(rate), Err(wrong), "{settings:?}");
        }
        let slow = SampleRate::new(250.0).unwrap();
        assert_eq!(usual.check(slow), Err(UnusableReflexSettings::SlowRate(250)));
        assert!(ReflexSettings::is_coarse(SampleRate::new(999.0).unwrap()));
    }
}
