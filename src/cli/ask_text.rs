//! The answers of a question as text.

use std::fmt::Write;

use crate::engine::Outcome;
use crate::questions::{Question, Reply};
use crate::report::{Pen, basis_mark, limits, number, of_unit, source_line, symbol};
use crate::words::List;

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
    // A filler is named by its class.
    let row = outcome.row.as_deref().unwrap_or_default();
    let name = words.with(&format!("answer-{}", outcome.name), &[("row", row)]);
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
    for input in outcome.inputs.iter().filter(|input| !input.inside()) {
        let values = [
            ("symbol", symbol(pen, input.symbol)),
            ("value", number(pen, input.value, input.unit)),
            ("range", limits(pen, input)),
        ];
        let _ = writeln!(
            made,
            "  {}",
            words.with("cli-outside", &values.each_ref().map(|(key, value)| (*key, value.as_str())))
        );
    }
    let steps: Vec<String> = outcome
        .steps
        .iter()
        .map(|step| format!("{} = {}", step.symbol, of_unit(step.value, step.unit, show)))
        .collect();
    if !steps.is_empty() {
        let _ = writeln!(made, "  {}", words.list(List::Semicolon, &steps));
    }
    let basis = outcome.basis(&pen.reference.methods);
    let mark = basis_mark(pen, basis).label;
    let _ = writeln!(made, "  [{mark}] {}", source_line(pen, basis));
}
