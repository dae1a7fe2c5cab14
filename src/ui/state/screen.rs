//! Where the student is.

/// The screens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Screen {
    /// Prepare a recording, before there is one.
    Prepare,
    /// Open a recording.
    Open,
    /// See the trace and its beats.
    See,
    /// Read one beat.
    Walk,
    /// What came out.
    Results,
    /// What changes in a heartbeat, and by how much.
    Investigate,
    /// The numbers of many recordings together.
    Class,
    /// What a teacher set, to be done.
    Homework,
    /// What a teacher is about to set.
    Set,
    /// What was handed in, to be marked.
    HandIns,
}

impl Screen {
    /// The steps of the lesson, in order; the preparation comes before all of them.
    pub const STEPS: [Self; 4] = [Self::Open, Self::See, Self::Walk, Self::Results];

    /// The message that names it.
    pub fn name_key(self) -> &'static str {
        match self {
            Self::Prepare => "prepare.title",
            Self::Open => "page.screen.open",
            Self::See => "page.screen.see",
            Self::Walk => "page.screen.walk",
            Self::Results => "page.screen.results",
            Self::Investigate => "bench.title",
            Self::Class => "class.title",
            Self::Homework => "tasks.title",
            Self::Set => "tasks.set.title",
            Self::HandIns => "hand_ins.title",
        }
    }
}
