//! Everything about one figure: formula, this job's inputs, range, source.

use super::evidence::{name, number, symbol};
use super::figure::{BasisMark, Figure, basis_mark, maximum, minimum, source_line};
use super::{Pen, member_name};
use crate::engine::RangeCheck;
use crate::engine::evidence::method_b;
use crate::engine::job::Job;
use crate::engine::plan::{Ceiling, Evidence, Limit, Plan, Says, Standing};
use crate::reference::Basis;
use crate::units::TemperatureUnit;

/// How an input lies in a method's range.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RangeVerdict {
    /// Inside.
    Inside,
    /// Put at the limit.
    AtLimit,
    /// No limit is stated.
    NotStated,
}

/// One input against its range; positions run from 0 to 1 along a gauge.
#[derive(Debug, Clone, PartialEq)]
pub struct RangeLine {
    /// The input.
    pub name: String,
    /// Its value in this job.
    pub value: String,
    /// Its limits in words.
    pub limits: String,
    /// Where the lower limit stands; below 0 there is none.
    pub from: f64,
    /// Where the upper limit stands; below 0 there is none.
    pub to: f64,
    /// Where the value stands.
    pub at: f64,
    /// How it lies.
    pub verdict: RangeVerdict,
    /// The same in a word.
    pub word: String,
}

