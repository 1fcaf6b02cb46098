//! Why the engine gives no answer: values and limits only, words are for `words`.

use thiserror::Error;

use crate::reference::{Composition, Element};

/// Why a question has no answer. The `Display` text is for logs; the screen reads
/// the Fluent message `error-ID` with the values put in.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum EngineError {
    /// The input is not a number.
    #[error("{symbol} is not a number")]
    NotANumber {
        /// Symbol of the input.
        symbol: &'static str,
    },
    /// The input can't be negative.
    #[error("{symbol} = {value} is below zero")]
    BelowZero {
        /// Symbol of the input.
        symbol: &'static str,
        /// Its value.
        value: f64,
    },
    /// No weld, steel or shop has such a value, or the equation breaks there.
    #[error("{symbol} = {value} is outside {low} to {high}")]
    OutOfDomain {
        /// Symbol of the input.
        symbol: &'static str,
        /// Its value.
        value: f64,
        /// Lowest value that is taken.
        low: f64,
        /// Highest value that is taken.
        high: f64,
    },
    /// The inputs are sound but the method has no figure for them.
    #[error("no answer: {reason}")]
    NoAnswer {
        /// Id of the reason; its words are the Fluent message `error-REASON`.
        reason: &'static str,
    },
}

impl EngineError {
    /// Key of the Fluent message.
    #[must_use]
    pub fn key(&self) -> String {
        match self {
            Self::NotANumber { .. } => "error-not-a-number".to_owned(),
            Self::BelowZero { .. } => "error-below-zero".to_owned(),
            Self::OutOfDomain { .. } => "error-out-of-domain".to_owned(),
            Self::NoAnswer { reason } => format!("error-{reason}"),
        }
    }

    /// The values of the message, ready for Fluent.
    #[must_use]
    pub fn values(&self) -> Vec<(&'static str, String)> {
        match self {
            Self::NotANumber { symbol } => vec![("key", (*symbol).to_owned())],
            Self::BelowZero { symbol, value } => {
                vec![("key", (*symbol).to_owned()), ("value", value.to_string())]
            }
            Self::OutOfDomain { symbol, value, low, high } => vec![
                ("key", (*symbol).to_owned()),
                ("value", value.to_string()),
                ("low", low.to_string()),
                ("high", high.to_string()),
            ],
            Self::NoAnswer { .. } => Vec::new(),
        }
    }
}

/// Limits within which an equation is evaluated at all. They are wider than any
/// method's range of validity, which the outcome states.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Domain {
    pub(crate) symbol: &'static str,
    pub(crate) low: f64,
    pub(crate) high: f64,
}

impl Domain {
    pub(crate) const fn new(symbol: &'static str, low: f64, high: f64) -> Self {
        Self { symbol, low, high }
    }

    /// Passes a value that can be evaluated.
    pub(crate) fn check(self, value: f64) -> Result<f64, EngineError> {
        let Self { symbol, low, high } = self;
        if value.is_nan() {
            Err(EngineError::NotANumber { symbol })
        } else if value < 0.0 && low >= 0.0 {
            Err(EngineError::BelowZero { symbol, value })
        } else if value < low || value > high {
            Err(EngineError::OutOfDomain { symbol, value, low, high })
        } else {
            Ok(value)
        }
    }
}

/// Plate thickness, mm.
pub(crate) const THICKNESS: Domain = Domain::new("d", 0.1, 5000.0);
/// Diffusible hydrogen, ml/100 g.
pub(crate) const HYDROGEN: Domain = Domain::new("HD", 0.0, 200.0);
/// Net heat input, kJ/mm.
pub(crate) const HEAT: Domain = Domain::new("Q", 0.01, 50.0);
/// Temperature of a part, °C.
pub(crate) const TEMPERATURE: Domain = Domain::new("T", -100.0, 1600.0);

/// Passes a composition whose elements are all shares of a whole.
pub(crate) fn check_composition(composition: &Composition) -> Result<(), EngineError> {
    let mut sum = 0.0;
    for &element in Element::ALL {
        sum += Domain::new(element.symbol(), 0.0, 100.0).check(composition.get(element))?;
    }
    Domain::new("sum of elements", 0.0, 100.0).check(sum).map(|_| ())
}
