//! What does the handbook print for a grade with low-hydrogen consumables?

use super::shift::Shift;
use super::{Case, Evidence};
use crate::engine::error::{HYDROGEN, THICKNESS};
use crate::engine::{Checked, EngineError, Outcome, Step};
use crate::reference::{LowHydrogenRow, Method, Practice, Unit, thickness_row};

/// The answer of a row that is stretched to a richer steel.
pub const STRETCHED: &str = "practice-rows-stretched";

/// The handbook's low-hydrogen figure for a grade at a thickness, moved from 8 ml/100 g to
/// this hydrogen.
///
/// `T = printed + ΔH(8)`. Above 2 in the last row reads "at least". Source: the row's basis,
/// a handbook from memory; the move is common practice.
///
/// # Errors
/// A grade that has no such row; a thickness or hydrogen that is not a number, negative,
/// or that no weld has.
pub fn low_hydrogen_rows(
    practice: &Practice,
    grade: &str,
    thickness_mm: f64,
    hydrogen_ml: f64,
) -> Result<Outcome, EngineError> {
    HYDROGEN.check(hydrogen_ml)?;
    THICKNESS.check(thickness_mm)?;
    let nothing = EngineError::NoAnswer { reason: "table-has-no-row" };
    let row = practice.low_hydrogen.rows.iter().find(|row| row.grade == grade).ok_or(nothing)?;
    worked(practice, row, thickness_mm, hydrogen_ml).ok_or(nothing)
}

fn worked(practice: &Practice, row: &LowHydrogenRow, thickness_mm: f64, hydrogen_ml: f64) -> Option<Outcome> {
    let printed = thickness_row(&row.rows, thickness_mm)?.at;
    let printed_c = printed.as_minimum_c();
    let depth = Checked::up_to("d", thickness_mm, Unit::Millimetre, Some(row.at_least_above_mm));
    let mut outcome = Outcome::new(Method::PracticeLowH, printed_c, Unit::Celsius)
        .named("practice-rows")
        .of_row(row.grade.as_str())
        .from_inputs(vec![depth])
        .worked(vec![Step::new("printed", printed_c, Unit::Celsius)])
        .resting_on(&row.basis);
    outcome.printed = Some(printed);
    outcome.at_least = depth.above();
    let shift = Shift::of(&practice.hydrogen_shift, hydrogen_ml, practice.low_hydrogen.hydrogen_ml);
    Some(shift.applied(outcome, hydrogen_ml))
}

/// A row's word on a member; a row that is stretched to a richer steel says so.
#[must_use]
pub fn on(case: &Case<'_>, row: &LowHydrogenRow, stretched: bool) -> Option<Evidence> {
    let mut outcome = worked(&case.reference.practice, row, case.member.thickness_mm, case.hydrogen_ml)?;
    if stretched {
        outcome.name = STRETCHED;
    }
    Some(case.evidence(outcome))
}
