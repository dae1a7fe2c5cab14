//! QT corrected for rate. All four formulas agree at 60 beats a minute.
//!
//! Bazett 1920, Heart 7:353; Fridericia 1920, Acta Med Scand 53:469; Sagie 1992 (Framingham),
//! Am J Cardiol 70:797; Hodges 1983, J Am Coll Cardiol 1:694. RR goes in seconds, QT in
//! milliseconds: the commonest slip is to mix them.

use crate::signal::{Milliseconds, Seconds};
use serde::{Deserialize, Serialize};

/// Whose formula.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum QtCorrection {
    /// QT / √RR. Over-corrects at fast rates, under-corrects at slow ones.
    Bazett,
    /// QT / ∛RR. The same faults the other way round, and smaller.
    Fridericia,
    /// QT + 154 (1 - RR). A straight line through resting adults: unsafe far from 60 a minute.
    Framingham,
    /// QT + 1.75 (rate - 60). A straight line in the rate: too long at fast rates.
    Hodges,
}

impl QtCorrection {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Bazett, Self::Fridericia, Self::Framingham, Self::Hodges];

    /// How many ms the corrected QT moves for each ms of QT and for each ms of RR: the sensitivity
    /// coefficients of JCGM 100:2008, 5.1.3. Both intervals are above zero.
    pub fn sensitivities(self, qt: Milliseconds, rr: Seconds) -> (f64, f64) {
        let (qt, rr) = (qt.milliseconds(), rr.seconds());
        let (by_qt, by_rr_in_seconds) = match self {
            Self::Bazett => (rr.powf(-0.5), -qt / 2.0 * rr.powf(-1.5)),
            Self::Fridericia => (rr.cbrt().recip(), -qt / 3.0 * rr.powf(-4.0 / 3.0)),
            Self::Framingham => (1.0, -154.0),
            Self::Hodges => (1.0, -1.75 * 60.0 / rr.powi(2)),
        };
        (by_qt, by_rr_in_seconds / 1000.0)
    }
}

/// QT as it would be at 60 beats a minute; `None` unless both intervals are above zero.
pub fn corrected_qt(by: QtCorrection, qt: Milliseconds, rr: Seconds) -> Option<Milliseconds> {
    let (qt, rr) = (qt.milliseconds(), rr.seconds());
    if !(qt > 0.0 && rr > 0.0) {
        return None;
    }
    let corrected = match by {
        QtCorrection::Bazett => qt / rr.sqrt(),
        QtCorrection::Fridericia => qt / rr.cbrt(),
        QtCorrection::Framingham => qt + 154.0 * (1.0 - rr),
        QtCorrection::Hodges => qt + 1.75 * (60.0 / rr - 60.0),
    };
    Some(Milliseconds::new(corrected))
}
