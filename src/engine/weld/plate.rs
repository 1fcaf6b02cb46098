//! How large a fillet is as strong as the part that it joins?

use std::f64::consts::SQRT_2;

use strum::{IntoStaticStr, VariantArray, VariantNames};

use super::strength::STRENGTH;
use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Step, Unit};
use crate::reference::{Method, WeldStrength};

/// What the weld has to be as strong as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, IntoStaticStr, VariantArray, VariantNames)]
#[strum(serialize_all = "kebab-case")]
pub enum AsStrong {
    /// A round pin in torsion.
    PinTorsion,
    /// A round pin pushed or pulled.
    PinPush,
    /// A round pin in bending.
    PinBending,
    /// A plate pulled across its welds.
    PlateAcross,
    /// A plate pulled along its welds.
    PlateAlong,
}

impl AsStrong {
    /// All of them.
    pub const ALL: &'static [Self] = <Self as VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// Is the part round?
    #[must_use]
    pub const fn round(self) -> bool {
        matches!(self, Self::PinTorsion | Self::PinPush | Self::PinBending)
    }
}

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AsStrongQuery {
    /// As strong as what.
    pub part: AsStrong,
    /// Diameter of the pin or thickness of the plate, mm.
    pub size_mm: f64,
    /// Yield strength of the part, MPa.
    pub yield_mpa: f64,
    /// Tensile strength of the part, MPa; a plate needs it.
    pub tensile_mpa: Option<f64>,
    /// Tensile strength of the filler, MPa.
    pub filler_mpa: f64,
    /// Fillets on a pin: 1, or 2 where both faces are welded. A plate has two.
    pub rings: f64,
    /// By EN 1993-1-8, which has a pin in torsion only, with this correlation factor.
    pub correlation: Option<f64>,
}

/// Strength of the steel beside the fillets in shear, N/mm: yield and rupture with their factors.
#[must_use]
pub fn base_shear(
    strength: &WeldStrength,
    thickness_mm: f64,
    yield_mpa: f64,
    tensile_mpa: f64,
) -> (f64, f64) {
    let yields = strength.base_yield_resistance * strength.base_yield_share * yield_mpa * thickness_mm;
    (yields, strength.resistance * strength.shear_share * tensile_mpa * thickness_mm)
}

/// Throat and leg with which fillets are as strong as their part, with the factors of AISC on both sides.
///
/// Pin in torsion and bending `a = Fy d/(6 F n)`, pushed `Fy d/(3 F n)`; EN in torsion
/// `Fy d βw γM2/(8 n fu)`. Plate in tension `min(0.90 Fy, 0.75 Fu) t` on two fillets across, in shear along
/// the steel's own shear strength. Computed from AISC 360 J2.4 and J4, the latter from memory.
///
/// # Errors
/// A figure that no part has; `strength-needs-base` where a plate's tensile strength is not told;
/// `strength-en-torsion` where EN is asked for another load than torsion.
pub fn as_strong(strength: &WeldStrength, asked: &AsStrongQuery) -> Result<Vec<Outcome>, EngineError> {
    let size = Domain::new(if asked.part.round() { "pin-diameter" } else { "thickness" }, 0.5, 2000.0)
        .check(asked.size_mm)?;
    let fy = Domain::new("base-yield", 100.0, 2500.0).check(asked.yield_mpa)?;
    let filler = STRENGTH.check(asked.filler_mpa)?;
    let n = Domain::new("rings", 1.0, 2.0).check(asked.rings)?;
    let tensile = match asked.tensile_mpa {
        Some(own) => Some(Domain::new("base-strength", fy, 2500.0).check(own)?),
        None => None,
    };
    let needed = || tensile.ok_or(EngineError::NoAnswer { reason: "strength-needs-base" });
    let weld = strength.resistance * strength.shear_share * filler;
    let across = 1.0 + strength.angle_share;
    let mut steps = Vec::new();
    let throat = match (asked.part, asked.correlation) {
        (AsStrong::PinTorsion, Some(correlation)) => {
            let fu = tensile.map_or(filler, |base| base.min(filler));
            fy * size * correlation * strength.partial / (8.0 * n * fu)
        }
        (_, Some(_)) => return Err(EngineError::NoAnswer { reason: "strength-en-torsion" }),
        (AsStrong::PinTorsion | AsStrong::PinBending, None) => fy * size / (6.0 * filler * n),
        (AsStrong::PinPush, None) => fy * size / (3.0 * filler * n),
        (AsStrong::PlateAcross, None) => {
            let plate = (strength.tension_resistance * fy).min(strength.resistance * needed()?) * size;
            steps.push(Step::new("plate", plate, Unit::NewtonPerMm));
            plate / (2.0 * weld * across)
        }
        (AsStrong::PlateAlong, None) => {
            let (yields, breaks) = base_shear(strength, size, fy, needed()?);
            steps.push(Step::new("plate", yields.min(breaks), Unit::NewtonPerMm));
            yields.min(breaks) / (2.0 * weld)
        }
    };
    let (method, basis) = if asked.correlation.is_some() {
        (Method::FilletEn, &strength.en_basis)
    } else {
        (Method::FilletAisc, &strength.base_basis)
    };
    let answer = |name, value| Outcome::new(method, value, Unit::Millimetre).named(name).resting_on(basis);
    Ok(vec![answer("as-strong-leg", throat * SQRT_2), answer("as-strong-throat", throat).worked(steps)])
}
