//! How long must a weld lie before it is inspected for the last time?
//!
//! Each text's rows with what they speak of stand in `data/inspection.ron`.

use strum::IntoEnumIterator;

use super::error::{Domain, HEAT, THICKNESS};
use super::family::Family;
use super::job::Restraint;
use super::{EngineError, Outcome, Step, Unit};
use crate::reference::{Method, Table, WaitBook, WaitFor, WaitRule};

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

impl WeldToInspect {
    fn is(&self, wanted: WaitFor) -> bool {
        match wanted {
            // Iron cracks at once, and structural steel is judged by yield and thickness.
            WaitFor::Hardening => self.family.traits().waits_longer,
            WaitFor::Quenched => self.family == Family::QuenchedTempered,
            WaitFor::Hardenable => self.family == Family::Hardenable,
            WaitFor::HighRestraint => self.restraint == Restraint::High,
            WaitFor::YieldAbove(limit_mpa) => self.yield_mpa.is_some_and(|mpa| mpa > limit_mpa),
            WaitFor::YieldUnder(limit_mpa) => self.yield_mpa.is_some_and(|mpa| mpa < limit_mpa),
            WaitFor::ThickerThan(limit_mm) => self.thickness_mm > limit_mm,
        }
    }

    /// The hours that a row asks for; `None` where it doesn't speak of this weld.
    fn wait_h(&self, rule: &WaitRule) -> Option<f64> {
        let size_mm = self.size_mm.unwrap_or(self.thickness_mm);
        let speaks = rule.holds_for(size_mm, self.net_heat_kj_per_mm)
            && (rule.when_any.is_empty() || rule.when_any.iter().any(|&wanted| self.is(wanted)))
            && rule.when_all.iter().all(|&wanted| self.is(wanted))
            && !rule.unless_any.iter().any(|&wanted| self.is(wanted));
        speaks.then_some(if rule.none_after_heat && self.heat_treated { 0.0 } else { rule.hours })
    }
}

/// The least wait before the final inspection: the longest of the texts that speak of this
/// weld, then each text; one that doesn't speak of it has no value.
///
/// The wait counts from the moment that the weld is cold. A heat treatment after welding
/// lifts EN 1011-2 clause 18 only; the others state no such relief.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn inspection_wait(rules: &Table<WaitRule>, weld: &WeldToInspect) -> Result<Vec<Outcome>, EngineError> {
    THICKNESS.check(weld.thickness_mm)?;
    weld.size_mm.map(|size| THICKNESS.check(size)).transpose()?;
    weld.yield_mpa.map(|mpa| Domain::new("Re", 50.0, 3000.0).check(mpa)).transpose()?;
    HEAT.check(weld.net_heat_kj_per_mm)?;
    let mut answers = vec![Outcome::open(Method::InspectionDelay, Unit::Hour).named("inspection-wait")];
    for book in WaitBook::iter() {
        let mut answer = Outcome::open(Method::InspectionDelay, Unit::Hour).named(book.into());
        for rule in rules.iter().filter(|rule| rule.book == book) {
            answer = answer.resting_on(&rule.basis);
            if let Some(wait_h) = weld.wait_h(rule) {
                answer.value = Some(wait_h);
                break;
            }
        }
        let strictest = &mut answers[0];
        if let Some(wait_h) = answer.value
            && strictest.value.is_none_or(|longest_h| wait_h > longest_h)
        {
            strictest.value = Some(wait_h);
            strictest.own_basis.clone_from(&answer.own_basis);
            strictest.steps = vec![Step::new("t", wait_h, Unit::Hour)];
        }
        answers.push(answer);
    }
    Ok(answers)
}
