//! What there is to do beside the figures, in the order of the work.

use super::figure::{BasisMark, basis_mark, maximum, minimum};
use super::to_do_of_steel::{after_welding, buttering, cracked, grade_only, iron_route};
use super::{Pen, distinct_members, member_name};
use crate::engine::family::Family;
use crate::engine::job::Job;
use crate::engine::plan::{Action, Plan, PostHeat, QT_SPAN_S, Side, Verdict};
use crate::engine::post_heat::{Hold, Way};
use crate::reference::{Basis, Method};

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
    lines.extend(cracked(pen, plan));
    lines.extend(buttering(pen, job, plan));
    lines.extend(iron_route(pen, plan));
    lines.extend(grade_only(pen, plan));
    push_actions(
        pen,
        plan,
        &[
            Action::AusteniticFiller,
            Action::FillerUnknown,
            Action::DryElectrodes,
            Action::DryFirst,
            Action::TrialPiece,
        ],
        &mut lines,
    );
    if let Some(side) = &plan.side {
        // The route of iron says itself how it is tacked and held.
        let iron = plan.members.iter().all(|member| member.family == Family::Iron);
        if !matches!(plan.verdict, Verdict::NoWindow | Verdict::TwoRoutes) {
            measure(pen, job, plan, side, &mut lines);
            if !iron {
                tack(pen, plan, side, &mut lines);
            }
        }
        cooling(pen, job, side, &mut lines);
        hardness(pen, job, side, &mut lines);
        // What one of two routes asks for stands with that route.
        if plan.verdict != Verdict::TwoRoutes {
            push_actions(pen, plan, &[Action::ShortBeads], &mut lines);
        }
        push_actions(pen, plan, &[Action::HeatTreatStraightAfter], &mut lines);
        if plan.verdict == Verdict::Window && !iron {
            stop(pen, plan, &mut lines);
        }
        post_heat(pen, plan, side, &mut lines);
        push_actions(pen, plan, &[Action::CoolSlowly, Action::NoPwht], &mut lines);
        lines.extend(after_welding(pen, job, plan));
        wait(pen, side, &mut lines);
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

fn cooling(pen: &Pen<'_>, job: &Job, side: &Side, lines: &mut Vec<ToDoLine>) {
    let distinct = distinct_members(job);
    for time in side.cooling.iter().filter(|time| distinct.contains(&time.member)) {
        let name = member_name(pen, job, time.member);
        // Without a window the minimum lies above the interpass and cools slower.
        let low = pen.show.number(time.fastest_s.min(time.slowest_s), 1);
        let high = pen.show.with_unit(time.slowest_s.max(time.fastest_s), 1, "s");
        let mut note = pen.words.with("then-cooling.note", &[("member", &name)]);
        if let Some(needed) = time.heat_for_span_kj_per_mm {
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
    let equations = method_basis(pen, Method::T85);
    let joint = pen.reference.joint(job.joint.id());
    joint.map_or_else(|| equations.clone(), |joint| equations.weaker(&joint.factors_basis).clone())
}

fn method_basis<'a>(pen: &Pen<'a>, method: Method) -> &'a Basis {
    &pen.reference.methods.row(method).basis
}

/// The spread of the estimates that have a value: they are estimates, so a span is shown.
fn hardness(pen: &Pen<'_>, job: &Job, side: &Side, lines: &mut Vec<ToDoLine>) {
    let distinct = distinct_members(job);
    for (member, outcomes) in side.hardness.iter().filter(|(member, _)| distinct.contains(member)) {
        let shown =
            outcomes.iter().filter(|outcome| matches!(outcome.name, "hardness-yurioka" | "hardness-duren"));
        let spans: Vec<(f64, f64)> = shown.filter_map(|outcome| outcome.low.zip(outcome.high)).collect();
        let (Some(low), Some(high)) = (
            spans.iter().map(|span| span.0).reduce(f64::min),
            spans.iter().map(|span| span.1).reduce(f64::max),
        ) else {
            continue;
        };
        let [low, high] =
            [(low / 10.0).floor(), (high / 10.0).ceil()].map(|tens| pen.show.number(tens * 10.0, 0));
        let about = format!("{low}–{high}");
        let name = member_name(pen, job, *member);
        let note = pen.words.with("then-hardness.note", &[("member", &name)]);
        let mut made = line(
            pen,
            "hardness",
            pen.words.with("then-hardness.value", &[("about", &about)]),
            [note, pen.words.get("then-hardness.scatter")].join(" "),
            method_basis(pen, Method::HvYurioka),
        );
        made.id = format!("hardness-{member}");
        lines.push(made);
    }
}

fn stop(pen: &Pen<'_>, plan: &Plan, lines: &mut Vec<ToDoLine>) {
    let Some(limit) = &plan.minimum else { return };
    let figure = minimum(pen, limit.exact_c, limit.printed).main;
    // No post-heat drives hydrogen out of austenitic weld metal.
    let held = plan.actions.contains(&Action::AusteniticFiller);
    let key = if held { "then-stop.keep-hot" } else { "then-stop.value" };
    lines.push(line(
        pen,
        "stop",
        pen.words.with(key, &[("figure", &figure)]),
        pen.words.get("then-stop.note"),
        &Basis::Practice,
    ));
}

/// Below this a steel is cold, °C.
const COLD_C: f64 = 20.0;

fn post_heat(pen: &Pen<'_>, plan: &Plan, side: &Side, lines: &mut Vec<ToDoLine>) {
    let asked = [Action::PostHeatBeforeCold, Action::PostHeatAboveM90]
        .into_iter()
        .find(|action| plan.actions.contains(action));
    let Some(action) = asked else { return };
    let m90 = plan.ms_m90_c.map_or_else(String::new, |(_, m90_c)| {
        // The formula is made for no steel whose martensite ends in the cold.
        if m90_c < COLD_C {
            return pen.words.get("then-m90-in-the-cold");
        }
        let m90 = pen.show.temperature(m90_c).main;
        let Some(scatter_k) = plan.ms_scatter_k else { return m90 };
        let scatter = pen.show.difference(scatter_k).main;
        pen.words.with("then-m90-about", &[("m90", &m90), ("scatter", &scatter)])
    });
    let why = pen.words.with(&format!("action-{}.why", action.id()), &[("m90", &m90)]);
    let (value, basis) = match &side.post_heat {
        None => (pen.words.get(&format!("action-{}.do", action.id())), &Basis::Practice),
        Some(held) => post_heat_value(pen, held),
    };
    let mut note = vec![why];
    note.extend(side.post_heat.iter().flat_map(|held| post_heat_notes(pen, held)));
    lines.push(line(pen, "post-heat", value, note.join(" "), basis));
}

/// Hours and span of a hold: the cold end rounds up and the hot end down.
fn hold_words(pen: &Pen<'_>, hold: &Hold) -> [String; 3] {
    let hours = pen.show.with_unit(hold.shown_h(), usize::from(hold.shown_h().fract() > 0.0), "h");
    [hours, minimum(pen, hold.low_c, None).main, maximum(pen, hold.high_c, None).main]
}

fn post_heat_value<'a>(pen: &Pen<'_>, held: &'a PostHeat) -> (String, &'a Basis) {
    let Some(hold) = &held.answer.main else {
        let key = match held.answer.way {
            Way::WeldMetalHolds => "then-post-heat.holds",
            Way::PostHeat | Way::LongerWait => "then-post-heat.too-cool",
        };
        return (pen.words.get(key), &Basis::Practice);
    };
    let key = match held.answer.way {
        Way::LongerWait => "then-post-heat.wait",
        Way::PostHeat | Way::WeldMetalHolds => "then-post-heat.value",
    };
    let [hours, low, high] = hold_words(pen, hold);
    (pen.words.with(key, &[("hours", &hours), ("low", &low), ("high", &high)]), &hold.basis)
}

