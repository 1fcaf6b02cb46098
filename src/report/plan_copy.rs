//! A plan as a log keeps it: its figures, and its words as they were that day.

use std::ops::ControlFlow;

use super::curve::curve_points;
use super::cycle_after::after_lines;
use super::figure::{Figure, in_both, source_line};
use super::{CycleTold, Pen, Report, member_name, no_cycle_words, put_cycle, put_weld, tint_limits};
use crate::engine::heat_cycle::{Fineness, Keep, NoCycle, Turned};
use crate::engine::job::Job;
use crate::engine::plan::{self, Branch, Ceiling, Limit, Plan, StepFigure};
use crate::engine::reading::Falls;
use crate::engine::weld_of_job::{JobWeld, RunOfJob};
use crate::job::{FieldProblem, JobText, OwnSteel, PlanSays, ReadJob, Reading, cycle_of_plan, read_job};
use crate::log::{
    CautionCopy, LimitCopy, LineCopy, MemberCopy, Need, PlanCopy, SteelAsked, StepCopy, TurnCopy,
};
use crate::reference::{Element, Reference};
use crate::report::beside::ToDoLine;
use crate::report::cautions::CautionLine;
use crate::units::{Both, Mark, Show, Units};
use crate::words::Words;

/// A plan as a log keeps it.
#[must_use]
pub fn plan_copy(
    pen: &Pen<'_>,
    text: &JobText,
    read: &ReadJob,
    plan: &Plan,
    cycle: CycleTold<'_>,
    falls: Option<Falls>,
) -> PlanCopy {
    let job = &read.job;
    let mut report = Report::of(pen, job, plan);
    let weld = put_weld(pen, job, &read.told, plan, &mut report);
    put_cycle(pen, job, plan, cycle, &mut report.steps);
    let held = tint_limits(pen, Some(plan)).held;
    let answer = &report.answer;
    let ceiling = match &plan.ceiling {
        Ceiling::At(limit) => Some(limit),
        Ceiling::AskTemper { .. } | Ceiling::BelowTransformation => None,
    };
    PlanCopy {
        edition: env!("CARGO_PKG_VERSION").to_owned(),
        language: pen.words.language(),
        job: text.clone(),
        units: pen.show.units,
        verdict: plan.verdict.id().to_owned(),
        answers: plan.verdict.answers(),
        title: answer.title.clone(),
        minimum: limit(pen, held.minimum_c, plan.minimum.as_ref(), &answer.minimum)
            .or_else(|| dry(pen, plan)),
        maximum: limit(pen, held.maximum_c, plan.interpass.as_ref(), &answer.maximum),
        ceiling: limit(pen, held.ceiling_c, ceiling, &answer.ceiling),
        ceiling_word: if ceiling.is_none() { answer.ceiling.figure.clone() } else { String::new() },
        sentence: answer.sentence.clone(),
        status: answer.lines.clone(),
        members: members(pen, job, plan),
        apart: super::distinct_members(job).len() > 1,
        find: report.find.iter().map(line).collect(),
        steps: steps(plan, &report),
        weld: report.weld.iter().map(line).collect(),
        beside: report.beside.iter().map(line).collect(),
        cautions: report.briefing.always.iter().chain(&report.briefing.own).map(caution).collect(),
        not_told: report.briefing.not_told.clone(),
        shop_c: job.shop_c,
        measured_at_mm: plan.sequence.numbered().find_map(|(_, _, step)| match step.figure {
            Some(StepFigure::Away(mm)) => Some(mm),
            _ => None,
        }),
        cycle_typed: Vec::new(),
        falls,
        curve: match cycle {
            CycleTold::Known(_, found) => curve_points(&found.cycle.moments),
            CycleTold::None(_) | CycleTold::Working => Vec::new(),
        },
        cycle_says: match cycle {
            CycleTold::Known(flames, found) => after_lines(pen, flames, found, job.weld.austenitic),
            CycleTold::None(_) | CycleTold::Working => Vec::new(),
        },
        turns: match cycle {
            CycleTold::Known(flames, found) => found.turned(flames).iter().map(turn).collect(),
            CycleTold::None(_) | CycleTold::Working => Vec::new(),
        },
        no_cycle: match cycle {
            CycleTold::None(why) => no_cycle_words(pen, why).unwrap_or_default(),
            CycleTold::Known(..) | CycleTold::Working => String::new(),
        },
        needs: weld.map(|weld| needs(pen, &weld)).unwrap_or_default(),
    }
}

