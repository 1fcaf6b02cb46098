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
}
