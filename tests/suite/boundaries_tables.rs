//! Scores of boundaries and the tables they go in, beside what others published.

use beatwalk::signal::Landmark;
use std::fmt::Write;

/// The columns of the tables of marks, in order.
pub(crate) const POINTS: [Landmark; 9] = [
    Landmark::POnset,
    Landmark::PPeak,
    Landmark::PEnd,
    Landmark::QrsOnset,
    Landmark::R,
    Landmark::QrsEnd,
    Landmark::TOnset,
    Landmark::TPeak,
    Landmark::TEnd,
];
pub(crate) const R: usize = 4;
/// P, QRS and T: the places of their onset, peak and end in [`POINTS`].
pub(crate) const WAVES: [(&str, usize); 3] = [("p", 1), ("qrs", R), ("t", 7)];
/// Twice the spread of experts: CSE Working Party 1985, Eur Heart J 6:815 (second hand, five copies).
/// The usual reading asks for a standard deviation near or below it.
pub(crate) const CSE: [(Landmark, f64); 5] = [
    (Landmark::POnset, 10.2),
    (Landmark::PEnd, 12.7),
    (Landmark::QrsOnset, 6.5),
    (Landmark::QrsEnd, 11.6),
    (Landmark::TEnd, 30.6),
];
/// Mean and standard deviation on the QT Database, best lead: Martínez et al. 2004, IEEE Trans Biomed
/// Eng 51:570 (QRS onset and T end second hand, the rest from memory).
pub(crate) const MARTINEZ: [(Landmark, f64, f64); 7] = [
    (Landmark::POnset, 2.0, 14.8),
    (Landmark::PPeak, 3.6, 13.2),
    (Landmark::PEnd, 1.9, 12.8),
    (Landmark::QrsOnset, 4.6, 7.7),
    (Landmark::QrsEnd, 0.8, 8.7),
    (Landmark::TPeak, 0.2, 13.9),
    (Landmark::TEnd, -1.6, 18.1),
];
/// The same on all 200 records of LUDB, all leads: Kalyakulina et al. (from memory).
pub(crate) const KALYAKULINA: [(Landmark, f64, f64); 5] = [
    (Landmark::POnset, -2.7, 10.2),
    (Landmark::PEnd, 0.4, 11.4),
    (Landmark::QrsOnset, -8.1, 7.7),
    (Landmark::QrsEnd, 3.8, 8.8),
    (Landmark::TEnd, 5.7, 15.5),
];

/// How to read the tables.
pub(crate) const ABOUT: &str = "Mean ± standard deviation in ms, found minus marked, and in brackets the error that half of the\nbeats stay within; by \
    `tests/suite/boundaries_accuracy.rs`.\nHeld out: every third record; numbers are \
    chosen on the others, but ideas and a few variants\nwith the held-out sums in sight.\nCSE limit: two standard deviations of experts (CSE Working \
    Party 1985, Eur Heart J 6:815).";

/// What came of comparing some beats.
#[derive(Clone, Default)]
pub(crate) struct Score {
    /// Found minus marked, ms, of each of [`POINTS`].
    pub(crate) errors: [Vec<f64>; 9],
    /// Found, missed and invented waves, for each of [`WAVES`].
    pub(crate) counts: [[usize; 3]; 3],
}

impl Score {
    pub(crate) fn add(&mut self, other: &Self) {
        for (errors, more) in self.errors.iter_mut().zip(&other.errors) {
            errors.extend(more);
        }
        for (counts, more) in self.counts.iter_mut().zip(&other.counts) {
            for (count, more) in counts.iter_mut().zip(more) {
                *count += more;
            }
        }
    }

    pub(crate) fn sensitivity(&self, wave: usize) -> f64 {
        let [found, missed, _] = self.counts[wave];
        100.0 * found as f64 / (found + missed).max(1) as f64
    }

    pub(crate) fn predictivity(&self, wave: usize) -> f64 {
        let [found, _, invented] = self.counts[wave];
        100.0 * found as f64 / (found + invented).max(1) as f64
    }

    pub(crate) fn f1(&self, wave: usize) -> f64 {
        let [found, missed, invented] = self.counts[wave];
        200.0 * found as f64 / (2 * found + missed + invented).max(1) as f64
    }

