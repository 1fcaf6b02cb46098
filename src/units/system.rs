//! Which units the reader works in.

use serde::{Deserialize, Serialize};

use super::{Accepts, Problem, tidy};

/// The unit of temperatures on the screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum TemperatureUnit {
    /// °C.
    #[default]
    C,
    /// °F.
    F,
}

impl TemperatureUnit {
    /// The symbol.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::C => "°C",
            Self::F => "°F",
        }
    }

    /// The other one, for the second line.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::C => Self::F,
            Self::F => Self::C,
        }
    }

    /// A temperature point of °C in this unit.
    #[must_use]
    pub fn from_c(self, point_c: f64) -> f64 {
        match self {
            Self::C => point_c,
            Self::F => point_c * 1.8 + 32.0,
        }
    }

    /// A temperature point of this unit in °C.
    #[must_use]
    pub fn to_c(self, point: f64) -> f64 {
        match self {
            Self::C => point,
            Self::F => (point - 32.0) / 1.8,
        }
    }
}

/// The unit of lengths on the screen. Heat input, travel speed, strength and mass
/// follow it: kJ/mm, mm/min, MPa, kg or kJ/in, in/min, ksi, lb.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum LengthUnit {
    /// Millimetres.
    #[default]
    Mm,
    /// Inches.
    Inch,
}

impl LengthUnit {
    /// The other one, for the second line.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Mm => Self::Inch,
            Self::Inch => Self::Mm,
        }
    }
}

/// The units of the screen; a bare number takes them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Units {
    /// Temperatures.
    pub temperature: TemperatureUnit,
    /// Lengths and what follows them.
    pub length: LengthUnit,
}

impl Units {
    /// °C and mm.
    pub const C_MM: Self = Self { temperature: TemperatureUnit::C, length: LengthUnit::Mm };
    /// °F and inches.
    pub const F_IN: Self = Self { temperature: TemperatureUnit::F, length: LengthUnit::Inch };
    /// °F and mm.
    pub const F_MM: Self = Self { temperature: TemperatureUnit::F, length: LengthUnit::Mm };
    /// °C and inches.
    pub const C_IN: Self = Self { temperature: TemperatureUnit::C, length: LengthUnit::Inch };
    /// The choices in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::C_MM, Self::F_IN, Self::F_MM, Self::C_IN];

    /// The short form that is typed and stored: `c-mm`, `f-in`, `f-mm`, `c-in`.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match (self.temperature, self.length) {
            (TemperatureUnit::C, LengthUnit::Mm) => "c-mm",
            (TemperatureUnit::F, LengthUnit::Inch) => "f-in",
            (TemperatureUnit::F, LengthUnit::Mm) => "f-mm",
            (TemperatureUnit::C, LengthUnit::Inch) => "c-in",
        }
    }

    /// In what sentences write their figures for this reader.
    #[must_use]
    pub fn scales(self) -> crate::words::Scales {
        crate::words::Scales {
            fahrenheit: self.temperature == TemperatureUnit::F,
            inches: self.length == LengthUnit::Inch,
        }
    }

    /// The units as typed: `c-mm`, `°F + in`, `F mm`.
    ///
    /// # Errors
    /// [`Problem::NotUnderstood`] for anything else.
    pub fn read(text: &str) -> Result<Self, Problem> {
        let letters: String =
            tidy(text).to_lowercase().chars().filter(|letter| letter.is_ascii_alphanumeric()).collect();
        Self::ALL
            .into_iter()
            .find(|units| units.id().replace('-', "") == letters)
            .ok_or_else(|| Problem::not_understood(text, Accepts::Units))
    }
}
