//! Jobs, and what stands of one, as plain text.

use std::fmt::Write;

use crate::log::{Id, JobRow, Moment, Overview, PieceView, PlanCopy, Standing};
use crate::report::{
    Pen, day_and_time, limit_line, own_trial_warnings, piece_line, reading_line, step_head, step_what,
    taught_lines, trial_line, written_in,
};

fn line(out: &mut String, text: &str) {
    // Writing to a string can't fail.
    let _ = writeln!(out, "{text}");
}

/// The list of jobs.
pub(super) fn list(pen: &Pen<'_>, rows: &[JobRow]) -> String {
    let mut out = String::new();
    if rows.is_empty() {
        line(&mut out, &pen.words.get("cli-log-empty"));
    }
    for row in rows {
        let counts = [("pieces", row.pieces), ("finished", row.finished), ("readings", row.readings)];
        let name = job_name(pen, &row.name, row.example);
        line(&mut out, &format!("{}  {name}", row.id));
        let last = day_and_time(pen, row.last);
        line(&mut out, &format!("  {}", pen.words.numbers("log-row", &counts, &[("last", &last)])));
        let flags = [(row.withdrawn, "log-removed"), (row.faulty, "log-faulty")];
        for (_, key) in flags.into_iter().filter(|(on, _)| *on) {
            line(&mut out, &format!("  {}", pen.words.get(key)));
        }
        if row.conflicts > 0 {
            line(&mut out, &format!("  {}", pen.words.count("log-conflicts", row.conflicts, &[])));
        }
    }
    out
}

fn job_name(pen: &Pen<'_>, name: &str, example: bool) -> String {
    if example { pen.words.with("log-example", &[("name", name)]) } else { name.to_owned() }
}

/// What stands of a job, or of one piece of it.
pub(super) fn job(pen: &Pen<'_>, id: Id, standing: &Standing<'_>, now: Moment, piece: Option<Id>) -> String {
    let mut out = String::new();
    let Some((job, overview)) = standing.job.as_ref().zip(standing.overview(pen.reference, now)) else {
        line(&mut out, &id.to_string());
        line(&mut out, &pen.words.get("log-removed"));
        return out;
    };
    let plan = &job.now.plan;
    line(&mut out, &job_name(pen, &job.now.name, job.now.example));
    line(&mut out, &id.to_string());
    for (label, text) in [("log-drawing", &job.now.drawing), ("log-welder", &job.now.welder)] {
        if !text.is_empty() {
            line(&mut out, &pen.words.with(label, &[("text", text)]));
        }
    }
    for warning in own_trial_warnings(pen, standing) {
        line(&mut out, &warning);
    }
    if !plan.answers {
        line(&mut out, &plan.title);
    }
    if let Some(language) = written_in(pen.words, plan) {
        line(&mut out, &language);
    }
    let limits = [
        ("answer-minimum", &plan.minimum),
        ("answer-maximum", &plan.maximum),
        ("answer-ceiling", &plan.ceiling),
    ];
    for (label, limit) in limits {
        let Some(limit) = limit else { continue };
        let label = pen.words.get(label);
        let key = if limit.at_least { "text-figure-at-least" } else { "text-figure" };
        line(&mut out, &pen.words.with(key, &[("label", &label), ("value", &limit_line(pen, plan, limit))]));
    }
    line(&mut out, &pen.words.numbers("log-left-pieces", &[("left", overview.left)], &[]));
    if piece.is_none() {
        conflicts(pen, standing, &mut out);
    }
    job_steps(pen, plan, standing, now, &mut out);
    line(&mut out, "");
    for place in &overview.urgent {
        let view = &overview.pieces[*place];
        if piece.is_none_or(|id| view.thing.id == id) {
            one_piece(pen, plan, view, piece.is_some(), &mut out);
        }
    }
    if piece.is_none() {
        trials(pen, standing, &mut out);
        used(pen, &overview, &mut out);
    }
    line(&mut out, "");
    line(&mut out, &pen.words.get("plan-footer"));
    out
}

