//! What does a fillet carry?

use strum::{IntoStaticStr, VariantArray, VariantNames};

use super::fillet::Fillet;
use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Step, Unit};
use crate::reference::{Basis, Method, WeldStrength};

pub(super) const STRENGTH: Domain = Domain::new("filler-strength", 200.0, 2500.0);
const BASE: Domain = Domain::new("base-strength", 200.0, 2500.0);
const ANGLE: Domain = Domain::new("force-angle", 0.0, 90.0);

/// By which rules a fillet is judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, IntoStaticStr, VariantArray, VariantNames)]
#[strum(serialize_all = "kebab-case")]
pub enum Rules {
    /// AISC 360 with working loads and a safety factor.
    AiscWorking,
    /// AISC 360 with factored loads.
    AiscFactored,
    /// EN 1993-1-8, the same strength in every direction.
    EnSimplified,
    /// EN 1993-1-8, by the direction of the force.
    EnDirectional,
}

impl Rules {
    /// All of them.
    pub const ALL: &'static [Self] = <Self as VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// Are they those of EN 1993-1-8?
    #[must_use]
    pub const fn european(self) -> bool {
        matches!(self, Self::EnSimplified | Self::EnDirectional)
    }
}

/// The metal of a fillet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilletMetal {
    /// Least tensile strength of the filler, MPa.
    pub filler_mpa: f64,
    /// Least tensile strength of the weaker part, MPa.
    pub base_mpa: Option<f64>,
    /// Correlation factor of EN 1993-1-8.
    pub correlation: f64,
}

impl FilletMetal {
    pub(super) fn check(&self) -> Result<(), EngineError> {
        STRENGTH.check(self.filler_mpa)?;
        self.base_mpa.map(|base| BASE.check(base)).transpose()?;
        Domain::new("correlation", 0.5, 2.0).check(self.correlation)?;
        Ok(())
    }
}

/// `1 + 0.5 sin^1.5 θ` of AISC 360 J2.4.
#[must_use]
pub fn angle_factor(strength: &WeldStrength, angle_deg: f64) -> f64 {
    1.0 + strength.angle_share * angle_deg.to_radians().sin().max(0.0).powf(strength.angle_power)
}

/// Nominal strength of a mm of fillet by AISC, N/mm: `0.60 F k a`.
#[must_use]
pub fn aisc_nominal(strength: &WeldStrength, filler_mpa: f64, throat_mm: f64, angle_deg: f64) -> f64 {
    strength.shear_share * filler_mpa * angle_factor(strength, angle_deg) * throat_mm
}

/// Design strength of a mm of fillet by EN 1993-1-8, N/mm, of a force at an angle to its axis:
/// `a fu / (βw γM2 sqrt(3 - sin² θ))`; simplified `θ = 0`.
#[must_use]
pub fn en_design(
    strength: &WeldStrength,
    fu_mpa: f64,
    correlation: f64,
    throat_mm: f64,
    angle_deg: f64,
) -> f64 {
    let sine = angle_deg.to_radians().sin();
    throat_mm * fu_mpa / (correlation * strength.partial * (3.0 - sine * sine).sqrt())
}

/// Strength of a mm of fillet by the rules, N/mm; with EN the weaker of filler and part counts.
///
/// # Errors
/// `strength-needs-base` where EN is asked and the part's strength is not known.
pub fn per_mm(
    strength: &WeldStrength,
    rules: Rules,
    metal: &FilletMetal,
    throat_mm: f64,
    angle_deg: f64,
) -> Result<f64, EngineError> {
    let nominal = aisc_nominal(strength, metal.filler_mpa, throat_mm, angle_deg);
    if !rules.european() {
        return Ok(match rules {
            Rules::AiscFactored => strength.resistance * nominal,
            _ => nominal / strength.safety,
        });
    }
    let base = metal.base_mpa.ok_or(EngineError::NoAnswer { reason: "strength-needs-base" })?;
    let counted_deg = if rules == Rules::EnDirectional { angle_deg } else { 0.0 };
    Ok(en_design(strength, base.min(metal.filler_mpa), metal.correlation, throat_mm, counted_deg))
}

/// A load on a weld, kN along and across it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// Along.
    pub along_kn: f64,
    /// Across.
    pub across_kn: f64,
}

/// By how much a load as it is told counts under the rules.
///
/// # Errors
/// `strength-factored` where a factored load is told for the rules of working loads.
pub fn load_factor(strength: &WeldStrength, rules: Rules, factored: bool) -> Result<f64, EngineError> {
    match (rules, factored) {
        (Rules::AiscWorking, true) => Err(EngineError::NoAnswer { reason: "strength-factored" }),
        (Rules::AiscWorking, false) | (_, true) => Ok(1.0),
        (Rules::AiscFactored, false) => Ok(strength.live_load_aisc),
        (_, false) => Ok(strength.live_load_en),
    }
}

/// What is asked of a straight fillet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrengthQuery {
    /// The fillet.
    pub fillet: Fillet,
    /// Length of one, mm.
    pub length_mm: f64,
    /// How many of them carry the load together.
    pub lines: f64,
    /// The metal.
    pub metal: FilletMetal,
    /// By which rules.
    pub rules: Rules,
    /// The load, where one is told.
    pub load: Option<Load>,
    /// Is the load factored already?
    pub factored: bool,
    /// Angle between force and weld, where no load is told, °.
    pub angle_deg: f64,
    /// Is it of full size to its ends, or a closed ring?
    pub full_ends: bool,
    /// Is every mm loaded alike, so that a long weld along the force counts whole?
    pub evenly_loaded: bool,
}

