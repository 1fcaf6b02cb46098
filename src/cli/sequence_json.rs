//! The steps of a plan as JSON.

use serde::Serialize;

use super::outcome_json::BasisJson;
use crate::engine::plan::{Branch, Note, Plan, Step, StepFigure};

/// One step; a figure that it has not is null.
#[derive(Debug, Default, Serialize)]
pub(super) struct StepJson {
    number: usize,
    branch: Option<&'static str>,
    phase: &'static str,
    deed: &'static str,
    member: Option<usize>,
    low_c: Option<f64>,
    high_c: Option<f64>,
    hours: Option<f64>,
    distance_mm: Option<f64>,
    notes: Vec<&'static str>,
    basis: Option<BasisJson>,
}

/// The steps in the order of time.
pub(super) fn steps(plan: &Plan) -> Vec<StepJson> {
    plan.sequence.numbered().map(|(number, branch, step)| step_json(number, branch, step)).collect()
}

fn step_json(number: usize, branch: Option<Branch>, step: &Step) -> StepJson {
    let mut made = StepJson {
        number,
        branch: branch.map(Branch::id),
        phase: step.phase().id(),
        deed: step.deed.id(),
        member: step.member,
        notes: step.notes.iter().map(Note::id).collect(),
        basis: step.figure.map(|_| BasisJson::from(&step.basis)),
        ..StepJson::default()
    };
    match step.figure {
        None => {}
        Some(StepFigure::Least(edge)) => made.low_c = Some(edge.least_c()),
        Some(StepFigure::Most(edge)) => made.high_c = Some(edge.most_c()),
        Some(StepFigure::Range(low, high)) => {
            (made.low_c, made.high_c) = (Some(low.least_c()), Some(high.most_c()));
        }
        Some(StepFigure::Printed(low_c, high_c)) => {
            (made.low_c, made.high_c) = (Some(low_c), Some(high_c));
        }
        Some(StepFigure::Away(mm)) => made.distance_mm = Some(mm),
        Some(StepFigure::Hours(hours) | StepFigure::After(hours)) => made.hours = Some(hours),
    }
    made
}
