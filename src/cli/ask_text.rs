//! The answers of a question as text.

use std::fmt::Write;

use crate::engine::{Outcome, RangeCheck, Unit};
use crate::questions::{Question, Reply};
use crate::reference::{Basis, Reference};
use crate::units::{Both, Show};
use crate::words::Words;

/// All answers of a reply, the one asked for first, then what must be said beside them.
pub(super) fn reply(
    question: &Question,
    reply: &Reply,
    show: &Show,
    words: &Words,
    reference: &Reference,
) -> String {
    let mut made = words.get(&format!("question-{}", question.name)) + "\n";
    for outcome in &reply.answers {
        answer(&mut made, outcome, show, words, reference);
    }
    for note in &reply.notes {
        let _ = writeln!(made, "\n{}", words.get(&format!("note-{note}")));
    }
    made
}

fn answer(made: &mut String, outcome: &Outcome, show: &Show, words: &Words, reference: &Reference) {
    let name = words.get(&format!("answer-{}", outcome.name));
    let value = match outcome.value {
        Some(value) => figure(value, outcome.unit, show),
        None => words.get("cli-no-figure"),
    };
    let _ = writeln!(made, "\n{name}: {value}");
    if let (Some(low), Some(high)) = (outcome.low, outcome.high) {
        let (low, high) = (figure(low, outcome.unit, show), figure(high, outcome.unit, show));
        let _ = writeln!(made, "  {}", words.with("cli-spread", &[("low", &low), ("high", &high)]));
    }
    for check in outcome.range.iter().filter(|check| !check.inside()) {
        let _ = writeln!(made, "  {}", outside(check, show, words));
    }
    let steps: Vec<String> = outcome
        .steps
        .iter()
        .map(|step| format!("{} = {}", step.symbol, figure(step.value, step.unit, show)))
        .collect();
    if !steps.is_empty() {
        let _ = writeln!(made, "  {}", steps.join("; "));
    }
    let _ = writeln!(made, "  {}", basis(&outcome.basis, words, reference));
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

/// What a figure rests on, in one line.
pub(super) fn basis(basis: &Basis, words: &Words, reference: &Reference) -> String {
    match basis {
        Basis::Published { source, clause } => {
            let title = reference.source(source).map_or_else(|| source.to_string(), |row| row.title.clone());
            words.with("cli-basis-published", &[("source", &title), ("clause", clause)])
        }
        Basis::Practice => words.get("cli-basis-practice"),
        Basis::Memory { of } => words.with("cli-basis-memory", &[("of", of)]),
    }
}

/// A figure of a method, exact to the last digit that means something: no limit is made
/// of it here, so that it is not rounded to the safe side.
fn figure(value: f64, unit: Unit, show: &Show) -> String {
    let both = |both: Both| format!("{} ({})", both.main, both.second);
    match unit {
        Unit::Celsius => {
            let shown =
                |unit: crate::units::TemperatureUnit| show.with_unit(unit.from_c(value), 1, unit.symbol());
            let main = show.units.temperature;
            format!("{} ({})", shown(main), shown(main.other()))
        }
        Unit::Kelvin => both(show.difference(value)),
        Unit::Millimetre => both(show.length(value)),
        Unit::KilojoulePerMm => both(show.heat(value)),
        Unit::Megapascal => both(show.strength(value)),
        Unit::Kilogram => both(show.mass(value)),
        Unit::MlPer100g => show.hydrogen(value),
        Unit::One => show.number(value, 4),
        Unit::Percent => show.with_unit(value, 3, unit.symbol()),
        Unit::Ppm | Unit::Hour => show.with_unit(value, 2, unit.symbol()),
        Unit::Second | Unit::Minute | Unit::SquareMillimetre => show.with_unit(value, 1, unit.symbol()),
        Unit::Vickers => show.with_unit(value, 0, unit.symbol()),
    }
}
