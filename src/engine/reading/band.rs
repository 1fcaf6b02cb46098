//! Which temperatures can the steel have when an instrument shows this?

use serde::{Deserialize, Serialize};

use crate::engine::EngineError;
use crate::engine::error::{Domain, TEMPERATURE};
use crate::engine::infrared::{CORRECTION_MAX_K, GunSetting, IrReading, ir_true_temperature};
use crate::engine::tint::{
    Afterwards, Circumstances, FlameOn, Mode, Pace, Span, SpotState, Stage, TintNote, peak_from_stages,
};
use crate::reference::Reference;

/// Surroundings of a spot are at most so much hotter than the shop: hot parts and flames about, K.
const HOT_ABOUT_K: f64 = 40.0;
/// Marked figure of a crayon, °C.
const CRAYON: Domain = Domain::new("T", 20.0, 1400.0);
/// From the first flame to the colour while the flame is on, min, where nobody counted.
const FLAME_MIN: Span = Span { low: 2.0, high: 30.0 };

/// What touches the steel and shows a figure.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantArray, Serialize, Deserialize,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Touch {
    /// A contact probe, pressed on.
    ContactProbe,
    /// A thermocouple, fixed to the part.
    Thermocouple,
    /// An IR gun on a dull black spot that fills its measuring spot.
    BlackSpotGun,
}

impl Touch {
    /// All of them.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id, as in `data/crayons.ron`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// An IR gun on a surface.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Gun {
    /// What it shows, °C.
    pub shows_c: f64,
    /// The emissivity that it is set to.
    pub emissivity: f64,
    /// The surface that it looks at: an id of `data/surfaces.ron`.
    pub surface: String,
    /// The shop, °C.
    pub shop_c: f64,
}

/// When a colour was looked at.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantArray, Serialize, Deserialize,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Look {
    /// While the flame was on.
    FlameOn,
    /// After the flame was gone: it tells how hot the surface was at most.
    Afterwards,
}

impl Look {
    /// Both.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// What was seen, as it was seen.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Seen {
    /// An IR gun showed a figure.
    Gun(Gun),
    /// An instrument that touches showed a figure, °C.
    Touched {
        /// The instrument.
        with: Touch,
        /// What it shows, °C.
        shows_c: f64,
    },
    /// Crayons: one that melted, one that did not, or both; °C as marked.
    Crayons {
        /// The hottest that melted.
        melted_c: Option<f64>,
        /// The coolest that stayed.
        stayed_c: Option<f64>,
    },
    /// A temper colour.
    Colour {
        /// Id of the first stage that it may be.
        from: String,
        /// Id of the last.
        to: String,
        /// When it was looked at.
        look: Look,
        /// Chromium of the steel, %, where it is known.
        chromium_pct: Option<f64>,
    },
}

impl Seen {
    /// Stable id of the instrument.
    #[must_use]
    pub fn instrument(&self) -> &'static str {
        match self {
            Self::Gun(_) => "ir-gun",
            Self::Touched { with, .. } => with.id(),
            Self::Crayons { .. } => "crayon",
            Self::Colour { .. } => "colour",
        }
    }

    /// The figure that stood on the instrument, °C.
    #[must_use]
    pub const fn shows_c(&self) -> Option<f64> {
        match self {
            Self::Gun(gun) => Some(gun.shows_c),
            Self::Touched { shows_c, .. } => Some(*shows_c),
            Self::Crayons { melted_c: Some(at_c), .. }
            | Self::Crayons { melted_c: None, stayed_c: Some(at_c) } => Some(*at_c),
            Self::Crayons { .. } | Self::Colour { .. } => None,
        }
    }

    /// The temperatures that the steel can have.
    ///
    /// A gun by its surface and what that reflects, an instrument that touches by how far it may be off, a
    /// crayon by its rating, a colour by the heatings that may have made it.
    ///
    /// # Errors
    /// A figure that no instrument shows; `reading-unknown` for a surface or a stage that is none,
    /// `reading-nothing` where nothing was seen, `crayons-swapped` where a crayon that stayed is not above
    /// the one that melted; why a colour tells nothing.
    pub fn band(&self, reference: &Reference) -> Result<Band, EngineError> {
        match self {
            Self::Gun(gun) => of_gun(reference, gun),
            Self::Touched { with, shows_c } => {
                TEMPERATURE.check(*shows_c)?;
                let (off_k, _) = reference
                    .tint
                    .off_k(with.id(), *shows_c)
                    .ok_or(EngineError::NoAnswer { reason: "reading-unknown" })?;
                Ok(Band::from_to(shows_c - off_k, shows_c + off_k))
            }
            Self::Crayons { melted_c, stayed_c } => of_crayons(reference, *melted_c, *stayed_c),
            Self::Colour { from, to, look, chromium_pct } => of_colour(from, to, *look, *chromium_pct),
        }
    }
}

