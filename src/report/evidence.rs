//! The evidence in words: a group for each member's heat-affected zone, one for the
//! weld metal, one for everything else that asks for a minimum.

use super::figure::{BasisMark, basis_mark, minimum};
use super::{Pen, distinct_members, member_name};
use crate::engine::RangeCheck;
use crate::engine::job::Job;
use crate::engine::plan::{Evidence, Obligation, Plan, Says, Standing};

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

/// The evidence of a plan, grouped.
#[must_use]
pub fn evidence_groups(pen: &Pen<'_>, job: &Job, plan: &Plan) -> Vec<EvidenceGroup> {
    let mut groups = Vec::new();
    for index in distinct_members(job) {
        let own = |item: &Evidence| {
            item.member == Some(index)
                && (item.obligation == Obligation::HeatAffectedZone
                    || (item.obligation == Obligation::Code && item.id == "d11-category"))
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
            || (item.obligation == Obligation::Code && item.id != "d11-category")
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
    let row = item.row.as_deref().unwrap_or_default();
    let stretched = row.strip_suffix('+');
    let row = stretched.unwrap_or(row);
    let title = pen
        .reference
        .grades
        .get(row)
        .map_or_else(|| words_of_row(pen, row), |grade| grade.designation.clone());
    let mut key = format!("evidence-{}", item.id);
    if item.obligation == Obligation::WeldMetal {
        key.push_str("-weld");
    } else if stretched.is_some() {
        key.push_str("-stretched");
    }
    if !pen.words.has(&key) {
        key = format!("method-{}", item.id);
    }
    pen.words.with(&key, &[("row", &title)])
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
    let (figure, from_c, to_c) = match item.says {
        Says::Figure(value_c) => (minimum(pen, value_c, item.printed).main, 0.0, value_c),
        Says::Span { low_c, high_c } => {
            let low = pen.show.temperature(low_c).main;
            let high = pen.show.temperature(high_c).main;
            let low = low.split('\u{a0}').next().unwrap_or_default().to_owned();
            (format!("{low}–{high}"), low_c, high_c)
        }
        Says::Clears => (pen.words.get("evidence-says-clears"), 0.0, 0.0),
        Says::DoesNotClear => (pen.words.get("evidence-says-does-not-clear"), 0.0, 0.0),
        Says::NoFigure => (pen.words.get("evidence-says-nothing"), 0.0, 0.0),
    };
    EvidenceLine {
        id: format!("evidence-{index}"),
        name: name(pen, item),
        figure,
        standing: item.standing,
        at_limit: item.at_limit,
        from_c,
        to_c,
        raw_c: item.raw_c.filter(|raw_c| *raw_c > to_c + 0.5),
        note: note(pen, item),
        basis: basis_mark(pen, &item.basis),
    }
}

/// Why a piece of evidence stands as it does.
fn note(pen: &Pen<'_>, item: &Evidence) -> String {
    let outside = item.range.iter().find(|check| !check.inside());
    if item.id == "table-c1" && item.standing != Standing::ShownOnly {
        return table_c1_note(pen, item, outside);
    }
    match (item.standing, outside) {
        (Standing::ShownOnly, _) => shown_why(pen, item),
        (_, Some(check)) if item.at_limit => outside_note(pen, "evidence-at-limit", check),
        (_, _) if item.at_limit => pen.words.get("evidence-at-limit-open"),
        (_, Some(check)) => outside_note(pen, "evidence-held", check),
        (_, None) => pen.words.get("evidence-in-range"),
    }
}

/// The table puts nothing at a limit: it clears up to a combined thickness, or it ends.
fn table_c1_note(pen: &Pen<'_>, item: &Evidence, outside: Option<&RangeCheck>) -> String {
    let combined = item.range.iter().find(|check| check.symbol == "combined");
    let most = combined.and_then(|check| check.high).map(|most_mm| pen.show.length(most_mm).main);
    match (outside, most) {
        (Some(check), _) if check.symbol != "combined" => outside_note(pen, "evidence-c1-ends", check),
        (_, Some(most)) => pen.words.with("evidence-c1-up-to", &[("most", &most)]),
        _ => pen.words.get("evidence-why-table-c1"),
    }
}

fn shown_why(pen: &Pen<'_>, item: &Evidence) -> String {
    let row = item.row.as_deref().unwrap_or_default();
    let cracked = |known: &crate::reference::LowHydrogenRow| known.grade == row && known.cracked.is_some();
    if item.id == "practice-low-h" && pen.reference.practice.low_hydrogen.rows.iter().any(cracked) {
        return pen.words.get("note-row-shown-only");
    }
    let key = format!("evidence-why-{}", item.id);
    if pen.words.has(&key) { pen.words.get(&key) } else { pen.words.get("evidence-shown-only") }
}

/// "C 0.41, limit 0.32 %": the input that lies outside, and its limit.
fn outside_note(pen: &Pen<'_>, key: &str, check: &RangeCheck) -> String {
    let limit = match (check.low, check.high) {
        (Some(low), _) if check.value < low => low,
        (_, Some(high)) => high,
        _ => return pen.words.get("evidence-in-range"),
    };
    pen.words.with(
        key,
        &[
            ("symbol", &symbol(pen, check.symbol)),
            ("value", &number(pen, check.symbol, check.value)),
            ("limit", &number(pen, check.symbol, limit)),
        ],
    )
}

/// A symbol as people read it.
#[must_use]
pub(super) fn symbol(pen: &Pen<'_>, symbol: &str) -> String {
    // The index SI and the element Si differ by case only; message ids have none.
    let symbol = if symbol == "SI" { "index" } else { symbol };
    let key = format!("symbol-{}", symbol.to_lowercase().replace(['_', '/', ' '], "-"));
    if pen.words.has(&key) { pen.words.get(&key) } else { symbol.to_owned() }
}

/// A range value in the unit of its symbol.
#[must_use]
pub(super) fn number(pen: &Pen<'_>, symbol: &str, value: f64) -> String {
    match symbol {
        "d" | "combined" | "d_comb" | "hw" => pen.show.length(value).main,
        "HD" | "H_JIS" => pen.show.hydrogen(value),
        "Q" => pen.show.heat(value).main,
        "minutes at peak" => pen.show.with_unit(value, 2, &pen.words.get("unit-minutes")),
        "printed" | "line" => pen.show.temperature(value).main,
        "dH" | "dH raw" | "credit" => pen.show.difference(value).main,
        "sigma_B" => pen.show.with_unit(value, 0, "kgf/mm²"),
        "SI" | "C_tot" => pen.show.number(value, 2),
        "B" => pen.show.with_unit(value, 4, "%"),
        "CE" | "CET" | "Pcm" | "Ceq" => pen.show.with_unit(value, 3, "%"),
        _ => pen.show.with_unit(value, 3, "%"),
    }
}
