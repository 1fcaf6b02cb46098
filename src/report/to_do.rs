//! What there is to do beside the figures, in the order of the work.

use super::figure::{BasisMark, basis_mark, maximum, minimum};
use super::to_do_of_steel::{after_welding, buttering, cracked, grade_only, iron_route};
use super::{Pen, distinct_members, member_name};
use crate::engine::Outcome;
use crate::engine::job::Job;
use crate::engine::plan::{
    Action, Family, Part, Plan, QT_SPAN_S, Side, Verdict, heat_for_span_kj_per_mm, lowest_ms_m90_c, side,
};
use crate::reference::Basis;

/// One thing to do or to know.
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
    /// What it rests on.
    pub basis: BasisMark,
}

/// The lines of a plan that has an answer.
#[must_use]
pub fn to_do_lines(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<ToDoLine> {
    let mut lines = Vec::new();
    let first =
        [Action::TooHard, Action::RemoveCase, Action::RemoveHardSkin, Action::CutEdges, Action::AskTemper];
    push_actions(pen, plan, &first, &mut lines);
    lines.extend(cracked(pen, job, plan));
    lines.extend(buttering(pen, job, plan));
    lines.extend(iron_route(pen, job, plan));
    lines.extend(grade_only(pen, plan));
    push_actions(
        pen,
        plan,
        &[Action::FillerUnknown, Action::DryElectrodes, Action::DryFirst, Action::TrialPiece],
        &mut lines,
    );
    if let Some(side) = side(pen.reference, job, plan) {
        // The route of iron says itself how it is tacked and held.
        let iron = plan.members.iter().all(|member| member.family == Family::Iron);
        if !matches!(plan.verdict, Verdict::NoWindow | Verdict::TwoRoutes) {
            measure(pen, job, plan, &side, &mut lines);
            if !iron {
                tack(pen, plan, &side, &mut lines);
            }
        }
        cooling(pen, job, plan, &side, &mut lines);
        hardness(pen, job, &side, &mut lines);
        // What one of two routes asks for stands with that route.
        if plan.verdict != Verdict::TwoRoutes {
            push_actions(pen, plan, &[Action::ShortBeads], &mut lines);
        }
        push_actions(pen, plan, &[Action::HeatTreatStraightAfter], &mut lines);
        if plan.verdict == Verdict::Window && !iron {
            stop(pen, plan, &mut lines);
        }
        post_heat(pen, job, plan, &side, &mut lines);
        push_actions(pen, plan, &[Action::CoolSlowly, Action::NoPwht], &mut lines);
        lines.extend(after_welding(pen, job, plan));
        wait(pen, &side, &mut lines);
    }
    lines
}

pub(super) fn line(pen: &Pen<'_>, key: &str, value: String, note: String, basis: &Basis) -> ToDoLine {
    ToDoLine {
        id: key.to_owned(),
        label: pen.words.get(&format!("then-{key}")),
        value,
        note,
        basis: basis_mark(pen, basis),
    }
}

fn push_actions(pen: &Pen<'_>, plan: &Plan, wanted: &[Action], lines: &mut Vec<ToDoLine>) {
    for action in wanted.iter().filter(|action| plan.actions.contains(action)) {
        let key = format!("action-{}", action.id());
        lines.push(ToDoLine {
            id: action.id().to_owned(),
            label: pen.words.get(&key),
            value: pen.words.get(&format!("{key}.do")),
            note: pen.words.get(&format!("{key}.why")),
            basis: basis_mark(pen, &Basis::Practice),
        });
    }
}

fn measure(pen: &Pen<'_>, job: &Job, plan: &Plan, side: &Side, lines: &mut Vec<ToDoLine>) {
    if plan.minimum.is_none() {
        return;
    }
    let distance = pen.show.least_length(side.warm_zone.distance_mm).main;
    let member = member_name(pen, job, side.warm_zone.coldest_member);
    lines.push(line(
        pen,
        "measure",
        pen.words.with("then-measure.value", &[("distance", &distance)]),
        pen.words.with("then-measure.note", &[("member", &member)]),
        &pen.reference.d11.warm_zone.basis,
    ));
}

fn tack(pen: &Pen<'_>, plan: &Plan, side: &Side, lines: &mut Vec<ToDoLine>) {
    let Some(tack_c) = side.tack_c else { return };
    // At the interpass it is a maximum, and rounds as one.
    let figure = match &plan.interpass {
        Some(limit) if tack_c >= limit.exact_c => maximum(pen, limit.exact_c, limit.printed).main,
        _ => minimum(pen, tack_c, None).main,
    };
    lines.push(line(
        pen,
        "tack",
        pen.words.with("then-tack.value", &[("figure", &figure)]),
        pen.words.get("then-tack.note"),
        &Basis::Practice,
    ));
}

fn cooling(pen: &Pen<'_>, job: &Job, plan: &Plan, side: &Side, lines: &mut Vec<ToDoLine>) {
    let distinct = distinct_members(job);
    for time in side.cooling.iter().filter(|time| distinct.contains(&time.member)) {
        let name = member_name(pen, job, time.member);
        // Without a window the minimum lies above the interpass and cools slower.
        let low = pen.show.number(time.fastest_s.min(time.slowest_s), 1);
        let high = pen.show.with_unit(time.slowest_s.max(time.fastest_s), 1, "s");
        let mut note = pen.words.with("then-cooling.note", &[("member", &name)]);
        if plan.actions.contains(&Action::CoolingTimeOutside)
            && plan.members[time.member].family == crate::engine::plan::Family::QuenchedTempered
        {
            let needed = heat_for_span_kj_per_mm(
                pen.reference,
                job,
                job.members[time.member].thickness_mm,
                plan.minimum_c.unwrap_or(job.shop_c),
            );
            let key = if time.fastest_s < QT_SPAN_S.0 { "then-cooling.fast" } else { "then-cooling.slow" };
            note = pen.words.with(key, &[("heat", &pen.show.heat(needed).main), ("member", &name)]);
        }
        let mut made = line(pen, "cooling", format!("{low}–{high}"), note, &cooling_basis(pen, job));
        made.id = format!("cooling-{}", time.member);
        lines.push(made);
    }
}

/// The cooling time rests on its equations and on the joint's shape factors.
fn cooling_basis(pen: &Pen<'_>, job: &Job) -> Basis {
    let equations = method_basis(pen, "t85");
    let joint = pen.reference.joint(job.joint.id());
    joint.map_or_else(|| equations.clone(), |joint| equations.weaker(&joint.factors_basis).clone())
}

fn method_basis(pen: &Pen<'_>, id: &str) -> Basis {
    pen.reference.methods.get(id).map_or(Basis::Practice, |method| method.basis.clone())
}

/// The spread of the estimates that have a value: they are estimates, so a span is shown.
fn hardness(pen: &Pen<'_>, job: &Job, side: &Side, lines: &mut Vec<ToDoLine>) {
    let distinct = distinct_members(job);
    for (member, outcomes) in side.hardness.iter().filter(|(member, _)| distinct.contains(member)) {
        let values: Vec<f64> = outcomes
            .iter()
            .filter(|outcome| matches!(outcome.name, "hardness-yurioka" | "hardness-duren"))
            .filter_map(|outcome| outcome.value)
            .collect();
        let (Some(low), Some(high)) =
            (values.iter().copied().reduce(f64::min), values.iter().copied().reduce(f64::max))
        else {
            continue;
        };
        let round = |value: f64| pen.show.number((value / 10.0).round() * 10.0, 0);
        let (low, high) = (round(low), round(high));
        let about = if low == high { high } else { format!("{low}–{high}") };
        let name = member_name(pen, job, *member);
        let mut made = line(
            pen,
            "hardness",
            pen.words.with("then-hardness.value", &[("about", &about)]),
            pen.words.with("then-hardness.note", &[("member", &name)]),
            &method_basis(pen, "hv-yurioka"),
        );
        made.id = format!("hardness-{member}");
        lines.push(made);
    }
}

fn stop(pen: &Pen<'_>, plan: &Plan, lines: &mut Vec<ToDoLine>) {
    let Some(limit) = &plan.minimum else { return };
    let figure = minimum(pen, limit.exact_c, limit.printed).main;
    lines.push(line(
        pen,
        "stop",
        pen.words.with("then-stop.value", &[("figure", &figure)]),
        pen.words.get("then-stop.note"),
        &Basis::Practice,
    ));
}

/// Below this a steel is cold, °C.
const COLD_C: f64 = 20.0;

fn value_of(outcomes: &[Outcome], name: &str) -> Option<f64> {
    outcomes.iter().find(|outcome| outcome.name == name).and_then(|outcome| outcome.value)
}

fn post_heat(pen: &Pen<'_>, job: &Job, plan: &Plan, side: &Side, lines: &mut Vec<ToDoLine>) {
    let asked = [Action::PostHeatBeforeCold, Action::PostHeatAboveM90]
        .into_iter()
        .find(|action| plan.actions.contains(action));
    let Some(action) = asked else { return };
    let parts = Part::all(job);
    let m90 = lowest_ms_m90_c(&parts).map_or_else(String::new, |(_, m90_c)| {
        // The formula is made for no steel whose martensite ends in the cold.
        if m90_c < COLD_C { pen.words.get("then-m90-in-the-cold") } else { pen.show.temperature(m90_c).main }
    });
    let why = pen.words.with(&format!("action-{}.why", action.id()), &[("m90", &m90)]);
    let (Some(at_c), Some(diffusion_h), Some(trade_h)) = (
        value_of(&side.post_heat, "post-heat-temperature"),
        value_of(&side.post_heat, "post-heat-diffusion"),
        value_of(&side.post_heat, "post-heat-trade"),
    ) else {
        lines.push(line(
            pen,
            "post-heat",
            pen.words.get(&format!("action-{}.do", action.id())),
            why,
            &Basis::Practice,
        ));
        return;
    };
    // Never below the minimum as it is shown, which is rounded up.
    let at = minimum(pen, at_c, None).main;
    let hours = |value: f64| pen.show.with_unit(value.ceil(), 0, "h");
    lines.push(line(
        pen,
        "post-heat",
        pen.words.with(
            "then-post-heat.value",
            &[("figure", &at), ("trade", &hours(trade_h)), ("diffusion", &hours(diffusion_h))],
        ),
        format!("{why} {} {}", pen.words.get("then-post-heat.note"), pen.words.get("note-both-faces-open")),
        &method_basis(pen, "post-heat"),
    ));
}

fn wait(pen: &Pen<'_>, side: &Side, lines: &mut Vec<ToDoLine>) {
    let Some(strictest) = side.wait.first() else { return };
    let Some(hours) = strictest.value else { return };
    lines.push(line(
        pen,
        "wait",
        pen.words.with("then-wait.value", &[("time", &pen.show.with_unit(hours, 0, "h"))]),
        pen.words.get("then-wait.note"),
        &strictest.basis,
    ));
}
