//! The plan's figures, without the words, levers and side questions around them.

use super::member::{Weighed, weigh};
use super::minimum::{self, Minimum};
use super::sheets;
use super::temper::{self, NeedsTemper};
use super::upper::{self, Upper};
use crate::engine::evidence::Case;
use crate::engine::job::Job;
use crate::engine::part::Part;
use crate::reference::Reference;

/// The figures of a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Figures {
    /// The minimum as shown, °C; 0 when no preheat is needed; `None` when nothing answers.
    pub minimum_c: Option<f64>,
    /// The exact minimum, °C.
    pub exact_c: Option<f64>,
    /// The interpass as shown, °C.
    pub interpass_c: f64,
    /// Is the window at least 25 K wide, for the joint and for each buttering before it?
    pub usable: bool,
    /// The minimum with its evidence.
    pub minimum: Minimum,
    /// The upper side.
    pub upper: Upper,
}

/// The figures of a job: `None` when a member must not be welded, or a demand leaves no
/// upper side to speak of.
#[must_use]
pub fn figures(reference: &Reference, job: &Job) -> Option<Figures> {
    let parts = Part::all(job);
    figures_of(reference, job, &parts)
}

/// The same, on parts that are known already.
#[must_use]
pub(super) fn figures_of(reference: &Reference, job: &Job, parts: &[Part<'_>]) -> Option<Figures> {
    if parts.is_empty() || parts.iter().any(|part| part.family.without_figures() || part.must_be_told()) {
        return None;
    }
    let combined_mm = combined_thickness_mm(reference, job);
    let weighed: Vec<Weighed> =
        (0..parts.len()).map(|index| weigh_part(reference, job, parts, index, combined_mm)).collect();
    let minimum = minimum::minimum(reference, job, parts, weighed);
    let minimum_c = minimum.limit.as_ref().map(minimum::shown_c);
    let mut upper = upper::upper(reference, job, parts, minimum_c.unwrap_or(0.0))?;
    let interpass_c = upper::shown_c(&upper.interpass);
    // A buttering that can't be laid on its part opens no window for the joint. Where it can, its part
    // gets as hot as it is laid, so that the temper which makes the plan valid covers that too.
    let mut laid = true;
    for index in 0..parts.len() {
        let Some(layer) = layer(reference, job, parts, index) else { continue };
        laid &= layer.usable;
        let needs = layer.upper.needs.map(|needs| NeedsTemper { member: index, ..needs });
        upper.needs = temper::harder(upper.needs, needs);
    }
    let usable = laid
        && !upper.too_slow
        && minimum_c.is_some_and(|minimum_c| minimum_c + upper::LEAST_WINDOW_K <= interpass_c);
    Some(Figures {
        minimum_c,
        exact_c: minimum.limit.as_ref().map(|limit| limit.exact_c),
        interpass_c,
        usable,
        minimum,
        upper,
    })
}

fn weigh_part(
    reference: &Reference,
    job: &Job,
    parts: &[Part<'_>],
    index: usize,
    combined_mm: f64,
) -> Weighed {
    let part = &parts[index];
    if lies_under_buttering(parts, index) {
        return Weighed { evidence: Vec::new(), figure_c: Some(0.0), by: None, cleared: false };
    }
    // In doubt the highest of all that the part may be counts.
    part.readings()
        .map(|reading| weigh_steel(reference, job, &reading, index, combined_mm))
        .reduce(|one, other| if other.figure_c > one.figure_c { other } else { one })
        .unwrap_or(Weighed { evidence: Vec::new(), figure_c: None, by: None, cleared: false })
}

/// Does buttering take this member's heat-affected zone out of the job? Where every member
/// is buttered nothing is left to ask but the buttering itself: the job is then the laying
/// of it, and each member is weighed as it is.
#[must_use]
pub(super) fn lies_under_buttering(parts: &[Part<'_>], index: usize) -> bool {
    parts[index].member.buttered && !parts.iter().all(|part| part.member.buttered)
}

/// Laying the buttering on a member that is left out of the last joint: a job of its own on
/// that member alone, with all that the code, the shop and the drawing ask.
#[must_use]
pub(super) fn layer(reference: &Reference, job: &Job, parts: &[Part<'_>], index: usize) -> Option<Figures> {
    if !lies_under_buttering(parts, index) {
        return None;
    }
    figures(reference, &Job { members: vec![job.members[index].clone()], ..job.clone() })
}

fn weigh_steel(reference: &Reference, job: &Job, part: &Part<'_>, index: usize, combined_mm: f64) -> Weighed {
    let case = Case::of(reference, job, part, index);
    if part.by_methods() {
        return weigh(&case, part.family.traits().rungs, combined_mm);
    }
    match sheets::sheet(reference, job, part) {
        Some(figures) => sheets::weigh_sheet(&case, part, &figures, combined_mm),
        None => Weighed { evidence: Vec::new(), figure_c: None, by: None, cleared: false },
    }
}

/// Combined thickness of the joint, mm: each member as often as the joint carries heat
/// away through it. Which of two members runs through is not asked, so the greater sum
/// counts and the order of members changes nothing.
#[must_use]
pub fn combined_thickness_mm(reference: &Reference, job: &Job) -> f64 {
    let first_mm = job.members.first().map_or(0.0, |member| member.thickness_mm);
    let second_mm = job.members.get(1).map_or(first_mm, |member| member.thickness_mm);
    let Some(joint) = reference.joints.get(job.joint.id()) else { return first_mm + second_mm };
    joint.ways.combined_mm(first_mm, second_mm).max(joint.ways.combined_mm(second_mm, first_mm))
}
