//! The evidence in words: a group for each member's heat-affected zone, one for the
//! weld metal, one for everything else that asks for a minimum.

use super::figure::{BasisMark, basis_mark, minimum, range};
use super::outcome::first_outside;
use super::{Pen, distinct_members, member_name};
use crate::engine::Says;
use crate::engine::evidence::low_hydrogen_rows::STRETCHED;
use crate::engine::evidence::{Evidence, Obligation, Standing, piping_row, thin_tube};
use crate::engine::job::Job;
use crate::engine::plan::Plan;
use crate::reference::Method;

/// One line of evidence.
#[derive(Debug, Clone, PartialEq)]
pub struct EvidenceLine {
    /// What is asked for its basis: `evidence-INDEX`.
    pub id: String,
    /// The method, with its row.
    pub name: String,
    /// The figure, or what it says in words.
    pub figure: String,
    /// How it stands.
    pub standing: Standing,
    /// Does it read "at least"?
    pub at_limit: bool,
    /// The bar: from, °C.
    pub from_c: f64,
    /// The bar: to, °C.
    pub to_c: f64,
    /// The raw figure beyond its range, °C.
    pub raw_c: Option<f64>,
    /// Why it stands so.
    pub note: String,
    /// What it rests on.
    pub basis: BasisMark,
}

/// Evidence that belongs together.
#[derive(Debug, Clone, PartialEq)]
pub struct EvidenceGroup {
    /// Stable id: `member-0`, `weld-metal`, `demands`.
    pub id: String,
    /// Heading.
    pub title: String,
    /// What the group comes to, in one line.
    pub result: String,
    /// Its lines, governing first.
    pub lines: Vec<EvidenceLine>,
}

fn category(item: &Evidence) -> bool {
    item.outcome.method == Method::D11Category
}

/// The evidence of a plan, grouped.
#[must_use]
pub fn evidence_groups(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<EvidenceGroup> {
    let mut groups = Vec::new();
    for index in distinct_members(job) {
        let own = |item: &Evidence| {
            item.member == Some(index)
                && (item.obligation == Obligation::HeatAffectedZone
                    || (item.obligation == Obligation::Code && category(item)))
        };
        let result = plan.members.get(index).map_or_else(String::new, |member| match member.exact_c {
            Some(c) if c > 0.0 => {
                let figure = minimum(pen, c, member.printed).main;
                pen.words.with("evidence-member-asks", &[("figure", &figure)])
            }
            Some(_) => pen.words.get("evidence-member-clear"),
            None => String::new(),
        });
        push(pen, &mut groups, plan, &format!("member-{index}"), &member_name(pen, job, index), result, own);
    }
    let weld = pen.words.get("evidence-weld-metal");
    push(pen, &mut groups, plan, "weld-metal", &weld, String::new(), |item| {
        item.obligation == Obligation::WeldMetal
    });
    let demands = pen.words.get("evidence-demands");
    push(pen, &mut groups, plan, "demands", &demands, String::new(), |item| {
        matches!(item.obligation, Obligation::DryAndWarm | Obligation::Demanded)
            || (item.obligation == Obligation::Code && !category(item))
    });
    groups
}

fn push(
    pen: &Pen<'_>,
    groups: &mut Vec<EvidenceGroup>,
    plan: &Plan,
    id: &str,
    title: &str,
    result: String,
    belongs: impl Fn(&Evidence) -> bool,
) {
    let mut lines: Vec<EvidenceLine> = Vec::new();
    for (index, item) in plan.evidence.iter().enumerate().filter(|(_, item)| belongs(item)) {
        let line = line(pen, index, item);
        // The category row can speak twice: for the zone and for the code.
        if lines.iter().all(|known| known.name != line.name || known.figure != line.figure) {
            lines.push(line);
        }
    }
    if lines.is_empty() {
        return;
    }
    lines.sort_by(|a, b| {
        rank(a.standing).cmp(&rank(b.standing)).then(b.to_c.total_cmp(&a.to_c)).then(a.name.cmp(&b.name))
    });
    groups.push(EvidenceGroup { id: id.to_owned(), title: title.to_owned(), result, lines });
}

const fn rank(standing: Standing) -> u8 {
    match standing {
        Standing::Governs => 0,
        Standing::InRange | Standing::AtLimit => 1,
        Standing::ShownOnly => 2,
    }
}

/// The name of a piece of evidence: its method, and the row that answered.
#[must_use]
pub(super) fn name(pen: &Pen<'_>, item: &Evidence) -> String {
    if item.outcome.name == thin_tube::OTHERS {
        return pen.words.get("evidence-thin-tube-others");
    }
    let row = item.outcome.row.as_deref().unwrap_or_default();
    let title = pen
        .reference
        .grades
        .get(row)
        .map_or_else(|| words_of_row(pen, row), |grade| grade.designation.clone());
    let method = item.outcome.method.id();
    let mut key = format!("evidence-{method}");
    if item.obligation == Obligation::WeldMetal {
        key.push_str("-weld");
    } else if item.outcome.name == STRETCHED {
        key.push_str("-stretched");
    } else if item.outcome.name == piping_row::EARLIER {
        key.push_str("-2010");
    }
    pen.words.with(&key, &[("row", &title)])
}

/// The message that says which method governs: the end of a range is “at least” or on the safe side.
#[must_use]
pub(super) fn governs_key(item: &Evidence) -> &'static str {
    match (item.outcome.at_least, item.outcome.at_limit()) {
        (true, _) => "answer-governs-at-limit",
        (false, true) => "answer-governs-held",
        (false, false) => "answer-governs",
    }
}

