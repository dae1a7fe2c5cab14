//! Numbers that carry their unit, so that seconds are never added to millivolts.
//!
//! Each type is a thin `f64`: made with `new`, read with a method named after the unit. There is no
//! `Deref` and no `From<f64>`: a bare number has to say what it is.

use serde::{Deserialize, Serialize};
use std::ops::{Add, Neg, Sub};

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $read:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(f64);

        impl $name {
            /// Wraps a number already in this unit.
            pub const fn new(value: f64) -> Self {
                Self(value)
            }

            /// The bare number, in this unit.
            pub const fn $read(self) -> f64 {
                self.0
            }

            /// The distance from zero.
            #[must_use]
            pub fn abs(self) -> Self {
                Self(self.0.abs())
            }
        }

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }
    };
}

quantity!(
    /// A stretch of time, or a moment counted from the first sample.
    Seconds,
    seconds
);
quantity!(
    /// A short stretch of time, as intervals of a cycle are given in the trade.
    Milliseconds,
    milliseconds
);
quantity!(
    /// A voltage at the skin.
    Millivolts,
    millivolts
);
quantity!(
    /// A frequency. For the sampling rate, which can't be zero, see [`super::SampleRate`].
    Hertz,
    hertz
);
quantity!(
    /// A heart rate.
    BeatsPerMinute,
    per_minute
);

impl Seconds {
    /// The same stretch in milliseconds.
    pub const fn to_milliseconds(self) -> Milliseconds {
        Milliseconds::new(self.0 * 1000.0)
    }
}

impl Milliseconds {
    /// The same stretch in seconds.
    pub const fn to_seconds(self) -> Seconds {
        Seconds::new(self.0 / 1000.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_like_is_added_to_like() {
        let later = Seconds::new(1.25) + Seconds::new(0.5);
        assert_eq!(later.to_milliseconds().milliseconds(), 1750.0);
        assert_eq!((-Millivolts::new(0.2)).abs().millivolts(), 0.2);
    }
}
