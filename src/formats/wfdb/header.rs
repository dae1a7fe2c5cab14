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

use super::fault::WfdbFault;
use super::signal_line::{SignalLine, signal_line};
use crate::formats::Place;
use crate::signal::SampleRate;

/// What a header says.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Header {
    /// Frames a second, a possible [`SampleRate`]; `None` when the line leaves it out.
    pub(super) rate_hz: Option<f64>,
    /// How many frames there should be; `None` when not said, or said to be 0.
    pub(super) frames: Option<u64>,
    /// The signals, in the order of the header.
    pub(super) signals: Vec<SignalLine>,
}

/// Reads the text of a header.
///
/// # Errors
/// What is wrong with which line, the first being 1.
pub(super) fn parse(text: &str) -> Result<Header, (Place, WfdbFault)> {
    let mut lines = text
        .trim_start_matches('\u{feff}')
        .lines()
        .enumerate()
        .map(|(number, line)| (Place { line: number + 1, column: None }, line.trim()))
        .filter(|(_, line)| !line.is_empty() && !line.starts_with('#'));
    let start = Place { line: 1, column: None };
    let (place, line) = lines.next().ok_or((start, WfdbFault::NoRecordLine))?;
    let (mut header, stated) = record_line(line).map_err(|fault| (place, fault))?;
    for (place, line) in lines.take(stated) {
        let signal = signal_line(line, place).map_err(|fault| (place, fault))?;
        let before = header.signals.last().filter(|before| before.file == signal.file);
        if before.is_some_and(|before| before.encoding != signal.encoding) {
            return Err((place, WfdbFault::MixedFormats { file: signal.file }));
        }
        header.signals.push(signal);
    }
    if header.signals.len() < stated {
        let found = header.signals.len();
        return Err((place, WfdbFault::SignalLinesMissing { stated, found }));
    }
    Ok(header)
}

/// The record line, and how many signal lines it promises.
fn record_line(line: &str) -> Result<(Header, usize), WfdbFault> {
    let wrong = || WfdbFault::RecordLine { found: shown(line) };
    let mut fields = line.split_ascii_whitespace();
    let name = fields.next().ok_or_else(wrong)?;
    if name.contains('/') {
        return Err(WfdbFault::Segments);
    }
    let stated: usize = fields.next().and_then(|field| field.parse().ok()).ok_or_else(wrong)?;
    if stated == 0 {
        return Err(WfdbFault::NoSignals);
    }
    let rate_hz = fields.next().map(rate).transpose()?;
    let frames = match fields.next() {
        Some(field) => Some(field.parse().ok().ok_or_else(wrong)?).filter(|&frames| frames > 0),
        None => None,
    };
    Ok((Header { rate_hz, frames, signals: Vec::new() }, stated))
}

/// `360`, or `250/360(0)`: the counter frequency after the slash is for tape counters only.
fn rate(field: &str) -> Result<f64, WfdbFault> {
    let wrong = || WfdbFault::Rate { found: shown(field) };
    let number = field.split(['/', '(']).next().unwrap_or_default();
    let hz: f64 = number.parse().ok().ok_or_else(wrong)?;
    SampleRate::new(hz).map(SampleRate::hz).ok().ok_or_else(wrong)
}

/// As much of a line as a message can show.
pub(super) fn shown(found: &str) -> String {
    found.chars().take(60).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formats::wfdb::encoding::Encoding;

    fn signal(line: &str) -> SignalLine {
        parse(&format!("r 1 250 10\n{line}")).unwrap().signals.remove(0)
    }

    #[test]
    fn every_field_is_found() {
        let text = "\r\n# made up\r\nr7 2 250/360(0) 1000 09:15:00 02/03/2026\r\n\
                    r7.dat 212x2:3+16 -200.5(-20)/uV 12 1024 -4 -18159 0 lead I, left\r\n\
                    # between\r\nr7.dat 212\r\n";
        let header = parse(text).unwrap();
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
        assert_eq!(fault("\n#\n"), Err((1, WfdbFault::NoRecordLine)));
        assert_eq!(fault("\nr 0"), Err((2, WfdbFault::NoSignals)));
        assert_eq!(fault("r/3 2 250"), Err((1, WfdbFault::Segments)));
        let found = "508".to_owned();
        assert_eq!(fault("r 1 250\na.dat 508"), Err((2, WfdbFault::StorageFormat { found })));
        let missing = WfdbFault::SignalLinesMissing { stated: 1_000_000_000_000, found: 1 };
        assert_eq!(fault("r 1000000000000 250\na.dat 16"), Err((1, missing)));
        for bad in ["r 1 0", "r 1 nan", "r 1 1e12", "r 1 -250"] {
            assert!(matches!(fault(bad), Err((1, WfdbFault::Rate { .. }))), "{bad}");
        }
        for bad in ["a.dat 16x0", "a.dat 16x", "a.dat 16y2", "a.dat x2"] {
            let text = format!("r 1 250\n{bad}");
            assert!(matches!(fault(&text), Err((2, WfdbFault::StorageFormat { .. }))), "{bad}");
        }
        for bad in ["a.dat 16 inf", "a.dat 16 200(1", "a.dat 16 200(x)/mV"] {
            let text = format!("r 1 250\n{bad}");
            assert!(matches!(fault(&text), Err((2, WfdbFault::Gain { .. }))), "{bad}");
        }
    }
}
