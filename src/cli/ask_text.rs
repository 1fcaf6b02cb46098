//! The answers of a question as text.

use std::fmt::Write;

use crate::engine::{Outcome, RangeCheck};
use crate::questions::{Question, Reply};
use crate::report::{Pen, basis_mark, of_unit, source_line};
use crate::units::Show;
use crate::words::Words;

/// All answers of a reply, the one asked for first, then what must be said beside them.
pub(super) fn reply(question: &Question, reply: &Reply, pen: &Pen<'_>) -> String {
    let words = pen.words;
    let mut made = words.get(&format!("question-{}", question.name)) + "\n";
    for outcome in &reply.answers {
        answer(&mut made, outcome, pen);
    }
    for note in &reply.notes {
        let _ = writeln!(made, "\n{}", words.get(&format!("note-{note}")));
    }
    made
}

fn answer(made: &mut String, outcome: &Outcome, pen: &Pen<'_>) {
    let (words, show) = (pen.words, &pen.show);
    let name = words.get(&format!("answer-{}", outcome.name));
    let value = match outcome.value {
        Some(value) => of_unit(value, outcome.unit, show),
        None => words.get("cli-no-figure"),
    };
    let _ = writeln!(made, "\n{name}: {value}");
    // One end only: the answer is "at most" or "at least".
    let end = match (outcome.value, outcome.low, outcome.high) {
        (None, None, Some(high)) => Some(("tint-at-most", high)),
        (None, Some(low), None) => Some(("cli-at-least", low)),
        _ => None,
    };
    if let Some((key, end)) = end {
        let end = of_unit(end, outcome.unit, show);
        let _ = writeln!(made, "  {}", words.with(key, &[("figure", &end)]));
    }
    if let (Some(low), Some(high)) = (outcome.low, outcome.high) {
        let (low, high) = (of_unit(low, outcome.unit, show), of_unit(high, outcome.unit, show));
        let _ = writeln!(made, "  {}", words.with("cli-spread", &[("low", &low), ("high", &high)]));
    }
    for check in outcome.range.iter().filter(|check| !check.inside()) {
        let _ = writeln!(made, "  {}", outside(check, show, words));
    }
    let steps: Vec<String> = outcome
        .steps
        .iter()
        .map(|step| format!("{} = {}", step.symbol, of_unit(step.value, step.unit, show)))
        .collect();
    if !steps.is_empty() {
        let _ = writeln!(made, "  {}", steps.join("; "));
    }
    let mark = basis_mark(pen, &outcome.basis).label;
    let _ = writeln!(made, "  [{mark}] {}", source_line(pen, &outcome.basis));
}

fn outside(check: &RangeCheck, show: &Show, words: &Words) -> String {
    let number = |value: f64| show.number(value, 3);
    let range = match (check.low, check.high) {
        (Some(low), Some(high)) => words.with("cli-range", &[("low", &number(low)), ("high", &number(high))]),
        (Some(low), None) => words.with("cli-range-from", &[("low", &number(low))]),
        (None, Some(high)) => words.with("cli-range-to", &[("high", &number(high))]),
        (None, None) => String::new(),
    };
    words.with("cli-outside", &[("symbol", check.symbol), ("value", &number(check.value)), ("range", &range)])
}
