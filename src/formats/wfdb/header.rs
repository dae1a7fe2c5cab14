//! The text of a `.hea` header: one record line, then a line for each signal.
//!
//! Source: header(5) in the WFDB Applications Guide (Moody, PhysioNet).
//!
//! ```text
//! NAME N_SIGNALS [RATE[/COUNTER[(BASE)]] [N_SAMPLES [TIME [DATE]]]]
//! FILE FORMAT[xN][:SKEW][+OFFSET] [GAIN[(BASELINE)][/UNITS] [BITS [ZERO [FIRST [SUM [BLOCK [NAME]]]]]]]
//! ```
//!
//! Empty lines and lines that begin with `#` may stand anywhere. A signal without a gain has none
//! here: the reader says what it takes instead. Nothing is set aside for numbers that the header
//! only promises.

use super::encoding::Encoding;
use super::fault::HeaderFault;
use crate::formats::Place;
use crate::signal::SampleRate;

/// What a header says.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Header {
    /// The name of the record.
    pub(super) record: String,
    /// Frames a second, a possible [`SampleRate`]; `None` when the line leaves it out.
    pub(super) rate_hz: Option<f64>,
    /// How many frames there should be; `None` when not said, or said to be 0.
    pub(super) frames: Option<u64>,
    /// The signals, in the order of the header.
    pub(super) signals: Vec<SignalLine>,
}

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
    pub(super) baseline: i32,
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

/// Reads the text of a header.
///
/// # Errors
/// What is wrong with which line, the first being 1.
pub(super) fn parse(text: &str) -> Result<Header, (Place, HeaderFault)> {
    let mut lines = text
        .trim_start_matches('\u{feff}')
        .lines()
        .enumerate()
        .map(|(number, line)| (Place { line: number + 1, column: None }, line.trim()))
        .filter(|(_, line)| !line.is_empty() && !line.starts_with('#'));
    let start = Place { line: 1, column: None };
    let (place, line) = lines.next().ok_or((start, HeaderFault::NoRecordLine))?;
    let (mut header, stated) = record_line(line).map_err(|fault| (place, fault))?;
    for (place, line) in lines.take(stated) {
        let signal = signal_line(line, place).map_err(|fault| (place, fault))?;
        let before = header.signals.last().filter(|before| before.file == signal.file);
        if before.is_some_and(|before| before.encoding != signal.encoding) {
            return Err((place, HeaderFault::MixedFormats { file: signal.file }));
        }
        header.signals.push(signal);
    }
    if header.signals.len() < stated {
        let found = header.signals.len();
        return Err((place, HeaderFault::SignalLinesMissing { stated, found }));
    }
    Ok(header)
}

/// The record line, and how many signal lines it promises.
fn record_line(line: &str) -> Result<(Header, usize), HeaderFault> {
    let wrong = || HeaderFault::RecordLine { found: shown(line) };
    let mut fields = line.split_ascii_whitespace();
    let name = fields.next().ok_or_else(wrong)?;
    if name.contains('/') {
        return Err(HeaderFault::Segments);
    }
    let stated: usize = fields.next().and_then(|field| field.parse().ok()).ok_or_else(wrong)?;
    if stated == 0 {
        return Err(HeaderFault::NoSignals);
    }
    let rate_hz = fields.next().map(rate).transpose()?;
    let frames =
        fields.next().map(|field| field.parse::<u64>()).transpose().map_err(|_| wrong())?;
    let frames = frames.filter(|&frames| frames > 0);
    Ok((Header { record: name.to_owned(), rate_hz, frames, signals: Vec::new() }, stated))
}

/// `360`, or `250/360(0)`: the counter frequency after the slash is for tape counters only.
fn rate(field: &str) -> Result<f64, HeaderFault> {
    let number = field.split(['/', '(']).next().unwrap_or_default();
    let hz: f64 = number.parse().map_err(|_| HeaderFault::Rate { found: shown(field) })?;
    SampleRate::new(hz).map(SampleRate::hz).map_err(|_| HeaderFault::Rate { found: shown(field) })
}