/// The steels of a plan, as trial pieces are asked for them.
#[must_use]
pub fn steels_asked(job: &Job, plan: &Plan) -> Vec<SteelAsked> {
    let asked = super::distinct_members(job).into_iter().filter_map(|member| {
        let note = plan.members.get(member)?;
        Some(SteelAsked {
            member,
            grade: job.members[member].steel.grade().map(|grade| grade.id.clone()),
            family: note.family.id().to_owned(),
            cet: note.chemistry.cet(),
        })
    });
    asked.collect()
}

fn limit(pen: &Pen<'_>, at_c: Option<f64>, limit: Option<&Limit>, shown: &Figure) -> Option<LimitCopy> {
    let (at_c, limit) = (at_c?, limit?);
    // What the answer does not show is no limit of the whole plan: each of two routes has its own.
    if shown.figure.is_empty() {
        return None;
    }
    Some(LimitCopy {
        at_c,
        exact_c: limit.exact_c,
        text: with_unit(shown),
        second: shown.second.clone(),
        at_least: limit.at_least,
        basis: source_line(pen, &limit.basis),
        mark: shown.basis.kind.to_owned(),
        note: shown.note.clone(),
    })
}

/// A figure with its unit, as it is written.
fn with_unit(shown: &Figure) -> String {
    if shown.unit.is_empty() { shown.figure.clone() } else { format!("{}\u{a0}{}", shown.figure, shown.unit) }
}

/// Where no preheat is needed, steel must be dry and no colder than this all the same.
fn dry(pen: &Pen<'_>, plan: &Plan) -> Option<LimitCopy> {
    let edge = plan.dry_from.filter(|_| plan.verdict.answers() && plan.minimum.is_none())?;
    let Both { main, second } = pen.show.minimum(edge.exact_c, edge.printed);
    let governing = plan.governing().map(|item| source_line(pen, item.outcome.basis(&pen.reference.methods)));
    Some(LimitCopy {
        at_c: edge.least_c(),
        exact_c: edge.exact_c,
        text: main,
        second,
        basis: governing.unwrap_or_default(),
        note: pen.words.get("answer-none"),
        ..LimitCopy::default()
    })
}

fn members(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<MemberCopy> {
    let each = job.members.iter().zip(&plan.members).enumerate();
    each.map(|(nth, (member, note))| MemberCopy {
        name: member_name(pen, job, nth),
        grade: member.steel.grade().map(|grade| grade.id.clone()),
        family: note.family.id().to_owned(),
        cet: note.chemistry.cet(),
        chromium_pct: note.chemistry.composition.get(Element::Cr),
        thickness_mm: member.thickness_mm,
        round: member.round,
    })
    .collect()
}

fn steps(plan: &Plan, report: &Report) -> Vec<StepCopy> {
    let each = plan.sequence.numbered().zip(&report.steps);
    each.map(|((number, branch, step), row)| StepCopy {
        number: u32::try_from(number).unwrap_or(u32::MAX),
        branch: branch.map_or_else(String::new, |branch: Branch| branch.id().to_owned()),
        head: row.head.clone(),
        phase: step.phase().id().to_owned(),
        deed: step.deed.id().to_owned(),
        what: row.what.clone(),
        figure: row.figure.clone(),
        notes: row.notes.iter().cloned().chain(row.cycle.iter().map(|line| line.text.clone())).collect(),
    })
    .collect()
}

fn line(from: &ToDoLine) -> LineCopy {
    LineCopy { label: from.label.clone(), value: from.value.clone(), note: from.note.clone() }
}

fn caution(from: &CautionLine) -> CautionCopy {
    CautionCopy {
        word: from.word.clone(),
        title: from.title.clone(),
        trigger: from.trigger.clone(),
        why: from.why.clone(),
        do_this: from.do_this.clone(),
    }
}

fn turn(turned: &Turned) -> TurnCopy {
    let Turned { turn, at_c, low_c, high_c, .. } = *turned;
    TurnCopy { id: turn.id().to_owned(), at_c, low_c, high_c }
}

/// What a piece takes of filler, where the length of its weld is known: round a pin.
fn needs(pen: &Pen<'_>, weld: &JobWeld<'_>) -> Vec<Need> {
    let of = |run: &RunOfJob<'_>| {
        let kg = run.amount.iter().find(|outcome| outcome.name == "amount-filler")?.value?;
        let id = run.process.id();
        let process = pen.words.get(&format!("process-{id}"));
        let filler = run.fillers.lead().map(|lead| lead.filler.classification.clone());
        Some(Need {
            id: format!("filler-{id}"),
            label: filler.map_or_else(
                || process.clone(),
                |filler| pen.words.with("log-need-filler", &[("filler", &filler), ("process", &process)]),
            ),
            per_piece: (kg * 1000.0).ceil() / 1000.0,
            unit: "kg".to_owned(),
        })
    };
    weld.runs.iter().filter_map(of).collect()
}

