//! What a header says about one signal: its file, how it is packed, its scale, its name.
//!
//! A field may be left out, and then all after it are. A field that is there has to be a number
//! where one belongs.

use super::encoding::Encoding;
use super::fault::WfdbFault;
use super::header::shown;
use crate::formats::Place;
use crate::formats::latin::decimal;

/// What a header says about one signal.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct SignalLine {
    /// The file that holds its samples.
    pub(super) file: String,
    /// How they are packed.
    pub(super) encoding: Encoding,
    /// How many of them make a frame; at least 1.
    pub(super) per_frame: usize,
    /// By how many frames the signal lags behind the others.
    pub(super) skew: usize,
    /// How many bytes of the file come before the first sample.
    pub(super) offset: usize,
    /// Steps for one unit; `None` when missing or 0: never calibrated.
    pub(super) gain: Option<f64>,
    /// The step at 0 units.
    pub(super) baseline: f64,
    /// The unit, `mV` when the line leaves it out.
    pub(super) unit: String,
    /// The first value.
    pub(super) first: Option<i32>,
    /// The sum of all values, of which the low 16 bits count.
    pub(super) checksum: Option<i64>,
    /// What the signal is called; may be empty.
    pub(super) name: String,
    /// Where the line stands.
    pub(super) place: Place,
}

/// Reads a signal line.
pub(super) fn signal_line(line: &str, place: Place) -> Result<SignalLine, WfdbFault> {
    let mut rest = line;
    let mut next = || {
        let (field, after) = rest.split_once([' ', '\t']).unwrap_or((rest, ""));
        rest = after.trim_start();
        Some(field).filter(|field| !field.is_empty())
    };
    let wrong = |found: &str| WfdbFault::SignalLine { found: shown(found) };
    let (Some(file), Some(storage)) = (next(), next()) else { return Err(wrong(line)) };
    let storage = Storage::parse(storage)?;
    let scale = next().map_or_else(|| Ok(Scale::default()), Scale::parse)?;
    let mut number =
        || next().map(|field| field.parse::<i64>().ok().ok_or_else(|| wrong(field))).transpose();
    let (_bits, zero, first, checksum, _block) =
        (number()?, number()?, number()?, number()?, number()?);
    let step = |value: i64| i32::try_from(value).ok().ok_or_else(|| wrong(&value.to_string()));
    Ok(SignalLine {
        file: file.to_owned(),
        encoding: storage.encoding,
        per_frame: storage.per_frame,
        skew: storage.skew,
        offset: storage.offset,
        gain: scale.gain,
        baseline: match scale.baseline {
            Some(baseline) => baseline,
            None => f64::from(step(zero.unwrap_or(0))?),
        },
        unit: scale.unit.unwrap_or("mV").to_owned(),
        first: first.map(step).transpose()?,
        checksum,
        name: rest.trim().to_owned(),
        place,
    })
}

/// `FORMAT[xN][:SKEW][+OFFSET]`.
struct Storage {
    encoding: Encoding,
    per_frame: usize,
    skew: usize,
    offset: usize,
}

impl Storage {
    fn parse(field: &str) -> Result<Self, WfdbFault> {
        let unknown = || WfdbFault::StorageFormat { found: shown(field) };
        let end = field.find(['x', ':', '+']).unwrap_or(field.len());
        let (number, mut rest) = field.split_at_checked(end).ok_or_else(unknown)?;
        let number: u32 = number.parse().ok().ok_or_else(unknown)?;
        let encoding = Encoding::numbered(number).ok_or_else(unknown)?;
        let mut storage = Self { encoding, per_frame: 1, skew: 0, offset: 0 };
        while let Some(sign) = rest.chars().next() {
            let after = rest.get(1..).unwrap_or_default();
            let end = after.find(['x', ':', '+']).unwrap_or(after.len());
            let (digits, following) = after.split_at_checked(end).ok_or_else(unknown)?;
            let value: usize = digits.parse().ok().ok_or_else(unknown)?;
            match sign {
                'x' if value > 0 => storage.per_frame = value,
                ':' => storage.skew = value,
                '+' => storage.offset = value,
                _ => return Err(unknown()),
            }
            rest = following;
        }
        Ok(storage)
    }
}

/// `GAIN[(BASELINE)][/UNITS]`.
#[derive(Default)]
struct Scale<'a> {
    gain: Option<f64>,
    baseline: Option<f64>,
    unit: Option<&'a str>,
}

impl<'a> Scale<'a> {
    fn parse(field: &'a str) -> Result<Self, WfdbFault> {
        let wrong = || WfdbFault::Gain { found: shown(field) };
        let (steps, unit) = match field.split_once('/') {
            Some((steps, unit)) => (steps, Some(unit)),
            None => (field, None),
        };
        let (gain, baseline) = match steps.split_once('(') {
            Some((gain, baseline)) => {
                let baseline = baseline.strip_suffix(')').ok_or_else(wrong)?;
                (gain, Some(decimal(baseline).ok_or_else(wrong)?))
            }
            None => (steps, None),
        };
        let gain = decimal(gain).ok_or_else(wrong)?;
        let unit = unit.filter(|unit| !unit.is_empty());
        Ok(Self { gain: Some(gain).filter(|&gain| gain != 0.0), baseline, unit })
    }
}
