//! The lines of a report: numbers rounded, and put into words.

use super::{Orientation, PlacementLine, ResultLine, SavedWork, Settings};
use crate::analysis::{Measurement, QtCorrection, Standing};
use crate::lesson::{
    Answer, Evidence, FindingWords, LandmarkWords, Placement, Quantity, ResultRow, ResultsTable,
    Sampled, Session, Step, TypicalRange, cleaning_words, corrected_words,
};
use crate::signal::{MarkKind, Recording, SampleRate, VoltageUnit};
use crate::words::{Language, decimal, figure, say, say_with, with_uncertainty};

/// What stands where nothing can be given.
const DASH: &str = "–";

/// What the recording is: label and value.
pub(super) fn facts(
    work: &SavedWork,
    file: &str,
    Evidence { recording, reading }: Evidence<'_>,
    language: Language,
) -> Vec<(String, String)> {
    let seconds = figure(language, recording.duration().seconds(), 1);
    let hz = figure(language, recording.rate.hz(), 3);
    let ms = figure(language, recording.rate.interval().to_milliseconds().milliseconds(), 2);
    let beats = reading.beats.len().to_string();
    let beats_key = match reading.corrected.all() {
        0 => "report.value.beats",
        _ => "beats.corrected.report",
    };
    let counted =
        reading.beats.iter().filter(|beat| beat.standing == Standing::Counts).count().to_string();
    let unit = match recording.unit {
        VoltageUnit::Millivolt => "report.unit.millivolt",
        VoltageUnit::Counts => "report.unit.counts",
        VoltageUnit::Unstated => "report.unit.unstated",
    };
    let orientation = match work.settings.orientation {
        Orientation::AsRecorded => "report.orientation.as_recorded",
        Orientation::TurnedOver => "report.orientation.turned_over",
    };
    let signal = if recording.name.is_empty() { DASH } else { &recording.name };
    let filled = |key, places: &[(&str, &str)]| say_with(language, key, places);
    let taken = taken(&work.settings, recording.rate, language);
    let corrected =
        corrected_words(reading.corrected, language).map(|value| ("beats.corrected.label", value));
    let noted = noted(recording, language).map(|notes| ("report.fact.notes", notes));
    [
        ("report.fact.file", file.to_owned()),
        ("report.fact.signal", signal.to_owned()),
        ("report.fact.length", filled("report.value.length", &[("seconds", &seconds)])),
        ("report.fact.rate", filled("report.value.rate", &[("hz", &hz), ("ms", &ms)])),
        ("report.fact.unit", say(language, unit).into_owned()),
        ("report.fact.orientation", say(language, orientation).into_owned()),
        ("report.fact.beats", filled(beats_key, &[("beats", &beats), ("counted", &counted)])),
    ]
    .into_iter()
    .chain(corrected)
    .chain(taken)
    .chain(noted)
    .map(|(label, value)| (say(language, label).into_owned(), value))
    .collect()
}

/// What the student set, where it differs from the file: the part, the scale and what was taken out.
fn taken(
    settings: &Settings,
    rate: SampleRate,
    language: Language,
) -> impl Iterator<Item = (&'static str, String)> {
    let part = settings.part.map(|part| {
        let time = |at| figure(language, rate.time_of(at).seconds(), 2);
        let ends = [("from", &*time(part.start())), ("to", &*time(part.end()))];
        ("report.fact.part", say_with(language, "report.value.part", &ends))
    });
    let cleaned = cleaning_words(&settings.cleaning, rate, language)
        .map(|what| ("report.fact.cleaning", what));
    let scale = settings.calibration.map(|calibration| {
        let units = figure(language, calibration.units_per_millivolt(), 3);
        let centre = figure(language, calibration.centre(), 1);
        let places = [("units", &*units), ("centre", &*centre)];
        ("report.fact.scale", say_with(language, "report.value.scale", &places))
    });
    part.into_iter().chain(scale).chain(cleaned)
}

/// The notes on the recording, those of the file and those by hand; `None` where there are none.
fn noted(recording: &Recording, language: Language) -> Option<String> {
    /// A report has room for so many.
    const MOST: usize = 20;
    let notes = recording.marks.iter().filter(|mark| mark.kind == MarkKind::Note);
    let told: Vec<String> = notes
        .take(MOST)
        .map(|note| {
            let seconds = figure(language, recording.rate.time_of(note.at).seconds(), 2);
            let at = say_with(language, "report.value.at", &[("seconds", &seconds)]);
            format!("{at} {}", note.text).trim_end().to_owned()
        })
        .collect();
    (!told.is_empty()).then(|| told.join("; "))
}

