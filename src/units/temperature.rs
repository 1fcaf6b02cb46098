//! Temperatures, as points and as differences.

use super::measure::{self, Row};
use super::{Accepts, Problem, TemperatureUnit, Within};

/// A temperature point as people write it, in °C: `500F`, `260 °C`, `260`, `-5`.
///
/// A bare number takes the unit shown.
///
/// # Errors
/// A [`Problem`] if it is no temperature, or outside the limits.
pub fn temperature(text: &str, shown: TemperatureUnit, within: Within) -> Result<f64, Problem> {
    const ROWS: &[Row] = &[
        Row::plain("°C", &["°c", "c", "degc", "deg.c", "celsius", "degreesc", "degreescelsius"]),
        Row::fahrenheit("°F", &["°f", "f", "degf", "deg.f", "fahrenheit", "degreesf", "degreesfahrenheit"]),
    ];
    let row = usize::from(shown == TemperatureUnit::F);
    measure::read(&without_degree(text), Accepts::Temperature, ROWS, row, within).map(|read| read.value)
}

/// A temperature difference as people write it, in K: `30 K`, `30 °C`, `54 °F`.
///
/// A bare number takes the unit shown.
///
/// # Errors
/// A [`Problem`] if it is no temperature difference, or outside the limits.
pub fn difference(text: &str, shown: TemperatureUnit, within: Within) -> Result<f64, Problem> {
    const ROWS: &[Row] = &[
        Row::plain("°C", &["k", "°c", "c", "degc", "celsius", "kelvin"]),
        Row::over("°F", &["°f", "f", "degf", "fahrenheit"], 1.8),
    ];
    let row = usize::from(shown == TemperatureUnit::F);
    measure::read(&without_degree(text), Accepts::Difference, ROWS, row, within).map(|read| read.value)
}

/// `260°` is a bare number with a lonely degree sign.
fn without_degree(text: &str) -> String {
    let tidied = super::tidy(text);
    match tidied.strip_suffix('°') {
        Some(number) if number.trim_end().ends_with(|c: char| c.is_ascii_digit()) => {
            number.trim_end().to_owned()
        }
        _ => text.to_owned(),
    }
}
