//! Which questions there are, to which step of the walk each belongs, and in which order its answers stand.

use crate::lesson::Step;
use crate::signal::Landmark;
use serde::{Deserialize, Serialize};

/// A question, by the belief that it goes at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Question {
    /// A beat that looks like the others pumps like the others.
    AlikeIsPumping,
    /// A tall R is a strong heart.
    TallIsStrong,
    /// Q is the AV node.
    QIsAvNode,
    /// R is the left ventricle and S the right one.
    WavesAreSides,
    /// A wave is a contraction.
    WaveIsContraction,
    /// T is the ventricles filling.
    TIsFilling,
    /// P is the sinus node.
    PIsSinusNode,
    /// A level PR segment is a pause.
    LevelIsPause,
    /// The squeeze begins with QRS, or is QRS.
    SpikeIsSqueeze,
    /// A level ST segment is rest.
    LevelIsRest,
    /// Up means blood going out.
    UpIsOut,
    /// A level line between beats is a heart that stands still.
    LevelIsStopped,
    /// QT is how long the ventricles contract.
    QtIsSqueeze,
}

/// One of the three answers to a question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Choice {
    /// What is so.
    Right,
    /// The belief.
    Belief,
    /// Something else that is not so.
    Other,
}

impl Choice {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Right, Self::Belief, Self::Other];

    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::Belief => "belief",
            Self::Other => "other",
        }
    }
}

impl Question {
    /// All of them, in the order in which the walk meets them.
    pub const ALL: [Self; 13] = [
        Self::AlikeIsPumping,
        Self::TallIsStrong,
        Self::QIsAvNode,
        Self::WavesAreSides,
        Self::WaveIsContraction,
        Self::TIsFilling,
        Self::PIsSinusNode,
        Self::LevelIsPause,
        Self::SpikeIsSqueeze,
        Self::LevelIsRest,
        Self::UpIsOut,
        Self::LevelIsStopped,
        Self::QtIsSqueeze,
    ];

    /// The question that belongs to a step of the walk.
    pub const fn of(step: Step) -> Self {
        match step {
            Step::ChooseBeat => Self::AlikeIsPumping,
            Step::Place(Landmark::R) => Self::TallIsStrong,
            Step::Place(Landmark::Q) => Self::QIsAvNode,
            Step::Place(Landmark::S) => Self::WavesAreSides,
            Step::Place(Landmark::PPeak) => Self::WaveIsContraction,
            Step::Place(Landmark::TPeak) => Self::TIsFilling,
            Step::Place(Landmark::POnset) => Self::PIsSinusNode,
            Step::Place(Landmark::PEnd) => Self::LevelIsPause,
            Step::Place(Landmark::QrsOnset) => Self::SpikeIsSqueeze,
            Step::Place(Landmark::QrsEnd) => Self::LevelIsRest,
            Step::Place(Landmark::TOnset) => Self::UpIsOut,
            Step::Place(Landmark::TEnd) => Self::LevelIsStopped,
            Step::Results => Self::QtIsSqueeze,
        }
    }

    /// The step at which it is asked.
    pub const fn step(self) -> Step {
        match self {
            Self::AlikeIsPumping => Step::ChooseBeat,
            Self::TallIsStrong => Step::Place(Landmark::R),
            Self::QIsAvNode => Step::Place(Landmark::Q),
            Self::WavesAreSides => Step::Place(Landmark::S),
            Self::WaveIsContraction => Step::Place(Landmark::PPeak),
            Self::TIsFilling => Step::Place(Landmark::TPeak),
            Self::PIsSinusNode => Step::Place(Landmark::POnset),
            Self::LevelIsPause => Step::Place(Landmark::PEnd),
            Self::SpikeIsSqueeze => Step::Place(Landmark::QrsOnset),
            Self::LevelIsRest => Step::Place(Landmark::QrsEnd),
            Self::UpIsOut => Step::Place(Landmark::TOnset),
            Self::LevelIsStopped => Step::Place(Landmark::TEnd),
            Self::QtIsSqueeze => Step::Results,
        }
    }

    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
            Self::AlikeIsPumping => "alike_is_pumping",
            Self::TallIsStrong => "tall_is_strong",
            Self::QIsAvNode => "q_is_av_node",
            Self::WavesAreSides => "waves_are_sides",
            Self::WaveIsContraction => "wave_is_contraction",
            Self::TIsFilling => "t_is_filling",
            Self::PIsSinusNode => "p_is_sinus_node",
            Self::LevelIsPause => "level_is_pause",
            Self::SpikeIsSqueeze => "spike_is_squeeze",
            Self::LevelIsRest => "level_is_rest",
            Self::UpIsOut => "up_is_out",
            Self::LevelIsStopped => "level_is_stopped",
            Self::QtIsSqueeze => "qt_is_squeeze",
        }
    }

    /// Its answers as they are shown: always in the same order, the right one not always in the same
    /// place, so that neither its place nor a classmate's screen gives it away.
    pub const fn choices(self) -> [Choice; 3] {
        use Choice::{Belief, Other, Right};
        match self {
            Self::TallIsStrong | Self::TIsFilling | Self::LevelIsRest => [Belief, Right, Other],
            Self::QIsAvNode | Self::LevelIsPause => [Other, Belief, Right],
            Self::AlikeIsPumping | Self::WavesAreSides | Self::SpikeIsSqueeze => {
                [Right, Belief, Other]
            }
            Self::WaveIsContraction | Self::LevelIsStopped => [Belief, Other, Right],
            Self::PIsSinusNode => [Other, Right, Belief],
            Self::UpIsOut | Self::QtIsSqueeze => [Right, Other, Belief],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_step_of_the_walk_has_one_question_in_its_order() {
        assert_eq!(Step::ALL.map(Question::of), Question::ALL);
        for question in Question::ALL {
            assert_eq!(Question::of(question.step()), question);
        }
    }

    #[test]
    fn the_right_answer_stands_in_each_place_about_as_often() {
        let mut places = [0; 3];
        for question in Question::ALL {
            let choices = question.choices();
            for choice in Choice::ALL {
                assert!(choices.contains(&choice), "{question:?} lacks {choice:?}");
            }
            places[choices.iter().position(|&choice| choice == Choice::Right).unwrap()] += 1;
        }
        assert!(places.iter().all(|&times| (4..=5).contains(&times)), "{places:?}");
    }
}
