//! A hold after welding as outcomes.

use super::{Hold, PostHeatAnswer, RuleHours};
use crate::engine::{Outcome, Step};
use crate::reference::{Basis, Method, Reference, Unit};

/// Rules of `data/post_heat.ron`, each an answer of its own.
pub const RULES: [&str; 10] = [
    "post-heat-field-rule",
    "post-heat-by-size",
    "post-heat-filler-maker",
    "post-heat-kept",
    "post-heat-restrained",
    "post-heat-trade-text",
    "post-heat-creep-resisting",
    "post-heat-vessels",
    "post-heat-contractor",
    "post-heat-trade",
];

/// The answers of a hold, the one figure first.
#[must_use]
pub fn outcomes(reference: &Reference, found: &PostHeatAnswer) -> Vec<Outcome> {
    let mut answers = main_figure(found);
    if let Some(hold) = &found.hot_end {
        answers.push(hours("post-heat-hot-end", hold));
    }
    if let Some(below) = &found.below_m90 {
        let (hold, basis) = (&below.hold, &below.basis);
        answers.push(hours("post-heat-below-m90", hold));
        answers.push(temperature("post-heat-below-m90-temperature", hold, basis));
        let left = below.austenite_left;
        let left = Outcome::new(Method::KoistinenMarburger, left, Unit::One);
        answers.push(left.named("post-heat-austenite-left"));
    }
    if let Some(hold) = &found.trapped {
        answers.push(hours("post-heat-trapped", hold));
    }
    if let Some(diffusion) = &found.diffusion {
        let [slow, _, fast] = diffusion.hours;
        answers.push(
            answer("post-heat-diffusion", slow, Unit::Hour, &diffusion.basis).spread(fast, slow).worked(
                vec![
                    Step::new("a", diffusion.path_mm, Unit::Millimetre),
                    Step::new("D", diffusion.slow_cm2_per_s * 3.6e5, Unit::SquareMillimetrePerHour),
                ],
            ),
        );
    }
    if let Some(left_ml) = found.left_ml {
        answers.push(answer("post-heat-left", left_ml, Unit::MlPer100g, &Basis::Practice));
    }
    if let Some(austenite_h) = found.austenite_h {
        let basis = &reference.post_heat.austenite.basis;
        answers.push(answer("post-heat-austenitic-weld", austenite_h, Unit::Hour, basis));
    }
    answers.extend(found.rules.iter().filter_map(rule));
    answers
}

fn main_figure(found: &PostHeatAnswer) -> Vec<Outcome> {
    let Some(hold) = &found.main else {
        return vec![Outcome::open(Method::PostHeat, Unit::Hour).named("post-heat-time")];
    };
    let turning = Step::new("t austenite", hold.turning_h, Unit::Hour);
    let steps = if hold.turning_h > 0.0 { vec![turning] } else { Vec::new() };
    vec![
        hours("post-heat-time", hold).worked(steps),
        temperature("post-heat-temperature", hold, &Basis::Practice),
    ]
}

fn answer(name: &'static str, value: f64, unit: Unit, basis: &Basis) -> Outcome {
    Outcome::new(Method::PostHeat, value, unit).named(name).resting_on(basis)
}

fn hours(name: &'static str, hold: &Hold) -> Outcome {
    answer(name, hold.hours, Unit::Hour, &hold.basis)
}

fn temperature(name: &'static str, hold: &Hold, basis: &Basis) -> Outcome {
    answer(name, hold.low_c, Unit::Celsius, basis).spread(hold.low_c, hold.high_c)
}

fn rule(rule: &RuleHours) -> Option<Outcome> {
    let name = RULES.into_iter().find(|name| *name == rule.id)?;
    let outcome = answer(name, rule.high_h, Unit::Hour, &rule.basis);
    Some(if rule.at_least {
        // Only a lower end is known.
        Outcome { value: None, low: Some(rule.low_h), ..outcome }
    } else if rule.low_h < rule.high_h {
        outcome.spread(rule.low_h, rule.high_h)
    } else {
        outcome
    })
}