fn words_of_row(pen: &Pen<'_>, row: &str) -> String {
    for prefix in ["sheet", "iron"] {
        let key = format!("{prefix}-{row}");
        if pen.words.has(&key) {
            return pen.words.get(&key);
        }
    }
    row.to_owned()
}

fn line(pen: &Pen<'_>, index: usize, item: &Evidence) -> EvidenceLine {
    let outcome = &item.outcome;
    let to_c = item.value_c().unwrap_or(0.0);
    let (figure, from_c, to_c) = match (outcome.says, outcome.low, outcome.high) {
        (Says::Span, Some(low_c), Some(high_c)) => {
            let high = pen.show.temperature(high_c).main;
            let low = pen.show.temperature(low_c).main;
            (range(pen, &low, &high), low_c, high_c)
        }
        (Says::Figure, ..) => (minimum(pen, to_c, outcome.printed).main, 0.0, to_c),
        (says, ..) => (said(pen, says), 0.0, 0.0),
    };
    EvidenceLine {
        id: format!("evidence-{index}"),
        name: name(pen, item),
        figure,
        standing: item.standing,
        at_limit: outcome.at_least,
        from_c,
        to_c,
        raw_c: outcome.raw.filter(|raw_c| *raw_c > to_c + 0.5),
        note: note(pen, item),
        basis: basis_mark(pen, outcome.basis(&pen.reference.methods)),
    }
}

/// What evidence says that has no figure.
#[must_use]
pub(super) fn said(pen: &Pen<'_>, says: Says) -> String {
    pen.words.get(match says {
        Says::Clears => "evidence-says-clears",
        Says::DoesNotClear => "evidence-says-does-not-clear",
        Says::Figure | Says::Span | Says::NoFigure => "evidence-says-nothing",
    })
}

/// Why a piece of evidence stands as it does.
fn note(pen: &Pen<'_>, item: &Evidence) -> String {
    let outcome = &item.outcome;
    if item.standing == Standing::ShownOnly {
        return shown_why(pen, item);
    }
    if outcome.method == Method::TableC1 {
        return table_c1_note(pen, item);
    }
    let Some((input, [symbol, value, limit])) = first_outside(pen, outcome) else {
        let by_sheet = matches!(outcome.method, Method::OwnSheet | Method::PipingRow);
        return pen.words.get(match (outcome.at_least, by_sheet) {
            (true, true) => "evidence-at-limit-sheet",
            (true, false) => "evidence-at-limit-open",
            (false, _) => "evidence-in-range",
        });
    };
    let key = match (outcome.at_least, input.was_held()) {
        (true, _) => "evidence-at-limit",
        (false, true) => "evidence-held",
        (false, false) => "evidence-outside",
    };
    pen.words.with(key, &[("symbol", &symbol), ("value", &value), ("limit", &limit)])
}

/// The table puts nothing at a limit: it clears up to a combined thickness, or it ends.
fn table_c1_note(pen: &Pen<'_>, item: &Evidence) -> String {
    let outcome = &item.outcome;
    match (first_outside(pen, outcome), outcome.value) {
        (Some((_, [symbol, value, limit])), _) => {
            pen.words.with("evidence-c1-ends", &[("symbol", &symbol), ("value", &value), ("limit", &limit)])
        }
        (_, Some(most_mm)) => pen.words.with("evidence-c1-up-to", &[("most", &pen.show.size(most_mm).main)]),
        _ => pen.words.get("evidence-why-table-c1"),
    }
}

fn shown_why(pen: &Pen<'_>, item: &Evidence) -> String {
    let row = item.outcome.row.as_deref().unwrap_or_default();
    let cracked = |known: &crate::reference::LowHydrogenRow| known.grade == row && known.cracked.is_some();
    if item.outcome.method == Method::PracticeLowH
        && pen.reference.practice.low_hydrogen.rows.iter().any(cracked)
    {
        return pen.words.get("note-row-shown-only");
    }
    if item.outcome.name == thin_tube::OTHERS {
        return pen.words.get("evidence-why-thin-tube-others");
    }
    let key = format!("evidence-why-{}", item.outcome.method.id());
    if pen.words.has(&key) { pen.words.get(&key) } else { pen.words.get("evidence-shown-only") }
}
