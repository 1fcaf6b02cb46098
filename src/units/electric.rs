//! What the machine shows: volts, amps, and the travel speed.

use super::measure::{self, Row};
use super::{Accepts, LengthUnit, Problem, limits};

/// Arc voltage, V: `28 V`, `28`.
///
/// # Errors
/// A [`Problem`] if it is no voltage, or outside the limits.
pub fn voltage(text: &str) -> Result<f64, Problem> {
    const ROWS: &[Row] = &[Row::plain("V", &["v", "volt", "volts"])];
    measure::read(text, Accepts::Voltage, ROWS, 0, limits::VOLTAGE_V).map(|read| read.value)
}

/// Current, A: `200 A`, `200 amps`, `200`.
///
/// # Errors
/// A [`Problem`] if it is no current, or outside the limits.
pub fn current(text: &str) -> Result<f64, Problem> {
    const ROWS: &[Row] = &[Row::plain("A", &["a", "amp", "amps", "ampere", "amperes"])];
    measure::read(text, Accepts::Current, ROWS, 0, limits::CURRENT_A).map(|read| read.value)
}

/// Travel speed, mm/min: `150 mm/min`, `2.5 mm/s`, `6 in/min`, `15 cm/min`.
///
/// A bare number takes mm/min or in/min, as shown.
///
/// # Errors
/// A [`Problem`] if it is no travel speed, or outside the limits.
pub fn travel(text: &str, shown: LengthUnit) -> Result<f64, Problem> {
    const ROWS: &[Row] = &[
        Row::plain("mm/min", &["mm/min"]),
        Row::scaled("in/min", &["in/min", "ipm", "inch/min", "inches/min", "\"/min", "in/minute"], 25.4),
        Row::scaled("mm/s", &["mm/s", "mm/sec"], 60.0),
        Row::scaled("cm/min", &["cm/min"], 10.0),
        Row::scaled("m/min", &["m/min"], 1000.0),
    ];
    let row = usize::from(shown == LengthUnit::Inch);
    measure::read(text, Accepts::Travel, ROWS, row, limits::TRAVEL_MM_PER_MIN).map(|read| read.value)
}
