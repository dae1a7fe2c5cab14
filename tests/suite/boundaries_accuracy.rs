//! How far found boundaries lie from those that cardiologists marked, as tables in `tests/data/accuracy`.
//!
//! The tables are computed anew and must come out the same to the last digit; after a wanted change
//! run once with `BEATWALK_REWRITE=1` and read what changed. Rules:
//!
//! - A wave is found when its peak lies within 150 ms of the marked one (the custom; EC57:1998 has the
//!   same window for beats). LUDB marks only the middle of each record: an unmarked P of the first
//!   marked beat, or T of the last, is no error.
//! - The experts of the QT Database mark few T waves in some records, and looked at both leads: a wave
//!   they left out is no error there, and the custom of taking the better lead for each point is
//!   given beside the honest figure for a fixed lead.
//! - `marked` starts from the R peaks of the annotators, `found` from those of `read`.
//! - Every third record is held out ([`super::accuracy::is_held_out`]). An earlier choice of numbers
//!   was tuned on every second record, and what counts as a P wave was settled looking at all.

use super::accuracy::{assert_table, data, is_held_out, open_record, open_trace, qtdb_windows};
use super::boundaries_tables::{
    ABOUT, KALYAKULINA, MARTINEZ, POINTS, R, Score, WAVES, lines, sensitivities, summary,
    wave_summary, waves,
};
use beatwalk::analysis::{Polarity, delineate, read};
use beatwalk::signal::{Landmarks, Recording, SampleIndex};

/// How far a wave may lie from its mark, ms.
const WINDOW: f64 = 150.0;
const LUDB_LEADS: [&str; 12] =
    ["i", "ii", "iii", "avr", "avl", "avf", "v1", "v2", "v3", "v4", "v5", "v6"];

/// The marks of one beat: a sample for each of [`POINTS`].
type Marks = [Option<usize>; 9];
/// How far each point of one beat lies from its mark, ms.
type Errors = [Option<f64>; 9];

/// The beats that were marked in one lead; the QT tables have no column for the lead.
fn marks(path: &str, lead: Option<&str>) -> Vec<Marks> {
    let text = std::fs::read_to_string(data(path)).unwrap();
    let rows = text.lines().filter(|line| !line.starts_with('#')).skip(1);
    rows.filter_map(|row| {
        let cells: Vec<&str> = row.split(',').collect();
        if lead.is_some_and(|lead| cells[0] != lead) {
            return None;
        }
        let first = cells.len() - POINTS.len();
        Some(std::array::from_fn(|point| cells[first + point].trim().parse().ok()))
    })
    .filter(|marks: &Marks| marks[R].is_some())
    .collect()
}

/// Compares the beats of one lead with their marks; each marked beat with the one found for it.
fn compare(
    recording: &Recording,
    marked: &[Marks],
    found: &[Option<Landmarks>],
) -> (Score, Vec<Errors>) {
    let ms = 1000.0 / recording.rate.hz();
    let mut score = Score::default();
    let mut all = Vec::new();
    for (beat, (marks, points)) in marked.iter().zip(found).enumerate() {
        let points = points.unwrap_or_default();
        let error = |point: usize| {
            let found = points.at(POINTS[point])?.get() as f64;
            Some((found - marks[point]? as f64) * ms).filter(|error| error.abs() <= WINDOW)
        };
        for (wave, (_, peak)) in WAVES.iter().enumerate() {
            let is_outside = wave == 0 && beat == 0 || wave == 2 && beat + 1 == marked.len();
            let counts = &mut score.counts[wave];
            match (marks[*peak], points.at(POINTS[*peak])) {
                (Some(_), Some(_)) if error(*peak).is_some() => counts[0] += 1,
                (Some(_), Some(_)) => {
                    counts[1] += 1;
                    counts[2] += 1;
                }
                (Some(_), None) => counts[1] += 1,
                (None, Some(_)) if !is_outside => counts[2] += 1,
                (None, _) => {}
            }
        }
        let errors: Errors = std::array::from_fn(error);
        for (errors, error) in score.errors.iter_mut().zip(errors) {
            errors.extend(error);
        }
        all.push(errors);
    }
    (score, all)
}

/// Delineates the beats at the annotators' R.
fn at_marks(recording: &Recording, marked: &[Marks]) -> (Score, Vec<Errors>) {
    let r: Vec<SampleIndex> = marked.iter().filter_map(|m| m[R]).map(SampleIndex::new).collect();
    let points = delineate(recording, &r, Polarity::Upright);
    let points: Vec<Option<Landmarks>> = points.into_iter().map(Some).collect();
    compare(recording, marked, &points)
}

/// Takes the beats that the whole analysis finds between the first and the last mark.
fn as_read(recording: &Recording, marked: &[Marks]) -> (Score, Vec<Errors>) {
    let ms = 1000.0 / recording.rate.hz();
    let mut beats = read(recording, &mut ()).beats;
    let near = |mark: usize, r: SampleIndex| (r.get() as f64 - mark as f64).abs() * ms;
    let matched: Vec<Option<Landmarks>> = marked
        .iter()
        .map(|marks| {
            let mark = marks[R]?;
            let nearest = (0..beats.len())
                .min_by(|&a, &b| near(mark, beats[a].r).total_cmp(&near(mark, beats[b].r)))?;
            (near(mark, beats[nearest].r) <= WINDOW).then(|| beats.remove(nearest).landmarks)
        })
        .collect();
    let (mut score, errors) = compare(recording, marked, &matched);
    let span = marked.iter().filter_map(|marks| marks[R]);
    let (first, last) = (span.clone().min().unwrap_or(0), span.max().unwrap_or(0));
    let inside = |r: SampleIndex| first < r.get() && r.get() < last;
    score.counts[1][2] += beats.iter().filter(|beat| inside(beat.r)).count();
    (score, errors)
}

