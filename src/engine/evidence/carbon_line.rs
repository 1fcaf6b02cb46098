//! Which preheat does the carbon chart for plain carbon steel give, read as a line?

use super::shift::{Shift, thickness_credit_k};
use super::{Case, Evidence};
use crate::engine::error::{Domain, HYDROGEN, THICKNESS};
use crate::engine::{Checked, EngineError, Outcome, Step};
use crate::reference::{CarbonLine, Element, Method, Practice, Unit};

/// The chart as a line, flat outside its points, °C.
#[must_use]
pub fn carbon_line_c(line: &CarbonLine, carbon: f64) -> f64 {
    let (Some(first), Some(last)) = (line.points.first(), line.points.last()) else { return 0.0 };
    if carbon <= first.c {
        return first.preheat_c;
    }
    for pair in line.points.windows(2) {
        if carbon <= pair[1].c {
            let share = (carbon - pair[0].c) / (pair[1].c - pair[0].c);
            return share.mul_add(pair[1].preheat_c - pair[0].preheat_c, pair[0].preheat_c);
        }
    }
    last.preheat_c
}

/// The carbon chart for plain carbon steel read as a line.
///
/// `T = line(C) + ΔH(15) + credit(d)`; C in %, d in mm. Valid for C 0.20-0.80, flat outside,
/// and "at least" above. Source: `data/practice.ron`.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn carbon_line(
    practice: &Practice,
    carbon: f64,
    hydrogen_ml: f64,
    thickness_mm: f64,
) -> Result<Outcome, EngineError> {
    Domain::new("C", 0.0, 2.0).check(carbon)?;
    HYDROGEN.check(hydrogen_ml)?;
    THICKNESS.check(thickness_mm)?;
    Ok(worked(practice, carbon, hydrogen_ml, thickness_mm))
}

fn worked(practice: &Practice, carbon: f64, hydrogen_ml: f64, thickness_mm: f64) -> Outcome {
    let line = &practice.carbon_line;
    let line_c = carbon_line_c(line, carbon);
    let credit_k = thickness_credit_k(&practice.thickness_credit, thickness_mm);
    let ends = (line.points.first().map(|point| point.c), line.points.last().map(|point| point.c));
    let read = Checked { low: ends.0, high: ends.1, ..Checked::free("C", carbon, Unit::Percent) }.held();
    let mut outcome = Outcome::new(Method::CarbonLine, line_c + credit_k, Unit::Celsius)
        .from_inputs(vec![read, Checked::free("d", thickness_mm, Unit::Millimetre)])
        .worked(vec![Step::new("line", line_c, Unit::Celsius), Step::new("credit", credit_k, Unit::Kelvin)])
        .resting_on(&line.basis);
    outcome.at_least = read.above();
    Shift::of(&practice.hydrogen_shift, hydrogen_ml, line.hydrogen_ml).applied(outcome, hydrogen_ml)
}

/// The line's word on a member.
#[must_use]
pub fn on(case: &Case<'_>) -> Evidence {
    let carbon = case.chemistry.nominal.get(Element::C);
    case.evidence(worked(&case.reference.practice, carbon, case.hydrogen_ml, case.member.thickness_mm))
}
