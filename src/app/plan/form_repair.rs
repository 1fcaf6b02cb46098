//! What a repair has before it: one folded row, for jobs that may be one. "Not told" is not "no".

use super::form_safety::no_or_yes;
use crate::app::form::parts::form_row;
use crate::app::form::row_id::RowId;
use crate::app::{State, ui};
use crate::engine::job::Joint;
use crate::job::{Field, JobText, Slot, typed};

/// The fields in the order of the work.
const FIELDS: [Field; 5] =
    [Field::Crack, Field::OilSoaked, Field::OldWeld, Field::Hardfacing, Field::BuildUp];

/// The row, where the joint may be a repair or something is told.
pub(super) fn repair_row(state: &State, job: &JobText) -> Option<ui::FormRow> {
    let joint = job.get(Field::Joint).unwrap_or_default();
    let told = FIELDS.iter().filter(|field| job.get(**field).is_some()).count();
    let may = matches!(typed::joint(joint), Ok(Joint::Repair | Joint::RunOnShaft));
    if !may && told == 0 {
        return None;
    }
    let parts = FIELDS.iter().map(|field| no_or_yes(state, job, *field)).collect();
    let value = state.words.count("form-repair-told", told, &[]);
    Some(form_row(state, "repair", &FIELDS.map(Slot::from), value, parts))
}

/// A choice in this row was made; false if it is none of it.
pub(crate) fn chosen(state: &State, row: &RowId, index: usize) -> bool {
    let RowId::Slot(slot) = *row else { return false };
    if !FIELDS.contains(&slot.field) {
        return false;
    }
    let text = match index {
        1 => Some("no"),
        2 => Some("yes"),
        _ => None,
    };
    state.change_job(|job| job.set(slot, text.map(str::to_owned)));
    true
}
