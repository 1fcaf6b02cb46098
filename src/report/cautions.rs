//! Cautions in words.

use super::Pen;
use super::figure::{BasisMark, basis_mark, source_line};
use crate::engine::job::Job;
use crate::engine::plan::{Plan, cautions};
use crate::reference::{Caution, Severity};

/// One caution.
#[derive(Debug, Clone, PartialEq)]
pub struct CautionLine {
    /// Stable id.
    pub id: String,
    /// How bad.
    pub severity: Severity,
    /// How bad, in words.
    pub word: String,
    /// Title.
    pub title: String,
    /// When it bites.
    pub trigger: String,
    /// What can happen.
    pub why: String,
    /// What to do.
    pub do_this: String,
    /// Source.
    pub source: String,
    /// What it rests on.
    pub basis: BasisMark,
}

/// The cautions of a job, worst first.
#[must_use]
pub fn caution_lines(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<CautionLine> {
    cautions(pen.reference, job, plan).into_iter().map(|raised| caution_line(pen, raised.caution)).collect()
}

/// The stable id of a severity.
#[must_use]
pub(super) const fn severity_id(severity: Severity) -> &'static str {
    match severity {
        Severity::Critical => "critical",
        Severity::High => "high",
        Severity::Medium => "medium",
        Severity::Low => "low",
    }
}

/// One caution in words.
#[must_use]
pub fn caution_line(pen: &Pen<'_>, caution: &Caution) -> CautionLine {
    let message = caution.message();
    let part = |attribute: &str| pen.words.get(&format!("{message}.{attribute}"));
    CautionLine {
        id: caution.id.clone(),
        severity: caution.severity,
        word: pen.words.get(&format!("severity-{}", severity_id(caution.severity))),
        title: pen.words.get(&message),
        trigger: part("trigger"),
        why: part("why"),
        do_this: part("do"),
        source: source_line(pen, &caution.basis),
        basis: basis_mark(pen, &caution.basis),
    }
}
