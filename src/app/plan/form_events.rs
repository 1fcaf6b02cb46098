//! What happens to the form of the Plan place becomes a change of the job.

use super::form::{
    CLASSES, CONDITIONS, RESTRAINTS, at, condition_parts, conditions_offered, processes, put_at, takes_temper,
};
use crate::app::State;
use crate::engine::job::{Joint, Process};
use crate::job::{Field, JobText};

/// A field was typed into.
pub(crate) fn field_typed(state: &State, id: &str, text: &str) {
    if let Some(letter) = id.strip_prefix("temper-") {
        let field = if letter == "b" { Field::ConditionB } else { Field::Condition };
        state.change_job(|job| {
            let (kind, _) = condition_parts(job.get(field).unwrap_or_default());
            let words = kind.map_or("hardened and tempered", |place| CONDITIONS[place].1);
            job.set(field, Some(format!("{words} {}", text.trim()).trim().to_owned()));
        });
        return;
    }
    if let Some((id, place)) = id.split_once('@') {
        if let (Some(field), Ok(place)) = (Field::from_id(id), place.parse()) {
            state.change_job(|job| put_at(job, field, place, processes(job), text));
        }
        return;
    }
    if let Some(field) = Field::from_id(id) {
        state.change_job(|job| job.set(field, Some(text.to_owned())));
    }
}

/// A choice was made.
pub(crate) fn choice_made(state: &State, group: &str, index: usize) {
    if super::form_weld::choice_made(state, group, index) {
        return;
    }
    let (group, place) = group.rsplit_once('-').map_or((group, ""), |(group, place)| (group, place));
    let (condition, shape, size) = if place == "b" {
        (Field::ConditionB, Field::ShapeB, (Field::DiameterB, Field::ThicknessB))
    } else {
        (Field::Condition, Field::Shape, (Field::Diameter, Field::Thickness))
    };
    let steel = if place == "b" { Field::SteelB } else { Field::Steel };
    let offered = state.session(|session| {
        let (kind, _) = condition_parts(session.job.get(condition).unwrap_or_default());
        conditions_offered(state, session.job.get(steel).unwrap_or_default(), kind)
    });
    state.change_job(|job| match group {
        "condition" => {
            let index = offered.get(index).copied().unwrap_or(0);
            let (_, temper) = condition_parts(job.get(condition).unwrap_or_default());
            let (kind, words) = CONDITIONS[index.min(CONDITIONS.len() - 1)];
            let text = if takes_temper(kind) { format!("{words} {temper}") } else { words.to_owned() };
            job.set(condition, Some(text.trim().to_owned()));
        }
        "shape" => {
            // A size typed as a diameter stays typed when the part turns out to be a plate.
            if let Some(typed) = job.get(size.0).map(str::to_owned) {
                job.set(size.1, Some(typed.trim_start_matches(['Ø', '⌀']).trim().to_owned()));
                job.set(size.0, None);
            }
            job.set(shape, Some(if index == 1 { "round" } else { "plate" }.to_owned()));
        }
        "process" => {
            let place = place.parse().unwrap_or(0);
            match Process::ALL.get(index) {
                Some(process) => put_at(job, Field::Process, place, processes(job), process.id()),
                None => drop_second_process(job),
            }
        }
        "hydrogen-class" => {
            let place = place.parse().unwrap_or(0);
            put_at(job, Field::Hydrogen, place, processes(job), CLASSES[index.min(CLASSES.len() - 1)]);
        }
        _ => {}
    });
    let whole = if place.is_empty() { group.to_owned() } else { format!("{group}-{place}") };
    state.change_job(|job| match whole.as_str() {
        "joint" => job.set(Field::Joint, Joint::ALL.get(index).map(|joint| joint.id().to_owned())),
        "restraint" => job.set(Field::Restraint, RESTRAINTS.get(index).map(|(_, id)| (*id).to_owned())),
        _ => {}
    });
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
pub(crate) fn action_asked(state: &State, part: &str) {
    match part {
        "add-b" => state.change_job(|job| {
            job.steel_b = job.steel.clone();
            job.condition_b = job.condition.clone();
        }),
        "remove-b" => state.change_job(|job| {
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
        "add-process" => state.change_job(|job| put_at(job, Field::Process, 1, 2, "smaw-basic")),
        _ => {}
    }
}
