//! How long may a covered low-hydrogen electrode lie in open air, and what is done with it?

use strum::IntoStaticStr;

use super::error::Domain;
use super::{EngineError, Outcome, Step, Unit};
use crate::reference::{ElectrodeExposure, Method};

/// Electrodes out of their oven.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutOfOven<'a> {
    /// Id of their class.
    pub class: &'a str,
    /// Do they carry the suffix R, or are they E7018M?
    pub moisture_resistant: bool,
    /// Hours since they left oven or packet.
    pub hours: f64,
    /// Have they been wet?
    pub wet: bool,
    /// Have they been rebaked before?
    pub rebaked: bool,
    /// Do they go back into the oven now?
    pub back_to_oven: bool,
}

/// What is done with them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, IntoStaticStr)]
#[strum(prefix = "exposure-", serialize_all = "kebab-case")]
pub enum ElectrodeFate {
    /// They may be welded with.
    Use,
    /// Back into the oven for its hours, then they may be given out again.
    Oven,
    /// Rebake them first.
    Rebake,
    /// They are of no more use for this work.
    Scrap,
}

impl ElectrodeFate {
    /// Id of the note that says it.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// What is done with them, and the figures that it takes.
#[derive(Debug, Clone, PartialEq)]
pub struct Exposed {
    /// Hours left and the limit; with them the oven, or the hours that a maker's test may allow.
    pub outcomes: Vec<Outcome>,
    /// What is done with them.
    pub fate: ElectrodeFate,
    /// Does the suffix R lengthen nothing here, so that the box is read?
    pub read_box: bool,
}

/// Hours left, the limit, and what is done with them.
///
/// Source: AWS D1.1 5.3.2 for what is done, its Table 5.1 column A for the hours, column B for those of
/// a maker's test. The suffix R lengthens the time where the class has a figure for it, nowhere else.
///
/// # Errors
/// `exposure-class` where there is no such class; hours that are not a number, or below zero.
pub fn electrode_exposure(rules: &ElectrodeExposure, out: &OutOfOven<'_>) -> Result<Exposed, EngineError> {
    Domain::new("hours-out", 0.0, 10_000.0).check(out.hours)?;
    let class = rules.classes.iter().find(|class| class.id == out.class);
    let class = class.ok_or(EngineError::NoAnswer { reason: "exposure-class" })?;
    let resistant_h = class.moisture_resistant_hours.filter(|_| out.moisture_resistant);
    let (limit_h, basis) = match resistant_h {
        Some(hours) => (hours, &rules.moisture_resistant_basis),
        None => (class.hours, &rules.classes_basis),
    };
    let in_time = out.hours <= limit_h;
    let fate = match (out.wet, in_time) {
        (true, _) => ElectrodeFate::Scrap,
        (false, true) if out.back_to_oven => ElectrodeFate::Oven,
        (false, true) => ElectrodeFate::Use,
        (false, false) if u32::from(out.rebaked) >= rules.rebakes_most => ElectrodeFate::Scrap,
        (false, false) => ElectrodeFate::Rebake,
    };
    let left_h = if out.wet { 0.0 } else { (limit_h - out.hours).max(0.0) };
    let answer = |name, value, unit, basis| {
        Outcome::new(Method::ElectrodeExposure, value, unit).named(name).resting_on(basis)
    };
    let steps = vec![Step::new("out", out.hours, Unit::Hour)];
    let mut outcomes = vec![
        answer("exposure-left", left_h, Unit::Hour, basis).worked(steps),
        answer("exposure-limit", limit_h, Unit::Hour, basis),
    ];
    match fate {
        ElectrodeFate::Oven => outcomes.extend([
            answer("exposure-oven-temperature", rules.oven_c, Unit::Celsius, &rules.handling_basis),
            answer("exposure-oven-hours", rules.oven_hours, Unit::Hour, &rules.handling_basis),
        ]),
        // With the suffix R the row says nothing of a longer test.
        ElectrodeFate::Rebake if resistant_h.is_none() => {
            outcomes.push(answer("exposure-tested", class.tested_hours, Unit::Hour, &rules.classes_basis));
        }
        ElectrodeFate::Rebake | ElectrodeFate::Use | ElectrodeFate::Scrap => {}
    }
    let read_box = out.moisture_resistant && resistant_h.is_none();
    Ok(Exposed { outcomes, fate, read_box })
}
