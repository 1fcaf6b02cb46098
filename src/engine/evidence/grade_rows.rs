//! What do the grade's own rows ask for: its minimum preheat by thickness, its maximum
//! interpass by thickness?
//!
//! Borders are compared in mm with the printed pair's smaller reading for a minimum and
//! its larger for a maximum, so that the unit never matters. Source: `data/grades.ron`.

use super::{Case, d11::higher_c};
use crate::engine::job::Member;
use crate::engine::plan::{Evidence, Says};
use crate::reference::{Basis, Printed, ThicknessTable};

/// The printed temperature of a table by thickness.
#[must_use]
pub fn at_thickness(table: &ThicknessTable, thickness_mm: f64) -> Option<Printed> {
    table
        .rows
        .iter()
        .find(|row| row.up_to_mm.is_none_or(|up_to_mm| thickness_mm <= up_to_mm))
        .map(|row| row.at)
}

/// The grade's own minimum preheat for a member.
#[must_use]
pub fn on(case: &Case<'_>) -> Option<Evidence> {
    let grade = case.member.steel.grade()?;
    let table = grade.preheat_rows.as_ref()?;
    let printed = at_thickness(table, case.member.thickness_mm)?;
    let mut evidence = case.evidence("grade-rows", Says::Figure(higher_c(printed)), table.basis.clone());
    evidence.row = Some(grade.id.clone());
    evidence.printed = Some(printed);
    Some(evidence)
}

/// The grade's own maximum interpass for a member, as printed, with its basis.
#[must_use]
pub fn interpass(member: &Member) -> Option<(Printed, Basis)> {
    let table = member.steel.grade()?.interpass_rows.as_ref()?;
    Some((at_thickness(table, member.thickness_mm)?, table.basis.clone()))
}
