//! How long must a weld lie before it is inspected for the last time?

use super::error::{HEAT, THICKNESS};
use super::job::Restraint;
use super::plan::Family;
use super::source_ids::{AWS_D1_1, CSA_W59, EEMUA_158, EN_1090_2, NSSS, published};
use super::{EngineError, Outcome, Step, Unit};
use crate::reference::Basis;

/// The weld whose wait is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeldToInspect {
    /// The strictest family among the members.
    pub family: Family,
    /// The greater thickness, mm.
    pub thickness_mm: f64,
    /// Size of the weld: throat of a fillet, depth of a groove, mm; `None` takes the thickness.
    pub size_mm: Option<f64>,
    /// The highest yield among the members, where known, MPa.
    pub yield_mpa: Option<f64>,
    /// Net heat input, kJ/mm.
    pub net_heat_kj_per_mm: f64,
    /// Restraint.
    pub restraint: Restraint,
    /// A heat treatment after welding that drives hydrogen out, or a stress relief?
    pub heat_treated: bool,
}

/// One rule and its wait.
#[derive(Debug, Clone, PartialEq)]
pub struct WaitRule {
    /// Name of its outcome.
    pub name: &'static str,
    /// Hours; 0 is "when it is cold".
    pub wait_h: f64,
    /// Does the rule speak of this weld?
    pub applies: bool,
    /// What it rests on.
    pub basis: Basis,
}

/// Wait by weld size and heat input of NSSS 5th edition Table A, h: cold is enough to
/// 6 mm; to 12 mm 8 h up to 3 kJ/mm and 16 h above; beyond 16 h and 40 h.
///
/// ```
/// assert_eq!(strawblue::engine::inspection::nsss_h(20.0, 4.0), 40.0);
/// ```
#[must_use]
pub fn nsss_h(size_mm: f64, net_heat_kj_per_mm: f64) -> f64 {
    match (size_mm, net_heat_kj_per_mm > 3.0) {
        (size, _) if size <= 6.0 => 0.0,
        (size, hot) if size <= 12.0 => {
            if hot {
                16.0
            } else {
                8.0
            }
        }
        (_, hot) => {
            if hot {
                40.0
            } else {
                16.0
            }
        }
    }
}

/// Wait for S460 and above of EN 1090-2:2008 Table 23, h: 24 h to 6 mm; to 12 mm 24 h up
/// to 3 kJ/mm and 40 h above; beyond 40 h and 48 h. Its column for lower grades is
/// [`nsss_h`], row by row.
#[must_use]
pub fn en_1090_high_yield_h(size_mm: f64, net_heat_kj_per_mm: f64) -> f64 {
    match (size_mm, net_heat_kj_per_mm > 3.0) {
        (size, _) if size <= 6.0 => 24.0,
        (size, hot) if size <= 12.0 => {
            if hot {
                40.0
            } else {
                24.0
            }
        }
        (_, hot) => {
            if hot {
                48.0
            } else {
                40.0
            }
        }
    }
}

/// Every rule with its wait and whether it speaks of this weld.
///
/// EN 1011-2 cl. 18 asks 16 h, "longer" above 50 mm or 500 MPa without a figure: there,
/// and for the hardenable families, the 48 h of EEMUA 158 stand in. A heat treatment
/// after welding lifts cl. 18 only; the others state no such relief.
#[must_use]
pub fn wait_rules(weld: &WeldToInspect) -> Vec<WaitRule> {
    let size = weld.size_mm.unwrap_or(weld.thickness_mm);
    let q = weld.net_heat_kj_per_mm;
    // Iron cracks at once, and structural steel is judged by yield and thickness; all else hardens.
    let hardens = !matches!(weld.family, Family::Structural | Family::Iron);
    let yield_above = |limit| weld.yield_mpa.is_some_and(|mpa| mpa > limit);
    let quenched = weld.family == Family::QuenchedTempered;
    // Between the two columns of Table 23 (420 to 460 MPa) the longer wait is taken.
    let high_yield = yield_above(420.0) || hardens;
    let high_restraint = weld.restraint == Restraint::High;
    let rule = |name, wait_h, applies, basis| WaitRule { name, wait_h, applies, basis };
    vec![
        rule(
            "wait-en-1011-2",
            if weld.heat_treated { 0.0 } else { 16.0 },
            true,
            published(NSSS, "EN 1011-2 clause 18"),
        ),
        rule("wait-nsss", nsss_h(size, q), !high_yield, published(NSSS, "NSSS 5th edition, Table A")),
        rule(
            "wait-en-1090-2",
            en_1090_high_yield_h(size, q),
            high_yield,
            published(EN_1090_2, "Table 23 (2008), S460 and above"),
        ),
        rule(
            "wait-eemua-158",
            48.0,
            hardens || yield_above(500.0) || weld.thickness_mm > 50.0,
            published(EEMUA_158, "EEMUA 158"),
        ),
        rule(
            "wait-d1-1",
            48.0,
            quenched && weld.yield_mpa.is_none_or(|mpa| mpa >= 620.0),
            published(AWS_D1_1, "AWS D1.1, A514, A517 and A709 HPS 100W"),
        ),
        rule("wait-csa-w59", 48.0, quenched || high_restraint, published(CSA_W59, "CSA W59, preferably")),
        rule(
            "wait-prudent",
            72.0,
            weld.family == Family::Hardenable && weld.thickness_mm > 25.0 && high_restraint,
            Basis::memory("trade advice for thick, restrained 4140 and 4340"),
        ),
    ]
}

/// The least wait before the final inspection: the longest of the rules that speak of this
/// weld, then each rule; one that doesn't speak of it has no value.
///
/// The wait counts from the moment that the weld is cold.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn inspection_wait(weld: WeldToInspect) -> Result<Vec<Outcome>, EngineError> {
    THICKNESS.check(weld.thickness_mm)?;
    weld.size_mm.map(|size| THICKNESS.check(size)).transpose()?;
    weld.yield_mpa.map(|mpa| super::error::Domain::new("Re", 50.0, 3000.0).check(mpa)).transpose()?;
    HEAT.check(weld.net_heat_kj_per_mm)?;
    let rules = wait_rules(&weld);
    let mut strictest = Outcome::new("inspection-wait", 0.0, Unit::Hour, Basis::Practice);
    for rule in rules.iter().filter(|rule| rule.applies) {
        if strictest.steps.is_empty() || Some(rule.wait_h) > strictest.value {
            strictest.value = Some(rule.wait_h);
            strictest.basis = rule.basis.clone();
            strictest.steps = vec![Step { symbol: "t", value: rule.wait_h, unit: Unit::Hour }];
        }
    }
    let mut answers = vec![strictest];
    answers.extend(rules.into_iter().map(|rule| {
        let mut outcome = Outcome::new(rule.name, rule.wait_h, Unit::Hour, rule.basis);
        if !rule.applies {
            outcome.value = None;
        }
        outcome
    }));
    Ok(answers)
}
