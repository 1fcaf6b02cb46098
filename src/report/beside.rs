//! What stands apart from the steps: what must be found out first, and figures that order nothing.

use super::figure::{BasisMark, basis_mark, maximum, minimum, range};
use super::{Pen, distinct_members, member_name};
use crate::engine::chemistry::Cap;
use crate::engine::job::Job;
use crate::engine::plan::{Action, CoolingTime, Find, Layer, Plan, Side};
use crate::reference::{Basis, Method};
use crate::words::List;

/// One thing to know, or to find out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToDoLine {
    /// Stable id.
    pub id: String,
    /// What it is about.
    pub label: String,
    /// What to do, or a figure.
    pub value: String,
    /// Why, or how.
    pub note: String,
    /// What it rests on; empty for what is only to be found out.
    pub basis: BasisMark,
}

/// What must be found out before the first step.
#[must_use]
pub fn find_lines(pen: &Pen<'_>, plan: &Plan) -> Vec<ToDoLine> {
    let find = plan.sequence.find.iter();
    find.map(|find| {
        let key = format!("then-find-{}", find.id());
        let mut why = vec![pen.words.get(&format!("{key}.why"))];
        if *find == Find::Certificate {
            why.extend(taken(pen, plan));
        }
        ToDoLine {
            id: find.id().to_owned(),
            label: pen.words.get(&key),
            value: pen.words.get(&format!("{key}.do")),
            note: pen.words.list(List::Sentences, &why),
            basis: BasisMark::default(),
        }
    })
    .collect()
}

/// How a steel that is known by grade only was taken.
fn taken(pen: &Pen<'_>, plan: &Plan) -> Vec<String> {
    let any =
        |cap| plan.members.iter().any(|member| member.chemistry.grade_only && member.chemistry.cap == cap);
    [
        (Cap::None, "then-find-certificate.middle"),
        (Cap::Holds, "then-find-certificate.capped"),
        (Cap::Beyond, "then-find-certificate.beyond"),
    ]
    .into_iter()
    .filter(|(cap, _)| any(*cap))
    .map(|(_, key)| pen.words.get(key))
    .collect()
}

