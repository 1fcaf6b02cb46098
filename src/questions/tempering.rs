//! Heat treatment after welding.

use super::{Input, Kind, OfPlan, Preset, Problem, Question, Reply, Work};
use crate::engine::tempering::{TemperCycle, TemperQuery, TreatmentQuery, tempering, treatment};
use crate::reference::embedded;
use crate::units::Quantity;

const HOT: Input = Input::new("treat-temperature", Kind::Temperature).within(100.0, 900.0);

/// One cycle against another.
pub(super) static TEMPER_CYCLES: Question = Question {
    name: "temper-cycles",
    work: Work::Cool,
    inputs: &[
        HOT.required(),
        Input::new("treat-hours", Kind::Hours).required().within(0.01, 1000.0),
        Input::new("second-temperature", Kind::Temperature).within(100.0, 900.0),
        Input::new("second-hours", Kind::Hours).within(0.01, 1000.0),
        Input::new("third-temperature", Kind::Temperature).within(100.0, 900.0),
        Input::new("third-hours", Kind::Hours).within(0.01, 1000.0),
        Input::new("other-temperature", Kind::Temperature).within(100.0, 900.0),
        Input::new("other-hours", Kind::Hours).within(0.01, 1000.0),
        Input::new("ramp-rate", Kind::Of(Quantity::HourRate)).within(1.0, 2000.0),
    ],
    answers: &["temper-hours", "temper-temperature", "temper-parameter", "temper-ramp"],
    notes: &["temper-compares-only", "temper-hours-minutes", "temper-no-torch"],
    answer: |given| {
        let mut cycles = vec![TemperCycle {
            at_c: given.number("treat-temperature")?,
            hours: given.number("treat-hours")?,
        }];
        for (at, hours) in [("second-temperature", "second-hours"), ("third-temperature", "third-hours")] {
            match (given.maybe_number(at), given.maybe_number(hours)) {
                (Some(at_c), Some(hours)) => cycles.push(TemperCycle { at_c, hours }),
                (Some(_), None) => return Err(Problem::Missing { keys: vec![hours] }),
                (None, Some(_)) => return Err(Problem::Missing { keys: vec![at] }),
                (None, None) => {}
            }
        }
        let asked = TemperQuery {
            cycles,
            other_c: given.maybe_number("other-temperature"),
            other_h: given.maybe_number("other-hours"),
            rate_k_per_h: given.maybe_number("ramp-rate"),
        };
        let mut outcomes = tempering(&embedded().welding.treatment, &asked)?;
        // What is asked for stands before the parameter that it follows from.
        if outcomes.len() > 1 {
            outcomes.swap(0, 1);
        }
        Ok(Reply::of(outcomes)
            .note_if(true, "temper-compares-only")
            .note_if(true, "temper-hours-minutes")
            .note_if(true, "temper-no-torch"))
    },
};

/// Hours, ceiling and rates.
pub(super) static STRESS_RELIEF: Question = Question {
    name: "stress-relief",
    work: Work::Cool,
    inputs: &[
        Input::new("thickness", Kind::Length).required().within(0.5, 2000.0).of(OfPlan::Thickness),
        Input::new("tempered-at", Kind::Temperature).within(100.0, 800.0),
        HOT,
        Input::new("less-than-required", Kind::Of(Quantity::Difference))
            .or(Preset::Number(0.0))
            .within(0.0, 111.0),
        Input::new("hardened-alloy", Kind::Flag).or(Preset::Flag(true)),
    ],
    answers: &[
        "relief-hours-navsea",
        "relief-hours-asme",
        "relief-ceiling",
        "relief-rate-en",
        "relief-heating-asme",
        "relief-cooling-asme",
    ],
    notes: &[
        "relief-above-ceiling",
        "relief-codes-differ",
        "relief-temper-not-known",
        "relief-grade-range",
        "relief-not-for",
        "temper-no-torch",
    ],
    answer: |given| {
        let tempered_c = given.maybe_number("tempered-at");
        let asked = TreatmentQuery {
            thickness_mm: given.number("thickness")?,
            tempered_c,
            at_c: given.maybe_number("treat-temperature"),
            less_k: given.number("less-than-required")?,
            hardened: given.flag("hardened-alloy"),
        };
        let found = treatment(&embedded().welding.treatment, &asked)?;
        Ok(Reply::of(found.outcomes)
            .note_if(found.above, "relief-above-ceiling")
            .note_if(found.codes_differ, "relief-codes-differ")
            .note_if(tempered_c.is_none(), "relief-temper-not-known")
            .note_if(true, "relief-grade-range")
            .note_if(true, "relief-not-for")
            .note_if(true, "temper-no-torch"))
    },
};