/// Scores of the development and of the held-out records.
type Parts = [Score; 2];

fn together([development, held_out]: &Parts) -> Score {
    let mut all = development.clone();
    all.add(held_out);
    all
}

/// The lines of both CSV tables for one lead and one way to start.
fn both(points: &mut String, found_waves: &mut String, lead: &str, start: &str, parts: &Parts) {
    let all = together(parts);
    for (records, score) in [("development", &parts[0]), ("held out", &parts[1]), ("all", &all)] {
        lines(points, &format!("{lead},{records},{start}"), score);
        waves(found_waves, &format!("{lead},{records},{start}"), score);
    }
}

#[test]
fn ludb_boundaries_are_as_close_as_the_table_says() {
    let mut points = String::from("lead,records,start,point,n,mean_ms,sd_ms,typical_ms\n");
    let mut found_waves = String::from("lead,records,start,wave,found,missed,invented,se,ppv,f1\n");
    let (mut given, mut found) = (Parts::default(), Parts::default());
    for lead in LUDB_LEADS {
        let mut parts = Parts::default();
        for (place, record) in (1..200).step_by(2).enumerate() {
            let recording = open_record(&format!("ludb/{record}"), lead);
            let marked = marks(&format!("ludb/boundaries/{record}.csv"), Some(lead));
            let part = usize::from(is_held_out(place));
            parts[part].add(&at_marks(&recording, &marked).0);
            if lead == "i" {
                found[part].add(&as_read(&recording, &marked).0);
            }
        }
        both(&mut points, &mut found_waves, lead, "marked", &parts);
        if lead == "i" {
            given = parts;
        }
    }
    both(&mut points, &mut found_waves, "i", "found", &found);
    let (all_given, all_found) = (together(&given), together(&found));
    let scores = [
        ("development", &found[0]),
        ("held out", &found[1]),
        ("all", &all_found),
        ("all, R given", &all_given),
    ];
    let text = format!(
        "# Boundaries on LUDB, lead I\n\n{ABOUT}\n\n{}\nHoped for, F1: QRS 99.9, P 97.8, T 99.5 % \
         (Moskalenko 2020, arXiv 2001.04689, a neural network on all leads).\nWhere R is given, no \
         QRS can be missed.\n\n{}",
        summary(&scores, ("Kalyakulina 2020, 12 leads (from memory)", &KALYAKULINA)),
        wave_summary(&scores),
    );
    assert_table("boundaries_ludb_points.csv", &points);
    assert_table("boundaries_ludb_waves.csv", &found_waves);
    assert_table("boundaries_ludb.md", &text);
}

/// For each point of each beat the nearer of two leads, as is the custom on this database.
fn better(errors: &[Errors], others: &[Errors]) -> Score {
    let mut score = Score::default();
    for (one, other) in errors.iter().zip(others) {
        for (errors, (one, other)) in score.errors.iter_mut().zip(one.iter().zip(other)) {
            let both = [*one, *other].into_iter().flatten();
            errors.extend(both.min_by(|a, b| a.abs().total_cmp(&b.abs())));
        }
    }
    score
}

#[test]
fn qtdb_boundaries_are_as_close_as_the_table_says() {
    let [mut given, mut found, mut better_of_two] = [(); 3].map(|()| Parts::default());
    for (place, record) in qtdb_windows().iter().enumerate() {
        let path = format!("qtdb-windows/{record}");
        let marked = marks(&format!("{path}.q1c.csv"), None);
        let part = usize::from(is_held_out(place));
        let [(first, errors), (_, others)] =
            [0, 1].map(|lead| as_read(&open_trace(&path, lead), &marked));
        found[part].add(&first);
        better_of_two[part].add(&better(&errors, &others));
        given[part].add(&at_marks(&open_trace(&path, 0), &marked).0);
    }
    let mut points = String::from("lead,records,start,point,n,mean_ms,sd_ms,typical_ms\n");
    let no_waves = &mut String::new();
    both(&mut points, no_waves, "first", "found", &found);
    both(&mut points, no_waves, "first", "marked", &given);
    both(&mut points, no_waves, "better", "found", &better_of_two);
    let (all, all_better) = (together(&found), together(&better_of_two));
    let scores = [
        ("first lead, development", &found[0]),
        ("first lead, held out", &found[1]),
        ("first lead, all", &all),
        ("better lead, development", &better_of_two[0]),
        ("better lead, held out", &better_of_two[1]),
        ("better lead, all", &all_better),
    ];
    let text = format!(
        "# Boundaries on the QT Database\n\n{ABOUT}\nThe experts saw both leads; their QRS mark is \
         not the R of this lead. A wave they left out is no error:\nonly the sensitivity counts.\n\n{}\n{}",
        summary(
            &scores,
            (
                "Martínez 2004, better lead (QRS onset, T end second hand; rest from memory)",
                &MARTINEZ
            )
        ),
        sensitivities(&scores[..3]),
    );
    assert_table("boundaries_qtdb_points.csv", &points);
    assert_table("boundaries_qtdb.md", &text);
}
