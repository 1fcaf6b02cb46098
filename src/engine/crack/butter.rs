//! How many layers of buttering does a steel take?

use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Unit};
use crate::reference::{Method, WeldCracks};

/// Carbon of a layer, %: `C = Cf + (Cb - Cf) D^n`.
#[must_use]
pub fn carbon_of_layer(base: f64, filler: f64, dilution: f64, layer: i32) -> f64 {
    filler + (base - filler) * dilution.powi(layer)
}

/// Layers until the top one has 0.12 % carbon or less, and what it has (common practice).
///
/// # Errors
/// A carbon or a share that no weld has; `butter-filler` where the filler alone has more.
pub fn butter(data: &WeldCracks, base: f64, filler: f64, dilution: f64) -> Result<Vec<Outcome>, EngineError> {
    let base = Domain::new("base-carbon", 0.0, 2.0).check(base)?;
    let filler = Domain::new("filler-carbon", 0.0, 2.0).check(filler)?;
    let dilution = Domain::new("dilution", 0.0, 0.9).check(dilution)?;
    let top = |layer| carbon_of_layer(base, filler, dilution, layer);
    let enough = |layer: &i32| top(*layer) <= data.butter_most_carbon;
    let layer = (1..=50).find(enough).filter(|_| filler <= data.butter_most_carbon);
    let layer = layer.ok_or(EngineError::NoAnswer { reason: "butter-filler" })?;
    let made = |name, value, unit| {
        Outcome::new(Method::Buttering, value, unit).named(name).resting_on(&data.butter_basis)
    };
    Ok(vec![
        made("butter-layers", f64::from(layer), Unit::One),
        made("butter-carbon", top(layer), Unit::Percent),
    ])
}
