//! Cautions in words.

use super::Pen;
use super::figure::{BasisMark, basis_mark, source_line};
use crate::engine::plan::Plan;
use crate::engine::safety_facts::Fact;
use crate::reference::{Caution, Severity};
use crate::words::List;

/// One caution.
#[derive(Debug, Clone, PartialEq)]
pub struct CautionLine {
    /// Stable id.
    pub id: String,
    /// How bad.
    pub severity: Severity,
    /// How bad, in words; none before a line that every job has.
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

/// What is told before work starts.
#[derive(Debug, Clone, PartialEq)]
pub struct BriefingLines {
    /// The lines of every hot job, in their fixed order.
    pub always: Vec<CautionLine>,
    /// The cautions of this job.
    pub own: Vec<CautionLine>,
    /// The titles of what else the job states, in one line; empty where all found a place.
    pub left_out: String,
    /// What was not told, in one line; empty where nothing is open.
    pub not_told: String,
}

/// The briefing of a job in words.
#[must_use]
pub fn briefing_lines(pen: &Pen<'_>, plan: &Plan) -> BriefingLines {
    let briefing = &plan.briefing;
    let row = |place: &usize| caution_line(pen, &pen.reference.cautions.rows()[*place]);
    let always = briefing.always.iter().map(|place| {
        let line = row(place);
        let untold = format!("caution-{}.untold", line.id);
        let title = if briefing.gas_untold && pen.words.has(&untold) {
            pen.words.get(&untold)
        } else {
            line.title.clone()
        };
        CautionLine { word: String::new(), title, ..line }
    });
    BriefingLines {
        always: always.collect(),
        own: briefing.own.iter().map(row).collect(),
        left_out: left_out(pen, &briefing.left_out),
        not_told: not_told(pen, &briefing.not_told),
    }
}

fn left_out(pen: &Pen<'_>, places: &[usize]) -> String {
    if places.is_empty() {
        return String::new();
    }
    let rows = pen.reference.cautions.rows();
    let titles: Vec<String> = places.iter().map(|place| pen.words.get(&rows[*place].message())).collect();
    pen.words.with("briefing-left-out", &[("titles", &pen.words.list(List::Semicolon, &titles))])
}

fn not_told(pen: &Pen<'_>, facts: &[Fact]) -> String {
    if facts.is_empty() {
        return String::new();
    }
    let names: Vec<String> = facts.iter().map(|fact| pen.words.get(fact.key())).collect();
    pen.words.with("briefing-not-told", &[("facts", &pen.words.list(List::Comma, &names))])
}

/// The stable id of a severity.
#[must_use]
const fn severity_id(severity: Severity) -> &'static str {
    match severity {
        Severity::Danger => "danger",
        Severity::Warning => "warning",
        Severity::Caution => "caution",
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
        trigger: part("trigger"),
        why: part("why"),
        do_this: part("do"),
        source: sources(pen, caution),
        basis: basis_mark(pen, &caution.basis),
    }
}
