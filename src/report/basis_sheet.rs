//! Everything about one figure: formula, this job's inputs, range, source.

use super::evidence::{governs_key, name, said};
use super::figure::{BasisMark, Figure, basis_mark, maximum, minimum, source_line};
use super::outcome::{RangeLine, StepLine, range_lines, step_lines};
use super::{Pen, member_name};
use crate::engine::evidence::{Evidence, Standing};
use crate::engine::job::Job;
use crate::engine::plan::{Ceiling, Limit, Plan};
use crate::engine::{Outcome, Says};
use crate::reference::{Basis, Method};
use crate::units::TemperatureUnit;
use crate::words::List;

/// A basis sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct BasisSheet {
    /// What it is about.
    pub label: String,
    /// The figure itself.
    pub figure: Figure,
    /// How it stands.
    pub standing: Option<Standing>,
    /// One sentence on it.
    pub sentence: String,
    /// The formula, line by line.
    pub formula: Vec<String>,
    /// This job's numbers.
    pub steps: Vec<StepLine>,
    /// Inputs against the range.
    pub ranges: Vec<RangeLine>,
    /// Headed paragraphs: source, how seen, what it does not know.
    pub paragraphs: Vec<(String, String)>,
    /// What it rests on.
    pub basis: BasisMark,
}

/// The sheet of a figure: `minimum`, `maximum`, `ceiling` or `evidence-INDEX`.
#[must_use]
pub fn basis_sheet(pen: &Pen<'_>, job: &Job, plan: &Plan, id: &str) -> Option<BasisSheet> {
    match id {
        "minimum" => plan.governing().map(|item| of_evidence(pen, job, item, true)),
        "maximum" => plan.interpass.as_ref().map(|limit| of_limit(pen, job, limit, "answer-maximum")),
        "ceiling" => match &plan.ceiling {
            Ceiling::At(limit) => Some(of_limit(pen, job, limit, "answer-ceiling")),
            Ceiling::AskTemper { .. } => Some(in_words(pen, "answer-ask-temper", "then-find-temper.why")),
            Ceiling::BelowTransformation => Some(in_words(pen, "answer-no-ceiling", "answer-no-ceiling.why")),
        },
        _ => {
            let index: usize = id.strip_prefix("evidence-")?.parse().ok()?;
            plan.evidence.get(index).map(|item| of_evidence(pen, job, item, false))
        }
    }
}

fn in_words(pen: &Pen<'_>, title: &str, why: &str) -> BasisSheet {
    let basis = basis_mark(pen, &Basis::Practice);
    let label = pen.words.get("answer-ceiling");
    BasisSheet {
        figure: Figure::in_words(
            "ceiling",
            label.clone(),
            pen.words.get(title),
            String::new(),
            basis.clone(),
        ),
        label,
        standing: None,
        sentence: pen.words.get(why),
        formula: Vec::new(),
        steps: Vec::new(),
        ranges: Vec::new(),
        paragraphs: vec![source_paragraph(pen, &Basis::Practice)],
        basis,
    }
}

fn of_limit(pen: &Pen<'_>, job: &Job, limit: &Limit, label: &str) -> BasisSheet {
    let basis = basis_mark(pen, &limit.basis);
    let label = pen.words.get(label);
    let mut steps = Vec::new();
    if let Some(member) = limit.member {
        steps.push(StepLine { text: pen.words.get("sheet-set-by"), value: member_name(pen, job, member) });
    }
    steps.push(StepLine {
        text: pen.words.get("sheet-exact"),
        value: pen.show.exact_temperature(limit.exact_c),
    });
    let key = format!("limit-{}", limit.by);
    BasisSheet {
        figure: Figure::new(
            "limit",
            label.clone(),
            maximum(pen, limit.exact_c, limit.printed),
            basis.clone(),
        ),
        label,
        standing: None,
        sentence: pen.words.get(&format!("{key}.why")),
        formula: lines_of(pen, &format!("{key}.formula")),
        steps,
        ranges: Vec::new(),
        paragraphs: vec![source_paragraph(pen, &limit.basis), rounding(pen, "sheet-rounding-down")],
        basis,
    }
}

fn of_evidence(pen: &Pen<'_>, job: &Job, item: &Evidence, headline: bool) -> BasisSheet {
    let outcome = &item.outcome;
    let rests_on = outcome.basis(&pen.reference.methods);
    let basis = basis_mark(pen, rests_on);
    let label = name(pen, item);
    let figured = matches!(outcome.says, Says::Figure | Says::Span);
    let both = match item.value_c().filter(|_| figured) {
        Some(value_c) => minimum(pen, value_c, outcome.printed),
        None => crate::units::Both { main: said(pen, outcome.says), second: String::new() },
    };
    let row = pen.reference.methods.row(outcome.method);
    let mut paragraphs = vec![source_paragraph(pen, rests_on)];
    if let Some(limits_basis) = &row.limits_basis {
        paragraphs.push((pen.words.get("sheet-range-source"), source_line(pen, limits_basis)));
    }
    let why = format!("evidence-why-{}", row.id);
    if pen.words.has(&why) {
        paragraphs.push((pen.words.get("sheet-not-known"), pen.words.get(&why)));
    }
    if outcome.says == Says::Figure {
        paragraphs.push(rounding(pen, "sheet-rounding-up"));
    }
    BasisSheet {
        figure: Figure::new("evidence", label.clone(), both, basis.clone()),
        label: if headline { pen.words.get("answer-minimum") } else { label },
        // At its limit is how it stands, whatever it governs.
        standing: Some(match Standing::of(outcome) {
            Standing::AtLimit if item.standing != Standing::ShownOnly => Standing::AtLimit,
            _ => item.standing,
        }),
        sentence: sentence(pen, item),
        formula: lines_of(pen, &format!("formula-{}", row.id)),
        steps: steps(pen, job, item),
        ranges: range_lines(pen, outcome),
        paragraphs,
        basis,
    }
}

