//! What a chart shows, as rows of words: for those who don't see the picture, and for those who want
//! its numbers.
//!
//! Rows are in order of time and hold only what is in view. An interval over a hole has no length and a
//! beat that can't be compared no grade: a dash. Heights are values as the axis of the chart has them.
//! An empty chart has no rows.

use super::cycle::CycleScene;
use super::scene::{PointMark, Role};
use super::viewport::Viewport;
use crate::analysis::{Grades, RrInterval, Standing, WhyLeftOut, rhythm};
use crate::lesson::{Evidence, aside_words};
use crate::signal::{Envelope, SampleRate, SampleSpan, Seconds, VoltageUnit, put_in_order};
use crate::words::{Language, decimal, say, say_with};
use std::borrow::Cow;

/// What can't be told.
const DASH: &str = "–";
/// A row of a bare stretch of trace: a large box.
const BOX: Seconds = Seconds::new(0.2);

/// A table in words; each row has as many cells as there are heads.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ChartTable {
    /// What stands in each column.
    pub heads: Vec<Cow<'static, str>>,
    /// The rows.
    pub rows: Vec<Vec<String>>,
}

impl ChartTable {
    /// The beats in view: when each comes, how long after the one before, how clear it is, and
    /// whether averages count it.
    pub fn of_beats(evidence: Evidence<'_>, view: &Viewport, language: Language) -> Self {
        let Evidence { recording, reading } = evidence;
        let rate = recording.rate;
        let intervals = rhythm(reading.series(recording)).intervals;
        let grades = Grades::of(recording, reading);
        let rows = reading.beats.iter().enumerate().filter(|(_, beat)| view.shows(beat.r, rate));
        let row = |(place, beat): (usize, &crate::analysis::Beat)| {
            let interval = place.checked_sub(1).and_then(|before| intervals.get(before));
            let whole = interval.filter(|rr| rr.left_out != Some(WhyLeftOut::Hole));
            let told = |number: Option<f64>, decimals| {
                number.map_or_else(|| DASH.to_owned(), |it| decimal(language, it, decimals))
            };
            let grade = grades.likeness.get(place).copied().flatten().map(|_| grades.beat(place));
            let grade = grade.map(|it| say(language, &format!("page.see.grade.{}", it.key())));
            let counts = match beat.standing {
                Standing::Counts => say(language, "rhythm.yes").into_owned(),
                Standing::SetAside(why) => aside_words(why, language),
            };
            vec![
                (place + 1).to_string(),
                decimal(language, rate.time_of(beat.r).seconds(), 3),
                told(whole.map(|rr| rr.rr.milliseconds()), 0),
                told(whole.map(|rr| rr.rate().per_minute()), 1),
                grade.map_or_else(|| DASH.to_owned(), Cow::into_owned),
                counts,
            ]
        };
        let heads = [
            "page.see.beat",
            "chart.table.r_at",
            "rhythm.rr",
            "rhythm.rate",
            "page.see.clearness",
            "page.see.beats_counted",
        ];
        Self { heads: said(heads, language), rows: rows.map(row).collect() }
    }

    /// Points on a trace: which, whose, when and how high.
    pub fn of_points(
        points: &[PointMark],
        samples: &[f32],
        (rate, unit): (SampleRate, VoltageUnit),
        language: Language,
    ) -> Self {
        let row = |point: &PointMark| {
            let whose = match point.role {
                Role::Student => "chart.table.student",
                Role::Answer => "chart.table.answer",
                Role::Active => "chart.table.active",
            };
            vec![
                say(language, &format!("chart.landmark.{}", point.landmark.key())).into_owned(),
                say(language, whose).into_owned(),
                decimal(language, rate.time_of(point.at).seconds(), 3),
                height(samples.get(point.at.get()).copied(), unit, language),
            ]
        };
        let mut heads =
            said(["page.results.point", "chart.table.whose", "chart.table.at"], language);
        heads.push(height_head("chart.table.height", unit, language));
        Self { heads, rows: points.iter().map(row).collect() }
    }

    /// The points of one cycle, from its start.
    pub fn of_cycle(scene: &CycleScene<'_>, language: Language) -> Self {
        let mut points = scene.points();
        put_in_order(&mut points, |point| point.at.get());
        Self::of_points(&points, scene.samples, (scene.rate, scene.unit), language)
    }

    /// A bare stretch: the lowest and the highest value in each large box of time.
    pub fn of_stretch(
        envelope: &Envelope,
        (rate, unit): (SampleRate, VoltageUnit),
        stretch: SampleSpan,
        language: Language,
    ) -> Self {
        let step = rate.count(BOX).max(1);
        let (first, last) = (stretch.start().get(), stretch.end().get());
        let row = |start: usize| {
            let extent = envelope.extent(SampleSpan::new(start, last.min(start + step)));
            let seconds = (start - first) as f64 / rate.hz();
            vec![
                decimal(language, seconds, 1),
                height(extent.map(|it| it.low), unit, language),
                height(extent.map(|it| it.high), unit, language),
            ]
        };
        let mut heads = said(["rhythm.from"], language);
        heads.extend(
            ["chart.table.lowest", "chart.table.highest"]
                .map(|key| height_head(key, unit, language)),
        );
        Self { heads, rows: (first..last).step_by(step).map(row).collect() }
    }

