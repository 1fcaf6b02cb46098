//! Rounding that errs on the safe side.

use super::{Printed, TemperatureUnit};

/// Which side of a limit is safe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Side {
    /// A minimum: rounded up.
    Minimum,
    /// A maximum: rounded down.
    Maximum,
}

/// A unit conversion leaves this much dust on a figure, in steps of rounding.
const DUST: f64 = 1e-6;

/// How far below a carried figure a printed one may lie and still be shown: the
/// printed pairs of the standards round °F and °C apart by less than this, in K.
const PRINTED_SLACK_K: f64 = 1.0;

const fn step(unit: TemperatureUnit) -> f64 {
    match unit {
        TemperatureUnit::C => 5.0,
        TemperatureUnit::F => 10.0,
    }
}

/// Our own minimum in the unit shown: up to the next 5 °C or 10 °F, counted from the
/// exact figure in °C.
///
/// ```
/// use strawblue::units::{TemperatureUnit, safe_minimum};
/// assert_eq!(safe_minimum(316.0, TemperatureUnit::C), 320.0);
/// assert_eq!(safe_minimum(315.000_000_1, TemperatureUnit::C), 315.0);
/// assert_eq!(safe_minimum(260.0, TemperatureUnit::F), 500.0);
/// ```
#[must_use]
pub fn safe_minimum(exact_c: f64, unit: TemperatureUnit) -> f64 {
    let step = step(unit);
    // The sum with zero turns −0 into 0.
    ((unit.from_c(exact_c) - DUST) / step).ceil() * step + 0.0
}

/// Our own maximum in the unit shown: down to the next 5 °C or 10 °F, counted from
/// the exact figure in °C.
#[must_use]
pub fn safe_maximum(exact_c: f64, unit: TemperatureUnit) -> f64 {
    let step = step(unit);
    ((unit.from_c(exact_c) + DUST) / step).floor() * step + 0.0
}

/// A limit in the unit shown: as printed where the source prints that unit and the
/// printed figure is not looser than the carried one by more than 1 K; else rounded
/// to the safe side.
#[must_use]
pub fn limit_value(side: Side, exact_c: f64, printed: Option<Printed>, unit: TemperatureUnit) -> f64 {
    if let Some(printed) = printed.and_then(|printed| printed.in_unit(unit)) {
        let looser_k = match side {
            Side::Minimum => exact_c - unit.to_c(printed),
            Side::Maximum => unit.to_c(printed) - exact_c,
        };
        if looser_k <= PRINTED_SLACK_K + DUST {
            return printed;
        }
    }
    match side {
        Side::Minimum => safe_minimum(exact_c, unit),
        Side::Maximum => safe_maximum(exact_c, unit),
    }
}
