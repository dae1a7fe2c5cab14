//! Which questions there are, to which point each belongs, and in which order its answers stand.

use crate::signal::Landmark;
use serde::{Deserialize, Serialize};

/// A question, by the belief that it goes at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Question {
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
    pub const ALL: [Self; 11] = [
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
    ];

    /// The question that is asked once a point is settled.
    pub const fn of(landmark: Landmark) -> Self {
        match landmark {
            Landmark::R => Self::TallIsStrong,
            Landmark::Q => Self::QIsAvNode,
            Landmark::S => Self::WavesAreSides,
            Landmark::PPeak => Self::WaveIsContraction,
            Landmark::TPeak => Self::TIsFilling,
            Landmark::POnset => Self::PIsSinusNode,
            Landmark::PEnd => Self::LevelIsPause,
            Landmark::QrsOnset => Self::SpikeIsSqueeze,
            Landmark::QrsEnd => Self::LevelIsRest,
            Landmark::TOnset => Self::UpIsOut,
            Landmark::TEnd => Self::LevelIsStopped,
        }
    }

    /// The point after which it is asked.
    pub const fn landmark(self) -> Landmark {
        match self {
            Self::TallIsStrong => Landmark::R,
            Self::QIsAvNode => Landmark::Q,
            Self::WavesAreSides => Landmark::S,
            Self::WaveIsContraction => Landmark::PPeak,
            Self::TIsFilling => Landmark::TPeak,
            Self::PIsSinusNode => Landmark::POnset,
            Self::LevelIsPause => Landmark::PEnd,
            Self::SpikeIsSqueeze => Landmark::QrsOnset,
            Self::LevelIsRest => Landmark::QrsEnd,
            Self::UpIsOut => Landmark::TOnset,
            Self::LevelIsStopped => Landmark::TEnd,
        }
    }

    /// The name used in message keys and tables.
    pub const fn key(self) -> &'static str {
        match self {
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
        }
    }

    /// Its answers as they are shown: always in the same order, the right one not always in the same
    /// place, so that neither its place nor a classmate's screen gives it away.
    pub const fn choices(self) -> [Choice; 3] {
        use Choice::{Belief, Other, Right};
        match self {
            Self::TallIsStrong | Self::TIsFilling | Self::LevelIsRest => [Belief, Right, Other],
            Self::QIsAvNode | Self::LevelIsPause => [Other, Belief, Right],
            Self::WavesAreSides | Self::SpikeIsSqueeze => [Right, Belief, Other],
            Self::WaveIsContraction | Self::LevelIsStopped => [Belief, Other, Right],
            Self::PIsSinusNode => [Other, Right, Belief],
            Self::UpIsOut => [Right, Other, Belief],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::Step;

    #[test]
    fn each_point_of_the_walk_has_one_question_in_its_order() {
        let asked: Vec<_> =
            Step::ALL.into_iter().filter_map(Step::landmark).map(Question::of).collect();
        assert_eq!(asked, Question::ALL);
        for question in Question::ALL {
            assert_eq!(Question::of(question.landmark()), question);
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
        assert!(places.iter().all(|&times| (3..=4).contains(&times)), "{places:?}");
    }
}
