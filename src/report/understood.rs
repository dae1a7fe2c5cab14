//! What was understood: the questions, the final check and the flaws, a score for each part. The lines
//! count answers; they say nothing about a person.

use crate::lesson::{
    CheckRow, CheckScore, Choice, LandmarkWords, Question, QuestionWork, Session, Specimen, Verdict,
};
use crate::signal::SampleRate;
use crate::words::{Language, figure, say, say_with};

/// What stands in the report about questions and the final check.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Understood {
    /// A score for each part, in a sentence each.
    pub scores: Vec<String>,
    /// The points of the final check; empty until it is marked.
    pub points: Vec<CheckLine>,
}

/// One point of the final check, ready to print.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CheckLine {
    /// The point.
    pub landmark: String,
    /// How far off, ms, with its sign; or what was said instead of a place.
    pub miss: String,
    /// The limit, ms.
    pub limit: String,
    /// Right or not, in words.
    pub verdict: String,
    /// Whether it is right; `None` where there was nothing to compare with.
    pub right: Option<bool>,
}

impl CheckLine {
    /// The messages above its columns.
    pub const HEADS: [&'static str; 4] =
        ["check.table.point", "check.table.miss", "check.table.limit", "check.table.verdict"];
}

impl Understood {
    /// Counts what a session holds.
    pub fn of(session: &Session, rate: SampleRate, language: Language) -> Self {
        let score = CheckScore::of(session, rate);
        let scores = [Some(questions(session, language)), questions_left(session, language)]
            .into_iter()
            .flatten()
            .chain(check(session, score.as_ref(), language))
            .chain(flaws(session, language));
        let rows = score.iter().flat_map(|score| &score.rows);
        Self {
            scores: scores.collect(),
            points: rows.map(|row| check_line(row, language)).collect(),
        }
    }
}

fn questions(session: &Session, language: Language) -> String {
    let settled = || {
        let works = Question::ALL.into_iter().filter_map(|question| session.question(question));
        works.filter(|work| work.is_settled())
    };
    let at_once = |work: &&QuestionWork| work.first() == Some(Choice::Right);
    let first = settled().filter(at_once).count().to_string();
    let (settled, all) = (settled().count().to_string(), Question::ALL.len().to_string());
    let places = [("settled", &*settled), ("all", &*all), ("first", &*first)];
    say_with(language, "check.report.questions", &places)
}

/// The questions without a right answer, by their points; `None` when none is left or none was begun.
fn questions_left(session: &Session, language: Language) -> Option<String> {
    let left: Vec<String> = session
        .questions_left()
        .map(|question| question.step_name(language).into_owned())
        .collect();
    let some = !left.is_empty() && left.len() < Question::ALL.len();
    some.then(|| say_with(language, "check.report.questions_left", &[("points", &left.join(", "))]))
}

fn check(session: &Session, score: Option<&CheckScore>, language: Language) -> Vec<String> {
    let Some(score) = score else {
        let begun = session.final_check().is_some();
        let key = if begun { "check.report.points_open" } else { "check.report.not_begun" };
        return vec![say(language, key).into_owned()];
    };
    let (right, all) = (score.right().to_string(), score.compared().to_string());
    let points = say_with(language, "check.report.points", &[("right", &right), ("all", &all)]);
    let not_compared = score.rows.len() - score.compared();
    let rest = (not_compared > 0).then(|| {
        let count = not_compared.to_string();
        say_with(language, "check.report.points_not_compared", &[("count", &count)])
    });
    [points].into_iter().chain(rest).collect()
}

fn flaws(session: &Session, language: Language) -> Option<String> {
    let answers = || Specimen::ALL.into_iter().filter_map(|it| session.flaw_answer(it));
    let named = answers().filter(|answer| answer.names_one()).count().to_string();
    let remedied = answers().filter(|answer| answer.remedies_one()).count().to_string();
    let all = answers().count();
    (all > 0).then(|| {
        let all = all.to_string();
        let places = [("named", &*named), ("all", &*all), ("remedied", &*remedied)];
        say_with(language, "check.report.flaws", &places)
    })
}

/// A row of the final check in words.
fn check_line(row: &CheckRow, language: Language) -> CheckLine {
    let miss = match (row.verdict, row.verdict.miss()) {
        (_, Some(miss)) => {
            let ms = miss.milliseconds.milliseconds();
            let sign = if ms > 0.0 { "+" } else { "" };
            format!("{sign}{}", figure(language, ms, 1))
        }
        (Verdict::RightlyNotHere, None) => say(language, "check.table.absent_rightly").into_owned(),
        (Verdict::IsHere, None) => say(language, "check.table.is_here").into_owned(),
        (_, None) => "–".to_owned(),
    };
    let verdict = match row.is_right() {
        Some(true) => "check.table.right",
        Some(false) => "check.table.wrong",
        None => "check.table.cannot_tell",
    };
    CheckLine {
        landmark: LandmarkWords::of(row.landmark, language).name.into_owned(),
        miss,
        limit: figure(language, row.limit.right.milliseconds(), 1),
        verdict: say(language, verdict).into_owned(),
        right: row.is_right(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::{Command, Evidence, Grip, Lesson, example};
    use crate::signal::Landmark;

    #[test]
    fn each_part_has_its_score_and_each_point_its_line() {
        let (recording, reading) = example::of_beats(5);
        let evidence = Evidence { recording: &recording, reading: &reading };
        let mut lesson = Lesson::default();
        let mut apply = |command| lesson.apply(command, evidence).unwrap();
        apply(Command::ChooseBeat(reading.beats[1].r));
        let place = |landmark, at| Command::Place { landmark, at, grip: Grip::Fresh };
        apply(place(Landmark::R, reading.beats[1].r));
        apply(Command::Check(Landmark::R));
        apply(Command::Answer { question: Question::TallIsStrong, choice: Choice::Belief });
        apply(Command::Answer { question: Question::TallIsStrong, choice: Choice::Right });
        apply(Command::StartCheck);
        for (landmark, at) in reading.beats[2].landmarks.iter() {
            let by = if landmark == Landmark::QrsOnset { 12 } else { 0 };
            apply(place(landmark, at.offset(by)));
        }
        apply(Command::MarkCheck);
        let english = Language::English;
        let understood = Understood::of(lesson.session(), recording.rate, english);
        assert!(understood.scores[0].contains("1 of 13 answered right, 0 of them"));
        assert!(understood.scores[1].contains("P onset, P end"), "{:?}", understood.scores);
        assert!(understood.scores[2].contains("10 of 11 right"), "{:?}", understood.scores);
        let onset = understood.points.iter().find(|line| line.landmark == "QRS onset").unwrap();
        assert_eq!((&*onset.miss, &*onset.limit, onset.right), ("+12", "6.5", Some(false)));
        assert_eq!(understood.points.iter().filter(|line| line.miss == "0").count(), 10);
        let fresh = Understood::of(&Session::default(), recording.rate, english);
        assert_eq!((fresh.scores.len(), fresh.points.len()), (2, 0));
    }
}
