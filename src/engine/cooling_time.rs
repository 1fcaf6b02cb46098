//! How long does the weld take from 800 to 500 °C, and what preheat gives a wanted time?

use super::error::{Domain, HEAT, THICKNESS};
use super::solve::turning_point;
use super::{Checked, EngineError, Outcome, Step, Unit};
use crate::reference::Method;

/// Temperatures at which the equations are evaluated, °C: they end at 500.
const START: Domain = Domain::new("T0", -50.0, 450.0);
const FACTOR: Domain = Domain::new("F", 0.1, 2.0);
const TARGET: Domain = Domain::new("t8/5", 0.01, 10_000.0);

/// Cooling time in thick plate (three-dimensional heat flow), s.
///
/// `t = (6700 - 5 T0) Q [1/(500-T0) - 1/(800-T0)] F3`; T0 in °C, Q net in kJ/mm.
/// Source: EN 1011-2 Annex D; SEW 088 Beiblatt 2, as a textbook (p. 368) and a public text
/// give it.
#[must_use]
pub fn t85_thick_s(t0_c: f64, q_kj_per_mm: f64, f3: f64) -> f64 {
    (6700.0 - 5.0 * t0_c) * q_kj_per_mm * (1.0 / (500.0 - t0_c) - 1.0 / (800.0 - t0_c)) * f3
}

/// Cooling time in thin plate (two-dimensional heat flow), s.
///
/// `t = (4300 - 4.3 T0) 10^5 (Q/d)² [1/(500-T0)² - 1/(800-T0)²] F2`; d in mm.
/// Source: as [`t85_thick_s`], but for the textbook, whose page holds the other one only.
#[must_use]
pub fn t85_thin_s(t0_c: f64, q_kj_per_mm: f64, d_mm: f64, f2: f64) -> f64 {
    let bracket = (500.0 - t0_c).powi(-2) - (800.0 - t0_c).powi(-2);
    (4300.0 - 4.3 * t0_c) * 1e5 * (q_kj_per_mm / d_mm).powi(2) * bracket * f2
}

/// Thickness at which both equations agree with F2 = F3, mm; thinner plate cools by the thin one.
#[must_use]
pub fn transition_mm(t0_c: f64, q_kj_per_mm: f64) -> f64 {
    let shares = 1.0 / (500.0 - t0_c) + 1.0 / (800.0 - t0_c);
    ((4300.0 - 4.3 * t0_c) / (6700.0 - 5.0 * t0_c) * 1e5 * q_kj_per_mm * shares).sqrt()
}

/// The weld whose cooling is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cooling {
    /// Net heat input, kJ/mm.
    pub net_heat_kj_per_mm: f64,
    /// Plate thickness, mm; `None` is thick plate.
    pub thickness_mm: Option<f64>,
    /// Shape factor for thin plate.
    pub f2: f64,
    /// Shape factor for thick plate.
    pub f3: f64,
}

impl Cooling {
    /// Cooling time at a start temperature: the longer of the two equations, s.
    #[must_use]
    pub fn t85_s(&self, t0_c: f64) -> f64 {
        let thick = t85_thick_s(t0_c, self.net_heat_kj_per_mm, self.f3);
        self.thickness_mm.map_or(thick, |d| thick.max(t85_thin_s(t0_c, self.net_heat_kj_per_mm, d, self.f2)))
    }

    /// Start temperature at which the cooling time equals the target, °C; `None` where no
    /// temperature from -50 to 450 °C does.
    #[must_use]
    pub fn preheat_for_c(&self, target_s: f64) -> Option<f64> {
        let (low, high) = (START.low, START.high);
        let reached = self.t85_s(low) <= target_s && target_s <= self.t85_s(high);
        // The time rises strictly with T0.
        reached.then(|| turning_point(low, high, |t0_c| self.t85_s(t0_c) < target_s))
    }

    /// Net heat input at which the cooling time equals the target at a start temperature, kJ/mm.
    #[must_use]
    pub fn heat_for_kj_per_mm(&self, t0_c: f64, target_s: f64) -> f64 {
        let thick = target_s / t85_thick_s(t0_c, 1.0, self.f3);
        self.thickness_mm.map_or(thick, |d| thick.min((target_s / t85_thin_s(t0_c, 1.0, d, self.f2)).sqrt()))
    }

    /// Heat input, thickness and shape factors.
    fn inputs(&self) -> Vec<Checked> {
        let mut made = vec![Checked::free("Q", self.net_heat_kj_per_mm, Unit::KilojoulePerMm)];
        made.extend(self.thickness_mm.map(|d| Checked::free("d", d, Unit::Millimetre)));
        made.extend([Checked::free("F2", self.f2, Unit::One), Checked::free("F3", self.f3, Unit::One)]);
        made
    }

    fn check(&self) -> Result<(), EngineError> {
        HEAT.check(self.net_heat_kj_per_mm)?;
        self.thickness_mm.map(|d| THICKNESS.check(d)).transpose()?;
        FACTOR.check(self.f2)?;
        FACTOR.check(self.f3).map(|_| ())
    }
}

/// Cooling time from 800 to 500 °C with both equations as steps.
///
/// Source: EN 1011-2 Annex D, SEW 088 Beiblatt 2; the shape factors are the caller's.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has; a start temperature
/// outside -50 to 450 °C, where the equations end.
pub fn cooling_time(weld: Cooling, t0_c: f64) -> Result<Outcome, EngineError> {
    weld.check()?;
    START.check(t0_c)?;
    let q = weld.net_heat_kj_per_mm;
    let mut steps = vec![Step::new("t8/5 thick", t85_thick_s(t0_c, q, weld.f3), Unit::Second)];
    if let Some(d) = weld.thickness_mm {
        steps.push(Step::new("t8/5 thin", t85_thin_s(t0_c, q, d, weld.f2), Unit::Second));
        steps.push(Step::new("dt", transition_mm(t0_c, q), Unit::Millimetre));
    }
    Ok(Outcome::new(Method::T85, weld.t85_s(t0_c), Unit::Second)
        .named("cooling-time")
        .from_inputs(weld.inputs())
        .worked(steps))
}

/// The preheat at which the weld cools from 800 to 500 °C in the wanted time.
///
/// # Errors
/// As [`cooling_time`]; `NoAnswer` where the weld cools more slowly than wanted even
/// at -50 °C (`cools-slowly-anyway`) or faster even at 450 °C (`cools-fast-anyway`).
pub fn preheat_for_cooling_time(weld: Cooling, target_s: f64) -> Result<Outcome, EngineError> {
    weld.check()?;
    TARGET.check(target_s)?;
    let Some(preheat_c) = weld.preheat_for_c(target_s) else {
        let cold_is_slow = weld.t85_s(START.low) > target_s;
        return Err(EngineError::NoAnswer {
            reason: if cold_is_slow { "cools-slowly-anyway" } else { "cools-fast-anyway" },
        });
    };
    Ok(Outcome::new(Method::T85, preheat_c, Unit::Celsius)
        .named("preheat-for-cooling-time")
        .from_inputs(weld.inputs())
        .worked(vec![Step::new("t8/5", weld.t85_s(preheat_c), Unit::Second)]))
}
