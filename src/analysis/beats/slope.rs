//! How steep a trace is at each moment, where a QRS complex stands out and P and T do not.
//!
//! The trace is band-passed, differentiated over 10 ms, rectified and averaged over about one QRS
//! complex: Hamilton 2002 (Computers in Cardiology 29:101), after Pan & Tompkins 1985. Rectified, not
//! squared: a beat of half the height then stays half as steep, and small beats survive beside large
//! ones. The publication has 8 … 16 Hz and 80 ms; a little higher and longer kept more of the small
//! beats that come between broad ones, in records of both kinds.

use crate::analysis::filter::{Filter, moving_average};
use crate::signal::{Hertz, SampleRate, SampleSpan, Seconds};

/// Where QRS energy stands highest over P and T (below) and muscle (above).
const LOW: Hertz = Hertz::new(9.0);
const HIGH: Hertz = Hertz::new(22.0);

/// Over how long the slope is taken: two samples of the 200 Hz the publication uses.
const STEP: Seconds = Seconds::new(0.010);

/// Over how long it is averaged.
const WIDTH: Seconds = Seconds::new(0.090);

/// The steepness at each sample, in units of the trace; 0 where nothing usable was recorded.
pub(crate) fn steepness(samples: &[f32], rate: SampleRate, unusable: &[SampleSpan]) -> Vec<f32> {
    let band = Filter::band_pass(rate, LOW, HIGH).apply(samples);
    let reach = (rate.count(STEP) / 2).max(1);
    let mut slope: Vec<f32> = (0..band.len())
        .map(|i| {
            let before = band[i.saturating_sub(reach)];
            let after = band[(i + reach).min(band.len() - 1)];
            (after - before).abs()
        })
        .collect();
    for span in unusable {
        if let Some(stretch) = slope.get_mut(span.range()) {
            stretch.fill(0.0);
        }
    }
    drop(band);
    moving_average(&slope, rate.count(WIDTH) / 2)
}
