//! What came out for one hand-in. Plain data that crosses the worker's wire and outlives the page's language.

use crate::homework::Seal;
use crate::lesson;
use crate::signal::Landmark;
use crate::words::{Language, Phrase, phrase};
use serde::{Deserialize, Serialize};

/// One hand-in, marked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sheet {
    /// The file it came in.
    pub file: String,
    /// What tells it from any other hand-in, whatever the file is called: hexadecimal SHA-256 of its content.
    pub content: String,
    /// Whose it is, as the student wrote; may be empty.
    pub student: String,
    /// Which assignment it was made for.
    pub origin: Origin,
    /// Whether it is as it was written.
    pub seal: Seal,
    /// When it was begun and handed in, as the student's computer said; may be empty.
    pub started: String,
    /// See `started`.
    pub handed_in: String,
    /// One line a task, in order; empty for a foreign hand-in.
    pub lines: Vec<TaskLine>,
    /// How long the student was at it in all, s; `None` when nothing was kept.
    pub seconds: Option<f64>,
    /// The help used in all.
    pub help_used: HelpUsed,
}

/// Which assignment a hand-in was made for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Origin {
    /// The one that is marked.
    This,
    /// Another one, or another copy of this one.
    Other {
        /// What it was called.
        title: String,
    },
}

/// What came out for one task.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TaskLine {
    /// The key of the task.
    pub key: String,
    /// What the student gave; empty where nothing was.
    pub answer: Phrase,
    /// The same as a number.
    pub answer_value: Option<f64>,
    /// What is right, where there is one thing that is.
    pub expected: Option<Phrase>,
    /// The same as a number.
    pub reference: Option<f64>,
    /// The unit of the numbers; may be empty.
    pub unit: String,
    /// How it was judged.
    pub verdict: Verdict,
    /// What it earned; `None` where the teacher decides.
    pub earned: Option<f64>,
    /// What a right answer earns.
    pub of: f64,
    /// For points on a trace, one line each.
    pub points: Vec<PointLine>,
    /// The help used for it.
    pub help_used: HelpUsed,
    /// How long the student was at it, s; `None` when nothing was kept.
    pub seconds: Option<f64>,
    /// What the teacher should know before trusting the verdict.
    pub notes: Vec<Phrase>,
}

/// How a task was judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Right.
    Right,
    /// Some points are right.
    Partly,
    /// Wrong.
    Wrong,
    /// Nothing was answered.
    Missing,
    /// For the teacher to read.
    ForTeacher,
    /// There is an answer, but nothing to hold it against.
    NoReference,
}

/// One point on a trace.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PointLine {
    /// Which point.
    pub landmark: Landmark,
    /// How the mark was judged, as it stands; `None` without a mark, or on a beat that the analysis does not know.
    pub verdict: Option<lesson::Verdict>,
    /// How often it was checked.
    pub tries: u32,
    /// Whether the worked answer was shown.
    pub worked: bool,
}

/// The help that was used.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct HelpUsed {
    /// How many marks were checked.
    pub checks: u32,
    /// How many worked answers were shown.
    pub worked_answers: u32,
    /// How many answers to the lesson's questions were tried.
    pub questions: u32,
}

impl TaskLine {
    /// What the student gave, with its unit; empty where nothing was.
    pub fn answer_words(&self, language: Language) -> String {
        self.with_unit(self.answer.in_words(language))
    }

    /// What was expected, with its unit; empty where there is no one thing.
    pub fn expected_words(&self, language: Language) -> String {
        let expected = self.expected.as_ref().map(|it| it.in_words(language));
        self.with_unit(expected.unwrap_or_default())
    }

    /// A student may have typed the unit too.
    fn with_unit(&self, said: String) -> String {
        let bare = said.is_empty() || said.ends_with(&self.unit);
        if bare { said } else { format!("{said}\u{a0}{}", self.unit) }
    }
}

impl Verdict {
    /// All of them.
    pub const ALL: [Self; 6] = [
        Self::Right,
        Self::Partly,
        Self::Wrong,
        Self::Missing,
        Self::ForTeacher,
        Self::NoReference,
    ];

    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::Partly => "partly",
            Self::Wrong => "wrong",
            Self::Missing => "missing",
            Self::ForTeacher => "for_teacher",
            Self::NoReference => "no_reference",
        }
    }

    /// What it is called.
    pub const fn said(self) -> Phrase {
        match self {
            Self::Right => phrase!("homework.verdict.right"),
            Self::Partly => phrase!("homework.verdict.partly"),
            Self::Wrong => phrase!("homework.verdict.wrong"),
            Self::Missing => phrase!("homework.verdict.missing"),
            Self::ForTeacher => phrase!("homework.verdict.for_teacher"),
            Self::NoReference => phrase!("homework.verdict.no_reference"),
        }
    }
}

impl Origin {
    /// Which it is, for the teacher.
    pub fn said(&self) -> Phrase {
        match self {
            Self::This => phrase!("homework.origin.this"),
            Self::Other { title } => phrase!("homework.origin.other", title),
        }
    }
}

impl Sheet {
    /// Whether nothing at all was answered.
    pub fn is_empty(&self) -> bool {
        self.origin == Origin::This
            && self.lines.iter().all(|line| line.verdict == Verdict::Missing)
    }
}