fn sentence(pen: &Pen<'_>, item: &Evidence) -> String {
    let method = name(pen, item);
    let key = match item.standing {
        Standing::Governs => governs_key(item),
        Standing::AtLimit => "sheet-at-limit",
        Standing::InRange => "sheet-in-range",
        Standing::ShownOnly => "sheet-shown-only",
    };
    pen.words.with(key, &[("method", &method)])
}

/// This job's numbers: derived values, the exact figure, the raw one, the printed one.
fn steps(pen: &Pen<'_>, job: &Job, item: &Evidence) -> Vec<StepLine> {
    let outcome = &item.outcome;
    let line = |key: &str, value: String| StepLine { text: pen.words.get(key), value };
    let degrees = |point_c: f64| pen.show.temperature(point_c).main;
    let mut made = Vec::new();
    if let Some(member) = item.member.filter(|_| job.members.len() > 1) {
        made.push(line("sheet-member", member_name(pen, job, member)));
    }
    if let Some(row) = &outcome.row {
        let row = pen.reference.grades.get(row).map_or(row.clone(), |grade| grade.designation.clone());
        made.push(line("sheet-row", row));
    }
    made.extend(step_lines(pen, outcome));
    if matches!(outcome.method, Method::MethodB | Method::CoolOrDamp)
        && pen.show.units.temperature == TemperatureUnit::F
    {
        // The parts are differences: they begin to count at 32 °F.
        made.push(line("sheet-part-zero", pen.show.with_unit(TemperatureUnit::F.from_c(0.0), 0, "°F")));
    }
    if let Some(printed) = outcome.printed {
        let both = [
            printed.f.map(|f| pen.show.with_unit(f, 0, "°F")),
            printed.c.map(|c| pen.show.with_unit(c, 0, "°C")),
        ];
        let both: Vec<String> = both.into_iter().flatten().collect();
        made.push(line("sheet-printed", pen.words.list(List::Names, &both)));
    }
    match (outcome.says, item.value_c(), outcome.high) {
        (Says::Figure, Some(value_c), _) => {
            made.push(line("sheet-exact", pen.show.exact_temperature(value_c)));
        }
        (Says::Span, _, Some(high_c)) => made.push(line("sheet-span-end", degrees(high_c))),
        _ => {}
    }
    if let Some(raw_c) = outcome.raw {
        made.push(line("sheet-raw", pen.show.exact_temperature(raw_c)));
    }
    made
}

/// The sheet of an answer of a question, with the figure as it is shown.
#[must_use]
pub fn answer_sheet(pen: &Pen<'_>, outcome: &Outcome, figure: Figure) -> BasisSheet {
    let rests_on = outcome.basis(&pen.reference.methods);
    let row = pen.reference.methods.row(outcome.method);
    let mut paragraphs = vec![source_paragraph(pen, rests_on)];
    if let Some(limits_basis) = &row.limits_basis {
        paragraphs.push((pen.words.get("sheet-range-source"), source_line(pen, limits_basis)));
    }
    BasisSheet {
        label: figure.label.clone(),
        basis: figure.basis.clone(),
        figure,
        standing: None,
        sentence: String::new(),
        formula: lines_of(pen, &format!("formula-{}", row.id)),
        steps: step_lines(pen, outcome),
        ranges: range_lines(pen, outcome),
        paragraphs,
    }
}

pub(super) fn lines_of(pen: &Pen<'_>, key: &str) -> Vec<String> {
    if pen.words.has(key) { pen.words.get(key).lines().map(str::to_owned).collect() } else { Vec::new() }
}

pub(super) fn source_paragraph(pen: &Pen<'_>, basis: &Basis) -> (String, String) {
    let mut text = source_line(pen, basis);
    if let Basis::Published { source, .. } = basis
        && let Some(note) = pen.reference.sources.get(source).and_then(|row| row.note.as_deref())
    {
        text = pen.words.list(List::Sentences, &[text.as_str(), note]);
    }
    (pen.words.get("sheet-source"), text)
}

fn rounding(pen: &Pen<'_>, key: &str) -> (String, String) {
    (pen.words.get("sheet-rounding"), pen.words.get(key))
}