fn job_steps(pen: &Pen<'_>, plan: &PlanCopy, standing: &Standing<'_>, now: Moment, out: &mut String) {
    for of in standing.job_steps(now) {
        let key = if of.done.is_empty() { "log-step-open" } else { "log-step-done" };
        let (number, what) = (of.step.number.to_string(), step_what(pen.words, plan, of.step));
        line(out, &pen.words.with(key, &[("number", &number), ("what", &what)]));
    }
}

fn one_piece(
    pen: &Pen<'_>,
    plan: &crate::log::PlanCopy,
    view: &PieceView<'_>,
    steps: bool,
    out: &mut String,
) {
    let said = piece_line(pen, plan, view);
    let number = said.number.to_string();
    line(out, &pen.words.with("log-piece", &[("number", &number), ("status", &said.status)]));
    for text in [&said.clock, &said.next].into_iter().chain(&said.alarms).filter(|text| !text.is_empty()) {
        line(out, &format!("  {text}"));
    }
    for reading in &view.readings {
        let said = reading_line(pen, plan, reading);
        let values = [
            ("time", said.time.as_str()),
            ("day", &said.day),
            ("when", &said.when),
            ("place", &said.place),
            ("instrument", &said.instrument),
            ("shown", &said.shown),
            ("steel", &said.steel),
            ("verdict", &said.verdict_word),
        ];
        line(out, &format!("  {}", pen.words.with("log-reading", &values)));
        for reason in said.reasons.iter().chain([&said.note]).filter(|text| !text.is_empty()) {
            line(out, &format!("    {reason}"));
        }
    }
    if steps {
        for step in plan.steps.iter().filter(|step| !step.is_of_job()) {
            let head = step_head(pen.words, plan, step);
            if !head.is_empty() {
                line(out, &format!("  {head}"));
            }
            let key = if view.is_done(step) { "log-step-done" } else { "log-step-open" };
            let (number, what) = (step.number.to_string(), step_what(pen.words, plan, step));
            line(out, &format!("  {}", pen.words.with(key, &[("number", &number), ("what", &what)])));
        }
    }
}

fn trials(pen: &Pen<'_>, standing: &Standing<'_>, out: &mut String) {
    if standing.trials.is_empty() {
        return;
    }
    line(out, "");
    line(out, &pen.words.get("log-trials"));
    for trial in &standing.trials {
        let said = trial_line(pen, trial.now);
        let values = [
            ("name", said.name.as_str()),
            ("steel", &said.steel),
            ("at", &said.at),
            ("outcome", &said.outcome),
        ];
        line(out, &format!("  {}", pen.words.with("log-trial-row", &values)));
        for text in [&said.cooled, &said.note].into_iter().filter(|text| !text.is_empty()) {
            line(out, &format!("    {text}"));
        }
    }
    for said in taught_lines(pen, standing) {
        line(out, &format!("  {said}"));
    }
}

fn used(pen: &Pen<'_>, overview: &Overview<'_>, out: &mut String) {
    if overview.used.is_empty() {
        return;
    }
    line(out, "");
    line(out, &pen.words.get("log-used"));
    for of in &overview.used {
        let amount = |amount: f64| pen.show.with_unit(amount, 2, &of.unit);
        let told = if of.any_told { amount(of.told) } else { pen.words.get("log-used-none") };
        let key = if of.estimate.is_some() { "log-used-row" } else { "log-used-row.alone" };
        let estimate = of.estimate.map(amount).unwrap_or_default();
        let values = [("what", of.label.as_str()), ("told", &told), ("estimate", &estimate)];
        line(out, &format!("  {}", pen.words.with(key, &values)));
    }
}

/// What two devices changed, with the records to choose from.
fn conflicts(pen: &Pen<'_>, standing: &Standing<'_>, out: &mut String) {
    let count = standing.conflicts();
    if count == 0 {
        return;
    }
    line(out, &pen.words.count("log-conflicts", count, &[]));
    for (thing, heads) in standing.in_conflict() {
        line(out, &format!("  {thing}"));
        for record in heads {
            let at = day_and_time(pen, record.at);
            let id = record.id.to_string();
            let values = [("id", id.as_str()), ("device", &record.device), ("at", &at)];
            line(out, &format!("    {}", pen.words.with("log-conflict-row", &values)));
        }
    }
}
