//! Which preheat band does the old carbon-equivalent rule give?

use crate::engine::error::Domain;
use crate::engine::source_ids::{WORKSHEET, published};
use crate::engine::{EngineError, Outcome, Step, Unit};

/// The band of a carbon equivalent, lower and upper end in °C: none below 0.45,
/// 100-200 to 0.60, 200-370 above.
///
/// The rule goes back to Dearden and O'Neill's formula of 1940 and is used with
/// CE (IIW); it knows neither thickness nor hydrogen.
#[must_use]
pub fn band_c(ce_iiw: f64) -> Option<(f64, f64)> {
    if ce_iiw < 0.45 {
        None
    } else if ce_iiw <= 0.60 {
        Some((100.0, 200.0))
    } else {
        Some((200.0, 370.0))
    }
}

/// The band as an outcome: its lower end as the value, both ends as the spread;
/// empty below 0.45, where the rule has no figure (which is no clearance).
///
/// # Errors
/// A carbon equivalent that is not a number, negative, or that no steel has.
pub fn dearden_oneill(ce_iiw: f64) -> Result<Outcome, EngineError> {
    Domain::new("CE", 0.0, 20.0).check(ce_iiw)?;
    let mut outcome =
        Outcome::new("dearden-oneill", 0.0, Unit::Celsius, published(WORKSHEET, "bands of the 1940 formula"))
            .worked(vec![Step { symbol: "CE", value: ce_iiw, unit: Unit::Percent }]);
    let band = band_c(ce_iiw);
    outcome.value = band.map(|(low_c, _)| low_c);
    outcome.low = band.map(|(low_c, _)| low_c);
    outcome.high = band.map(|(_, high_c)| high_c);
    Ok(outcome)
}
