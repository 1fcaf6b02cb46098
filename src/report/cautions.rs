//! Cautions in words.

use super::Pen;
use super::figure::{BasisMark, basis_mark, source_line};
use crate::engine::plan::Plan;
use crate::reference::{Caution, Severity};
use crate::words::List;

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
    /// Only good to know, in every job of this kind.
    pub of_every_job: bool,
}

/// The cautions of a job: its own, worst first, then those of every such job.
#[must_use]
pub fn caution_lines(pen: &Pen<'_>, plan: &Plan) -> Vec<CautionLine> {
    plan.cautions
        .iter()
        .map(|raised| CautionLine {
            of_every_job: raised.of_every_job(),
            ..caution_line(pen, &pen.reference.cautions.rows()[raised.place])
        })
        .collect()
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

/// All that a caution rests on: its source, further ones, and what of it is from memory.
fn sources(pen: &Pen<'_>, caution: &Caution) -> String {
    let mut made = vec![source_line(pen, &caution.basis)];
    let further: Vec<&str> = caution
        .see
        .iter()
        .map(|id| pen.reference.sources.get(id.as_str()).map_or(id.as_str(), |source| source.title.as_str()))
        .collect();
    if !further.is_empty() {
        made.push(pen.words.with("caution-see", &[("sources", &pen.words.list(List::Semicolon, &further))]));
    }
    if caution.memory_part {
        let part = pen.words.get(&format!("{}.memory", caution.message()));
        made.push(pen.words.with("caution-from-memory", &[("part", &part)]));
    }
    pen.words.list(List::Sentences, &made)
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
        trigger: pen.words.with("caution-when", &[("trigger", &part("trigger"))]),
        why: part("why"),
        do_this: part("do"),
        source: sources(pen, caution),
        basis: basis_mark(pen, &caution.basis),
        of_every_job: false,
    }
}
