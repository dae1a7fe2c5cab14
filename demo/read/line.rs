//! What is printed for a recording.

use beatwalk::analysis::{Beat, FindingKind, Intervals, Polarity, Reading, Severity};
use beatwalk::formats::{Format, NeedsRate, Note, Opened};
use beatwalk::lesson::FindingWords;
use beatwalk::signal::{Landmark, Recording, SampleIndex, SampleRate, VoltageUnit};
use beatwalk::words::Language;
use serde::Serialize;

/// A recording that was read. Times are in seconds from the first sample of the file.
#[derive(Serialize)]
pub(crate) struct Line<'a> {
    file: &'a str,
    format: Format,
    rate_hz: Option<f64>,
    samples: usize,
    signal: &'a str,
    unit: Option<&'static str>,
    warnings: Vec<String>,
    polarity: Polarity,
    beats_s: Vec<f64>,
    boundaries: Vec<Boundaries>,
    median: Intervals,
    quality: Vec<Quality>,
}

/// A file that was not read.
#[derive(Serialize)]
pub(crate) struct Refusal<'a> {
    pub(crate) file: &'a str,
    pub(crate) error: &'a str,
}

/// Where the points of a beat lie; null for one that can't be measured.
#[derive(Serialize)]
struct Boundaries {
    p_on: Option<f64>,
    p_peak: Option<f64>,
    p_off: Option<f64>,
    qrs_on: Option<f64>,
    q: Option<f64>,
    r: Option<f64>,
    s: Option<f64>,
    qrs_off: Option<f64>,
    t_on: Option<f64>,
    t_peak: Option<f64>,
    t_off: Option<f64>,
}

/// Something about the signal; no spans when it is about all of it.
#[derive(Serialize)]
struct Quality {
    kind: FindingKind,
    severity: Severity,
    spans_s: Vec<[f64; 2]>,
}

/// The clock of a part: its samples count from `first` of the file.
struct Clock {
    rate: SampleRate,
    first: usize,
}

impl Clock {
    fn seconds(&self, sample: SampleIndex) -> f64 {
        self.rate.time_of(SampleIndex::new(self.first + sample.get())).seconds()
    }

    fn boundaries(&self, beat: &Beat) -> Boundaries {
        let at = |landmark| beat.landmarks.at(landmark).map(|sample| self.seconds(sample));
        Boundaries {
            p_on: at(Landmark::POnset),
            p_peak: at(Landmark::PPeak),
            p_off: at(Landmark::PEnd),
            qrs_on: at(Landmark::QrsOnset),
            q: at(Landmark::Q),
            r: at(Landmark::R),
            s: at(Landmark::S),
            qrs_off: at(Landmark::QrsEnd),
            t_on: at(Landmark::TOnset),
            t_peak: at(Landmark::TPeak),
            t_off: at(Landmark::TEnd),
        }
    }
}

impl<'a> Line<'a> {
    /// What was found in a part of a trace that begins at sample `first` of the file.
    pub(crate) fn new(
        file: &'a str,
        opened: &Opened,
        part: &'a Recording,
        first: usize,
        reading: &Reading,
    ) -> Self {
        let clock = Clock { rate: part.rate, first };
        let mut warnings: Vec<String> = opened.notes.iter().map(Note::to_string).collect();
        let words = |finding| FindingWords::of(finding, part.rate, Language::English).sentences();
        warnings.extend(reading.findings.iter().map(words));
        let quality = reading.findings.iter().map(|finding| Quality {
            kind: finding.kind,
            severity: finding.severity,
            spans_s: finding
                .spans
                .iter()
                .map(|span| [clock.seconds(span.start()), clock.seconds(span.end())])
                .collect(),
        });
        Self {
            file,
            format: opened.format,
            rate_hz: Some(part.rate.hz()),
            samples: part.recorded_samples(),
            signal: &part.name,
            unit: match part.unit {
                VoltageUnit::Millivolt => Some("mV"),
                VoltageUnit::Counts => Some("counts"),
                VoltageUnit::Unstated => None,
            },
            warnings,
            polarity: reading.polarity,
            beats_s: reading.beats.iter().map(|beat| clock.seconds(beat.r)).collect(),
            boundaries: reading.beats.iter().map(|beat| clock.boundaries(beat)).collect(),
            median: reading.intervals,
            quality: quality.collect(),
        }
    }

    /// Values without a sampling rate: nothing can be measured.
    pub(crate) fn without_rate(file: &'a str, needs: &NeedsRate) -> Self {
        let mut warnings = vec!["without a sampling rate nothing can be measured".to_owned()];
        warnings.extend(needs.plausible_hz.map(|(low, high)| {
            format!("for a heart at 40 to 200 beats a minute it would be {low:.0} to {high:.0} Hz")
        }));
        warnings.extend(needs.notes.iter().map(Note::to_string));
        Self {
            file,
            format: needs.format,
            rate_hz: None,
            samples: needs.samples,
            signal: "",
            unit: None,
            warnings,
            polarity: Polarity::Unclear,
            beats_s: Vec::new(),
            boundaries: Vec::new(),
            median: Intervals::default(),
            quality: Vec::new(),
        }
    }
}
