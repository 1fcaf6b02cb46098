//! Safe rounding of a limit, in °C, to the step that a person can work to.

/// The step, K.
pub const STEP_C: f64 = 5.0;

/// What a computed figure may miss a step by and still count as on it.
const FUZZ: f64 = 1e-6;

/// A minimum rounds up. The sum with zero turns −0 into 0.
#[must_use]
pub fn up_c(value_c: f64) -> f64 {
    ((value_c - FUZZ) / STEP_C).ceil() * STEP_C + 0.0
}

/// A maximum rounds down.
#[must_use]
pub fn down_c(value_c: f64) -> f64 {
    ((value_c + FUZZ) / STEP_C).floor() * STEP_C + 0.0
}