/// The temperatures that the steel can have; an end that is not known is `None`.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Band {
    /// Coldest, °C.
    pub low_c: Option<f64>,
    /// Hottest, °C.
    pub high_c: Option<f64>,
    /// What a minimum may be judged by, where the cold end leans on too large a correction, °C.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub judged_low_c: Option<f64>,
    /// Is it the hottest that the surface was, and not what it was when one looked?
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub peak: bool,
}

impl Band {
    /// A band with both ends.
    #[must_use]
    pub const fn from_to(low_c: f64, high_c: f64) -> Self {
        Self { low_c: Some(low_c), high_c: Some(high_c), judged_low_c: None, peak: false }
    }

    /// The end that a minimum is judged by, °C: the cold one, and never a peak.
    #[must_use]
    pub fn least_c(&self) -> Option<f64> {
        let low_c = self.low_c.filter(|_| !self.peak)?;
        Some(self.judged_low_c.map_or(low_c, |judged_c| judged_c.min(low_c)))
    }

    /// The end that a maximum is judged by, °C.
    #[must_use]
    pub const fn most_c(&self) -> Option<f64> {
        self.high_c
    }

    /// How far the ends lie from the middle, K; none where an end is open.
    #[must_use]
    pub fn off_k(&self) -> Option<f64> {
        Some(0.5 * (self.high_c? - self.low_c?))
    }

    /// The middle, °C; none where an end is open.
    #[must_use]
    pub fn middle_c(&self) -> Option<f64> {
        Some(f64::midpoint(self.high_c?, self.low_c?))
    }
}

fn of_gun(reference: &Reference, gun: &Gun) -> Result<Band, EngineError> {
    let surface =
        reference.tint.surface(&gun.surface).ok_or(EngineError::NoAnswer { reason: "reading-unknown" })?;
    let found = ir_true_temperature(&IrReading {
        reading_c: gun.shows_c,
        gun: GunSetting { emissivity: gun.emissivity, surroundings_c: gun.shop_c },
        emissivity: Span { low: surface.low, high: surface.high },
        surroundings_c: Span { low: gun.shop_c, high: gun.shop_c + HOT_ABOUT_K },
    })?;
    // A correction that large may not turn "below" into "reached" by itself.
    let leans = found.low_c.is_some_and(|low_c| low_c - gun.shows_c > CORRECTION_MAX_K);
    Ok(Band {
        low_c: found.low_c,
        high_c: found.high_c,
        judged_low_c: leans.then_some(gun.shows_c),
        peak: false,
    })
}

fn of_crayons(
    reference: &Reference,
    melted_c: Option<f64>,
    stayed_c: Option<f64>,
) -> Result<Band, EngineError> {
    for at_c in [melted_c, stayed_c].into_iter().flatten() {
        CRAYON.check(at_c)?;
    }
    if melted_c.or(stayed_c).is_none() {
        return Err(EngineError::NoAnswer { reason: "reading-nothing" });
    }
    if melted_c.zip(stayed_c).is_some_and(|(melted_c, stayed_c)| stayed_c <= melted_c) {
        return Err(EngineError::NoAnswer { reason: "crayons-swapped" });
    }
    let share = reference.tint.crayons.rating_pct / 100.0;
    Ok(Band {
        low_c: melted_c.map(|at_c| at_c * (1.0 - share)),
        high_c: stayed_c.map(|at_c| at_c * (1.0 + share)),
        ..Band::default()
    })
}

fn of_colour(from: &str, to: &str, look: Look, chromium_pct: Option<f64>) -> Result<Band, EngineError> {
    let stage = |id: &str| Stage::from_id(id).ok_or(EngineError::NoAnswer { reason: "reading-unknown" });
    let (from, to) = (stage(from)?, stage(to)?);
    if from > to {
        return Err(EngineError::NoAnswer { reason: "span-swapped" });
    }
    let mode = match look {
        Look::FlameOn => {
            Mode::FlameOn(FlameOn { start_c: 20.0, pace: Pace::Minutes(FLAME_MIN), film_before_nm: 0.0 })
        }
        Look::Afterwards => Mode::Afterwards(Afterwards::default()),
    };
    let steel =
        Circumstances { chromium_pct, spot: SpotState::Bright, shielded_from_air: false, coupon: None };
    let found = peak_from_stages(&mode, from, to, &steel)?;
    let (low_c, high_c) = found.band_c;
    // Chromium shifts every colour to a higher temperature: without it there is no sure upper end.
    let top_known = !found.notes.contains(&TintNote::ChromiumUnknown);
    Ok(Band {
        low_c,
        high_c: Some(high_c).filter(|_| top_known),
        judged_low_c: None,
        peak: look == Look::Afterwards,
    })
}
