//! One line a task: what the student gave, what is right, what it earns.

use super::points::{Placed, placed};
use super::reference::{Reference, References};
use super::sheet::{HelpUsed, TaskLine, Verdict};
use crate::homework::{Answered, Ask, Assignment, Homework, Task, plain};
use crate::inquiry::{Measured, Stretch};
use crate::lesson::Session;
use crate::report::SavedWork;
use crate::signal::Progress;
use crate::words::{Phrase, phrase, typed};

/// A line on which nothing was answered.
fn missing(task: &Task, homework: &Homework) -> TaskLine {
    TaskLine {
        key: task.key.clone(),
        answer: Phrase::from(""),
        answer_value: None,
        expected: None,
        reference: None,
        unit: task.ask.unit().to_owned(),
        verdict: Verdict::Missing,
        earned: Some(0.0),
        of: task.points.max(0.0),
        points: Vec::new(),
        help_used: HelpUsed::default(),
        seconds: homework.seconds.get(&task.key).copied(),
        notes: Vec::new(),
    }
}

/// Marks a task.
pub(super) fn line(
    task: &Task,
    assignment: &Assignment,
    homework: &Homework,
    references: &mut References,
    progress: &mut dyn Progress,
) -> TaskLine {
    let missing = missing(task, homework);
    let work = task.ask.material().and_then(|key| homework.works.get(key));
    let mut reference = || {
        let key = task.ask.material()?;
        // Work that does not lie in its recording was not done on it.
        let recording = homework.recording(assignment, key)?;
        let fits = work.is_none_or(|work| work.fits(recording).is_ok());
        fits.then(|| references.of(assignment, homework, key, progress))?
    };
    let answer = homework.answers.get(&task.key);
    match (&task.ask, answer) {
        (Ask::Points { landmarks, .. }, _) => match reference() {
            Some(reference) => of_points(placed(landmarks, work, &reference), work, missing),
            None => missing,
        },
        (Ask::Measure { measured, .. }, Some(Answered::Number(text))) => {
            let found = reference().and_then(|one| measured_on(*measured, work, &one));
            let line = of_number(task, text, found, measured.decimals(), missing);
            corrected(work, line)
        }
        (Ask::Number { value, .. }, Some(Answered::Number(text))) => {
            of_number(task, text, *value, usize::MAX, missing)
        }
        (Ask::Choice { options, right }, Some(Answered::Choice(place))) => {
            of_choice(options, *right, *place, missing)
        }
        (Ask::Text { .. }, Some(Answered::Text(text))) if !text.trim().is_empty() => TaskLine {
            answer: Phrase::Text(plain::answer(text)),
            verdict: Verdict::ForTeacher,
            earned: None,
            ..missing
        },
        _ => missing,
    }
}

/// The reference over the student's part.
fn measured_on(measured: Measured, work: Option<&SavedWork>, reference: &Reference) -> Option<f64> {
    let stretch = Stretch::between(reference.evidence(), reference.span(work));
    measured.of(&stretch).filter(|value| value.is_finite())
}

fn of_points(placed: Placed, work: Option<&SavedWork>, line: TaskLine) -> TaskLine {
    let of = line.of;
    let right = placed.right;
    let asked = placed.lines.len();
    let notes = placed.unknown_beat.then(|| phrase!("homework.note.unknown_beat"));
    let checks = placed.lines.iter().map(|line| line.tries).fold(0, u32::saturating_add);
    let worked_answers = placed.lines.iter().filter(|line| line.worked).count();
    let given = placed.lines.iter().any(|line| line.verdict.is_some());
    let line = TaskLine {
        answer: if given { phrase!("homework.points_right", right, asked) } else { line.answer },
        verdict: placed.verdict,
        earned: placed.share.map(|share| share * of),
        help_used: HelpUsed {
            checks,
            worked_answers: worked_answers.try_into().unwrap_or(u32::MAX),
            questions: 0,
        },
        points: placed.lines,
        notes: notes.into_iter().collect(),
        ..line
    };
    corrected(work, line)
}

/// The teacher is told where the student corrected beats: the reference is that of the beats as they were found.
fn corrected(work: Option<&SavedWork>, mut line: TaskLine) -> TaskLine {
    if work.is_some_and(|work| !work.settings.beats.is_empty()) {
        line.notes.push(phrase!("homework.note.corrected_beats"));
    }
    line
}

fn of_number(
    task: &Task,
    text: &str,
    reference: Option<f64>,
    decimals: usize,
    line: TaskLine,
) -> TaskLine {
    if text.trim().is_empty() {
        return line;
    }
    let bare = text.trim().strip_suffix(&*line.unit).unwrap_or(text);
    let value = typed(bare);
    let expected = reference.map(|reference| match decimals {
        usize::MAX => Phrase::exact(reference),
        decimals => Phrase::number(reference, decimals),
    });
    let tolerance = match task.ask {
        Ask::Measure { tolerance, .. } | Ask::Number { tolerance, .. } => Some(tolerance),
        _ => None,
    };
    let right = tolerance.zip(value).zip(reference);
    let right = right.map(|((tolerance, value), reference)| tolerance.allows(value, reference));
    let (verdict, earned) = match (value, right) {
        // It may still be a number to a person.
        (None, _) => (Verdict::ForTeacher, None),
        (Some(_), None) => (Verdict::NoReference, None),
        (Some(_), Some(true)) => (Verdict::Right, Some(line.of)),
        (Some(_), Some(false)) => (Verdict::Wrong, Some(0.0)),
    };
    let answer = Phrase::Text(plain::name(text));
    TaskLine { answer, answer_value: value, expected, reference, verdict, earned, ..line }
}

fn of_choice(options: &[String], right: Option<usize>, place: usize, line: TaskLine) -> TaskLine {
    let Some(chosen) = options.get(place) else { return line };
    let expected = right.and_then(|right| options.get(right));
    let (verdict, earned) = match expected {
        None => (Verdict::NoReference, None),
        Some(_) if right == Some(place) => (Verdict::Right, Some(line.of)),
        Some(_) => (Verdict::Wrong, Some(0.0)),
    };
    let expected = expected.map(Phrase::from);
    TaskLine { answer: chosen.into(), expected, verdict, earned, ..line }
}

/// The help that was used on a recording.
pub(super) fn help_used(session: &Session) -> HelpUsed {
    let placements = || session.work().iter().flat_map(|work| &work.placements);
    let count = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
    let tries = session.questions_tried();
    HelpUsed {
        checks: count(placements().map(|placement| placement.tries.len()).sum()),
        worked_answers: count(placements().filter(|placement| placement.revealed).count()),
        questions: count(tries),
    }
}