/// A step of the calculation.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepLine {
    /// What is worked out.
    pub text: String,
    /// Its value.
    pub value: String,
}

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
        "minimum" => {
            let governing = plan.evidence.iter().find(|item| item.standing == Standing::Governs)?;
            Some(of_evidence(pen, job, plan, governing, true))
        }
        "maximum" => plan.interpass.as_ref().map(|limit| of_limit(pen, job, limit, "answer-maximum")),
        "ceiling" => match &plan.ceiling {
            Ceiling::At(limit) => Some(of_limit(pen, job, limit, "answer-ceiling")),
            Ceiling::AskTemper { .. } => Some(in_words(pen, "answer-ask-temper", "action-ask-temper.why")),
            Ceiling::BelowTransformation => Some(in_words(pen, "answer-no-ceiling", "answer-no-ceiling.why")),
        },
        _ => {
            let index: usize = id.strip_prefix("evidence-")?.parse().ok()?;
            plan.evidence.get(index).map(|item| of_evidence(pen, job, plan, item, false))
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
        value: pen.show.temperature(limit.exact_c).main,
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

fn of_evidence(pen: &Pen<'_>, job: &Job, plan: &Plan, item: &Evidence, headline: bool) -> BasisSheet {
    let basis = basis_mark(pen, &item.basis);
    let label = name(pen, item);
    let both = match item.says {
        Says::Figure(value_c) | Says::Span { low_c: value_c, .. } => minimum(pen, value_c, item.printed),
        _ => crate::units::Both { main: said(pen, item.says), second: String::new() },
    };
    let formula_key = format!("formula-{}", item.id);
    let mut steps = steps(pen, job, plan, item);
    if let Says::Span { high_c, .. } = item.says {
        steps.push(StepLine {
            text: pen.words.get("sheet-span-end"),
            value: pen.show.temperature(high_c).main,
        });
    }
    let mut paragraphs = vec![source_paragraph(pen, &item.basis)];
    if let Some(method) = pen.reference.methods.get(item.id)
        && let Some(limits_basis) = &method.limits_basis
    {
        paragraphs.push((pen.words.get("sheet-range-source"), source_line(pen, limits_basis)));
    }
    let why = format!("evidence-why-{}", item.id);
    if pen.words.has(&why) {
        paragraphs.push((pen.words.get("sheet-not-known"), pen.words.get(&why)));
    }
    if matches!(item.says, Says::Figure(_)) {
        paragraphs.push(rounding(pen, "sheet-rounding-up"));
    }
    BasisSheet {
        figure: Figure::new("evidence", label.clone(), both, basis.clone()),
        label: if headline { pen.words.get("answer-minimum") } else { label },
        standing: Some(item.standing),
        sentence: sentence(pen, item),
        formula: lines_of(pen, &formula_key),
        steps,
        ranges: item.range.iter().filter_map(|check| range_line(pen, check)).collect(),
        paragraphs,
        basis,
    }
}

fn said(pen: &Pen<'_>, says: Says) -> String {
    pen.words.get(match says {
        Says::Clears => "evidence-says-clears",
        Says::DoesNotClear => "evidence-says-does-not-clear",
        _ => "evidence-says-nothing",
    })
}

fn sentence(pen: &Pen<'_>, item: &Evidence) -> String {
    let method = name(pen, item);
    let key = match (item.standing, item.at_limit) {
        (Standing::Governs, false) => "answer-governs",
        (Standing::Governs, true) => "answer-governs-at-limit",
        (Standing::AtLimit, _) => "sheet-at-limit",
        (Standing::InRange, _) => "sheet-in-range",
        (Standing::ShownOnly, _) => "sheet-shown-only",
    };
    pen.words.with(key, &[("method", &method)])
}

/// The four parts of Method B, each at the figure that counted; with what restraint adds they
/// are the exact figure.
fn method_b_parts(pen: &Pen<'_>, item: &Evidence) -> Vec<StepLine> {
    let held = |symbol: &str| {
        let check = item.range.iter().find(|check| check.symbol == symbol)?;
        let value = check.value.max(check.low.unwrap_or(check.value));
        Some(value.min(check.high.unwrap_or(value)))
    };
    let (Some(cet), Some(d_mm), Some(hd_ml), Some(q)) = (held("CET held"), held("d"), held("HD"), held("Q"))
    else {
        return Vec::new();
    };
    let part = |key: &str, symbol: &str, value: f64, rise_k: f64| StepLine {
        text: pen.words.with(key, &[("value", &number(pen, symbol, value))]),
        value: pen.show.difference(rise_k).main,
    };
    let mut made = vec![
        part("sheet-part-cet", "CET", cet, method_b::cet_part_k(cet)),
        part("sheet-part-thickness", "d", d_mm, method_b::thickness_part_k(d_mm)),
        part("sheet-part-hydrogen", "HD", hd_ml, method_b::hydrogen_part_k(hd_ml)),
        part("sheet-part-heat", "Q", q, method_b::heat_part_k(cet, q)),
    ];
    if pen.show.units.temperature == TemperatureUnit::F {
        let value = pen.show.with_unit(32.0, 0, "°F");
        made.push(StepLine { text: pen.words.get("sheet-part-zero"), value });
    }
    made
}

/// This job's numbers: derived values, the exact figure, the raw one, the printed one.
fn steps(pen: &Pen<'_>, job: &Job, plan: &Plan, item: &Evidence) -> Vec<StepLine> {
    let mut made = Vec::new();
    if let Some(member) = item.member.filter(|_| job.members.len() > 1) {
        made.push(StepLine { text: pen.words.get("sheet-member"), value: member_name(pen, job, member) });
    }
    if let Some(row) = &item.row {
        let row = pen.reference.grades.get(row).map_or(row.clone(), |grade| grade.designation.clone());
        made.push(StepLine { text: pen.words.get("sheet-row"), value: row });
    }
    let derived = |check: &&RangeCheck| matches!(check.symbol, "printed" | "dH" | "line" | "credit");
    for check in item.range.iter().filter(derived) {
        made.push(StepLine {
            text: symbol(pen, check.symbol),
            value: number(pen, check.symbol, check.value),
        });
    }
    if item.id == "table-c1" {
        made.push(StepLine {
            text: pen.words.get("sheet-combined"),
            value: pen.show.length(plan.combined_mm).main,
        });
    }
    if item.id == "method-b" {
        made.extend(method_b_parts(pen, item));
    }
    if item.id == "method-b" && job.restraint == crate::reference::Restraint::High {
        made.push(StepLine {
            text: pen.words.get("sheet-restraint"),
            value: pen.show.difference(crate::engine::evidence::heat_affected::HIGH_RESTRAINT_K).main,
        });
    }
    if let Some(printed) = item.printed {
        let both =
            [printed.f.map(|f| format!("{f:.0}\u{a0}°F")), printed.c.map(|c| format!("{c:.0}\u{a0}°C"))];
        let text = both.into_iter().flatten().collect::<Vec<_>>().join(" / ");
        made.push(StepLine { text: pen.words.get("sheet-printed"), value: text });
    }
    if let Says::Figure(value_c) = item.says {
        made.push(StepLine { text: pen.words.get("sheet-exact"), value: pen.show.temperature(value_c).main });
    }
    if let Some(raw_c) = item.raw_c {
        made.push(StepLine { text: pen.words.get("sheet-raw"), value: pen.show.temperature(raw_c).main });
    }
    made
}

pub(super) fn lines_of(pen: &Pen<'_>, key: &str) -> Vec<String> {
    if pen.words.has(key) { pen.words.get(key).lines().map(str::to_owned).collect() } else { Vec::new() }
}

pub(super) fn source_paragraph(pen: &Pen<'_>, basis: &Basis) -> (String, String) {
    let mut text = source_line(pen, basis);
    if let Basis::Published { source, .. } = basis
        && let Some(note) = pen.reference.sources.get(source).and_then(|row| row.note.as_deref())
    {
        text.push(' ');
        text.push_str(note);
    }
    (pen.words.get("sheet-source"), text)
}

fn rounding(pen: &Pen<'_>, key: &str) -> (String, String) {
    (pen.words.get("sheet-rounding"), pen.words.get(key))
}

/// A check as a gauge; what is only a step is no input.
pub(super) fn range_line(pen: &Pen<'_>, check: &RangeCheck) -> Option<RangeLine> {
    if matches!(check.symbol, "printed" | "dH" | "line" | "credit" | "CET held") {
        return None;
    }
    let show = |value: f64| number(pen, check.symbol, value);
    let limits = match (check.low, check.high) {
        (Some(low), Some(high)) => {
            format!("{}–{}", show(low).split('\u{a0}').next().unwrap_or_default(), show(high))
        }
        (None, Some(high)) => format!("≤\u{a0}{}", show(high)),
        (Some(low), None) => format!("≥\u{a0}{}", show(low)),
        (None, None) => pen.words.get("sheet-no-limit"),
    };
    let verdict = match (check.low.or(check.high), check.inside()) {
        (None, _) => RangeVerdict::NotStated,
        (Some(_), true) => RangeVerdict::Inside,
        (Some(_), false) => RangeVerdict::AtLimit,
    };
    let word = pen.words.get(match verdict {
        RangeVerdict::Inside => "range-inside",
        RangeVerdict::AtLimit => "range-at-limit",
        RangeVerdict::NotStated => "range-not-stated",
    });
    let (from, to, at) = positions(check);
    Some(RangeLine {
        name: symbol(pen, check.symbol),
        value: show(check.value),
        limits,
        from,
        to,
        at,
        verdict,
        word,
    })
}

/// Where limits and value stand on a gauge from 0 to 1: limits at 0.15 and 0.85.
fn positions(check: &RangeCheck) -> (f64, f64, f64) {
    const LOW: f64 = 0.15;
    const HIGH: f64 = 0.85;
    let (low, high) = match (check.low, check.high) {
        (Some(low), Some(high)) => (low, high),
        (None, Some(high)) => (0.0, high),
        (Some(low), None) => (low, low * 2.0 + 1.0),
        (None, None) => return (-1.0, -1.0, 0.5),
    };
    let span = (high - low).max(1e-9);
    let at = ((check.value - low) / span).mul_add(HIGH - LOW, LOW).clamp(0.03, 0.97);
    (check.low.map_or(-1.0, |_| LOW), check.high.map_or(-1.0, |_| HIGH), at)
}
