//! Which preheat does the trade's staircase of a carbon equivalent give?

use super::shift::Shift;
use super::{Case, Evidence};
use crate::engine::error::{Domain, HYDROGEN};
use crate::engine::{Checked, EngineError, Outcome, Step};
use crate::reference::{Basis, Method, Practice, Printed, Unit, row_at};

/// The step of the staircase, raised for more than 8 ml/100 g; beyond the last printed step the
/// figure is "at least", and rests on practice.
///
/// `T = step + max(0, ΔH(8))`. Valid for Ceq up to 0.90. Source: `data/practice.ron`.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn ceq_bands(practice: &Practice, ceq: f64, hydrogen_ml: f64) -> Result<Outcome, EngineError> {
    Domain::new("Ceq", 0.0, 20.0).check(ceq)?;
    HYDROGEN.check(hydrogen_ml)?;
    worked(practice, ceq, hydrogen_ml).ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })
}

fn worked(practice: &Practice, ceq: f64, hydrogen_ml: f64) -> Option<Outcome> {
    let bands = &practice.ceq_bands;
    let step = row_at(&bands.steps, |step| step.up_to, ceq)?;
    let last = bands.steps.iter().filter(|step| !step.ours).filter_map(|step| step.up_to).reduce(f64::max);
    let basis = if step.ours { &Basis::Practice } else { &bands.basis };
    let mut outcome = Outcome::new(Method::CeqBands, step.preheat_c, Unit::Celsius)
        .from_inputs(vec![Checked::up_to("Ceq", ceq, Unit::Percent, last)])
        .worked(vec![Step::new("step", step.preheat_c, Unit::Celsius)])
        .resting_on(basis);
    outcome.printed = (!step.ours).then_some(Printed { c: Some(step.preheat_c), f: None });
    outcome.at_least = step.ours;
    let shift = Shift::of(&practice.hydrogen_shift, hydrogen_ml, practice.low_hydrogen.hydrogen_ml);
    Some(shift.upward().applied(outcome, hydrogen_ml))
}

/// The staircase's word on a member.
#[must_use]
pub fn on(case: &Case<'_>) -> Option<Evidence> {
    worked(&case.reference.practice, case.chemistry.ceq_s49(), case.hydrogen_ml)
        .map(|outcome| case.evidence(outcome))
}
