//! Fuel gas: its flow and its volume.

use super::measure::{self, Row};
use super::{Accepts, LengthUnit, Problem, Within};

/// A cubic foot in m³.
pub const CUBIC_METRES_PER_CUBIC_FOOT: f64 = 0.028_316_846_592;

const FLOWS: &[Row] = &[
    Row::plain("m³/h", &["m3/h", "m³/h", "m3/hr", "m³/hr", "cbm/h"]),
    Row::scaled(
        "ft³/h",
        &["ft3/h", "ft³/h", "ft3/hr", "ft³/hr", "cfh", "scfh", "cuft/h", "cuft/hr"],
        CUBIC_METRES_PER_CUBIC_FOOT,
    ),
    Row::over("l/h", &["l/h", "l/hr", "litres/h", "liters/h"], 1000.0),
    Row::scaled("l/min", &["l/min", "lpm", "litres/min", "liters/min"], 0.06),
];
const VOLUMES: &[Row] = &[
    Row::plain("m³", &["m3", "m³", "cbm"]),
    Row::scaled("ft³", &["ft3", "ft³", "cf", "scf", "cuft"], CUBIC_METRES_PER_CUBIC_FOOT),
    Row::over("l", &["l", "litres", "liters", "litre", "liter"], 1000.0),
];

/// A flow of gas, m³/h: `60 ft³/h`, `60 scfh`, `1.7 m³/h`, `1700 l/h`, `28 l/min`.
///
/// A bare number takes m³/h or ft³/h, as shown.
///
/// # Errors
/// A [`Problem`] if it is no flow, or outside the limits.
pub fn gas_flow(text: &str, shown: LengthUnit, within: Within) -> Result<f64, Problem> {
    let row = usize::from(shown == LengthUnit::Inch);
    measure::read(text, Accepts::GasFlow, FLOWS, row, within).map(|read| read.value)
}

/// A volume of gas or of a room, m³: `225 ft³`, `6.4 m³`.
///
/// A bare number takes m³ or ft³, as shown.
///
/// # Errors
/// A [`Problem`] if it is no volume, or outside the limits.
pub fn volume(text: &str, shown: LengthUnit, within: Within) -> Result<f64, Problem> {
    let row = usize::from(shown == LengthUnit::Inch);
    measure::read(text, Accepts::Volume, VOLUMES, row, within).map(|read| read.value)
}
