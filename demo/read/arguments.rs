//! What was asked for on the command line.

use beatwalk::signal::Seconds;
use lexopt::{Arg, Parser, ValueExt};

/// The files to read and how much of them.
#[derive(Debug, Default)]
pub(crate) struct Arguments {
    pub(crate) files: Vec<String>,
    /// The name of the signal to read; else the likeliest one.
    pub(crate) signal: Option<String>,
    pub(crate) from: Option<Seconds>,
    pub(crate) to: Option<Seconds>,
}

impl Arguments {
    pub(crate) const USAGE: &str =
        "usage: read [--signal NAME] [--from SECONDS] [--to SECONDS] FILE...";

    /// Reads the command line.
    pub(crate) fn from_environment() -> Result<Self, lexopt::Error> {
        let mut arguments = Self::default();
        let mut parser = Parser::from_env();
        while let Some(argument) = parser.next()? {
            match argument {
                Arg::Long("signal") => arguments.signal = Some(parser.value()?.string()?),
                Arg::Long("from") => arguments.from = Some(seconds(&mut parser)?),
                Arg::Long("to") => arguments.to = Some(seconds(&mut parser)?),
                Arg::Value(file) => arguments.files.push(file.string()?),
                other => return Err(other.unexpected()),
            }
        }
        if arguments.files.is_empty() {
            return Err("no file was named".into());
        }
        Ok(arguments)
    }
}

fn seconds(parser: &mut Parser) -> Result<Seconds, lexopt::Error> {
    let number: f64 = parser.value()?.parse()?;
    if number.is_finite() && number >= 0.0 {
        Ok(Seconds::new(number))
    } else {
        Err(format!("{number} is not a time in seconds from the start").into())
    }
}
