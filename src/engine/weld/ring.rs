//! What does a fillet carry round a pin or a boss?

use std::f64::consts::PI;

use super::fillet::Fillet;
use super::strength::{FilletMetal, Rules, load_factor, per_mm, rules_basis};
use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Step, Unit};
use crate::reference::{Method, WeldStrength};

const DIAMETER: Domain = Domain::new("pin-diameter", 5.0, 2000.0);
const MOMENT: Domain = Domain::new("torque", 0.0, 1e7);
const FORCE: Domain = Domain::new("load-push", 0.0, 100_000.0);

/// Polar second moment of a ring as a line, mm³: `J = 2 π r³`.
#[must_use]
pub fn line_polar_mm3(radius_mm: f64) -> f64 {
    2.0 * PI * radius_mm.powi(3)
}

/// What pulls at a ring.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RingLoad {
    /// Torque, N m.
    pub torque_nm: f64,
    /// Push or pull along the pin, kN.
    pub push_kn: f64,
    /// Bending, N m.
    pub bending_nm: f64,
    /// Side force, kN.
    pub side_kn: f64,
}

/// What is asked of a ring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RingQuery {
    /// Diameter of the pin, mm.
    pub diameter_mm: f64,
    /// Rings: 1, or 2 where both faces are welded.
    pub rings: f64,
    /// The fillet.
    pub fillet: Fillet,
    /// The metal.
    pub metal: FilletMetal,
    /// By which rules.
    pub rules: Rules,
    /// The load, where one is told.
    pub load: Option<RingLoad>,
    /// Is the load factored already?
    pub factored: bool,
}

/// What a ring carries.
#[derive(Debug, Clone, PartialEq)]
pub struct RingStrength {
    /// Torque and push that it carries alone, the share that the load uses.
    pub outcomes: Vec<Outcome>,
    /// Does it carry the load? `None` where none is told.
    pub enough: Option<bool>,
    /// Is the filler weaker than the pin?
    pub undermatched: bool,
}

/// Torque or push that the rings carry alone, and how much of their strength a load uses.
///
/// The weld is a line at the pin's surface: along it `2 T/(π d²) + V/(π d)`, across it
/// `P/(π d) + 4 M/(π d²)`, each over the rings. Source: line properties of a machine-design text; strength as
/// for a straight fillet.
///
/// # Errors
/// A figure that no pin has; a part's strength that EN needs; a factored load for working-load rules.
pub fn ring_strength(strength: &WeldStrength, asked: &RingQuery) -> Result<RingStrength, EngineError> {
    let d = DIAMETER.check(asked.diameter_mm)?;
    let n = Domain::new("rings", 1.0, 2.0).check(asked.rings)?;
    let fillet = Fillet::checked(asked.fillet.first_mm, Some(asked.fillet.second_mm))?;
    asked.metal.check()?;
    let throat = fillet.throat_mm();
    let at = |angle_deg| per_mm(strength, asked.rules, &asked.metal, throat, angle_deg);
    let (along, across) = (at(0.0)?, at(90.0)?);
    let method = if asked.rules.european() { Method::FilletEn } else { Method::FilletAisc };
    let basis = rules_basis(strength, asked.rules);
    let answer = |name, value, unit| Outcome::new(method, value, unit).named(name).resting_on(basis);
    let mut outcomes = vec![
        answer("ring-torque", n * along * PI * d * d / 2.0 / 1000.0, Unit::NewtonMetre)
            .worked(vec![Step::new("throat", throat, Unit::Millimetre)]),
        answer("ring-push", n * across * PI * d / 1000.0, Unit::Kilonewton),
    ];
    let factor = load_factor(strength, asked.rules, asked.factored)?;
    let mut enough = None;
    if let Some(load) = asked.load {
        MOMENT.check(load.torque_nm)?;
        Domain::new("bending", 0.0, 1e7).check(load.bending_nm)?;
        FORCE.check(load.push_kn)?;
        Domain::new("load-side", 0.0, 100_000.0).check(load.side_kn)?;
        let line_mm3 = line_polar_mm3(d / 2.0);
        let turning = 1000.0 * load.torque_nm * (d / 2.0) / line_mm3;
        let side = 1000.0 * load.side_kn / (PI * d);
        let push = 1000.0 * load.push_kn / (PI * d);
        let bending = 1000.0 * load.bending_nm * (d / 2.0) / (line_mm3 / 2.0);
        let (along, across) = (factor * (turning + side) / n, factor * (push + bending) / n);
        let force = along.hypot(across);
        let angle = if force > 0.0 { across.atan2(along).to_degrees() } else { 0.0 };
        let used = force / at(angle)?;
        let steps = vec![
            Step::new("along", along, Unit::NewtonPerMm),
            Step::new("across", across, Unit::NewtonPerMm),
            Step::new("θ", angle, Unit::Degree),
            Step::new("force", force, Unit::NewtonPerMm),
            Step::new("strength", at(angle)?, Unit::NewtonPerMm),
        ];
        outcomes.push(answer("ring-used", 100.0 * used, Unit::Percent).worked(steps));
        if used > 0.0 {
            outcomes.push(answer("ring-leg-for-load", used * fillet.first_mm, Unit::Millimetre));
        }
        enough = Some(used <= 1.0);
    }
    let undermatched = asked.metal.base_mpa.is_some_and(|base| asked.metal.filler_mpa < base);
    Ok(RingStrength { outcomes, enough, undermatched })
}
