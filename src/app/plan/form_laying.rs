//! How the weld lies and is loaded: one folded row, all of it optional. Only what the joint has is asked.

use super::form_safety::{Answers, listed};
use crate::app::form::parts::{field_part, fields, form_row};
use crate::app::form::row_id::RowId;
use crate::app::{State, ui};
use crate::engine::job::Joint;
use crate::engine::weld::groove::GrooveShape;
use crate::engine::weld::matching::WeldLoad;
use crate::job::{Field, JobText, Slot, typed};
use crate::reference::Position;
use crate::words::List;

/// What is chosen.
const CHOSEN: [Field; 3] = [Field::Load, Field::Position, Field::Groove];
/// What is typed of a groove.
const OF_GROOVE: [Field; 3] = [Field::GrooveAngle, Field::RootGap, Field::RootFace];

/// Does a joint have a use for a field?
const fn asked(joint: Joint, groove: bool, field: Field) -> bool {
    match field {
        Field::Load => groove || matches!(joint, Joint::Butt | Joint::BarToBar | Joint::Repair),
        Field::Position => true,
        Field::Groove | Field::GrooveAngle | Field::RootGap | Field::RootFace => joint.may_have_groove(),
        // Round a pin it follows from the diameter.
        Field::WeldLength => matches!(
            joint,
            Joint::Butt | Joint::TFilletOneSide | Joint::TFilletBothSides | Joint::Lap | Joint::Corner
        ),
        _ => false,
    }
}

fn answers_of(field: Field) -> Option<Answers> {
    Some(match field {
        Field::Load => {
            let mut loads = Answers::all::<WeldLoad>();
            // Nothing told is the same, and stands first.
            loads.leave_out(WeldLoad::NotKnown);
            loads
        }
        Field::Position => Answers::all::<Position>(),
        Field::Groove => Answers::all::<GrooveShape>(),
        _ => return None,
    })
}

/// The row; none where the joint is not chosen or has nothing of it.
pub(super) fn laying_row(state: &State, job: &JobText) -> Option<ui::FormRow> {
    let joint = job.get(Field::Joint).and_then(|text| typed::joint(text).ok())?;
    let all =
        [Field::Groove].into_iter().chain(OF_GROOVE).chain([Field::Load, Field::Position, Field::WeldLength]);
    let groove = job.get(Field::Groove).is_some();
    let shown: Vec<Field> = all
        .filter(|field| job.get(*field).is_some() || asked(joint, groove, *field))
        .filter(|field| groove || !OF_GROOVE.contains(field) || job.get(*field).is_some())
        .collect();
    if shown.is_empty() {
        return None;
    }
    let part = |field: &Field| match answers_of(*field) {
        Some(answers) => listed(state, job, *field, &answers),
        None => fields(field.id(), vec![field_part(state, job, *field)]),
    };
    let parts = shown.iter().map(part).collect();
    let said = shown.iter().filter_map(|field| {
        let text = job.get(*field)?;
        let answers = answers_of(*field);
        Some(answers.and_then(|answers| answers.named(state, text)).unwrap_or_else(|| text.to_owned()))
    });
    let said: Vec<String> = said.collect();
    let value = match said.is_empty() {
        true => state.words.get("form-not-told"),
        false => state.words.list(List::Names, &said),
    };
    let watched: Vec<Slot> = shown.into_iter().map(Slot::from).collect();
    Some(form_row(state, "laying", &watched, value, parts))
}

/// A choice in this row was made; false if it is none of it.
pub(crate) fn chosen(state: &State, row: &RowId, index: usize) -> bool {
    let RowId::Slot(slot) = *row else { return false };
    if !CHOSEN.contains(&slot.field) {
        return false;
    }
    let text = index.checked_sub(1).and_then(|place| answers_of(slot.field)?.written(place));
    state.change_job(|job| job.set(slot, text.map(str::to_owned)));
    true
}
