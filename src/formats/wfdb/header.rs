//! The text of a `.hea` header: one record line, then a line for each signal or each segment.
//!
//! Source: header(5) in the WFDB Applications Guide (Moody, PhysioNet).
//!
//! ```text
//! NAME[/N_SEGMENTS] N_SIGNALS [RATE[/COUNTER[(BASE)]] [N_SAMPLES [TIME [DATE]]]]
//! FILE FORMAT[xN][:SKEW][+OFFSET] [GAIN[(BASELINE)][/UNITS] [BITS [ZERO [FIRST [SUM [BLOCK [NAME]]]]]]]
//! RECORD N_SAMPLES
//! ```
//!
//! Empty lines and lines that begin with `#` may stand anywhere. A signal without a gain has none
//! here: the reader says what it takes instead. Nothing is set aside for numbers that the header
//! only promises.

use super::fault::WfdbFault;
use super::signal_line::{SignalLine, signal_line};
use crate::formats::{Place, latin};
use crate::signal::SampleRate;

/// What a header says.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Header {
    /// Frames a second, a possible [`SampleRate`]; `None` when the line leaves it out.
    pub(super) rate_hz: Option<f64>,
    /// How many frames there should be; `None` when not said, or said to be 0 or fewer.
    pub(super) frames: Option<u64>,
    /// The signals, in the order of the header; none when the record is made of segments.
    pub(super) signals: Vec<SignalLine>,
    /// The stretches that the record is made of, in order of time; none when it has signals itself.
    pub(super) segments: Vec<SegmentLine>,
}

/// A stretch of a record that is a record of its own.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct SegmentLine {
    /// The name of that record; [`NULL`] where nothing was recorded.
    pub(super) record: String,
    /// How many frames it takes; 0 when it only describes the signals.
    pub(super) frames: u64,
}

impl SegmentLine {
    /// Whether nothing was recorded in it.
    pub(super) fn is_null(&self) -> bool {
        self.record == NULL
    }

    /// The name of its own header.
    pub(super) fn header_file(&self) -> String {
        format!("{}.hea", self.record)
    }
}

/// The name of what is not there: a stretch in which nothing was recorded, the file of a signal
/// that is only described.
pub(super) const NULL: &str = "~";

/// Reads a header.
///
/// # Errors
/// What is wrong with which line, the first being 1.
pub(super) fn parse(bytes: &[u8]) -> Result<Header, (Place, WfdbFault)> {
    let text = latin::decode(bytes);
    let mut lines = text
        .trim_start_matches('\u{feff}')
        .lines()
        .enumerate()
        .map(|(number, line)| (Place { line: number + 1, column: None }, line.trim()))
        .filter(|(_, line)| !line.is_empty() && !line.starts_with('#'));
    let start = Place { line: 1, column: None };
    let (place, line) = lines.next().ok_or((start, WfdbFault::NoRecordLine))?;
    let RecordLine { mut header, signals, segments } =
        record_line(line).map_err(|fault| (place, fault))?;
    if let Some(stated) = segments {
        for (place, line) in lines.take(stated) {
            header.segments.push(segment_line(line).map_err(|fault| (place, fault))?);
        }
        let found = header.segments.len();
        return match found < stated {
            true => Err((place, WfdbFault::SegmentLineCount { stated, found })),
            false => Ok(header),
        };
    }
    for (place, line) in lines.by_ref().take(signals) {
        let signal = signal_line(line, place).map_err(|fault| (place, fault))?;
        let before = header.signals.iter().rev().find(|before| before.file == signal.file);
        if before.is_some_and(|before| before.encoding != signal.encoding) {
            return Err((place, WfdbFault::MixedFormats { file: signal.file }));
        }
        header.signals.push(signal);
    }
    // A signal too many in a file would shift all others.
    let more = lines.filter(|(place, line)| signal_line(line, *place).is_ok()).count();
    let (stated, found) = (signals, header.signals.len() + more);
    match found == stated {
        true => Ok(header),
        false => Err((place, WfdbFault::SignalLineCount { stated, found })),
    }
}

/// The record line, and how many lines it promises.
struct RecordLine {
    header: Header,
    signals: usize,
    segments: Option<usize>,
}

fn record_line(line: &str) -> Result<RecordLine, WfdbFault> {
    let wrong = || WfdbFault::RecordLine { found: shown(line) };
    let mut fields = line.split_ascii_whitespace();
    let name = fields.next().ok_or_else(wrong)?;
    let segments = match name.split_once('/') {
        Some((_, count)) => {
            Some(count.parse().ok().filter(|&count: &usize| count > 0).ok_or_else(wrong)?)
        }
        None => None,
    };
    let signals: usize = fields.next().and_then(|field| field.parse().ok()).ok_or_else(wrong)?;
    if signals == 0 && segments.is_none() {
        return Err(WfdbFault::NoSignals);
    }
    let rate_hz = fields.next().map(rate).transpose()?;
    // Some writers leave -1 where they do not know yet.
    let frames: Option<i64> =
        fields.next().map(|field| field.parse().ok().ok_or_else(wrong)).transpose()?;
    let frames = frames.and_then(|frames| u64::try_from(frames).ok()).filter(|&frames| frames > 0);
    let header = Header { rate_hz, frames, signals: Vec::new(), segments: Vec::new() };
    Ok(RecordLine { header, signals, segments })
}

