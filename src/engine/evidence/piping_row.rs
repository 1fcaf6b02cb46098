//! What does ASME B31.3 ask for, by the material number of a grade?
//!
//! Table 330.1.1. Source: `data/code_rows.ron`.

use super::{Case, Evidence, NO_PREHEAT_BELOW_C};
use crate::engine::{Checked, Outcome, Says};
use crate::reference::{CodeCase, CodeEdition, Element, Grade, Method, PNumber, Reference, Unit};

/// The thickness up to which the row of plain carbon steel is taken as a route of its own, mm.
const UP_TO_MM: f64 = 25.0;

/// The code's minimum for a grade that bears a material number; up to 20 °C it clears.
#[must_use]
pub fn piping_row(reference: &Reference, grade: &Grade, asked: &CodeCase) -> Option<Outcome> {
    let number = grade.p_number.as_ref()?;
    let row = reference.code_rows.hardest(CodeEdition::B313Of2014, number.number, asked)?;
    let mut outcome = Outcome::new(Method::PipingRow, row.celsius(), Unit::Celsius)
        .of_row(grade.id.as_str())
        .from_inputs(vec![Checked::free("d", asked.thickness_mm, Unit::Millimetre)])
        .resting_on(&row.basis);
    outcome.printed = Some(row.at);
    if row.celsius() <= NO_PREHEAT_BELOW_C {
        outcome.says = Says::Clears;
    }
    Some(outcome)
}

/// The row's word on a member of plain carbon steel (P-No. 1), thin and welded low in hydrogen.
#[must_use]
pub fn on(case: &Case<'_>) -> Option<Evidence> {
    let grade = case.member.steel.grade()?;
    let plain = grade.p_number.as_ref().is_some_and(|number| number.number == PNumber::P1);
    if !plain || case.member.thickness_mm > UP_TO_MM || !case.low_hydrogen() {
        return None;
    }
    let asked = CodeCase {
        thickness_mm: case.member.thickness_mm,
        tensile_mpa: crate::engine::treatment::tensile_mpa(case.member),
        c: Some(case.chemistry.nominal.get(Element::C)),
        cr: None,
    };
    piping_row(case.reference, grade, &asked).map(|outcome| case.evidence(outcome))
}
