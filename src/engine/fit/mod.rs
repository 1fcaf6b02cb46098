//! Shrink fits: how hot, how long, how tight.
//!
//! [`metal`] says how hub and pin grow and shrink, [`table`] how much larger the pin is. The others
//! answer one question each.

pub mod at_preheat;
pub mod grip;
pub mod local;
pub mod metal;
pub mod room;
pub mod shrink;
pub mod table;
pub mod time;

pub use table::Tightness;

use super::EngineError;
use super::error::Domain;

/// Diameter of a fit, mm.
pub(super) const DIAMETER: Domain = Domain::new("diameter", 1.0, 3000.0);
/// Temperature of hub or pin, °C.
pub(super) const TEMPERATURE: Domain = Domain::new("temperature", -200.0, 750.0);
/// Temperature of the shop, °C.
pub(super) const SHOP: Domain = Domain::new("room-temperature", -40.0, 60.0);

/// An outer diameter that leaves a hub around the fit.
pub(super) fn check_outer(diameter_mm: f64, outer_mm: f64) -> Result<f64, EngineError> {
    Domain::new("outer-diameter", diameter_mm * 1.01, 10_000.0).check(outer_mm)
}
