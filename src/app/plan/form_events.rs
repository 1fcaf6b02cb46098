//! What happens to the form of the Plan place becomes a change of the job.

use super::form::{CONDITIONS, RESTRAINTS, condition_parts, conditions_offered, takes_temper};
use super::form_values::{CLASSES, at, processes, put_at};
use super::form_weld;
use crate::app::State;
use crate::app::form::row_id::{Button, RowId};
use crate::engine::job::{Joint, Process};
use crate::job::{Field, JobText};

/// A field was typed into.
pub(crate) fn field_typed(state: &State, row: &RowId, text: &str) {
    state.change_job(|job| match *row {
        RowId::Temper(field) => {
            let (kind, _) = condition_parts(job.get(field).unwrap_or_default());
            let words = kind.map_or("hardened and tempered", |place| CONDITIONS[place].1);
            job.set(field, Some(format!("{words} {}", text.trim()).trim().to_owned()));
        }
        RowId::OfProcess(field, place) => put_at(job, field, place, processes(job), text),
        RowId::Field(field) => job.set(field, Some(text.to_owned())),
        _ => {}
    });
}

/// A choice was made.
pub(crate) fn chosen(state: &State, row: &RowId, index: usize) {
    if form_weld::chosen(state, row, index) {
        return;
    }
    match *row {
        RowId::Field(field @ (Field::Condition | Field::ConditionB)) => {
            let steel = if field == Field::ConditionB { Field::SteelB } else { Field::Steel };
            condition_chosen(state, field, steel, index);
        }
        RowId::Field(Field::Shape) => {
            state.change_job(|job| shape_chosen(job, Field::Shape, Field::Diameter, Field::Thickness, index));
        }
        RowId::Field(Field::ShapeB) => {
            state.change_job(|job| {
                shape_chosen(job, Field::ShapeB, Field::DiameterB, Field::ThicknessB, index);
            });
        }
        RowId::OfProcess(Field::Process, place) => state.change_job(|job| match Process::ALL.get(index) {
            Some(process) => put_at(job, Field::Process, place, processes(job), process.id()),
            None => drop_second_process(job),
        }),
        RowId::HydrogenClass(place) => state.change_job(|job| {
            put_at(job, Field::Hydrogen, place, processes(job), CLASSES[index.min(CLASSES.len() - 1)]);
        }),
        RowId::Field(Field::Joint) => state.change_job(|job| {
            job.set(Field::Joint, Joint::ALL.get(index).map(|joint| joint.id().to_owned()));
        }),
        RowId::Field(Field::Restraint) => state.change_job(|job| {
            job.set(Field::Restraint, RESTRAINTS.get(index).map(|(_, id)| (*id).to_owned()));
        }),
        _ => {}
    }
}

/// A condition was chosen among those that the steel comes in; its tempering temperature stays.
fn condition_chosen(state: &State, condition: Field, steel: Field, index: usize) {
    let offered = state.session(|session| {
        let (kind, _) = condition_parts(session.job.get(condition).unwrap_or_default());
        conditions_offered(state, session.job.get(steel).unwrap_or_default(), kind)
    });
    state.change_job(|job| {
        let index = offered.get(index).copied().unwrap_or(0);
        let (_, temper) = condition_parts(job.get(condition).unwrap_or_default());
        let (kind, words) = CONDITIONS[index.min(CONDITIONS.len() - 1)];
        let text = if takes_temper(kind) { format!("{words} {temper}") } else { words.to_owned() };
        job.set(condition, Some(text.trim().to_owned()));
    });
}

/// A size typed as a diameter stays typed when the part turns out to be a plate.
fn shape_chosen(job: &mut JobText, shape: Field, diameter: Field, thickness: Field, index: usize) {
    if let Some(typed) = job.get(diameter).map(str::to_owned) {
        job.set(thickness, Some(typed.trim_start_matches(['Ø', '⌀']).trim().to_owned()));
        job.set(diameter, None);
    }
    job.set(shape, Some(if index == 1 { "round" } else { "plate" }.to_owned()));
}

/// Takes the second process and what belongs to it away.
fn drop_second_process(job: &mut JobText) {
    for field in [
        Field::Process,
        Field::Hydrogen,
        Field::HeatInput,
        Field::ArcEnergy,
        Field::Volts,
        Field::Amps,
        Field::Travel,
        Field::ArcTime,
        Field::RunLength,
    ] {
        let first = at(job, field, 0);
        job.set(field, if first.is_empty() { None } else { Some(first) });
    }
}

/// A button of the form was pressed.
pub(crate) fn pressed(state: &State, button: Button) {
    match button {
        Button::AddPart => state.change_job(|job| {
            job.steel_b = job.steel.clone();
            job.condition_b = job.condition.clone();
        }),
        Button::RemovePart => state.change_job(|job| {
            for field in [
                Field::SteelB,
                Field::CertificateB,
                Field::ConditionB,
                Field::ThicknessB,
                Field::ShapeB,
                Field::DiameterB,
                Field::HardnessB,
                Field::YieldB,
                Field::ButteredB,
            ] {
                job.set(field, None);
            }
        }),
        Button::AddProcess => state.change_job(|job| put_at(job, Field::Process, 1, 2, "smaw-basic")),
    }
}
