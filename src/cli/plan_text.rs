//! A plan as plain text, in the order in which it is read at the bench.

use std::fmt::Write;

use crate::engine::evidence::Standing;
use crate::report::{EvidenceGroup, Figure, LeverEffect, Pen, Report, ToDoLine};

/// Cautions of the job that are printed whole; the rest by title and what to do.
const WHOLE_CAUTIONS: usize = 5;

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
            let values = [("what", lever.what.as_str()), ("result", &lever.result), ("note", &lever.note)];
            let key = match lever.effect {
                LeverEffect::Lowers => "text-lever",
                LeverEffect::Opens => "text-lever-opens",
                LeverEffect::NotAlone => "text-lever-not-alone",
            };
            row(pen, key, &values, &mut out);
        }
    }
    apart(pen, "text-find", &report.find, &mut out);
    apart(pen, "plan-weld", &report.weld, &mut out);
    steps(pen, report, &mut out);
    apart(pen, "text-beside", &report.beside, &mut out);
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

/// One row under a heading.
fn row(pen: &Pen<'_>, key: &str, values: &[(&str, &str)], out: &mut String) {
    line(out, &format!("  {}", pen.words.with(key, values)));
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
        let values = [
            ("label", route.title.as_str()),
            ("value", &route.figure),
            ("second", &route.second),
            ("basis", &route.basis.label),
        ];
        row(pen, "text-route", &values, out);
        line(out, &format!("    {}", route.text));
    }
    if answer.routes.is_empty() {
        for figure in [&answer.minimum, &answer.maximum, &answer.ceiling] {
            if !figure.figure.is_empty() {
                let open = figure.id == "minimum" && !answer.qualifier.is_empty();
                line(out, &figure_line(pen, figure, open));
            }
        }
    }
    for text in [&answer.sentence, &answer.note] {
        if !text.is_empty() {
            line(out, text);
        }
    }
}

/// A figure with its label; an open one is "at least".
fn figure_line(pen: &Pen<'_>, figure: &Figure, open: bool) -> String {
    let values = [("figure", figure.figure.as_str()), ("unit", &figure.unit), ("second", &figure.second)];
    let value = match (figure.unit.as_str(), figure.second.as_str()) {
        ("", _) => figure.figure.clone(),
        (_, "") => pen.words.with("text-value", &values),
        _ => pen.words.with("text-value-second", &values),
    };
    let key = if open { "text-figure-at-least" } else { "text-figure" };
    let mut text = pen.words.with(key, &[("label", &figure.label), ("value", &value)]);
    for part in [&figure.note, &figure.basis.label] {
        if !part.is_empty() {
            let _ = write!(text, " [{part}]");
        }
    }
    text
}

fn evidence(pen: &Pen<'_>, group: &EvidenceGroup, out: &mut String) {
    line(out, "");
    let key = if group.result.is_empty() { "text-evidence" } else { "text-evidence-result" };
    line(out, &pen.words.with(key, &[("title", &group.title), ("result", &group.result)]));
    for one in &group.lines {
        let standing = pen.words.get(match one.standing {
            Standing::Governs => "standing-governs",
            Standing::InRange => "standing-in-range",
            Standing::AtLimit => "standing-at-limit",
            Standing::ShownOnly => "standing-shown-only",
        });
        // The note of what lies in its range says no more than that.
        let plain = one.standing == Standing::InRange && one.note == pen.words.get("evidence-in-range");
        let key = if plain { "text-evidence-row" } else { "text-evidence-row-note" };
        let values = [
            ("name", one.name.as_str()),
            ("figure", &one.figure),
            ("standing", &standing),
            ("note", &one.note),
            ("basis", &one.basis.label),
        ];
        row(pen, key, &values, out);
    }
}

/// What stands apart from the steps.
fn apart(pen: &Pen<'_>, title: &str, lines: &[ToDoLine], out: &mut String) {
    if lines.is_empty() {
        return;
    }
    head(pen, title, out);
    for one in lines {
        let values = [("label", one.label.as_str()), ("value", &one.value), ("basis", &one.basis.label)];
        let key = if one.basis.label.is_empty() { "text-figure" } else { "text-row" };
        row(pen, key, &values, out);
        line(out, &format!("    {}", one.note));
    }
}

fn steps(pen: &Pen<'_>, report: &Report, out: &mut String) {
    if report.steps.is_empty() {
        return;
    }
    head(pen, "text-then", out);
    for step in &report.steps {
        if !step.head.is_empty() {
            line(out, &step.head);
        }
        let number = step.number.to_string();
        let values = [
            ("number", number.as_str()),
            ("what", &step.what),
            ("figure", &step.figure),
            ("basis", &step.basis.label),
        ];
        let key = if step.figure.is_empty() { "text-step" } else { "text-step-figure" };
        row(pen, key, &values, out);
        for note in &step.notes {
            line(out, &format!("     {note}"));
        }
        for said in &step.cycle {
            line(out, &format!("     {}", said.text));
        }
    }
}

fn cautions(pen: &Pen<'_>, report: &Report, out: &mut String) {
    let briefing = &report.briefing;
    head(pen, "text-cautions", out);
    for caution in &briefing.always {
        row(pen, "text-caution-always", &[("title", &caution.title), ("do", &caution.do_this)], out);
    }
    for (place, caution) in briefing.own.iter().enumerate() {
        let values = [
            ("severity", caution.word.as_str()),
            ("title", &caution.title),
            ("why", &caution.why),
            ("do", &caution.do_this),
        ];
        let key = if place < WHOLE_CAUTIONS { "text-caution-whole" } else { "text-caution" };
        row(pen, key, &values, out);
        if place < WHOLE_CAUTIONS {
            line(out, &format!("    {}", caution.source));
        }
    }
    for told in [&briefing.left_out, &briefing.not_told].into_iter().filter(|told| !told.is_empty()) {
        line(out, &format!("  {told}"));
    }
}
