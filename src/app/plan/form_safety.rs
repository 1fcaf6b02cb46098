//! What the job tells for the sake of safety: one folded row at the end of the form, all of it
//! optional. "Not told" stands first in every choice and is not "no".

use crate::app::form::parts::{field_part, fields, form_row, list, note, segments};
use crate::app::form::row_id::RowId;
use crate::app::screen_values::choice;
use crate::app::{State, ui};
use crate::job::typed::{Typed, told, yes_no};
use crate::job::{Field, JobText, Slot};
use crate::reference::{Assembly, Cavity, Cleaner, Coating, Grinder, HeatSource, Inspection, WorkPlace};

/// The fields in the order of the row.
const FIELDS: [Field; 16] = [
    Field::HeatSource,
    Field::Cylinders,
    Field::Coating,
    Field::Cavity,
    Field::Cleaner,
    Field::Assembly,
    Field::Place,
    Field::Alone,
    Field::Seals,
    Field::CopperAlloy,
    Field::Battery,
    Field::Grinder,
    Field::LightMetal,
    Field::Lifted,
    Field::Overnight,
    Field::Inspection,
];
const ANSWERS: [&str; 2] = ["no", "yes"];

/// The row with all of them.
pub(super) fn safety_row(state: &State, job: &JobText) -> ui::FormRow {
    let parts = [note(state, "safety-note", "form-safety-note")]
        .into_iter()
        .chain(FIELDS.iter().filter(|field| matters(job, **field)).map(|field| part(state, job, *field)))
        .collect();
    let count = FIELDS.iter().filter(|field| job.get(**field).is_some()).count();
    let value = state.words.count("form-safety-told", count, &[]);
    form_row(state, "safety", &FIELDS.map(Slot::from), value, parts)
}

/// Some facts make sense beside another one only.
fn matters(job: &JobText, field: Field) -> bool {
    let typed = |field: Field| job.get(field).unwrap_or_default();
    job.get(field).is_some()
        || match field {
            Field::Cylinders => {
                matches!(told(typed(Field::HeatSource)), Ok(HeatSource::Acetylene | HeatSource::Propane))
            }
            Field::LightMetal => matches!(told(typed(Field::Grinder)), Ok(Grinder::Hand | Grinder::Bench)),
            _ => true,
        }
}

fn part(state: &State, job: &JobText, field: Field) -> ui::PartRow {
    match field {
        Field::HeatSource => answers::<HeatSource>(state, job, field),
        Field::Coating => answers::<Coating>(state, job, field),
        Field::Cavity => answers::<Cavity>(state, job, field),
        Field::Cleaner => answers::<Cleaner>(state, job, field),
        Field::Assembly => answers::<Assembly>(state, job, field),
        Field::Place => answers::<WorkPlace>(state, job, field),
        Field::Grinder => answers::<Grinder>(state, job, field),
        Field::Inspection => answers::<Inspection>(state, job, field),
        Field::Cylinders => fields("cylinders", vec![field_part(state, job, field)]),
        _ => no_or_yes(state, job, field),
    }
}

/// The answers of a fact in a list, "not told" first.
fn answers<T: Typed + 'static>(state: &State, job: &JobText, field: Field) -> ui::PartRow {
    let chosen = job.get(field).and_then(|text| told::<T>(text).ok());
    let place = chosen.and_then(|chosen| T::VARIANTS.iter().position(|answer| *answer == chosen));
    let rows = T::VARIANTS.iter().map(|answer| choice(answer.id(), state.word(answer.key()), "", ""));
    let choices = [choice("", state.word("form-not-told"), "", "")].into_iter().chain(rows).collect();
    let place = place.map_or(0, |place| place + 1);
    list(state, &RowId::of(field), &field.key(), "form-not-told", choices, Some(place))
}

/// No, yes, or not told.
fn no_or_yes(state: &State, job: &JobText, field: Field) -> ui::PartRow {
    let place = job.get(field).and_then(|text| yes_no(text).ok()).map_or(0, |yes| usize::from(yes) + 1);
    let choices = [("", "form-not-told"), ("no", "form-no"), ("yes", "form-yes")]
        .into_iter()
        .map(|(id, key)| choice(id, state.word(key), "", ""))
        .collect();
    segments(state, RowId::of(field), &field.key(), choices, Some(place))
}

/// What is written for a place in the list of a field; `None` is "not told".
fn written<T: Typed>(place: usize) -> Option<&'static str> {
    T::VARIANTS.get(place.checked_sub(1)?).map(|answer| answer.id())
}

/// A choice in this row was made; false if it is none of it.
pub(crate) fn chosen(state: &State, row: &RowId, index: usize) -> bool {
    let RowId::Slot(slot) = *row else { return false };
    if !FIELDS.contains(&slot.field) {
        return false;
    }
    let text = match slot.field {
        Field::HeatSource => written::<HeatSource>(index),
        Field::Coating => written::<Coating>(index),
        Field::Cavity => written::<Cavity>(index),
        Field::Cleaner => written::<Cleaner>(index),
        Field::Assembly => written::<Assembly>(index),
        Field::Place => written::<WorkPlace>(index),
        Field::Grinder => written::<Grinder>(index),
        Field::Inspection => written::<Inspection>(index),
        _ => index.checked_sub(1).and_then(|place| ANSWERS.get(place).copied()),
    };
    state.change_job(|job| job.set(slot, text.map(str::to_owned)));
    true
}
