//! A number with its unit, inside limits: what all readers of quantities share.

use super::number::{self, Fault};
use super::problem::{inward_high, inward_low};
use super::{Accepts, Choice, Problem, Within};

/// One unit that a field takes.
#[derive(Clone, Copy)]
pub(super) struct Row {
    /// As written back to the reader.
    pub(super) symbol: &'static str,
    /// As typed, in lower case.
    pub(super) names: &'static [&'static str],
    scale: Scale,
}

#[derive(Clone, Copy)]
enum Scale {
    /// The engine's unit is this many times the typed one.
    Times(f64),
    /// The engine's unit is the typed one divided by this.
    Over(f64),
    /// °F as a point.
    Fahrenheit,
}

impl Row {
    /// The engine's own unit.
    pub(super) const fn plain(symbol: &'static str, names: &'static [&'static str]) -> Self {
        Self { symbol, names, scale: Scale::Times(1.0) }
    }

    /// A unit of which one is `times` of the engine's.
    pub(super) const fn scaled(symbol: &'static str, names: &'static [&'static str], times: f64) -> Self {
        Self { symbol, names, scale: Scale::Times(times) }
    }

    /// A unit of which `over` are one of the engine's; a division keeps round figures round.
    pub(super) const fn over(symbol: &'static str, names: &'static [&'static str], over: f64) -> Self {
        Self { symbol, names, scale: Scale::Over(over) }
    }

    /// °F as a temperature point.
    pub(super) const fn fahrenheit(symbol: &'static str, names: &'static [&'static str]) -> Self {
        Self { symbol, names, scale: Scale::Fahrenheit }
    }

    pub(super) fn to_engine(self, value: f64) -> f64 {
        match self.scale {
            Scale::Times(times) => value * times,
            Scale::Over(over) => value / over,
            Scale::Fahrenheit => (value - 32.0) / 1.8,
        }
    }

    pub(super) fn in_this_unit(self, value: f64) -> f64 {
        match self.scale {
            Scale::Times(times) => value / times,
            Scale::Over(over) => value * over,
            Scale::Fahrenheit => value * 1.8 + 32.0,
        }
    }
}

/// What was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Read {
    /// In the engine's unit.
    pub(super) value: f64,
    /// Written as a fraction?
    pub(super) fraction: bool,
    /// Without a unit?
    pub(super) bare: bool,
}

/// Reads a number with one of the units of a field; a bare number takes row `shown`.
pub(super) fn read(
    text: &str,
    accepts: Accepts,
    rows: &[Row],
    shown: usize,
    within: Within,
) -> Result<Read, Problem> {
    let tidied = number::tidied(text, accepts)?;
    let found = number::leading(&tidied).map_err(|fault| say(text, accepts, fault, &tidied))?;
    let unit = squeezed(found.rest);
    let bare = unit.is_empty();
    let row = if bare { rows.get(shown) } else { rows.iter().find(|row| row.names.contains(&unit.as_str())) };
    let Some(row) = row else {
        return Err(if unit.chars().all(|c| c.is_alphabetic() || "/°\"'%".contains(c)) {
            Problem::UnknownUnit { typed: text.to_owned(), unit: found.rest.trim().to_owned(), accepts }
        } else {
            Problem::not_understood(text, accepts)
        });
    };
    let value = row.to_engine(found.value);
    inside(text, accepts, *row, value, within)?;
    Ok(Read { value, fraction: found.fraction, bare })
}

/// The value if it is inside its limits, else the limits in the unit that was typed.
pub(super) fn inside(
    text: &str,
    accepts: Accepts,
    row: Row,
    value: f64,
    within: Within,
) -> Result<(), Problem> {
    if within.holds(value) {
        return Ok(());
    }
    Err(Problem::OutOfRange {
        typed: text.to_owned(),
        low: inward_low(row.in_this_unit(within.low)),
        high: inward_high(row.in_this_unit(within.high)),
        unit: row.symbol,
        accepts,
    })
}

/// A unit without spaces, in lower case, with one form of "per".
pub(super) fn squeezed(unit: &str) -> String {
    let lower = unit.trim().trim_end_matches('.').to_lowercase().replace(" per ", "/");
    lower.chars().filter(|c| *c != ' ').collect()
}

fn say(text: &str, accepts: Accepts, fault: Fault, tidied: &str) -> Problem {
    let Fault::Thousands { decimal, whole } = fault else { return Problem::not_understood(text, accepts) };
    let tail = tidied.trim_start_matches(|c: char| c.is_ascii_digit() || "+-, .".contains(c));
    let write = |value: f64| if tail.is_empty() { value.to_string() } else { format!("{value} {tail}") };
    Problem::Ambiguous {
        typed: text.to_owned(),
        choices: vec![
            Choice { write: write(decimal), means: "typed-means-decimal" },
            Choice { write: write(whole), means: "typed-means-thousands" },
        ],
    }
}