/// A signal line. A field that is there has to be a number where one belongs.
fn signal_line(line: &str, place: Place) -> Result<SignalLine, HeaderFault> {
    let mut rest = line;
    let mut next = || {
        let (field, after) = rest.split_once([' ', '\t']).unwrap_or((rest, ""));
        rest = after.trim_start();
        Some(field).filter(|field| !field.is_empty())
    };
    let wrong = |found: &str| HeaderFault::SignalLine { found: shown(found) };
    let (Some(file), Some(storage)) = (next(), next()) else { return Err(wrong(line)) };
    let storage = Storage::parse(storage)?;
    let scale = next().map_or_else(|| Ok(Scale::default()), Scale::parse)?;
    let mut number =
        || next().map(|field| field.parse::<i64>().map_err(|_| wrong(field))).transpose();
    let (_bits, zero, first, checksum, _block) =
        (number()?, number()?, number()?, number()?, number()?);
    let step = |value: i64| i32::try_from(value).map_err(|_| wrong(&value.to_string()));
    Ok(SignalLine {
        file: file.to_owned(),
        encoding: storage.encoding,
        per_frame: storage.per_frame,
        skew: storage.skew,
        offset: storage.offset,
        gain: scale.gain,
        baseline: match scale.baseline {
            Some(baseline) => baseline,
            None => step(zero.unwrap_or(0))?,
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
    fn parse(field: &str) -> Result<Self, HeaderFault> {
        let unknown = || HeaderFault::StorageFormat { found: shown(field) };
        let end = field.find(['x', ':', '+']).unwrap_or(field.len());
        let (number, mut rest) = field.split_at_checked(end).ok_or_else(unknown)?;
        let number: u32 = number.parse().map_err(|_| unknown())?;
        let encoding = Encoding::numbered(number).ok_or_else(unknown)?;
        let mut storage = Self { encoding, per_frame: 1, skew: 0, offset: 0 };
        while let Some(sign) = rest.chars().next() {
            let after = rest.get(1..).unwrap_or_default();
            let end = after.find(['x', ':', '+']).unwrap_or(after.len());
            let (digits, following) = after.split_at_checked(end).ok_or_else(unknown)?;
            let value: usize = digits.parse().map_err(|_| unknown())?;
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
    baseline: Option<i32>,
    unit: Option<&'a str>,
}

impl<'a> Scale<'a> {
    fn parse(field: &'a str) -> Result<Self, HeaderFault> {
        let wrong = || HeaderFault::Gain { found: shown(field) };
        let (steps, unit) = match field.split_once('/') {
            Some((steps, unit)) => (steps, Some(unit)),
            None => (field, None),
        };
        let (gain, baseline) = match steps.split_once('(') {
            Some((gain, baseline)) => {
                let baseline = baseline.strip_suffix(')').ok_or_else(wrong)?;
                (gain, Some(baseline.parse().map_err(|_| wrong())?))
            }
            None => (steps, None),
        };
        let gain: f64 = gain.parse().map_err(|_| wrong())?;
        if !gain.is_finite() {
            return Err(wrong());
        }
        let unit = unit.filter(|unit| !unit.is_empty());
        Ok(Self { gain: Some(gain).filter(|&gain| gain != 0.0), baseline, unit })
    }
}

/// As much of a line as a message can show.
fn shown(found: &str) -> String {
    found.chars().take(60).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn signal(line: &str) -> SignalLine {
        parse(&format!("r 1 250 10\n{line}")).unwrap().signals.remove(0)
    }

    #[test]
    fn every_field_is_found() {
        let text = "\r\n# made up\r\nr7 2 250/360(0) 1000 09:15:00 02/03/2026\r\n\
                    r7.dat 212x2:3+16 -200.5(-20)/uV 12 1024 -4 -18159 0 lead I, left\r\n\
                    # between\r\nr7.dat 212\r\n";
        let header = parse(text).unwrap();
        assert_eq!(header.record, "r7");
        assert_eq!((header.rate_hz, header.frames), (Some(250.0), Some(1000)));
        let [first, second] = header.signals.as_slice() else { panic!("{header:?}") };
        assert_eq!((first.encoding, first.per_frame), (Encoding::Packed12, 2));
        assert_eq!((first.skew, first.offset), (3, 16));
        assert_eq!((first.gain, first.baseline, first.unit.as_str()), (Some(-200.5), -20, "uV"));
        assert_eq!((first.first, first.checksum), (Some(-4), Some(-18159)));
        assert_eq!((first.name.as_str(), first.place.line), ("lead I, left", 4));
        assert_eq!((second.gain, second.baseline, second.unit.as_str()), (None, 0, "mV"));
    }

    #[test]
    fn a_missing_baseline_is_the_converters_zero() {
        assert_eq!(signal("a.dat 16 200 11 1024 995 0 0 MLII").baseline, 1024);
        assert_eq!(signal("a.dat 16 200(0)/mV 11 1024 995 0 0 MLII").baseline, 0);
        assert_eq!(signal("a.dat 16 0 11 1024").gain, None);
    }

    #[test]
    fn faults_name_their_line() {
        let fault = |text: &str| parse(text).map_err(|(place, fault)| (place.line, fault));
        assert_eq!(fault("\n#\n"), Err((1, HeaderFault::NoRecordLine)));
        assert_eq!(fault("\nr 0"), Err((2, HeaderFault::NoSignals)));
        assert_eq!(fault("r/3 2 250"), Err((1, HeaderFault::Segments)));
        let found = "508".to_owned();
        assert_eq!(fault("r 1 250\na.dat 508"), Err((2, HeaderFault::StorageFormat { found })));
        let missing = HeaderFault::SignalLinesMissing { stated: 1_000_000_000_000, found: 1 };
        assert_eq!(fault("r 1000000000000 250\na.dat 16"), Err((1, missing)));
        for bad in ["r 1 0", "r 1 nan", "r 1 1e12", "r 1 -250"] {
            assert!(matches!(fault(bad), Err((1, HeaderFault::Rate { .. }))), "{bad}");
        }
        for bad in ["a.dat 16x0", "a.dat 16x", "a.dat 16y2", "a.dat x2"] {
            let text = format!("r 1 250\n{bad}");
            assert!(matches!(fault(&text), Err((2, HeaderFault::StorageFormat { .. }))), "{bad}");
        }
        for bad in ["a.dat 16 inf", "a.dat 16 200(1", "a.dat 16 200(x)/mV"] {
            let text = format!("r 1 250\n{bad}");
            assert!(matches!(fault(&text), Err((2, HeaderFault::Gain { .. }))), "{bad}");
        }
    }
}