    /// Mean and standard deviation (n - 1) of the errors of a point, ms.
    pub(crate) fn bias(&self, point: usize) -> (f64, f64) {
        let errors = &self.errors[point];
        let n = errors.len() as f64;
        let mean = errors.iter().sum::<f64>() / n.max(1.0);
        let squares: f64 = errors.iter().map(|error| (error - mean).powi(2)).sum();
        (mean, (squares / (n - 1.0).max(1.0)).sqrt())
    }
}

/// The error that half of the beats stay within, ms: odd records do not weigh on it.
pub(crate) fn typical(errors: &[f64]) -> f64 {
    let mut sizes: Vec<f64> = errors.iter().map(|error| error.abs()).collect();
    sizes.sort_by(f64::total_cmp);
    sizes.get(sizes.len() / 2).copied().unwrap_or(0.0)
}

/// One line of the table for each point.
pub(crate) fn lines(table: &mut String, labels: &str, score: &Score) {
    for (point, landmark) in POINTS.iter().enumerate() {
        let (mean, sd) = score.bias(point);
        let n = score.errors[point].len();
        let typical = typical(&score.errors[point]);
        let key = landmark.key();
        writeln!(table, "{labels},{key},{n},{mean:.1},{sd:.1},{typical:.1}").unwrap();
    }
}

pub(crate) fn waves(table: &mut String, labels: &str, score: &Score) {
    for (wave, (name, _)) in WAVES.iter().enumerate() {
        let [found, missed, invented] = score.counts[wave];
        writeln!(
            table,
            "{labels},{name},{found},{missed},{invented},{:.2},{:.2},{:.2}",
            score.sensitivity(wave),
            score.predictivity(wave),
            score.f1(wave)
        )
        .unwrap();
    }
}

/// How many waves were found, as a table.
pub(crate) fn wave_summary(scores: &[(&str, &Score)]) -> String {
    let mut text = String::from(
        "| wave | beats | sensitivity % | positive predictivity % | F1 % |\n|---|---|---|---|---|\n",
    );
    for (name, score) in scores {
        for (wave, (wave_name, _)) in WAVES.iter().enumerate() {
            let (se, ppv) = (score.sensitivity(wave), score.predictivity(wave));
            let f1 = score.f1(wave);
            writeln!(text, "| {wave_name} | {name} | {se:.2} | {ppv:.2} | {f1:.2} |").unwrap();
        }
    }
    text
}

/// How many of the marked waves were found, where what was not marked says nothing.
pub(crate) fn sensitivities(scores: &[(&str, &Score)]) -> String {
    let mut text = String::from(
        "| sensitivity % | P | QRS | T | marked P | QRS | T |\n|---|---|---|---|---|---|---|\n",
    );
    for (name, score) in scores {
        let [p, qrs, t] = [0, 1, 2].map(|wave| score.sensitivity(wave));
        let [p_n, qrs_n, t_n] = score.counts.map(|[found, missed, _]| found + missed);
        writeln!(text, "| {name} | {p:.2} | {qrs:.2} | {t:.2} | {p_n} | {qrs_n} | {t_n} |")
            .unwrap();
    }
    text
}

/// `mean ± SD (typical)` of each point for each score, beside the published figures.
pub(crate) fn summary(
    scores: &[(&str, &Score)],
    published: (&str, &[(Landmark, f64, f64)]),
) -> String {
    let mut text = String::from("| point |");
    for (name, _) in scores {
        write!(text, " {name} |").unwrap();
    }
    write!(text, " {} | CSE limit |\n|---|", published.0).unwrap();
    text.push_str(&"---|".repeat(scores.len() + 2));
    for (point, landmark) in POINTS.iter().enumerate() {
        write!(text, "\n| {} |", landmark.key()).unwrap();
        for (_, score) in scores {
            let (mean, sd) = score.bias(point);
            let typical = typical(&score.errors[point]);
            write!(text, " {mean:.1} ± {sd:.1} ({typical:.0}) |").unwrap();
        }
        match published.1.iter().find(|row| row.0 == *landmark) {
            Some((_, mean, sd)) => write!(text, " {mean:.1} ± {sd:.1} |").unwrap(),
            None => text.push_str(" |"),
        }
        match CSE.iter().find(|row| row.0 == *landmark) {
            Some((_, limit)) => write!(text, " {limit:.1} |").unwrap(),
            None => text.push_str(" |"),
        }
    }
    text.push('\n');
    text
}
