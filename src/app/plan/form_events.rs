//! What happens to the form of the Plan place becomes a change of the job.

use super::form::{CONDITIONS, RESTRAINTS, condition_parts, conditions_offered, takes_temper};
use super::form_process::CLASSES;
use super::{form_laying, form_repair, form_safety, form_weld};
use crate::app::State;
use crate::app::form::row_id::{Button, RowId};
use crate::engine::job::{Joint, Process};
use crate::job::{Field, JobText, Slot};

/// A field was typed into.
pub(crate) fn field_typed(state: &State, row: &RowId, text: &str) {
    state.change_job(|job| match *row {
        RowId::Temper(nth) => {
            let slot = Field::Condition.nth(nth);
            let (kind, _) = condition_parts(job.get(slot).unwrap_or_default());
            let words = kind.map_or("hardened and tempered", |place| CONDITIONS[place].1);
            job.set(slot, Some(format!("{words} {}", text.trim()).trim().to_owned()));
        }
        RowId::Slot(slot) => job.set(slot, Some(text.to_owned())),
        _ => {}
    });
}

/// A choice was made.
pub(crate) fn chosen(state: &State, row: &RowId, index: usize) {
    // A yes or no of the safety facts has a third answer, so they come first.
    if form_laying::chosen(state, row, index)
        || form_repair::chosen(state, row, index)
        || form_safety::chosen(state, row, index)
        || form_weld::chosen(state, row, index)
    {
        return;
    }
    match *row {
        RowId::Slot(slot) if slot.field == Field::Condition => condition_chosen(state, slot, index),
        RowId::Slot(slot) => state.change_job(|job| match slot.field {
            Field::Shape => shape_chosen(job, slot, index),
            Field::Process => match Process::ALL.get(index) {
                Some(process) => job.set(slot, Some(process.id().to_owned())),
                // What is offered below the processes takes this one away.
                None if slot.nth < job.runs.len() => drop(job.runs.remove(slot.nth)),
                None => {}
            },
            Field::Joint => job.set(slot, Joint::ALL.get(index).map(|joint| joint.id().to_owned())),
            Field::Restraint => job.set(slot, RESTRAINTS.get(index).map(|(_, id)| (*id).to_owned())),
            _ => {}
        }),
        RowId::HydrogenClass(nth) => state.change_job(|job| {
            job.set(Field::Hydrogen.nth(nth), CLASSES.get(index).map(|class| (*class).to_owned()));
        }),
        _ => {}
    }
}

/// A condition was chosen among those that the steel comes in; its tempering temperature stays.
fn condition_chosen(state: &State, slot: Slot, index: usize) {
    let offered = state.session(|session| {
        let (kind, _) = condition_parts(session.job.get(slot).unwrap_or_default());
        conditions_offered(state, session.job.get(Field::Steel.nth(slot.nth)).unwrap_or_default(), kind)
    });
    state.change_job(|job| {
        let index = offered.get(index).copied().unwrap_or(0);
        let (_, temper) = condition_parts(job.get(slot).unwrap_or_default());
        let (kind, words) = CONDITIONS[index.min(CONDITIONS.len() - 1)];
        let text = if takes_temper(kind) { format!("{words} {temper}") } else { words.to_owned() };
        job.set(slot, Some(text.trim().to_owned()));
    });
}

/// A size typed as a diameter stays typed when the part turns out to be a plate.
fn shape_chosen(job: &mut JobText, slot: Slot, index: usize) {
    let diameter = Field::Diameter.nth(slot.nth);
    if let Some(typed) = job.get(diameter).map(str::to_owned) {
        let size = typed.trim_start_matches(['Ø', '⌀']).trim().to_owned();
        job.set(Field::Thickness.nth(slot.nth), Some(size));
        job.set(diameter, None);
    }
    job.set(slot, Some(if index == 1 { "round" } else { "plate" }.to_owned()));
}

/// A button of the form was pressed.
pub(crate) fn pressed(state: &State, button: Button) {
    state.change_job(|job| match button {
        Button::AddPart => {
            for field in [Field::Steel, Field::Condition] {
                job.set(field.nth(1), Some(job.get(field).unwrap_or_default().to_owned()));
            }
        }
        Button::RemovePart => job.parts.truncate(1),
        Button::AddProcess => {
            let next = job.runs.len().max(1);
            job.set(Field::Process.nth(next), Some(Process::SmawBasic.id().to_owned()));
        }
    });
}
