//! Files of a shape that the student corrected once: read that way again, and said so.
//!
//! A sensor writes all of its files alike, so a class would have to make the same correction for each.
//! Two text files have the same shape when, without any choice, they were understood alike: delimiter,
//! decimal mark, names of the columns, which of them are time and voltage, and in which units. What was
//! corrected is kept for the shape, except for the sampling rate, which may be another one each time.
//! When a file of a known shape can't be read with what is kept for it, it is read as found.

use super::{
    Choices, DecimalMark, Delimiter, OpenError, Opening, SourceFile, TextLayout, TimeColumn,
    TimeUnit, ValueUnit, open,
};
use crate::signal::Progress;
use serde::{Deserialize, Serialize};

/// How many shapes are kept: more sensors than a school has. The oldest goes first.
const MOST: usize = 30;

/// What text files that come from the same sensor have in common.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TextShape {
    delimiter: Delimiter,
    decimal_mark: DecimalMark,
    columns: Vec<String>,
    time_column: TimeColumn,
    time_unit: Option<TimeUnit>,
    value_column: usize,
    value_unit: ValueUnit,
}

/// The shapes that were corrected, each with what was chosen.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct KnownShapes(Vec<Known>);

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct Known {
    shape: TextShape,
    choices: Choices,
}

/// Whether the student says how a file is to be read.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum How {
    /// As found, or as a file of the same shape was corrected before.
    AsBefore(KnownShapes),
    /// As chosen now.
    AsChosen(Choices),
}

/// What opening came to, and by which choices.
#[derive(Clone, Debug)]
pub struct Understood {
    /// The traces, or the question for a rate.
    pub opening: Opening,
    /// The shape as found without any choice; `None` for what is no text, or where the student chose.
    pub found: Option<TextShape>,
    /// The choices it was read with.
    pub choices: Choices,
}

impl TextShape {
    /// The shape of a file that was read without any choice.
    pub fn of(layout: &TextLayout) -> Self {
        Self {
            delimiter: layout.delimiter,
            decimal_mark: layout.decimal_mark,
            columns: layout.columns.clone(),
            time_column: layout.time_column,
            time_unit: layout.time_unit,
            value_column: layout.value_column,
            value_unit: layout.value_unit,
        }
    }

    /// Whether choices ask for what was found anyway.
    fn is_met_by(&self, choices: &Choices) -> bool {
        fn same<T: PartialEq>(chosen: Option<T>, found: T) -> bool {
            chosen.is_none_or(|chosen| chosen == found)
        }
        same(choices.delimiter, self.delimiter)
            && same(choices.decimal_mark, self.decimal_mark)
            && same(choices.time_column, self.time_column)
            && choices.time_unit.is_none_or(|unit| Some(unit) == self.time_unit)
            && same(choices.value_column, self.value_column)
            && same(choices.value_unit, self.value_unit)
    }
}

impl KnownShapes {
    /// What was chosen for a file of this shape.
    pub fn choices(&self, shape: &TextShape) -> Option<&Choices> {
        self.0.iter().find(|known| known.shape == *shape).map(|known| &known.choices)
    }

    /// Keeps what was chosen for a shape. Choosing what was found anyway leaves nothing to keep.
    pub fn remember(&mut self, shape: &TextShape, choices: &Choices) {
        self.forget(shape);
        if !shape.is_met_by(choices) {
            let choices = Choices { rate_hz: None, ..choices.clone() };
            self.0.push(Known { shape: shape.clone(), choices });
            self.0.drain(..self.0.len().saturating_sub(MOST));
        }
    }

    /// Forgets what was chosen for a shape.
    pub fn forget(&mut self, shape: &TextShape) {
        self.0.retain(|known| known.shape != *shape);
    }
}

