//! What does ASME B31.3 ask for, by the material number of a grade?
//!
//! Table 330.1.1 of two editions. Where they differ the hotter one may govern and both are shown. Source:
//! `data/code_rows.ron`.

use super::{Case, Evidence, NO_PREHEAT_BELOW_C};
use crate::engine::part::Part;
use crate::engine::{Checked, Outcome, Says, treatment};
use crate::reference::{
    CodeCase, CodeEdition, CodeRow, Element, Method, PNumber, Reference, SheetCase, Unit,
};

/// The thickness up to which the row of plain carbon steel is taken as a route of its own, mm.
const UP_TO_MM: f64 = 25.0;
/// The answer of the edition of 2010.
pub const EARLIER: &str = "piping-row-2010";

/// A row of the code as an answer; up to 20 °C it clears.
fn piping_row(row: &CodeRow, of: &str, thickness_mm: f64) -> Outcome {
    let mut outcome = Outcome::new(Method::PipingRow, row.celsius(), Unit::Celsius)
        .of_row(of)
        .from_inputs(vec![Checked::free("d", thickness_mm, Unit::Millimetre)])
        .resting_on(&row.basis);
    outcome.printed = Some(row.at);
    if row.edition == CodeEdition::B313Of2010 {
        outcome = outcome.named(EARLIER);
    }
    if row.celsius() <= NO_PREHEAT_BELOW_C {
        outcome.says = Says::Clears;
    }
    outcome
}

/// Both editions on a steel that has a sheet of its own, by its material number or by that of its
/// kind; the later one alone where both print the same °F.
#[must_use]
pub fn editions(reference: &Reference, part: &Part<'_>, number: PNumber, asked: &SheetCase) -> Vec<Outcome> {
    // A name that the certificate has left has no number to go by.
    let grade = part.member.steel.grade().filter(|_| !treatment::has_left_its_name(part.member));
    let number = grade.and_then(|grade| grade.p_number.as_ref()).map_or(number, |own| own.number);
    let asked = CodeCase {
        thickness_mm: asked.thickness_mm,
        tensile_mpa: asked.tensile_mpa,
        c: Some(asked.c),
        cr: Some(asked.cr),
    };
    let of = grade.map_or_else(|| format!("{number:?}"), |grade| grade.id.clone());
    let row = |edition| reference.code_rows.hardest(edition, number, &asked);
    let later = row(CodeEdition::B313Of2014);
    let earlier = row(CodeEdition::B313Of2010).filter(|row| later.is_none_or(|later| later.at.f != row.at.f));
    later.into_iter().chain(earlier).map(|row| piping_row(row, &of, asked.thickness_mm)).collect()
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
        tensile_mpa: treatment::tensile_mpa(case.member),
        c: Some(case.chemistry.nominal.get(Element::C)),
        cr: None,
    };
    let row = case.reference.code_rows.hardest(CodeEdition::B313Of2014, PNumber::P1, &asked)?;
    Some(case.evidence(piping_row(row, &grade.id, case.member.thickness_mm)))
}
