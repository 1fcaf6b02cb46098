//! Has a run a shape that cracks, and is its crater filled?

use super::Check;
use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Unit};
use crate::reference::{Method, WeldCracks};

/// Width of a run over its depth, and whether that is between 1 and 1.5.
///
/// Source: TWI.
///
/// # Errors
/// A width or depth that no run has.
pub fn width_depth(data: &WeldCracks, width_mm: f64, depth_mm: f64) -> Result<(Outcome, Check), EngineError> {
    let width = Domain::new("run-width", 0.5, 100.0).check(width_mm)?;
    let depth = Domain::new("run-depth", 0.1, 100.0).check(depth_mm)?;
    let ratio = width / depth;
    let range = data.width_depth;
    let answer = Outcome::new(Method::RunShape, ratio, Unit::One)
        .named("crack-width-depth")
        .resting_on(&data.width_depth_basis);
    Ok((answer, Check::passes((range.low..=range.high).contains(&ratio))))
}

/// Seconds in which the current goes down at the end of a run: amperes over 20, between 3 and 10 s
/// (common practice).
///
/// # Errors
/// A current that no arc has.
pub fn downslope_s(data: &WeldCracks, amps: f64) -> Result<Outcome, EngineError> {
    let amps = Domain::new("amps", 3.0, 400.0).check(amps)?;
    let seconds = (amps / data.downslope_amps_per_s).clamp(data.downslope_s.low, data.downslope_s.high);
    Ok(Outcome::new(Method::RunShape, seconds, Unit::Second)
        .named("crack-downslope")
        .resting_on(&data.downslope_basis))
}
