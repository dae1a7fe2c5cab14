//! What can be so wrong with an EDF or BDF file, or a signal of it, that it can't be read.

use crate::words::{Phrase, errors_as_said, phrase};

/// Why an EDF or BDF file can't be read.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum EdfError {
    /// The header makes no sense.
    Header {
        /// The file.
        file: String,
        /// What is wrong.
        fault: EdfFault,
    },
    /// There is not one whole record.
    NoRecords {
        /// The file.
        file: String,
    },
    /// There are annotations, or nothing.
    OnlyAnnotations {
        /// The file.
        file: String,
    },
    /// None of the signals can be used.
    NoSignals {
        /// The file.
        file: String,
        /// Why not, for each signal.
        reasons: Vec<SignalFault>,
    },
}

/// What is wrong with a header.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum EdfFault {
    /// It does not begin as EDF or BDF do.
    OtherKind,
    /// It is shorter than it says.
    Short {
        /// How long it should be.
        expected: usize,
        /// How long the whole file is.
        found: usize,
    },
    /// A field of the file as a whole is not a number that makes sense.
    Field {
        /// Which field.
        field: EdfField,
        /// What stands there.
        found: String,
        /// Where, counted from 0.
        offset: usize,
    },
}

/// A field of the header that concerns the whole file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EdfField {
    /// How many signals there are.
    Signals,
    /// How many data records there are.
    Records,
    /// How long a data record lasts.
    RecordDuration,
    /// How many samples of a signal a data record holds.
    RecordSamples,
}

/// Why a signal can't be used.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum SignalFault {
    /// Nothing says how high a step is.
    NoScale {
        /// The signal.
        signal: String,
        /// The lowest and highest step, as they stand in the file.
        digital: String,
        /// The lowest and highest value, as they stand in the file.
        physical: String,
        /// The unit.
        unit: String,
    },
    /// Nothing says how fast its samples follow each other.
    NoRate {
        /// The signal.
        signal: String,
        /// Samples to a record.
        samples: usize,
        /// The duration of a record.
        seconds: f64,
    },
    /// It has no samples.
    Empty {
        /// The signal.
        signal: String,
    },
}

impl EdfError {
    /// What is wrong, and where.
    pub fn said(&self) -> Phrase {
        match self {
            Self::Header { file, fault } => {
                let fault = fault.said();
                phrase!("faults.file.header", file, fault)
            }
            Self::NoRecords { file } => phrase!("faults.edf.no_records", file),
            Self::OnlyAnnotations { file } => phrase!("faults.edf.only_annotations", file),
            Self::NoSignals { file, reasons } => {
                let reasons: Vec<Phrase> = reasons.iter().map(SignalFault::said).collect();
                let reasons = Phrase::sentences(&reasons);
                phrase!("faults.edf.no_signals", file, reasons)
            }
        }
    }

    /// What the student can do now, as one sentence.
    pub fn remedy(&self) -> Phrase {
        match self {
            Self::Header { .. } | Self::NoRecords { .. } => {
                phrase!("faults.remedy.edf.export_again")
            }
            Self::OnlyAnnotations { .. } => phrase!("faults.remedy.edf.with_signals"),
            Self::NoSignals { .. } => phrase!("faults.remedy.edf.with_scale"),
        }
    }
}

impl EdfFault {
    fn said(&self) -> Phrase {
        match self {
            Self::OtherKind => phrase!("faults.edf.other_kind"),
            Self::Short { expected, found } => phrase!("faults.edf.short", expected, found),
            Self::Field { field, found, offset } => {
                let field = field.said();
                phrase!("faults.edf.field", field, found, offset)
            }
        }
    }
}

impl EdfField {
    fn said(self) -> Phrase {
        match self {
            Self::Signals => phrase!("faults.edf.field_name.signals"),
            Self::Records => phrase!("faults.edf.field_name.records"),
            Self::RecordDuration => phrase!("faults.edf.field_name.record_duration"),
            Self::RecordSamples => phrase!("faults.edf.field_name.record_samples"),
        }
    }
}

impl SignalFault {
    pub(super) fn said(&self) -> Phrase {
        match self {
            Self::NoScale { signal, digital, physical, unit } => {
                phrase!("faults.edf.no_scale", signal, digital, physical, unit)
            }
            Self::NoRate { signal, samples, seconds } => {
                let seconds = Phrase::exact(*seconds);
                phrase!("faults.edf.no_rate", signal, samples, seconds)
            }
            Self::Empty { signal } => phrase!("faults.edf.empty", signal),
        }
    }
}

errors_as_said!(EdfError, EdfFault, SignalFault);
