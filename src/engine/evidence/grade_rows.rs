//! What do the grade's own rows ask for: its minimum preheat by thickness, its maximum
//! interpass by thickness?
//!
//! Borders are compared in mm with the printed pair's smaller reading for a minimum and
//! its larger for a maximum, so that the unit never matters. Source: `data/grades.ron`.

use super::{Case, Evidence};
use crate::engine::error::THICKNESS;
use crate::engine::job::Member;
use crate::engine::{Checked, EngineError, Outcome};
use crate::reference::{Basis, Grade, Method, Printed, Unit};

/// The grade's own minimum preheat at a thickness.
///
/// # Errors
/// A grade without such rows; a thickness that is not a number, negative, or that no part has.
pub fn grade_rows(grade: &Grade, thickness_mm: f64) -> Result<Outcome, EngineError> {
    THICKNESS.check(thickness_mm)?;
    worked(grade, thickness_mm).ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })
}

fn worked(grade: &Grade, thickness_mm: f64) -> Option<Outcome> {
    if let Some(own) = grade.published_preheat.as_ref().filter(|own| own.replaces_practice) {
        let low_c = own.low_c?;
        let mut outcome = Outcome::new(Method::GradeRows, low_c, Unit::Celsius)
            .of_row(grade.id.as_str())
            .from_inputs(vec![Checked::free("d", thickness_mm, Unit::Millimetre)])
            .resting_on(&own.basis);
        outcome.printed = Some(Printed { c: Some(low_c), f: None });
        return Some(outcome);
    }
    let table = grade.preheat_rows.as_ref()?;
    let printed = table.at(thickness_mm)?;
    let mut outcome = Outcome::new(Method::GradeRows, printed.as_minimum_c(), Unit::Celsius)
        .of_row(grade.id.as_str())
        .from_inputs(vec![Checked::free("d", thickness_mm, Unit::Millimetre)])
        .resting_on(&table.basis);
    outcome.printed = Some(printed);
    Some(outcome)
}

/// The grade's own minimum preheat for a member.
#[must_use]
pub fn on(case: &Case<'_>) -> Option<Evidence> {
    let outcome = worked(case.member.steel.grade()?, case.member.thickness_mm)?;
    Some(case.evidence(outcome))
}

/// The grade's own maximum interpass for a member, as printed, with its basis.
#[must_use]
pub fn interpass(member: &Member) -> Option<(Printed, &Basis)> {
    let table = member.steel.grade()?.interpass_rows.as_ref()?;
    Some((table.at(member.thickness_mm)?, &table.basis))
}
