//! Why a typed value could not be used, and what would be.

use strum::{IntoStaticStr, VariantArray};

use crate::words::{List, Words};

/// What a field takes; its words are the Fluent message `accepts-ID` with the
/// attribute `name`. Quantities come first, words from [`Accepts::Units`] on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, IntoStaticStr, VariantArray)]
#[strum(prefix = "accepts-", serialize_all = "kebab-case")]
#[allow(missing_docs, reason = "the id of each is its name")]
pub enum Accepts {
    Length,
    Temperature,
    Difference,
    Heat,
    ArcEnergy,
    Hydrogen,
    Voltage,
    Current,
    Travel,
    Strength,
    Mass,
    GasFlow,
    Volume,
    Force,
    Torque,
    Angle,
    Power,
    Area,
    Density,
    MinuteRate,
    HourRate,
    Liquid,
    ShieldingFlow,
    DepositRate,
    Film,
    Brinell,
    RockwellC,
    Vickers,
    Hardness,
    Duration,
    ShortTime,
    RunLength,
    Number,
    Count,
    Share,
    Units,
    Condition,
    Process,
    Joint,
    Restraint,
    Load,
    Position,
    Groove,
    Composition,
    Percent,
    YesNo,
    Code,
    Shape,
    Steel,
    Filler,
    HeatSource,
    Coating,
    Cavity,
    Cleaner,
    Assembly,
    WorkPlace,
    Grinder,
    Inspection,
}

impl Accepts {
    /// Is it a number, most often with a unit?
    #[must_use]
    pub const fn is_quantity(self) -> bool {
        (self as u8) < Self::Units as u8
    }

    /// The Fluent message that says what is accepted.
    #[must_use]
    pub fn key(self) -> &'static str {
        self.into()
    }
}

/// One reading of an ambiguous text: what to write, and what it means.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// What to write for it.
    pub write: String,
    /// The Fluent message that says what it means.
    pub means: &'static str,
}

/// Why a typed value could not be used.
#[derive(Debug, Clone, PartialEq)]
pub enum Problem {
    /// Nothing is typed.
    Empty {
        /// What is accepted.
        accepts: Accepts,
    },
    /// The text is none of what is accepted.
    NotUnderstood {
        /// As typed.
        typed: String,
        /// What is accepted.
        accepts: Accepts,
    },
    /// The number is read, its unit is not one of this field.
    UnknownUnit {
        /// As typed.
        typed: String,
        /// The unit that was read.
        unit: String,
        /// What is accepted.
        accepts: Accepts,
    },
    /// The value is outside what the field takes.
    OutOfRange {
        /// As typed.
        typed: String,
        /// Lowest accepted, in `unit`.
        low: f64,
        /// Highest accepted, in `unit`.
        high: f64,
        /// The unit that was typed, or the field's.
        unit: &'static str,
        /// What is accepted.
        accepts: Accepts,
    },
    /// The text has more than one meaning; the person chooses.
    Ambiguous {
        /// As typed.
        typed: String,
        /// What it could mean.
        choices: Vec<Choice>,
    },
    /// A text with a trap of its own: the Fluent message says which.
    Trap {
        /// As typed.
        typed: String,
        /// The Fluent message.
        key: &'static str,
    },
}

impl Problem {
    pub(crate) fn not_understood(typed: &str, accepts: Accepts) -> Self {
        Self::NotUnderstood { typed: typed.to_owned(), accepts }
    }

    /// The text as typed; empty where nothing was.
    #[must_use]
    pub fn typed(&self) -> &str {
        match self {
            Self::Empty { .. } => "",
            Self::NotUnderstood { typed, .. }
            | Self::UnknownUnit { typed, .. }
            | Self::OutOfRange { typed, .. }
            | Self::Ambiguous { typed, .. }
            | Self::Trap { typed, .. } => typed,
        }
    }

    /// The same problem of the text that a reader was given in another spelling.
    pub(super) fn of_typed(mut self, text: &str) -> Self {
        match &mut self {
            Self::Empty { .. } => {}
            Self::NotUnderstood { typed, .. }
            | Self::UnknownUnit { typed, .. }
            | Self::OutOfRange { typed, .. }
            | Self::Ambiguous { typed, .. }
            | Self::Trap { typed, .. } => text.clone_into(typed),
        }
        self
    }

    /// What could be written instead, where the text has more than one meaning.
    #[must_use]
    pub fn choices(&self) -> &[Choice] {
        if let Self::Ambiguous { choices, .. } = self { choices } else { &[] }
    }

    /// The problem in one plain line.
    #[must_use]
    pub fn say(&self, words: &Words) -> String {
        let typed = shortened(self.typed());
        let typed = ("typed", typed.as_str());
        match self {
            Self::Empty { accepts } => words.with("typed-empty", &[("accepts", &words.get(accepts.key()))]),
            Self::NotUnderstood { accepts, .. } => {
                words.with("typed-not-understood", &[typed, ("accepts", &words.get(accepts.key()))])
            }
            Self::UnknownUnit { unit, accepts, .. } => words.with(
                "typed-unknown-unit",
                &[typed, ("unit", &shortened(unit)), ("accepts", &words.get(accepts.key()))],
            ),
            Self::OutOfRange { low, high, unit, accepts, .. } => {
                let bound = |value: &f64| {
                    let number = super::show::plain(*value, 3, words.decimal_mark());
                    if unit.is_empty() { number } else { format!("{number}\u{a0}{unit}") }
                };
                let name = words.get(&format!("{}.name", accepts.key()));
                let values = [typed, ("name", &name), ("low", &bound(low)), ("high", &bound(high))];
                words.with("typed-out-of-range", &values)
            }
            Self::Ambiguous { choices, .. } => {
                let said: Vec<String> = choices
                    .iter()
                    .map(|choice| {
                        let means = words.get(choice.means);
                        words.with("typed-choice", &[("write", &choice.write), ("means", &means)])
                    })
                    .collect();
                let key = if said.len() == 1 { "typed-not-whole" } else { "typed-ambiguous" };
                words.with(key, &[typed, ("choices", &words.list(List::Semicolon, &said))])
            }
            Self::Trap { key, .. } => words.with(key, &[typed]),
        }
    }
}

/// A text short enough for one line, without control characters.
pub(crate) fn shortened(text: &str) -> String {
    let clean: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    if clean.chars().count() > 40 { clean.chars().take(39).chain(['…']).collect() } else { clean }
}

/// A lower limit to three decimals that is itself accepted.
pub(super) fn inward_low(value: f64) -> f64 {
    // The sum with zero turns −0 into 0.
    (value * 1000.0 - 1e-6).ceil() / 1000.0 + 0.0
}

/// An upper limit to three decimals that is itself accepted.
pub(super) fn inward_high(value: f64) -> f64 {
    (value * 1000.0 + 1e-6).floor() / 1000.0 + 0.0
}