/// What a fillet carries.
#[derive(Debug, Clone, PartialEq)]
pub struct FilletStrength {
    /// A mm of it, all of it, the share that is used, the leg that the load takes.
    pub outcomes: Vec<Outcome>,
    /// Does it carry the load? `None` where none is told.
    pub enough: Option<bool>,
    /// Is the filler weaker than the part?
    pub undermatched: bool,
    /// Does a long weld count for less than its length?
    pub shortened: bool,
}

/// Length that counts, mm, and by which factor the strength counts on it.
fn counted_length(
    strength: &WeldStrength,
    asked: &StrengthQuery,
    throat_mm: f64,
    angle_deg: f64,
) -> Result<f64, EngineError> {
    let (length, leg) = (asked.length_mm, asked.fillet.shorter_mm());
    let short = EngineError::NoAnswer { reason: "strength-too-short" };
    if asked.rules.european() {
        let counted = if asked.full_ends { length } else { length - 2.0 * throat_mm };
        let least = strength.least_length_mm.max(strength.least_length_throats * throat_mm);
        return if counted < least { Err(short) } else { Ok(counted) };
    }
    if length < strength.least_legs_long * leg {
        return Err(short);
    }
    let whole = asked.evenly_loaded || angle_deg >= 90.0;
    Ok(if whole { length } else { long_factor(strength, length, leg) * length })
}

/// Share of a long fillet's length that counts by AISC: `1.2 - 0.002 L/z` up to 1, above 300 legs 180 legs.
#[must_use]
pub fn long_factor(strength: &WeldStrength, length_mm: f64, leg_mm: f64) -> f64 {
    let ratio = length_mm / leg_mm;
    if ratio > strength.long_to {
        strength.long_legs / ratio
    } else if ratio > strength.long_from {
        (strength.long_base - strength.long_slope * ratio).min(1.0)
    } else {
        1.0
    }
}

/// What a straight fillet carries, and how much of that a load uses. Static strength only.
///
/// Source: AISC 360 J2.4, where the factors 0.60, 0.75 and the angle's were seen; EN 1993-1-8 4.5.3. The
/// safety factor 2.00 and the long-weld factor are from memory; a load that is told as it works counts as
/// all live load (common practice).
///
/// # Errors
/// A figure that no weld has; a weld that is too short to carry a load; a part's strength that EN needs.
pub fn fillet_strength(
    strength: &WeldStrength,
    asked: &StrengthQuery,
) -> Result<FilletStrength, EngineError> {
    let fillet = Fillet::checked(asked.fillet.first_mm, Some(asked.fillet.second_mm))?;
    asked.metal.check()?;
    Domain::new("weld-length", 5.0, 100_000.0).check(asked.length_mm)?;
    let lines = Domain::new("weld-lines", 1.0, 100.0).check(asked.lines)?;
    let mut angle = ANGLE.check(asked.angle_deg)?;
    let factor = load_factor(strength, asked.rules, asked.factored)?;
    let mut force_kn = None;
    if let Some(load) = asked.load {
        let along = Domain::new("load-along", 0.0, 100_000.0).check(load.along_kn)?;
        let across = Domain::new("load-across", 0.0, 100_000.0).check(load.across_kn)?;
        let force = factor * along.hypot(across);
        if force > 0.0 {
            angle = across.atan2(along).to_degrees();
        }
        force_kn = Some(force);
    }
    let throat = fillet.throat_mm();
    let counted = counted_length(strength, asked, throat, angle)?;
    let mm = per_mm(strength, asked.rules, &asked.metal, throat, angle)?;
    let holds_kn = lines * counted * mm / 1000.0;
    let basis = rules_basis(strength, asked.rules);
    let method = if asked.rules.european() { Method::FilletEn } else { Method::FilletAisc };
    let answer = |name, value, unit| Outcome::new(method, value, unit).named(name).resting_on(basis);
    let mut steps = vec![
        Step::new("throat", throat, Unit::Millimetre),
        Step::new("θ", angle, Unit::Degree),
        Step::new("counted length", counted, Unit::Millimetre),
    ];
    if !asked.rules.european() {
        steps.push(Step::new("k", angle_factor(strength, angle), Unit::One));
        steps.push(Step::new(
            "Rn",
            aisc_nominal(strength, asked.metal.filler_mpa, throat, angle),
            Unit::NewtonPerMm,
        ));
    }
    let mut outcomes = vec![
        answer("fillet-holds", holds_kn, Unit::Kilonewton),
        answer("fillet-per-mm", mm, Unit::NewtonPerMm).worked(steps),
    ];
    if let Some(force) = force_kn {
        let used = force / holds_kn;
        let step = vec![Step::new("force", force, Unit::Kilonewton)];
        outcomes.push(answer("fillet-used", 100.0 * used, Unit::Percent).worked(step));
        if force > 0.0 {
            // By its own proportions: strength grows with the leg where the length that counts stays.
            let leg = used * fillet.first_mm;
            outcomes.push(answer("fillet-leg-for-load", leg, Unit::Millimetre));
        }
    }
    let undermatched = asked.metal.base_mpa.is_some_and(|base| asked.metal.filler_mpa < base);
    if let Some(base) = asked.metal.base_mpa {
        outcomes.push(answer("fillet-throat-factor", base / asked.metal.filler_mpa, Unit::One));
    }
    let shortened = !asked.rules.european() && counted < asked.length_mm;
    Ok(FilletStrength { outcomes, enough: force_kn.map(|force| force <= holds_kn), undermatched, shortened })
}

/// What the strength by some rules rests on.
pub(super) const fn rules_basis(strength: &WeldStrength, rules: Rules) -> &Basis {
    match rules {
        // The safety factor was not seen.
        Rules::AiscWorking => &strength.safety_basis,
        Rules::AiscFactored => &strength.resistance_basis,
        Rules::EnSimplified | Rules::EnDirectional => &strength.en_basis,
    }
}