/// A limit as one line: in the reader's unit, with the other one behind it.
#[must_use]
pub fn limit_line(pen: &Pen<'_>, plan: &PlanCopy, limit: &LimitCopy) -> String {
    let (mut main, mut second) = (limit.text.clone(), limit.second.clone());
    if second.is_empty() {
        return main;
    }
    if pen.show.units.temperature != plan.units.temperature {
        std::mem::swap(&mut main, &mut second);
    }
    in_both(pen, &Both { main, second })
}

/// The plan of a job as it is typed, with the heat cycle that is typed for it, as a log keeps it. It takes
/// the seconds that the cycle takes.
///
/// # Errors
/// Every field that can't be used.
pub fn copy_of_job(
    reference: &Reference,
    words: &Words,
    text: &JobText,
    pairs: &[(String, String)],
    typed: CopyTyped<'_>,
) -> Result<PlanCopy, Vec<FieldProblem>> {
    let reading = Reading { reference, own_steels: typed.own_steels, units: typed.units, mark: typed.mark };
    let mut read = read_job(text, &reading)?;
    if typed.units_stated {
        read.units = typed.units;
    }
    let plan = plan::plan(reference, &read.job);
    let pen = Pen { reference, words, show: Show::new(read.units, words) };
    let limits = tint_limits(&pen, Some(&plan)).held;
    let written = text.with_units_written(read.units);
    let says = PlanSays { read: &read, plan: &plan, limits, typed: &written, flame_min: None };
    let on = &mut |_, _| ControlFlow::Continue(());
    let cycle =
        cycle_of_plan(pairs, &says, &Reading { units: read.units, ..reading }).and_then(|mut flames| {
            flames.cycle.keep = Keep::Curves;
            // What is kept is what a person reads: a preliminary figure would stay one.
            flames.cycle.fineness = Fineness::Fine;
            let found = flames.run(reference, on).map_err(NoCycle::Refused)?;
            let falls = flames.falls(reference, &found, on).ok();
            Ok((flames, found, falls))
        });
    let (told, falls) = match &cycle {
        Ok((flames, found, falls)) => (CycleTold::Known(flames, found), falls.clone()),
        Err(why) => (CycleTold::None(why), None),
    };
    let copy = plan_copy(&pen, text, &read, &plan, told, falls);
    Ok(PlanCopy { cycle_typed: pairs.to_vec(), ..copy })
}

/// What a job is typed with.
#[derive(Debug, Clone, Copy, Default)]
pub struct CopyTyped<'a> {
    /// Units of bare numbers, where the job does not state its own.
    pub units: Units,
    /// Are these units those of the answer, whatever the job states?
    pub units_stated: bool,
    /// The decimal mark that it is typed with.
    pub mark: Mark,
    /// Steels of the reader's own.
    pub own_steels: &'a [OwnSteel],
}
