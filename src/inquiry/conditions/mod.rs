//! Posture and other conditions: two or more, held against each other over people or over one person's beats.

mod measured;
mod no_comparison;
mod one_person;
mod pairing;
mod people;
mod told;

pub use measured::Measured;
pub use no_comparison::{LeftOut, NoComparison};
pub use one_person::{BeatsOf, OnePerson};
pub use pairing::{Entry, Person};
pub use people::{AgainstFirst, People};
pub use told::groups_summary;