/// What is wrong with the signal, a sentence for each finding.
pub(super) fn notes_on(evidence: Evidence<'_>, language: Language) -> Vec<String> {
    let rate = evidence.recording.rate;
    let words = |finding| FindingWords::of(finding, rate, language).sentences();
    evidence.reading.findings.iter().map(words).collect()
}

/// The results as they are printed, with one QTc among them.
pub(super) fn main_lines(results: &ResultsTable, language: Language) -> Vec<ResultLine> {
    let is_main = |quantity| match quantity {
        Quantity::Qtc(by) => by == QtCorrection::Bazett,
        _ => true,
    };
    let rows = results.rows.iter().filter(|row| is_main(row.quantity));
    rows.map(|row| result_line(row, language)).collect()
}

/// QTc by every formula.
pub(super) fn corrected_lines(results: &ResultsTable, language: Language) -> Vec<ResultLine> {
    let rows = results.rows.iter().filter(|row| matches!(row.quantity, Quantity::Qtc(_)));
    rows.map(|row| result_line(row, language)).collect()
}

fn result_line(row: &ResultRow, language: Language) -> ResultLine {
    let unit = row.quantity.unit();
    let name = say(language, &row.quantity.name_key());
    let one = |one: Option<Sampled>| {
        let one = one.map(|one| with_uncertainty(language, one.value, one.expanded_uncertainty));
        one.unwrap_or_else(|| DASH.to_owned())
    };
    ResultLine {
        quantity: format!("{name} ({unit})"),
        explained: say(language, &row.quantity.explain_key()).into_owned(),
        own: one(row.student),
        computed: one(row.computed),
        all_beats: row.all_beats.map_or_else(|| DASH.to_owned(), |all| over_all(all, language)),
        typical: row.typical.iter().map(|range| range_line(range, unit, language)).collect(),
        question: row.ask_where.then(|| say(language, "ranges.ask_where").into_owned()),
    }
}

fn over_all(all: Measurement, language: Language) -> String {
    let median = with_uncertainty(language, all.value, all.expanded_uncertainty);
    let (spread, n) = (figure(language, all.spread, 1), all.n.to_string());
    say_with(
        language,
        "report.value.all_beats",
        &[("median", &median), ("spread", &spread), ("n", &n)],
    )
}

fn range_line(range: &TypicalRange, unit: &str, language: Language) -> String {
    let key = match (range.low, range.median) {
        (None, _) => "ranges.up_to",
        (Some(_), None) => "ranges.between",
        (Some(_), Some(_)) => "ranges.with_median",
    };
    let written =
        |value: Option<f64>| value.map(|value| figure(language, value, 0)).unwrap_or_default();
    say_with(
        language,
        key,
        &[
            ("low", &written(range.low)),
            ("high", &written(Some(range.high))),
            ("median", &written(range.median)),
            ("unit", unit),
            ("group", &say(language, range.group.name_key())),
            ("source", &say(language, range.source.name_key())),
        ],
    )
}

/// What the student answered, point by point, in the order of the lesson.
pub(super) fn placements(
    session: &Session,
    rate: SampleRate,
    language: Language,
) -> Vec<PlacementLine> {
    Step::ALL
        .into_iter()
        .filter_map(Step::landmark)
        .map(|landmark| {
            let name = LandmarkWords::of(landmark, language).name.into_owned();
            let untouched = Placement::untouched(landmark);
            placement_line(name, session.placement(landmark).unwrap_or(&untouched), rate, language)
        })
        .collect()
}

fn placement_line(
    landmark: String,
    placement: &Placement,
    rate: SampleRate,
    language: Language,
) -> PlacementLine {
    let own = match placement.answer {
        Some(Answer::At(at)) => {
            let seconds = decimal(language, rate.time_of(at).seconds(), 3);
            say_with(language, "report.value.at", &[("seconds", &seconds)])
        }
        Some(Answer::NotHere) => say(language, "report.value.not_here").into_owned(),
        None => DASH.to_owned(),
    };
    let verdict = placement.tries.last().map(|last| {
        let words = say(language, &format!("report.verdict.{}", last.verdict.key()));
        match last.verdict.miss() {
            Some(miss) => {
                format!("{words} ({} ms)", figure(language, miss.milliseconds.milliseconds(), 1))
            }
            None => words.into_owned(),
        }
    });
    PlacementLine {
        landmark,
        own,
        tries: placement.tries.len(),
        verdict: verdict.unwrap_or_else(|| DASH.to_owned()),
        revealed: placement.revealed.then(|| say(language, "report.value.revealed").into_owned()),
    }
}
