//! What does AWS D1.1 ask for by category: the prequalified minimum of a listed steel?
//!
//! Category A with a process that is not low in hydrogen, B to D as the grade is listed.
//! Source: `data/d11.ron`.

use super::{Case, Evidence, NO_PREHEAT_BELOW_C};
use crate::engine::error::{HYDROGEN, THICKNESS};
use crate::engine::{Checked, EngineError, Outcome, Says};
use crate::reference::{CategoryRow, D11, D11Category, Method, Unit, thickness_row};

/// The prequalified minimum of a steel category at a thickness; up to 20 °C it clears.
///
/// Category D allows 8 ml/100 g.
///
/// # Errors
/// A letter that the table lacks; more hydrogen than the category allows; a thickness or
/// hydrogen that is not a number, negative, or that no weld has.
pub fn d11_category(
    d11: &D11,
    letter: char,
    thickness_mm: f64,
    hydrogen_ml: Option<f64>,
) -> Result<Outcome, EngineError> {
    let nothing = EngineError::NoAnswer { reason: "table-has-no-row" };
    let row = d11.category(letter).ok_or(nothing)?;
    if let (Some(most_ml), Some(hydrogen_ml)) = (row.hydrogen_max_ml, hydrogen_ml)
        && HYDROGEN.check(hydrogen_ml)? > most_ml
    {
        return Err(EngineError::NoAnswer { reason: "category-hydrogen" });
    }
    THICKNESS.check(thickness_mm)?;
    worked(row, thickness_mm).ok_or(nothing)
}

fn worked(row: &CategoryRow, thickness_mm: f64) -> Option<Outcome> {
    let printed = thickness_row(&row.rows, thickness_mm)?.at;
    let value_c = printed.as_minimum_c();
    let mut outcome = Outcome::new(Method::D11Category, value_c, Unit::Celsius)
        .of_row(row.category)
        .from_inputs(vec![Checked::free("d", thickness_mm, Unit::Millimetre)])
        .resting_on(&row.basis);
    outcome.printed = Some(printed);
    if value_c <= NO_PREHEAT_BELOW_C {
        outcome.says = Says::Clears;
    }
    Some(outcome)
}

/// The category's word on a member, where its grade is listed. `None` for other grades.
///
/// With a process that is not low in hydrogen category A's row counts, and for a grade
/// of category C the higher of both, since it is not prequalified then at all. Category D
/// holds up to its own hydrogen limit; above it the grade is read as its next category.
#[must_use]
pub fn on(case: &Case<'_>) -> Option<Evidence> {
    let d11 = &case.reference.d11;
    let grade = case.member.steel.grade()?;
    let mut listed = grade.d11_category?;
    let limit_ml = d11.category(letter(listed)).and_then(|row| row.hydrogen_max_ml);
    if limit_ml.is_some_and(|limit_ml| case.hydrogen_ml > limit_ml) {
        listed = grade.d11_above_h8?;
    }
    let read = |letter| worked(d11.category(letter)?, case.member.thickness_mm);
    let own = read(letter(listed))?;
    let outcome = if case.low_hydrogen() {
        own
    } else {
        let open = read('A')?;
        if own.preheat_c() > open.preheat_c() { own } else { open }
    };
    Some(case.evidence(outcome))
}

const fn letter(category: D11Category) -> char {
    match category {
        D11Category::B => 'B',
        D11Category::C => 'C',
        D11Category::D => 'D',
    }
}