/// `100_1 21600`, or `~ 3600` where nothing was recorded.
fn segment_line(line: &str) -> Result<SegmentLine, WfdbFault> {
    let mut fields = line.split_ascii_whitespace();
    let record = fields.next().filter(|record| !record.contains(['/', '\\']));
    let frames = fields.next().and_then(|field| field.parse().ok());
    match (record, frames) {
        (Some(record), Some(frames)) => Ok(SegmentLine { record: record.to_owned(), frames }),
        _ => Err(WfdbFault::SegmentLine { found: shown(line) }),
    }
}

/// `360`, or `250/360(0)`: the counter frequency after the slash is for tape counters only.
fn rate(field: &str) -> Result<f64, WfdbFault> {
    let wrong = || WfdbFault::Rate { found: shown(field) };
    let hz =
        latin::decimal(field.split(['/', '(']).next().unwrap_or_default()).ok_or_else(wrong)?;
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
        parse(format!("r 1 250 10\n{line}").as_bytes()).unwrap().signals.remove(0)
    }

    #[test]
    fn every_field_is_found() {
        let text = "\r\n# made up\r\nr7 2 250/360(0) 1000 09:15:00 02/03/2026\r\n\
                    r7.dat 212x2:3+16 -200.5(-20)/uV 12 1024 -4 -18159 0 lead I, left\r\n\
                    # between\r\nr7.dat 212\r\n";
        let header = parse(text.as_bytes()).unwrap();
        assert_eq!((header.rate_hz, header.frames), (Some(250.0), Some(1000)));
        let [first, second] = header.signals.as_slice() else { panic!("{header:?}") };
        assert_eq!((first.encoding, first.per_frame), (Encoding::Packed12, 2));
        assert_eq!((first.skew, first.offset), (3, 16));
        assert_eq!((first.gain, first.baseline, first.unit.as_str()), (Some(-200.5), -20.0, "uV"));
        assert_eq!((first.first, first.checksum), (Some(-4), Some(-18159)));
        assert_eq!((first.name.as_str(), first.place.line), ("lead I, left", 4));
        assert_eq!((second.gain, second.baseline, second.unit.as_str()), (None, 0.0, "mV"));
    }

    #[test]
    fn a_missing_baseline_is_the_converters_zero() {
        assert_eq!(signal("a.dat 16 200 11 1024 995 0 0 MLII").baseline, 1024.0);
        assert_eq!(signal("a.dat 16 200(0)/mV 11 1024 995 0 0 MLII").baseline, 0.0);
        assert_eq!(signal("a.dat 16 0 11 1024").gain, None);
    }

    #[test]
    fn faults_name_their_line() {
        let fault =
            |text: &str| parse(text.as_bytes()).map_err(|(place, fault)| (place.line, fault));
        assert_eq!(fault("\n#\n"), Err((1, WfdbFault::NoRecordLine)));
        assert_eq!(fault("\nr 0"), Err((2, WfdbFault::NoSignals)));
        let found = "508".to_owned();
        assert_eq!(fault("r 1 250\na.dat 508"), Err((2, WfdbFault::StorageFormat { found })));
        let missing = WfdbFault::SignalLineCount { stated: 1_000_000_000_000, found: 1 };
        assert_eq!(fault("r 1000000000000 250\na.dat 16"), Err((1, missing)));
        let more = WfdbFault::SignalLineCount { stated: 1, found: 2 };
        assert_eq!(fault("r 1 250\na.dat 16\na.dat 16 200"), Err((1, more)));
        let mixed = WfdbFault::MixedFormats { file: "a.dat".to_owned() };
        assert_eq!(fault("r 3 250\na.dat 16\nb.dat 16\na.dat 212"), Err((4, mixed)));
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

    #[test]
    fn a_record_may_be_made_of_others() {
        let header = parse(b"m/3 2 250 70\r\nlayout 0\n~ 30\na_1 40\n# remark\n").unwrap();
        let segments: Vec<(&str, u64)> =
            header.segments.iter().map(|line| (line.record.as_str(), line.frames)).collect();
        assert_eq!(segments, [("layout", 0), (NULL, 30), ("a_1", 40)]);
        let fault =
            |text: &str| parse(text.as_bytes()).map_err(|(place, fault)| (place.line, fault));
        let found = || "a".to_owned();
        assert_eq!(fault("m/2 1 250\na"), Err((2, WfdbFault::SegmentLine { found: found() })));
        let missing = WfdbFault::SegmentLineCount { stated: 9_000_000_000, found: 1 };
        assert_eq!(fault("m/9000000000 1 250\na 5"), Err((1, missing)));
        assert!(matches!(fault("m/0 1 250"), Err((1, WfdbFault::RecordLine { .. }))));
    }

    #[test]
    fn what_other_writers_leave_is_read() {
        let header =
            parse(b"r 1 249,5 -1\nr.dat 16 200,5(-20.0)/\xB5V 12 0 0 0 0 Erg\xE4nzung").unwrap();
        assert_eq!((header.rate_hz, header.frames), (Some(249.5), None));
        let [line] = header.signals.as_slice() else { panic!("{header:?}") };
        assert_eq!((line.gain, line.baseline, line.unit.as_str()), (Some(200.5), -20.0, "\u{b5}V"));
        assert_eq!(line.name, "Erg\u{e4}nzung");
    }
}
