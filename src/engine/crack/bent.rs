//! May a part be welded where it was bent cold?

use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Unit};
use crate::reference::{Method, WeldCracks};

/// Strain of the outer fibre, %: `100/(2 r/t + 1)`, r the inner radius.
#[must_use]
pub fn strain_percent(radius_over_thickness: f64) -> f64 {
    100.0 / (2.0 * radius_over_thickness + 1.0)
}

/// Largest thickness that may be welded in the bend or within five thicknesses of it, by load and steel.
///
/// Source: EN 1993-1-8 4.14, Table 4.2. The strain is computed.
///
/// # Errors
/// A radius or thickness that no part has; `bent-normalise` where the radius is below the thickness.
pub fn bent(data: &WeldCracks, radius_mm: f64, thickness_mm: f64) -> Result<Vec<Outcome>, EngineError> {
    let thickness = Domain::new("thickness", 0.5, 500.0).check(thickness_mm)?;
    let radius = Domain::new("bend-radius", 0.0, 20_000.0).check(radius_mm)?;
    let ratio = radius / thickness;
    let row = data.bent.iter().find(|row| ratio >= row.from - 1e-9);
    let row = row.ok_or(EngineError::NoAnswer { reason: "bent-normalise" })?;
    let made = |name, value, unit| {
        Outcome::new(Method::ColdBent, value, unit).named(name).resting_on(&data.bent_basis)
    };
    let most = |name, mm: Option<f64>| mm.map(|mm| made(name, mm, Unit::Millimetre));
    let limits = [
        most("bent-static", row.static_mm),
        most("bent-fatigue", row.fatigue_mm),
        most("bent-killed", row.killed_mm),
    ];
    let mut outcomes: Vec<Outcome> = limits.into_iter().flatten().collect();
    outcomes.push(made("bent-zone", data.bent_zone * thickness, Unit::Millimetre));
    outcomes.push(made("bent-strain", strain_percent(ratio), Unit::Percent));
    Ok(outcomes)
}
