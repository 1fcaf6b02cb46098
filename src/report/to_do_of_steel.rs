//! What there is to do because of what a steel is, and what is known of it.

use super::answer::route_line;
use super::figure::{basis_mark, maximum, minimum};
use super::to_do::{ToDoLine, line};
use super::{Pen, distinct_members, heat_words, member_name};
use crate::engine::chemistry::Cap;
use crate::engine::family::Family;
use crate::engine::job::Job;
use crate::engine::plan::{Action, Ceiling, Layer, Plan, Verdict};
use crate::reference::Basis;
use crate::words::List;

fn of_action(pen: &Pen<'_>, action: Action, value: String, note: String, basis: &Basis) -> ToDoLine {
    ToDoLine {
        id: action.id().to_owned(),
        label: pen.words.get(&format!("action-{}", action.id())),
        value,
        note,
        basis: basis_mark(pen, basis),
    }
}

/// A published case in which steel of this kind cracked although it was preheated.
pub(super) fn cracked(pen: &Pen<'_>, plan: &Plan) -> Option<ToDoLine> {
    let action = Action::CrackedCase;
    let case = plan.cracked.as_ref()?;
    let at: Vec<String> = case.at_c.iter().map(|at_c| pen.show.temperature(*at_c).main).collect();
    let value = pen.words.get("action-cracked-case.do");
    let figures = pen.words.list(List::And, &at);
    let note = pen.words.with("action-cracked-case.why", &[("figures", &figures)]);
    Some(of_action(pen, action, value, note, &case.basis))
}

/// A buttering that can't be laid on its part as it is.
pub(super) fn no_room_to_lay(pen: &Pen<'_>, member: &str, layer: &Layer) -> String {
    let (low, high) = (minimum(pen, layer.exact_c, None).main, maximum(pen, layer.most_c, None).main);
    pen.words.with("action-buttering.no-room", &[("member", member), ("low", &low), ("high", &high)])
}

/// What laying a buttering asks for: of the steel that it takes out of the joint, or, where
/// every part is buttered, the figures of this plan.
pub(super) fn buttering(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<ToDoLine> {
    let action = Action::Buttering;
    if !plan.actions.contains(&action) {
        return Vec::new();
    }
    let distinct = distinct_members(job);
    let lines: Vec<ToDoLine> = plan
        .members
        .iter()
        .enumerate()
        .filter(|(index, _)| distinct.contains(index))
        .filter_map(|(index, member)| {
            let layer = member.layer?;
            let layer_c = layer.exact_c;
            let name = member_name(pen, job, index);
            let value = if !layer.usable {
                no_room_to_lay(pen, &name, &layer)
            } else if layer_c > 0.0 {
                let figure = minimum(pen, layer_c, None).main;
                pen.words.with("action-buttering.do", &[("member", &name), ("figure", &figure)])
            } else {
                pen.words.with("action-buttering.cold", &[("member", &name)])
            };
            let mut made =
                of_action(pen, action, value, pen.words.get("action-buttering.why"), &Basis::Practice);
            made.id = format!("buttering-{index}");
            Some(made)
        })
        .collect();
    if !lines.is_empty() {
        return lines;
    }
    let value = pen.words.get("action-buttering.all");
    vec![of_action(pen, action, value, pen.words.get("action-buttering.why"), &Basis::Practice)]
}

/// The rules of the one route for iron that a demand leaves open: it is then the plan.
pub(super) fn iron_route(pen: &Pen<'_>, plan: &Plan) -> Option<ToDoLine> {
    let iron = plan.members.iter().all(|member| member.family == Family::Iron);
    if !iron || plan.verdict != Verdict::Window {
        return None;
    }
    let route = route_line(pen, plan.routes.first()?);
    Some(ToDoLine {
        id: format!("route-{}", route.id),
        label: pen.words.get("then-iron-route"),
        value: pen.words.list(List::Comma, &[&route.title, &route.figure]),
        note: route.text,
        basis: route.basis,
    })
}

/// How a steel that is known by grade only was taken.
pub(super) fn grade_only(pen: &Pen<'_>, plan: &Plan) -> Option<ToDoLine> {
    let action = Action::GradeOnly;
    if !plan.actions.contains(&action) {
        return None;
    }
    let taken =
        |cap| plan.members.iter().any(|member| member.chemistry.grade_only && member.chemistry.cap == cap);
    let mut why = vec![pen.words.get("action-grade-only.why")];
    for (cap, key) in [
        (Cap::None, "action-grade-only.middle"),
        (Cap::Holds, "action-grade-only.capped"),
        (Cap::Beyond, "action-grade-only.beyond"),
    ] {
        if taken(cap) {
            why.push(pen.words.get(key));
        }
    }
    Some(of_action(pen, action, pen.words.get("action-grade-only.do"), why.join(" "), &Basis::Practice))
}

/// Heat treatment after welding, as it is printed for each grade that may need it.
pub(super) fn after_welding(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<ToDoLine> {
    let action = Action::HeatTreatAfter;
    let distinct = distinct_members(job);
    let mut lines = Vec::new();
    if plan.actions.contains(&action) {
        let [value, note] =
            ["do", "why"].map(|part| pen.words.get(&format!("action-heat-treat-after.{part}")));
        lines.push(of_action(pen, action, value, note, &Basis::Practice));
    }
    for (index, member) in job.members.iter().enumerate().filter(|(index, _)| distinct.contains(index)) {
        // A structural plate needs none, and of a quenched and tempered one another line speaks.
        let spoken = matches!(plan.members[index].family, Family::Structural | Family::QuenchedTempered);
        let Some(printed) = member.steel.grade().and_then(|grade| grade.pwht.as_ref()).filter(|_| !spoken)
        else {
            continue;
        };
        let words = heat_words(pen, printed.low_c, printed.high_c, printed.wording.as_deref());
        let name = member_name(pen, job, index);
        let note = pen.words.with("then-after-welding.note", &[("member", &name)]);
        // What is printed knows nothing of the temper or the ceiling that was stated for this job.
        let hottest_c = printed.high_c.or(printed.low_c);
        let over = match &plan.ceiling {
            Ceiling::At(limit) if matches!(limit.by, "stated-temper" | "demanded") => {
                hottest_c.filter(|hottest_c| *hottest_c > limit.exact_c).map(|_| limit.exact_c)
            }
            _ => None,
        };
        let words = match over {
            Some(ceiling_c) => {
                let ceiling = maximum(pen, ceiling_c, None).main;
                pen.words.with("then-after-welding.over", &[("ceiling", &ceiling), ("printed", &words)])
            }
            None => words,
        };
        let mut made = line(pen, "after-welding", words, note, &printed.basis);
        made.id = format!("after-welding-{index}");
        lines.push(made);
    }
    lines
}
