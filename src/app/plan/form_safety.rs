//! What the job tells for the sake of safety: one folded row at the end of the form, all of it
//! optional. "Not told" stands first in every choice and is not "no".

use crate::app::form::parts::{field_part, fields, form_row, list, note, segments};
use crate::app::form::row_id::RowId;
use crate::app::screen_values::choice;
use crate::app::{State, ui};
use crate::job::typed::{Typed, told, yes_no};
use crate::job::{Field, JobText, Slot};
use crate::reference::{
    Assembly, Cavity, Cleaner, Coating, Grinder, HeatSource, Inspection, Told, WorkPlace,
};

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

/// The answers of a fact that has more than no and yes.
pub(super) struct Answers {
    /// What is written for each, and its words.
    offered: Vec<(&'static str, &'static str)>,
    /// What a text means, as it would be written; none where it can't be read.
    read: fn(&str) -> Option<&'static str>,
}

impl Answers {
    /// All of a fact.
    pub(super) fn all<T: Typed + 'static>() -> Self {
        let offered = T::VARIANTS.iter().map(|answer| (answer.id(), answer.key())).collect();
        Self { offered, read: |text| told::<T>(text).ok().map(Told::id) }
    }

    /// One of them is not offered.
    pub(super) fn leave_out(&mut self, answer: impl Told) {
        self.offered.retain(|(id, _)| *id != answer.id());
    }

    /// What is written for the one at a place.
    pub(super) fn written(&self, place: usize) -> Option<&'static str> {
        self.offered.get(place).map(|(id, _)| *id)
    }

    /// The words for what a text means.
    pub(super) fn named(&self, state: &State, text: &str) -> Option<String> {
        let chosen = (self.read)(text)?;
        let (_, key) = self.offered.iter().find(|(id, _)| *id == chosen)?;
        Some(state.words.get(key))
    }
}

/// The answers of a field; none where it takes no and yes, or a text.
fn answers_of(field: Field) -> Option<Answers> {
    Some(match field {
        Field::HeatSource => Answers::all::<HeatSource>(),
        Field::Coating => Answers::all::<Coating>(),
        Field::Cavity => Answers::all::<Cavity>(),
        Field::Cleaner => Answers::all::<Cleaner>(),
        Field::Assembly => Answers::all::<Assembly>(),
        Field::Place => Answers::all::<WorkPlace>(),
        Field::Grinder => Answers::all::<Grinder>(),
        Field::Inspection => Answers::all::<Inspection>(),
        _ => return None,
    })
}

fn part(state: &State, job: &JobText, field: Field) -> ui::PartRow {
    match answers_of(field) {
        Some(answers) => listed(state, job, field, &answers),
        None if field == Field::Cylinders => fields("cylinders", vec![field_part(state, job, field)]),
        None => no_or_yes(state, job, field),
    }
}

/// The answers of a fact in a list, "not told" first.
pub(super) fn listed(state: &State, job: &JobText, field: Field, answers: &Answers) -> ui::PartRow {
    let chosen = job.get(field).and_then(answers.read);
    let place = chosen.and_then(|chosen| answers.offered.iter().position(|(id, _)| *id == chosen));
    let rows = answers.offered.iter().map(|(id, key)| choice(id, state.word(key), "", ""));
    let choices = [choice("", state.word("form-not-told"), "", "")].into_iter().chain(rows).collect();
    let place = place.map_or(0, |place| place + 1);
    list(state, &RowId::of(field), &field.key(), "form-not-told", choices, Some(place))
}

/// No, yes, or not told.
pub(super) fn no_or_yes(state: &State, job: &JobText, field: Field) -> ui::PartRow {
    let place = job.get(field).and_then(|text| yes_no(text).ok()).map_or(0, |yes| usize::from(yes) + 1);
    let choices = [("", "form-not-told"), ("no", "form-no"), ("yes", "form-yes")]
        .into_iter()
        .map(|(id, key)| choice(id, state.word(key), "", ""))
        .collect();
    segments(state, RowId::of(field), &field.key(), choices, Some(place))
}

/// A choice in this row was made; false if it is none of it.
pub(crate) fn chosen(state: &State, row: &RowId, index: usize) -> bool {
    let RowId::Slot(slot) = *row else { return false };
    if !FIELDS.contains(&slot.field) {
        return false;
    }
    // "Not told" stands first, and nothing is written for it.
    let text = index.checked_sub(1).and_then(|place| match answers_of(slot.field) {
        Some(answers) => answers.written(place),
        None => ANSWERS.get(place).copied(),
    });
    state.change_job(|job| job.set(slot, text.map(str::to_owned)));
    true
}
