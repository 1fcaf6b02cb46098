//! The steps of a plan in words, each with its number.

use super::cycle::CycleLine;
use super::figure::{BasisMark, basis_mark, maximum, minimum, printed_range, range};
use super::sequence_notes::note;
use super::{Pen, member_name};
use crate::engine::job::Job;
use crate::engine::plan::{Deed, Edge, Phase, Plan, Step, StepFigure};

/// One step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepRow {
    /// Its number on its way.
    pub number: usize,
    /// The way that begins with it, in words; empty where none does.
    pub head: String,
    /// Where in the work it stands.
    pub phase: Phase,
    /// What is done.
    pub what: String,
    /// Its figure; empty where it has none.
    pub figure: String,
    /// How it is done, what goes wrong, why.
    pub notes: Vec<String>,
    /// What the heat cycle says of it, where it was worked out.
    pub cycle: Vec<CycleLine>,
    /// What the figure rests on.
    pub basis: BasisMark,
    /// The figure of the answer whose sheet tells more; empty for none.
    pub sheet: &'static str,
}

/// The steps of a plan, in the order of time.
#[must_use]
pub fn step_rows(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<StepRow> {
    let mut way = None;
    plan.sequence
        .numbered()
        .map(|(number, branch, step)| {
            let begins = branch.filter(|_| branch != way);
            way = branch;
            StepRow {
                number,
                head: begins.map_or_else(String::new, |branch| {
                    pen.words.get(&format!("then-branch-{}", branch.id()))
                }),
                phase: step.phase(),
                what: what(pen, job, step),
                figure: step.figure.map_or_else(String::new, |figure| figure_words(pen, figure)),
                notes: step.notes.iter().map(|said| note(pen, job, plan, said)).collect(),
                cycle: Vec::new(),
                basis: if step.figure.is_some() {
                    basis_mark(pen, &step.basis)
                } else {
                    BasisMark::default()
                },
                sheet: sheet(plan, step.deed),
            }
        })
        .collect()
}

fn what(pen: &Pen<'_>, job: &Job, step: &Step) -> String {
    let member = step.member.map_or_else(String::new, |member| member_name(pen, job, member));
    pen.words.with(&format!("then-{}", step.deed.id()), &[("member", &member)])
}

/// The answer's own figure that a step is done by.
const fn sheet(plan: &Plan, deed: Deed) -> &'static str {
    match deed {
        Deed::Preheat | Deed::Stop if plan.minimum.is_some() => "minimum",
        Deed::Weld | Deed::WeldCold | Deed::Tack if plan.interpass.is_some() => "maximum",
        _ => "",
    }
}

pub(super) fn least(pen: &Pen<'_>, edge: Edge) -> String {
    minimum(pen, edge.exact_c, edge.printed).main
}

pub(super) fn most(pen: &Pen<'_>, edge: Edge) -> String {
    maximum(pen, edge.exact_c, edge.printed).main
}

fn figure_words(pen: &Pen<'_>, figure: StepFigure) -> String {
    let hours = |hours: f64| pen.show.with_unit(hours, 1, "h");
    let with = |key: &str, figure: String| pen.words.with(key, &[("figure", &figure)]);
    match figure {
        StepFigure::Least(edge) => with("then-figure-least", least(pen, edge)),
        StepFigure::Most(edge) => with("then-figure-most", most(pen, edge)),
        StepFigure::Range(low, high) => range(pen, &least(pen, low), &most(pen, high)),
        StepFigure::Printed(low_c, high_c) => printed_range(pen, low_c, high_c).main,
        StepFigure::Away(mm) => pen.show.rule_length(mm).main,
        StepFigure::Hours(held) => hours(held),
        StepFigure::After(wait) => with("then-figure-least", hours(wait)),
    }
}