/// Figures of the job that order nothing. What two parts share is said once.
#[must_use]
pub fn beside_lines(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<ToDoLine> {
    let mut lines: Vec<ToDoLine> = cracked(pen, plan).into_iter().collect();
    // A plan without steps says all the same what its figures are for.
    if plan.sequence.steps.is_empty() {
        lines.extend(layer_off(pen, plan));
    }
    if let Some(side) = &plan.side {
        lines.extend(cooling(pen, job, side));
        lines.extend(hardness(pen, job, side));
    }
    lines
}

/// The figures are for the steel under a hardened layer.
fn layer_off(pen: &Pen<'_>, plan: &Plan) -> Option<ToDoLine> {
    let why: Vec<String> =
        [(Action::RemoveCase, "then-note-carbon-case"), (Action::RemoveHardSkin, "then-note-hard-layer")]
            .into_iter()
            .filter(|(action, _)| plan.actions.contains(action))
            .map(|(_, key)| pen.words.get(key))
            .collect();
    (!why.is_empty()).then(|| ToDoLine {
        id: "layer".to_owned(),
        label: pen.words.get("then-layer"),
        value: pen.words.get("then-grind-layer"),
        note: pen.words.list(List::Sentences, &why),
        basis: basis_mark(pen, &Basis::Practice),
    })
}

/// A published case in which steel of this kind cracked although it was preheated.
fn cracked(pen: &Pen<'_>, plan: &Plan) -> Option<ToDoLine> {
    let case = plan.cracked.as_ref()?;
    let at: Vec<String> = case.at_c.iter().map(|at_c| pen.show.temperature(*at_c).main).collect();
    let figures = pen.words.list(List::And, &at);
    Some(ToDoLine {
        id: "cracked-case".to_owned(),
        label: pen.words.get("then-cracked-case"),
        value: pen.words.get("then-cracked-case.do"),
        note: pen.words.with("then-cracked-case.why", &[("figures", &figures)]),
        basis: basis_mark(pen, &case.basis),
    })
}

/// One line for each value, with the parts that have it.
fn by_value(
    pen: &Pen<'_>,
    job: &Job,
    key: &str,
    basis: &Basis,
    values: impl Iterator<Item = (usize, String)>,
) -> Vec<ToDoLine> {
    let distinct = distinct_members(job);
    let mut found: Vec<(String, Vec<usize>)> = Vec::new();
    for (member, value) in values.filter(|(member, _)| distinct.contains(member)) {
        match found.iter_mut().find(|(have, _)| *have == value) {
            Some((_, members)) => members.push(member),
            None => found.push((value, vec![member])),
        }
    }
    found
        .into_iter()
        .map(|(value, members)| {
            let name = match members.as_slice() {
                [member] => member_name(pen, job, *member),
                _ => pen.words.get("then-both-parts"),
            };
            ToDoLine {
                id: format!("{key}-{}", members.first().copied().unwrap_or_default()),
                label: pen.words.get(&format!("then-{key}")),
                value,
                note: pen.words.with(&format!("then-{key}.note"), &[("member", &name)]),
                basis: basis_mark(pen, basis),
            }
        })
        .collect()
}

fn cooling(pen: &Pen<'_>, job: &Job, side: &Side) -> Vec<ToDoLine> {
    // The cooling time rests on its equations and on the joint's shape factors.
    let equations = method_basis(pen, Method::T85);
    let joint = pen.reference.joint(job.joint.id());
    let basis = joint.map_or(equations, |joint| equations.weaker(&joint.factors_basis));
    let values = side.cooling.iter().map(|time| {
        // Without a window the minimum lies above the interpass and cools slower.
        let seconds = |time_s: f64| pen.show.with_unit(time_s, usize::from(time_s < 5.0), "s");
        let low = seconds(time.fastest_s.min(time.slowest_s));
        let high = seconds(time.slowest_s.max(time.fastest_s));
        (time.member, range(pen, &low, &high))
    });
    let mut lines = by_value(pen, job, "cooling", basis, values);
    for line in &mut lines {
        let of = side.cooling.iter().find(|time| line.id == format!("cooling-{}", time.member));
        line.note = of.map_or_else(String::new, |time| both_ends(pen, time, &line.note));
    }
    lines
}

/// The span at each end of the working range: a joint's shape factors and the heat inputs of a job are
/// spans too.
fn both_ends(pen: &Pen<'_>, time: &CoolingTime, member: &str) -> String {
    let seconds = |time_s: f64| pen.show.with_unit(time_s, usize::from(time_s < 5.0), "s");
    let span = |low_s: f64, high_s: f64| range(pen, &seconds(low_s), &seconds(high_s));
    let first = span(time.fastest_s, time.slow_at_minimum_s);
    let last = span(time.fast_at_maximum_s, time.slowest_s);
    let ends = pen.words.with("then-cooling.ends", &[("first", &first), ("last", &last)]);
    // Without a window the minimum lies above the maximum: there is no range to have two ends.
    let range_is = time.fastest_s <= time.slowest_s;
    let mut said = if range_is { vec![member.to_owned(), ends] } else { Vec::new() };
    said.extend(time.heat_in_doubt().then(|| pen.words.get("then-cooling.slow")));
    pen.words.list(List::Sentences, &said)
}

fn method_basis<'a>(pen: &Pen<'a>, method: Method) -> &'a Basis {
    &pen.reference.methods.row(method).basis
}

/// The spread of the estimates that have a value: they are estimates, so a span is shown.
fn hardness(pen: &Pen<'_>, job: &Job, side: &Side) -> Vec<ToDoLine> {
    let values = side.hardness.iter().filter_map(|(member, outcomes)| {
        let spans = outcomes
            .iter()
            .filter(|outcome| matches!(outcome.name, "hardness-yurioka" | "hardness-duren"))
            .filter_map(|outcome| outcome.low.zip(outcome.high));
        let low = spans.clone().map(|span| span.0).reduce(f64::min)?;
        let high = spans.map(|span| span.1).reduce(f64::max)?;
        let [low, high] =
            [(low / 10.0).floor(), (high / 10.0).ceil()].map(|tens| pen.show.number(tens * 10.0, 0));
        let about = range(pen, &low, &high);
        Some((*member, pen.words.with("then-hardness.value", &[("about", &about)])))
    });
    by_value(pen, job, "hardness", method_basis(pen, Method::HvYurioka), values)
}

/// A buttering that can't be put on its part as it is.
pub(super) fn no_room_to_butter(pen: &Pen<'_>, member: &str, layer: &Layer) -> String {
    let (low, high) = (minimum(pen, layer.exact_c, None).main, maximum(pen, layer.most_c, None).main);
    pen.words.with("then-no-room", &[("member", member), ("low", &low), ("high", &high)])
}
