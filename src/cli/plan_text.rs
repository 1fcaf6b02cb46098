//! A plan as plain text, in the order in which it is read at the bench.

use std::fmt::Write;

use crate::engine::plan::Standing;
use crate::report::{EvidenceGroup, Figure, Pen, Report};

/// Cautions that are printed whole; the rest by their titles.
const WHOLE_CAUTIONS: usize = 3;

/// Writes a report as text.
pub(super) fn plan_text(pen: &Pen<'_>, report: &Report, assumed: &[String]) -> String {
    let mut out = String::new();
    answer(pen, report, &mut out);
    for group in &report.groups {
        evidence(pen, group, &mut out);
    }
    if !report.levers.is_empty() {
        head(pen, "text-levers", &mut out);
        for lever in &report.levers {
            line(&mut out, &format!("  {}: {} ({})", lever.what, lever.result, lever.note));
        }
    }
    if !report.to_do.is_empty() {
        head(pen, "text-then", &mut out);
        for then in &report.to_do {
            line(&mut out, &format!("  {}: {} [{}]", then.label, then.value, then.basis.label));
            if !then.note.is_empty() {
                line(&mut out, &format!("    {}", then.note));
            }
        }
    }
    cautions(pen, report, &mut out);
    if !assumed.is_empty() {
        head(pen, "text-assumed", &mut out);
        for text in assumed {
            line(&mut out, &format!("  {text}"));
        }
    }
    line(&mut out, "");
    line(&mut out, &pen.words.get("plan-footer"));
    out
}

fn line(out: &mut String, text: &str) {
    // Writing to a string can't fail.
    let _ = writeln!(out, "{text}");
}

fn head(pen: &Pen<'_>, key: &str, out: &mut String) {
    line(out, "");
    line(out, &pen.words.get(key));
}

fn answer(pen: &Pen<'_>, report: &Report, out: &mut String) {
    let answer = &report.answer;
    if !answer.title.is_empty() {
        line(out, &answer.title);
    }
    for text in &answer.lines {
        line(out, text);
    }
    for route in &answer.routes {
        line(out, &format!("  {}: {} ({}) [{}]", route.title, route.figure, route.second, route.basis.label));
        line(out, &format!("    {}", route.text));
    }
    if answer.routes.is_empty() {
        for figure in [&answer.minimum, &answer.maximum, &answer.ceiling] {
            if !figure.figure.is_empty() {
                let qualifier = if figure.id == "minimum" { answer.qualifier.as_str() } else { "" };
                line(out, &figure_line(pen, figure, qualifier));
            }
        }
    }
    for text in [&answer.sentence, &answer.note] {
        if !text.is_empty() {
            line(out, text);
        }
    }
}

fn figure_line(pen: &Pen<'_>, figure: &Figure, qualifier: &str) -> String {
    let value = match (figure.unit.as_str(), figure.second.as_str()) {
        ("", _) => figure.figure.clone(),
        (unit, "") => format!("{} {unit}", figure.figure),
        (unit, second) => format!("{} {unit} ({second})", figure.figure),
    };
    let value = if qualifier.is_empty() { value } else { format!("{} {value}", qualifier.to_lowercase()) };
    let mut text = pen.words.with("text-figure", &[("label", &figure.label), ("value", &value)]);
    for part in [&figure.note, &figure.basis.label] {
        if !part.is_empty() {
            let _ = write!(text, " [{part}]");
        }
    }
    text
}

fn evidence(pen: &Pen<'_>, group: &EvidenceGroup, out: &mut String) {
    line(out, "");
    let result = if group.result.is_empty() { String::new() } else { format!(" {}", group.result) };
    line(out, &pen.words.with("text-evidence", &[("title", &format!("{}{result}", group.title))]));
    for row in &group.lines {
        let standing = pen.words.get(match row.standing {
            Standing::Governs => "standing-governs",
            Standing::InRange => "standing-in-range",
            Standing::AtLimit => "standing-at-limit",
            Standing::ShownOnly => "standing-shown-only",
        });
        // The note of what lies in its range says no more than that.
        let plain = row.standing == Standing::InRange && row.note == pen.words.get("evidence-in-range");
        let note = if plain { String::new() } else { format!("; {}", row.note) };
        line(out, &format!("  {}: {}; {standing}{note} [{}]", row.name, row.figure, row.basis.label));
    }
}

fn cautions(pen: &Pen<'_>, report: &Report, out: &mut String) {
    if report.cautions.is_empty() {
        return;
    }
    head(pen, "text-cautions", out);
    for caution in report.cautions.iter().take(WHOLE_CAUTIONS) {
        line(out, &format!("  {}: {}. {} {}", caution.word, caution.title, caution.why, caution.do_this));
        line(out, &format!("    {}", caution.source));
    }
    let mut general = false;
    for caution in report.cautions.iter().skip(WHOLE_CAUTIONS) {
        if caution.of_every_job && !general {
            general = true;
            head(pen, "cautions-of-every-job", out);
        }
        line(out, &format!("  {}: {}", caution.word, caution.title));
    }
}
