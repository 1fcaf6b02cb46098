//! Can a plate tear in layers where it is pulled through its thickness?

use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Step, Unit};
use crate::reference::{Method, Restraint, StrainStep, WeldCracks};

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LamellarQuery<'a> {
    /// Throat that pulls at the plate, mm.
    pub throat_mm: f64,
    /// Id of the joint's shape.
    pub shape: &'a str,
    /// Thickness of the plate, mm.
    pub plate_mm: f64,
    /// Is it only compressed?
    pub compressed: bool,
    /// Restraint.
    pub restraint: Restraint,
    /// Preheat, °C.
    pub preheat_c: f64,
}

fn at(steps: &[StrainStep], mm: f64) -> f64 {
    steps.iter().find(|step| step.up_to_mm.is_none_or(|up_to| mm <= up_to)).map_or(0.0, |step| step.z)
}

/// The needed `Z = Za + Zb + Zc + Zd + Ze`, and the quality of plate that has it; none above Z35.
///
/// Source: EN 1993-1-10 Table 3.2 from memory; scope and sum were seen. For rolled plate S235 to S460.
///
/// # Errors
/// A size that no joint has; a shape without a row.
pub fn lamellar(data: &WeldCracks, asked: &LamellarQuery<'_>) -> Result<Vec<Outcome>, EngineError> {
    let throat = Domain::new("pulling-throat", 0.5, 200.0).check(asked.throat_mm)?;
    let plate = Domain::new("thickness", 0.5, 500.0).check(asked.plate_mm)?;
    let preheat = Domain::new("preheat", -50.0, 450.0).check(asked.preheat_c)?;
    let shape = data.shapes.iter().find(|row| row.id == asked.shape);
    let zb = shape.ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })?.z;
    let za = at(&data.throat, throat);
    let zc = at(&data.plate, plate) * if asked.compressed { 0.5 } else { 1.0 };
    let zd = match asked.restraint {
        Restraint::Low => data.restraint_z.low,
        Restraint::Medium => data.restraint_z.medium,
        Restraint::High => data.restraint_z.high,
    };
    let ze = if preheat >= data.preheat_from_c { -data.preheat_less_z } else { 0.0 };
    let needed = za + zb + zc + zd + ze;
    let made = |name, value| {
        Outcome::new(Method::Lamellar, value, Unit::One).named(name).resting_on(&data.lamellar_basis)
    };
    let step = |symbol, z| Step::new(symbol, z, Unit::One);
    let steps = vec![step("Za", za), step("Zb", zb), step("Zc", zc), step("Zd", zd), step("Ze", ze)];
    let mut outcomes = vec![made("crack-z", needed).worked(steps)];
    let class = data.classes.iter().find(|row| needed <= row.up_to_z);
    outcomes.extend(class.map(|row| made("crack-z-class", row.class)));
    Ok(outcomes)
}
