//! What does a grade's own data sheet print, which states neither hydrogen nor thickness?

use super::shift::Shift;
use super::{Case, Evidence};
use crate::engine::error::HYDROGEN;
use crate::engine::{EngineError, Outcome, Step};
use crate::reference::{Grade, Method, Practice, Printed, Unit};

/// The figure of a grade's data sheet, raised for more than 8 ml/100 g; less hydrogen earns no
/// credit, since the sheet states none.
///
/// `T = printed + max(0, ΔH(8))`, and not under the handbook's `316 + ΔH(8)` for thick bar. Source: the sheet's basis; the move is common practice.
///
/// # Errors
/// A grade that has no such sheet; hydrogen that is not a number, negative, or that no weld
/// has.
pub fn data_sheet(practice: &Practice, grade: &Grade, hydrogen_ml: f64) -> Result<Outcome, EngineError> {
    HYDROGEN.check(hydrogen_ml)?;
    worked(practice, grade, hydrogen_ml).ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })
}

fn worked(practice: &Practice, grade: &Grade, hydrogen_ml: f64) -> Option<Outcome> {
    let sheet = grade.data_sheet.as_ref()?;
    let low_c = sheet.low_c?;
    let mut outcome = Outcome::new(Method::DataSheet, low_c, Unit::Celsius)
        .of_row(grade.id.as_str())
        .worked(vec![Step::new("printed", low_c, Unit::Celsius)])
        .resting_on(&sheet.basis);
    outcome.printed = Some(Printed { c: Some(low_c), f: None });
    let shift = Shift::of(&practice.hydrogen_shift, hydrogen_ml, practice.low_hydrogen.hydrogen_ml);
    let mut outcome = shift.upward().applied(outcome, hydrogen_ml);
    // The sheet states no thickness: it never goes below what thick bar of the handbook gets.
    if let Some(thick_c) = thickest_c(practice).map(|row_c| row_c + shift.added_k)
        && outcome.value.is_some_and(|value_c| value_c < thick_c)
    {
        outcome.value = Some(thick_c);
        outcome.printed = None;
        outcome.steps.push(Step::new("thick bar", thick_c, Unit::Celsius));
    }
    Some(outcome)
}

/// The handbook's figure for thick bar of the steel that such sheets speak of, °C.
fn thickest_c(practice: &Practice) -> Option<f64> {
    let row = practice.low_hydrogen.rows.iter().find(|row| row.grade == "4140")?;
    row.rows.last().map(|row| row.at.as_minimum_c())
}

/// The sheet of a grade as a word on a member that it covers.
#[must_use]
pub fn on(case: &Case<'_>, grade: &Grade) -> Option<Evidence> {
    worked(&case.reference.practice, grade, case.hydrogen_ml).map(|outcome| case.evidence(outcome))
}
