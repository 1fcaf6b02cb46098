//! Jobs as test data.
#![allow(dead_code, reason = "each test file uses its own part")]

use serde::Deserialize;
use std::sync::Arc;
use strawblue::engine::job::{
    Code, Condition, Demands, Job, Joint, Member, Process, Restraint, Run, Steel, WeldMetal,
};
use strawblue::engine::plan::Plan;
use strawblue::engine::safety_facts::SafetyFacts;
use strawblue::reference::{Composition, ConditionKind, Reference, embedded};
use strawblue::report::{Pen, Report};
use strawblue::units::Show;
use strawblue::words::Words;

/// How the steel of a test member is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub(crate) enum Known {
    /// By grade only.
    ByGrade,
    /// By a certificate with the grade's middle composition.
    Nominal,
    /// By the certificate given.
    Cert,
}

/// A member as test data.
#[derive(Debug, Clone, Deserialize)]
pub(crate) struct MemberRow {
    pub grade: Option<String>,
    pub known: Known,
    #[serde(default)]
    pub certificate: Composition,
    pub thickness_mm: f64,
    pub condition: ConditionKind,
    pub temper_c: Option<f64>,
    pub round: bool,
    #[serde(default)]
    pub hardness_hv: Option<f64>,
    #[serde(default)]
    pub yield_mpa: Option<f64>,
}

/// A process as test data.
#[derive(Debug, Clone, Deserialize)]
pub(crate) struct RunRow {
    pub process: Process,
    pub hydrogen_ml: f64,
    pub net_heat_kj_per_mm: f64,
}

pub(crate) fn member(reference: &Reference, row: &MemberRow) -> Member {
    let grade = row
        .grade
        .as_ref()
        .map(|id| reference.grades.get(id).unwrap_or_else(|| panic!("no grade {id}")).clone());
    let steel = match (row.known, grade) {
        (Known::ByGrade, Some(grade)) => Steel::Grade(Arc::new(grade)),
        (Known::Nominal, Some(grade)) => {
            Steel::Certificate { composition: grade.nominal(), grade: Some(Arc::new(grade)) }
        }
        (_, grade) => Steel::Certificate { composition: row.certificate, grade: grade.map(Arc::new) },
    };
    Member {
        steel,
        condition: Condition { kind: row.condition, temper_c: row.temper_c },
        thickness_mm: row.thickness_mm,
        round: row.round,
        yield_mpa: row.yield_mpa,
        hardness_hv: row.hardness_hv,
        buttered: false,
    }
}

pub(crate) fn job(
    reference: &Reference,
    members: &[MemberRow],
    joint: Joint,
    runs: &[RunRow],
    restraint: Restraint,
) -> Job {
    Job {
        members: members.iter().map(|row| member(reference, row)).collect(),
        joint,
        runs: runs
            .iter()
            .map(|run| Run {
                process: run.process,
                hydrogen_ml: run.hydrogen_ml,
                net_heat_kj_per_mm: run.net_heat_kj_per_mm,
            })
            .collect(),
        restraint,
        weld: WeldMetal::default(),
        shop_c: 20.0,
        damp: false,
        code: Code::None,
        demands: Demands::default(),
        thermal_cut: false,
        repair: strawblue::engine::job::Repair::default(),
        safety: SafetyFacts::default(),
    }
}

/// All that the plan says, a line each.
pub(crate) fn said(job: &Job, plan: &Plan) -> String {
    let words = Words::english();
    let pen = Pen { reference: embedded(), words: &words, show: Show::default() };
    let report = Report::of(&pen, job, plan);
    let answer = &report.answer;
    let figures = [&answer.minimum, &answer.maximum, &answer.ceiling];
    let figures = figures
        .map(|figure| format!("{}: {} {} [{}]", figure.label, figure.figure, figure.unit, figure.note));
    let mut lines = vec![answer.title.clone(), answer.sentence.clone(), answer.note.clone()];
    lines.extend(figures);
    lines.extend(answer.lines.iter().cloned());
    lines.extend(
        answer.routes.iter().map(|route| format!("{}: {}. {}", route.title, route.figure, route.text)),
    );
    for line in report.groups.iter().flat_map(|group| &group.lines) {
        lines.push(format!("{}: {}; {}; {}", line.name, line.figure, line.standing.id(), line.note));
    }
    lines.extend(report.levers.iter().map(|lever| format!("{}: {}", lever.what, lever.result)));
    for line in report.find.iter().chain(&report.beside) {
        lines.push(format!("{}: {}. {}", line.label, line.value, line.note));
    }
    lines.extend(
        report.steps.iter().map(|step| format!("{}: {}. {}", step.what, step.figure, step.notes.join(" "))),
    );
    let briefing = &report.briefing;
    let told = briefing.always.iter().chain(&briefing.own);
    lines.extend(told.map(|line| format!("{}: {}", line.title, line.do_this)));
    lines.join("\n").replace('\u{a0}', " ")
}
