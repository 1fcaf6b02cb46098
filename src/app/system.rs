//! What the person's system is set to, which holds until they choose otherwise.

use crate::units::Units;
use crate::words::Words;

/// Language and units of the system.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct System {
    /// The tag of the language, of those that there are words of.
    pub language: &'static str,
    /// The units of its region.
    pub units: Units,
}

impl System {
    /// The system that the program runs on.
    #[must_use]
    pub fn here() -> Self {
        Self { language: Words::of_system(), units: Units::of_system() }
    }
}

impl From<&'static str> for System {
    /// A system that speaks a language, in °C and mm.
    fn from(language: &'static str) -> Self {
        Self { language, units: Units::C_MM }
    }
}
