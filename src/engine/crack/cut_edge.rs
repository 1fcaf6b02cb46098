//! How hot must wear plate be before it is cut with oxygen?

use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Says, Unit};
use crate::reference::{Method, WeldCracks};

/// Preheat before oxygen cutting, °C; 0 where none is needed. Between printed hardnesses the next higher row
/// counts.
///
/// Source: a steelmaker's leaflet and handbook on its wear plate.
///
/// # Errors
/// A hardness or a thickness that no plate has.
pub fn cut_preheat(data: &WeldCracks, hb: f64, thickness_mm: f64) -> Result<Outcome, EngineError> {
    let hb = Domain::new("hardness-hb", 100.0, 700.0).check(hb)?;
    let mm = Domain::new("thickness", 0.5, 500.0).check(thickness_mm)?;
    let made = |value| {
        Outcome::new(Method::CutPreheat, value, Unit::Celsius)
            .named("cut-preheat")
            .resting_on(&data.wear_plate_basis)
    };
    let row = data.wear_plate.iter().find(|row| hb <= row.up_to_hb);
    let row = row.filter(|row| row.most_mm.is_none_or(|most| mm <= most));
    let Some(row) = row else { return Ok(made(0.0).saying(Says::NoFigure)) };
    let reached = row.steps.iter().rev().find(|step| mm > step.from_mm || !step.above && mm >= step.from_mm);
    Ok(match reached {
        Some(step) => made(step.at_c),
        None => made(0.0).saying(Says::Clears),
    })
}
