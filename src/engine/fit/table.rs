//! How much larger than its hole is the pin?

use super::DIAMETER;
use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Says, Step, Unit};
use crate::reference::{Basis, Fit, Fits, Method};

/// No pin is so much larger than its hole that more than this share of its diameter has to go.
const MOST_SHARE: f64 = 0.01;

/// The interference of the loosest and of the tightest pair, µm on the diameter.
#[derive(Debug, Clone, PartialEq)]
pub struct Tightness {
    /// Diameter, mm.
    pub diameter_mm: f64,
    /// The loosest pair.
    pub low_um: f64,
    /// The tightest pair.
    pub high_um: f64,
    /// What the two rest on; `None` where the pair was measured.
    pub basis: Option<Basis>,
}

impl Tightness {
    /// A pin and a hole that were measured: one pair.
    ///
    /// # Errors
    /// `fit-too-tight` where it is more than a hundredth of the diameter, which no fit has; a figure
    /// that is not a number, or below zero.
    pub fn measured(diameter_mm: f64, interference_um: f64) -> Result<Self, EngineError> {
        DIAMETER.check(diameter_mm)?;
        Domain::new("interference", 0.0, 1e6).check(interference_um)?;
        if interference_um > MOST_SHARE * 1000.0 * diameter_mm {
            return Err(EngineError::NoAnswer { reason: "fit-too-tight" });
        }
        Ok(Self { diameter_mm, low_um: interference_um, high_um: interference_um, basis: None })
    }

    /// A fit of the table.
    ///
    /// Loosest pair: the shaft's lower deviation less IT7; tightest: that deviation and IT6.
    /// Source: ISO 286-2, hole H7.
    ///
    /// # Errors
    /// `fit-outside-table` where the table has no such diameter.
    pub fn of_table(fits: &Fits, diameter_mm: f64, fit: Fit) -> Result<Self, EngineError> {
        DIAMETER.check(diameter_mm)?;
        let step = fits.step(diameter_mm).ok_or(EngineError::NoAnswer { reason: "fit-outside-table" })?;
        let found = step.interference_um(fit);
        Ok(Self { diameter_mm, low_um: found.low, high_um: found.high, basis: Some(fits.basis.clone()) })
    }

    /// What a figure claims that rests on this too.
    #[must_use]
    pub fn weaker<'a>(&'a self, other: &'a Basis) -> &'a Basis {
        self.basis.as_ref().map_or(other, |own| own.weaker(other))
    }

    /// The interference as an outcome.
    #[must_use]
    pub fn outcome(&self) -> Outcome {
        let made = Outcome::new(Method::FitTable, self.high_um, Unit::Micrometre).named("fit-interference");
        let made = match &self.basis {
            Some(basis) => made.resting_on(basis),
            // A pair that was measured rests on the person's own measuring.
            None => made.resting_on(&Basis::Practice),
        };
        if self.low_um == self.high_um { made } else { made.spread(self.low_um, self.high_um) }
    }
}

/// The limits of hole and pin, µm from the nominal diameter, then the interference.
///
/// # Errors
/// As [`Tightness::of_table`].
pub fn fit_limits(fits: &Fits, diameter_mm: f64, fit: Fit) -> Result<[Outcome; 3], EngineError> {
    let tightness = Tightness::of_table(fits, diameter_mm, fit)?;
    let step = fits.step(diameter_mm).ok_or(EngineError::NoAnswer { reason: "fit-outside-table" })?;
    let limits = |name, low_um, high_um| {
        Outcome::open(Method::FitTable, Unit::Micrometre)
            .named(name)
            .spread(low_um, high_um)
            .saying(Says::Span)
    };
    let lower_um = step.lower_um(fit);
    let steps = vec![
        Step::new("IT6", step.it6_um, Unit::Micrometre),
        Step::new("IT7", step.it7_um, Unit::Micrometre),
    ];
    Ok([
        tightness.outcome().worked(steps),
        limits("fit-hole", 0.0, step.it7_um),
        limits("fit-pin", lower_um, lower_um + step.it6_um),
    ])
}
