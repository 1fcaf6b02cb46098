//! A temperature as a source prints it.

use serde::{Deserialize, Serialize};

use super::TemperatureUnit;

/// A printed temperature: in °C, in °F, or in both as the source prints them.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Printed {
    /// As printed in °C.
    #[serde(default)]
    pub c: Option<f64>,
    /// As printed in °F.
    #[serde(default)]
    pub f: Option<f64>,
}

impl Printed {
    /// The figure that the source prints in a unit, where it prints one.
    #[must_use]
    pub const fn in_unit(self, unit: TemperatureUnit) -> Option<f64> {
        match unit {
            TemperatureUnit::C => self.c,
            TemperatureUnit::F => self.f,
        }
    }

    /// A printed minimum in °C: the higher reading of a pair, so that the unit shown never
    /// loosens it. 0 where nothing is printed.
    #[must_use]
    pub fn as_minimum_c(self) -> f64 {
        match self.readings_c() {
            (Some(c), Some(from_f)) => c.max(from_f),
            (one, other) => one.or(other).unwrap_or(0.0),
        }
    }

    /// A printed maximum in °C: the lower reading of a pair, so that the unit shown never
    /// loosens it. Without end where nothing is printed.
    #[must_use]
    pub fn as_maximum_c(self) -> f64 {
        match self.readings_c() {
            (Some(c), Some(from_f)) => c.min(from_f),
            (one, other) => one.or(other).unwrap_or(f64::INFINITY),
        }
    }

    fn readings_c(self) -> (Option<f64>, Option<f64>) {
        (self.c, self.f.map(|f| TemperatureUnit::F.to_c(f)))
    }
}
