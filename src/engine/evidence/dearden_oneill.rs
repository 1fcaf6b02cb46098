//! Which preheat band does the old carbon-equivalent rule give?

use super::{Case, Evidence, Standing};
use crate::engine::carbon_equivalent::ce_iiw;
use crate::engine::error::Domain;
use crate::engine::{Checked, EngineError, Outcome, Says};
use crate::reference::{Method, Printed, SpanBands, Unit};

/// The band of a carbon equivalent as the rule prints it: a span from its border on, nothing
/// below, which is no clearance.
///
/// The rule goes back to Dearden and O'Neill's formula of 1940 and is used with CE (IIW); it
/// knows neither thickness nor hydrogen. Source: `data/practice.ron`.
///
/// # Errors
/// A carbon equivalent that is not a number, negative, or that no steel has.
pub fn dearden_oneill(bands: &SpanBands, ce: f64) -> Result<Outcome, EngineError> {
    Domain::new("CE", 0.0, 20.0).check(ce)?;
    Ok(worked(bands, ce))
}

fn worked(bands: &SpanBands, ce: f64) -> Outcome {
    let band = bands.at(ce);
    let begins = bands.bands.iter().find(|band| band.low.is_some()).map(|band| band.above);
    let mut outcome = Outcome::open(Method::DeardenOneill, Unit::Celsius)
        .from_inputs(vec![Checked { low: begins, ..Checked::free("CE", ce, Unit::Percent) }])
        .resting_on(&bands.basis);
    let printed_c = |printed: Option<Printed>| printed.and_then(|printed| printed.c);
    let (low_c, high_c) = (printed_c(band.low), printed_c(band.high));
    outcome.says = if low_c.is_some() { Says::Span } else { Says::NoFigure };
    (outcome.value, outcome.low, outcome.high) = (low_c, low_c, high_c);
    outcome
}

/// The rule's word on a member, shown only.
#[must_use]
pub fn on(case: &Case<'_>) -> Evidence {
    let outcome = worked(&case.reference.practice.dearden_oneill, ce_iiw(&case.chemistry.composition));
    Evidence { standing: Standing::ShownOnly, ..case.evidence(outcome) }
}
