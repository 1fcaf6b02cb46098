//! Safe rounding of a limit, in °C, to the step that a person can work to.

use crate::units::{TemperatureUnit, safe_maximum, safe_minimum};

/// The step, K.
pub const STEP_C: f64 = 5.0;

/// A minimum rounds up, as it is shown.
#[must_use]
pub fn up_c(value_c: f64) -> f64 {
    safe_minimum(value_c, TemperatureUnit::C)
}

/// A maximum rounds down, as it is shown.
#[must_use]
pub fn down_c(value_c: f64) -> f64 {
    safe_maximum(value_c, TemperatureUnit::C)
}
