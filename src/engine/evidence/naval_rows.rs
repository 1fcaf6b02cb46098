//! What does the naval table print for a group of carbon or creep-resisting steel?

use crate::engine::error::THICKNESS;
use crate::engine::{Checked, EngineError, Outcome};
use crate::reference::{Method, OwnSheets, SheetCase, SheetGroup, Unit};

/// The table's minimum preheat for a group, and its maximum interpass where it prints one.
///
/// # Errors
/// A group that the table lacks; a thickness that is not a number, negative, or that no
/// weld has.
pub fn naval_rows(sheets: &OwnSheets, group: &str, asked: &SheetCase) -> Result<[Outcome; 2], EngineError> {
    THICKNESS.check(asked.thickness_mm)?;
    let row = sheets.group(group).ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })?;
    let mut interpass =
        Outcome::open(Method::NavseaRows, Unit::Celsius).named("navsea-interpass").resting_on(&row.basis);
    interpass.value = row.interpass.map(|printed| printed.as_maximum_c());
    interpass.printed = row.interpass;
    Ok([minimum(row, asked), interpass])
}

/// The minimum preheat of a group.
#[must_use]
pub fn minimum(row: &SheetGroup, asked: &SheetCase) -> Outcome {
    let printed = row.minimum(asked);
    let mut outcome = Outcome::new(Method::NavseaRows, printed.as_minimum_c(), Unit::Celsius)
        .of_row(row.id.as_str())
        .from_inputs(vec![Checked::free("d", asked.thickness_mm, Unit::Millimetre)])
        .resting_on(&row.basis);
    outcome.printed = Some(printed);
    outcome
}
