//! When does a colour say nothing, why, and which instrument does better?

use thiserror::Error;

use super::coupon::Coupon;
use crate::engine::EngineError;
use crate::engine::error::Domain;
use crate::engine::instrument::Instrument;

/// Chromium up to which bright steel counts as low-alloy, percent.
pub const CHROMIUM_MAX_PCT: f64 = 3.0;
/// Chromium from which steel is stainless, percent.
pub const STAINLESS_PCT: f64 = 10.5;

/// What the spot looked like before it was heated.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantNames, strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum SpotState {
    /// Ground or machined bright, clean and dry.
    Bright,
    /// Under mill scale.
    MillScale,
    /// Rusted, blasted or matt.
    Rough,
    /// Painted, galvanised, plated, nitrided, blued.
    Coated,
    /// With oil, fingerprints, soap or flux on it.
    Dirty,
}

impl SpotState {
    /// All states.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id; the words are the Fluent message `tint-spot-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// The steel and its surroundings while it is heated.
#[derive(Debug, Clone, PartialEq)]
pub struct Circumstances {
    /// Chromium of the steel, percent, where it is known.
    pub chromium_pct: Option<f64>,
    /// The spot before heating.
    pub spot: SpotState,
    /// Is the spot under a reducing flame, soot, inert gas or steam?
    pub shielded_from_air: bool,
    /// What a coupon of the same bar taught, where one was made.
    pub coupon: Option<Coupon>,
}

impl Circumstances {
    /// Bright low-alloy steel in air.
    pub const BRIGHT: Self =
        Self { chromium_pct: Some(0.0), spot: SpotState::Bright, shielded_from_air: false, coupon: None };

    /// Passes what the model speaks of.
    ///
    /// # Errors
    /// The reason why a colour says nothing here; a chromium content that no steel has.
    pub fn check(&self) -> Result<(), TintError> {
        if let Some(chromium) = self.chromium_pct {
            Domain::new("Cr", 0.0, 100.0).check(chromium)?;
            if chromium >= STAINLESS_PCT {
                return Err(Refusal::Stainless.into());
            }
            if chromium > CHROMIUM_MAX_PCT {
                return Err(Refusal::HighChromium.into());
            }
        }
        match self.spot {
            SpotState::Bright => {}
            SpotState::MillScale => return Err(Refusal::MillScale.into()),
            SpotState::Rough => return Err(Refusal::Rough.into()),
            SpotState::Coated => return Err(Refusal::Coated.into()),
            SpotState::Dirty => return Err(Refusal::Dirty.into()),
        }
        if self.shielded_from_air { Err(Refusal::ShieldedFromAir.into()) } else { Ok(()) }
    }
}

/// Why a colour says nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case", prefix = "tint-")]
pub enum Refusal {
    /// Stainless steel: same colours 100 to 250 K higher; it has a table of its own.
    Stainless,
    /// Between low-alloy and stainless: no figures exist.
    HighChromium,
    /// The film is past the first-order colours, which then repeat.
    PastFirstOrder,
    /// Mill scale hides the film.
    MillScale,
    /// A rough or rusted surface shows no interference.
    Rough,
    /// A coating colours by itself.
    Coated,
    /// Oil and residue change or block the colour.
    Dirty,
    /// Without free air another film grows.
    ShieldedFromAir,
    /// The skin carried this colour or a later one before it was heated.
    ThereBefore,
}

impl Refusal {
    /// All refusals.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Id of the reason; its words are the Fluent message `error-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// Instruments that do better, best first. An IR gun is among them only where the
    /// surface radiates well.
    #[must_use]
    pub const fn better(self) -> &'static [Instrument] {
        match self {
            Self::MillScale | Self::Rough => {
                &[Instrument::ContactProbe, Instrument::Crayon, Instrument::Infrared]
            }
            Self::Coated => &[Instrument::ContactProbe, Instrument::Thermocouple],
            Self::PastFirstOrder => &[Instrument::Thermocouple, Instrument::ContactProbe, Instrument::Crayon],
            Self::Stainless
            | Self::HighChromium
            | Self::Dirty
            | Self::ShieldedFromAir
            | Self::ThereBefore => &[Instrument::ContactProbe, Instrument::Crayon],
        }
    }
}

/// Why a question about tint has no answer.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum TintError {
    /// An input can't be used.
    #[error(transparent)]
    Input(#[from] EngineError),
    /// A colour says nothing here.
    #[error("no tint: {}", .0.id())]
    Refused(Refusal),
}

impl From<Refusal> for TintError {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}

impl From<TintError> for EngineError {
    fn from(error: TintError) -> Self {
        match error {
            TintError::Input(error) => error,
            TintError::Refused(refusal) => Self::NoAnswer { reason: refusal.id() },
        }
    }
}

impl TintError {
    /// Key of the Fluent message.
    #[must_use]
    pub fn key(&self) -> String {
        EngineError::from(*self).key()
    }
}