fn post_heat_notes(pen: &Pen<'_>, held: &PostHeat) -> Vec<String> {
    let mut notes = Vec::new();
    let Some(hold) = &held.answer.main else { return notes };
    let size = pen.show.length(held.weld.size_mm()).main;
    let key = if held.size_taken { "then-post-heat.size-taken" } else { "then-post-heat.size" };
    notes.push(pen.words.with(key, &[("size", &size)]));
    if hold.turning_h > 0.0 {
        notes.push(pen.words.get("then-post-heat.turning"));
    }
    if let Some(below) = &held.answer.below_m90 {
        let [hours, low, high] = hold_words(pen, &below.hold);
        let share = pen.show.with_unit(below.austenite_left * 100.0, 0, "%");
        let values = [("hours", &*hours), ("low", &*low), ("high", &*high), ("share", &*share)];
        notes.push(pen.words.with("then-post-heat.below-m90", &values));
    }
    notes
}

fn wait(pen: &Pen<'_>, side: &Side, lines: &mut Vec<ToDoLine>) {
    let Some(strictest) = side.wait.first() else { return };
    let Some(hours) = strictest.value else { return };
    lines.push(line(
        pen,
        "wait",
        pen.words.with("then-wait.value", &[("time", &pen.show.with_unit(hours, 0, "h"))]),
        pen.words.get("then-wait.note"),
        strictest.basis(&pen.reference.methods),
    ));
}
