//! Which kinds of instrument tell a temperature, and how far can each be believed?

/// A kind of instrument.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case")]
pub enum Instrument {
    /// Temperature crayon: melts at or above its figure.
    Crayon,
    /// Contact probe pressed on the surface.
    ContactProbe,
    /// Thermocouple fixed to the part.
    Thermocouple,
    /// IR thermometer, 8 to 14 µm.
    Infrared,
    /// Temper colour.
    Tint,
}

impl Instrument {
    /// All kinds.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id; the words are the Fluent message `instrument-ID`, with what it can and
    /// can't say as `.can` and `.cannot`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// The designation of equipment in a report by ISO 13916, from memory; none for tint,
    /// which that standard does not know.
    #[must_use]
    pub const fn designation(self) -> Option<&'static str> {
        match self {
            Self::Crayon => Some("TS"),
            Self::ContactProbe => Some("CT"),
            Self::Thermocouple => Some("TE"),
            Self::Infrared => Some("TB"),
            Self::Tint => None,
        }
    }
}