    /// Every interval from beat to beat.
    pub fn of_intervals(intervals: &[RrInterval], rate: SampleRate, language: Language) -> Self {
        let row = |rr: &RrInterval| {
            let counts = match rr.left_out {
                None => "rhythm.yes",
                Some(WhyLeftOut::Hole) => "rhythm.no_gap",
                Some(WhyLeftOut::Beat(_)) => "rhythm.no_beat",
            };
            vec![
                decimal(language, rate.time_of(rr.from).seconds(), 2),
                decimal(language, rr.rr.milliseconds(), 0),
                decimal(language, rr.rate().per_minute(), 1),
                say(language, counts).into_owned(),
            ]
        };
        let heads = ["rhythm.from", "rhythm.rr", "rhythm.rate", "rhythm.counts"];
        Self { heads: said(heads, language), rows: intervals.iter().map(row).collect() }
    }
}

fn said<const N: usize>(keys: [&str; N], language: Language) -> Vec<Cow<'static, str>> {
    keys.map(|key| say(language, key)).into()
}

fn height(value: Option<f32>, unit: VoltageUnit, language: Language) -> String {
    let decimals = if unit == VoltageUnit::Counts { 0 } else { 2 };
    let value = value.filter(|value| value.is_finite());
    value.map_or_else(|| DASH.to_owned(), |value| decimal(language, value.into(), decimals))
}

fn height_head(key: &str, unit: VoltageUnit, language: Language) -> Cow<'static, str> {
    let unit = match unit {
        VoltageUnit::Millivolt => "chart.axis.millivolt",
        VoltageUnit::Counts => "chart.table.counts",
        VoltageUnit::Unstated => "chart.table.unstated",
    };
    say_with(language, key, &[("unit", &say(language, unit))]).into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::example;
    use crate::signal::{Hole, HoleCause, Landmark, SampleIndex};

    fn view(start: f64, span: f64) -> Viewport {
        Viewport { start: Seconds::new(start), span: Seconds::new(span), middle: 0.0, height: 3.0 }
    }

    #[test]
    fn beats_in_view_have_a_row_each_and_a_hole_has_no_interval() {
        let (mut recording, reading) = example::of_beats(4);
        let [second, third] = [1, 2].map(|place| reading.beats[place].r.get());
        let span = SampleSpan::new(second + 300, second + 310);
        recording.holes.push(Hole { span, cause: HoleCause::NoRows });
        let evidence = Evidence { recording: &recording, reading: &reading };
        let rate = recording.rate.hz();
        let from = second as f64 / rate - 0.1;
        let seen = view(from, (third - second) as f64 / rate + 0.2);
        let table = ChartTable::of_beats(evidence, &seen, Language::English);
        assert_eq!(table.rows.len(), 2);
        // At 1000 samples a second R stands at 1078 and 1878.
        assert_eq!(table.rows[0][..4], ["2", "1.078", "800", "75.0"]);
        assert_eq!(table.rows[1][..4], ["3", "1.878", "–", "–"]);
        assert!(table.rows.iter().all(|row| row.len() == table.heads.len()));
    }

    #[test]
    fn points_have_time_and_height() {
        let samples = [0.0, 1.0, f32::NAN];
        let point =
            |landmark, at| PointMark { landmark, at: SampleIndex::new(at), role: Role::Student };
        let points = [point(Landmark::R, 1), point(Landmark::S, 2), point(Landmark::TEnd, 9)];
        let rate = SampleRate::new(100.0).unwrap();
        let table = ChartTable::of_points(
            &points,
            &samples,
            (rate, VoltageUnit::Millivolt),
            Language::Spanish,
        );
        assert_eq!(table.heads[3], "Altura (mV)");
        let told: Vec<_> = table.rows.iter().map(|row| (&*row[2], &*row[3])).collect();
        assert_eq!(told, [("0,010", "1,00"), ("0,020", "–"), ("0,090", "–")]);
    }

    #[test]
    fn a_stretch_is_told_by_its_lowest_and_highest_values() {
        let envelope = Envelope::new((0..50u8).map(f32::from).collect());
        let rate = SampleRate::new(100.0).unwrap();
        let table = ChartTable::of_stretch(
            &envelope,
            (rate, VoltageUnit::Counts),
            SampleSpan::new(5, 50),
            Language::English,
        );
        assert_eq!(table.heads[1], "Lowest (counts)");
        assert_eq!(table.rows, [["0.0", "5", "24"], ["0.2", "25", "44"], ["0.4", "45", "49"]]);
    }
}