impl How {
    /// Opens what was dropped.
    ///
    /// # Errors
    /// [`OpenError`] when nothing can be read.
    pub fn open(
        self,
        files: &[SourceFile],
        progress: &mut dyn Progress,
    ) -> Result<Understood, OpenError> {
        let known = match self {
            Self::AsChosen(choices) => {
                let opening = open(files, &choices, progress)?;
                return Ok(Understood { opening, found: None, choices });
            }
            Self::AsBefore(known) => known,
        };
        let opening = open(files, &Choices::default(), progress)?;
        let layout = match &opening {
            Opening::Ready(opened) => &opened.layout,
            Opening::NeedsRate(wanted) => &wanted.layout,
        };
        let found = layout.as_ref().map(TextShape::of);
        if let Some(choices) = found.as_ref().and_then(|shape| known.choices(shape))
            && let Ok(opening) = open(files, choices, progress)
        {
            return Ok(Understood { opening, choices: choices.clone(), found });
        }
        Ok(Understood { opening, found, choices: Choices::default() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::VoltageUnit;

    fn file(head: &str, step: usize) -> SourceFile {
        let rows = (0..200).map(|i| format!("{}\t{}", i * step, i % 37));
        let text = format!("{head}\n{}\n", rows.collect::<Vec<_>>().join("\n"));
        SourceFile { name: "sensor.txt".to_owned(), bytes: text.into_bytes() }
    }

    fn opened(source: &SourceFile, how: How) -> Understood {
        how.open(std::slice::from_ref(source), &mut ()).unwrap()
    }

    fn unit(understood: &Understood) -> VoltageUnit {
        match &understood.opening {
            Opening::Ready(opened) => opened.traces[opened.suggested].unit,
            Opening::NeedsRate(_) => panic!("there is a time column"),
        }
    }

    #[test]
    fn a_file_like_one_that_was_corrected_is_read_the_same_way() {
        let first = opened(&file("ms\tA0", 4), How::AsBefore(KnownShapes::default()));
        let shape = first.found.clone().unwrap();
        assert_eq!((unit(&first), first.choices), (VoltageUnit::Unstated, Choices::default()));

        let chosen = Choices {
            value_unit: Some(ValueUnit::Microvolt),
            rate_hz: Some(100.0),
            ..Choices::default()
        };
        let mut known = KnownShapes::default();
        known.remember(&shape, &chosen);
        let like = opened(&file("ms\tA0", 2), How::AsBefore(known.clone()));
        assert_eq!(unit(&like), VoltageUnit::Millivolt);
        assert_eq!(like.choices.rate_hz, None, "the rate is each file's own");
        let other = opened(&file("ms\tA1", 4), How::AsBefore(known.clone()));
        assert_eq!((unit(&other), other.choices), (VoltageUnit::Unstated, Choices::default()));

        known.forget(&shape);
        assert_eq!(unit(&opened(&file("ms\tA0", 4), How::AsBefore(known))), VoltageUnit::Unstated);
    }

    #[test]
    fn choosing_what_was_found_anyway_is_not_kept() {
        let shape =
            opened(&file("ms\tA0", 4), How::AsBefore(KnownShapes::default())).found.unwrap();
        let mut known = KnownShapes::default();
        let volts = Choices { value_unit: Some(ValueUnit::Volt), ..Choices::default() };
        known.remember(&shape, &volts);
        assert_eq!(known.choices(&shape), Some(&volts));
        let back = Choices {
            delimiter: Some(Delimiter::Tab),
            value_unit: Some(ValueUnit::Unstated),
            ..Choices::default()
        };
        known.remember(&shape, &back);
        assert_eq!(known, KnownShapes::default());
    }

    #[test]
    fn choices_that_no_longer_work_fall_back_to_what_is_found() {
        let shape =
            opened(&file("ms\tA0", 4), How::AsBefore(KnownShapes::default())).found.unwrap();
        let mut known = KnownShapes::default();
        known.remember(&shape, &Choices { value_column: Some(9), ..Choices::default() });
        let read = opened(&file("ms\tA0", 4), How::AsBefore(known));
        assert_eq!((unit(&read), read.choices), (VoltageUnit::Unstated, Choices::default()));
    }

    #[test]
    fn only_so_many_shapes_are_kept_and_survive_a_reload() {
        let mut known = KnownShapes::default();
        let volts = Choices { value_unit: Some(ValueUnit::Volt), ..Choices::default() };
        let shapes: Vec<TextShape> = (0..MOST + 1)
            .map(|number| {
                let head = format!("ms\tA{number}");
                opened(&file(&head, 4), How::AsBefore(KnownShapes::default())).found.unwrap()
            })
            .collect();
        for shape in &shapes {
            known.remember(shape, &volts);
        }
        assert_eq!((known.choices(&shapes[0]), known.0.len()), (None, MOST));
        let text = serde_json::to_string(&known).unwrap();
        assert_eq!(serde_json::from_str::<KnownShapes>(&text).unwrap(), known);
    }
}
