//! An outcome of the engine in words: the one place that writes its figures, its inputs
//! beside their limits and its steps. The plan's evidence, a question's answer and the basis
//! sheets read the same lines.

use super::Pen;
use super::figure::{band, both_of_unit, in_both, of_unit, range};
use crate::engine::{Checked, Outcome, Step};
use crate::reference::{Method, Unit};
use crate::units::{Both, TemperatureUnit};

/// How an input lies in a method's range.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum RangeVerdict {
    /// Inside.
    Inside,
    /// Outside, and put at the limit.
    AtLimit,
    /// Outside, and taken as it is.
    Outside,
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

/// A symbol as people read it.
#[must_use]
pub fn symbol(pen: &Pen<'_>, symbol: &str) -> String {
    let key = format!("symbol-{}", slug(symbol));
    if pen.words.has(&key) { pen.words.get(&key) } else { symbol.to_owned() }
}

/// A symbol as part of a message's id, which has small letters only.
fn slug(symbol: &str) -> String {
    // The index SI and the element Si differ by case alone.
    if symbol == "SI" {
        return "index".to_owned();
    }
    let letters = symbol.chars().flat_map(char::to_lowercase).map(|letter| match letter {
        'δ' => 'd',
        'σ' => 's',
        'ε' => 'e',
        'a'..='z' | '0'..='9' => letter,
        _ => '-',
    });
    letters.collect()
}

/// An input or a step in the reader's own unit, to the digits that mean something in a range.
#[must_use]
pub fn number(pen: &Pen<'_>, value: f64, unit: Unit) -> String {
    match unit {
        Unit::Celsius => pen.show.temperature(value).main,
        Unit::Kelvin => pen.show.term(value),
        Unit::Millimetre => pen.show.size(value).main,
        Unit::KilojoulePerMm => pen.show.heat(value).main,
        Unit::Megapascal => pen.show.strength(value).main,
        Unit::Kilogram => pen.show.mass(value).main,
        Unit::Micrometre => pen.show.fine(value).main,
        Unit::Kilonewton => pen.show.force(value).main,
        Unit::CubicMetrePerHour => pen.show.gas_flow(value).main,
        Unit::MlPer100g => pen.show.hydrogen(value),
        Unit::Minute => pen.show.with_unit(value, 2, &pen.words.get("unit-minutes")),
        // Boron and nitrogen count by the ten-thousandth.
        Unit::Percent if value.abs() < 0.01 => pen.show.with_unit(value, 4, unit.symbol()),
        Unit::Percent => pen.show.with_unit(value, 3, unit.symbol()),
        Unit::One => pen.show.number(value, 2),
        Unit::KgfPerSquareMm => pen.show.with_unit(value, 0, "kgf/mm²"),
        other => of_unit(value, other, &pen.show),
    }
}

/// A step in words.
fn step_text(pen: &Pen<'_>, outcome: &Outcome, step: &Step) -> String {
    let part = match step.symbol {
        "Tp(CET)" => Some(("sheet-part-cet", "CET")),
        "Tp(d)" => Some(("sheet-part-thickness", "d")),
        "Tp(HD)" => Some(("sheet-part-hydrogen", "HD")),
        "Tp(Q)" => Some(("sheet-part-heat", "Q")),
        _ => None,
    };
    let counted = part.and_then(|(key, of)| Some((key, outcome.input(of)?)));
    match counted {
        Some((key, input)) => pen.words.with(key, &[("value", &number(pen, input.used, input.unit))]),
        None => symbol(pen, step.symbol),
    }
}

/// The steps of an outcome.
#[must_use]
pub fn step_lines(pen: &Pen<'_>, outcome: &Outcome) -> Vec<StepLine> {
    let line = |step: &Step| StepLine {
        text: step_text(pen, outcome, step),
        value: number(pen, step.value, step.unit),
    };
    outcome.steps.iter().map(line).collect()
}

/// The inputs of an outcome against their ranges. A move that lies inside what may be moved is
/// told by its step.
#[must_use]
pub fn range_lines(pen: &Pen<'_>, outcome: &Outcome) -> Vec<RangeLine> {
    let told = |input: &&Checked| input.symbol != "ΔH" || !input.inside();
    outcome.inputs.iter().filter(told).map(|input| range_line(pen, input)).collect()
}

/// The limits of an input in words.
#[must_use]
pub fn limits(pen: &Pen<'_>, input: &Checked) -> String {
    let show = |value: f64| number(pen, value, input.unit);
    match (input.low, input.high) {
        (Some(low), Some(high)) => range(pen, &show(low), &show(high)),
        (None, Some(high)) => pen.words.with("range-up-to", &[("high", &show(high))]),
        (Some(low), None) => pen.words.with("range-from", &[("low", &show(low))]),
        (None, None) => pen.words.get("sheet-no-limit"),
    }
}

fn range_line(pen: &Pen<'_>, input: &Checked) -> RangeLine {
    let verdict = match (input.low.or(input.high), input.inside()) {
        (None, _) => RangeVerdict::NotStated,
        (Some(_), true) => RangeVerdict::Inside,
        (Some(_), false) if input.was_held() => RangeVerdict::AtLimit,
        (Some(_), false) => RangeVerdict::Outside,
    };
    let id: &'static str = verdict.into();
    let (from, to, at) = positions(input);
    RangeLine {
        name: symbol(pen, input.symbol),
        value: number(pen, input.value, input.unit),
        limits: limits(pen, input),
        from,
        to,
        at,
        verdict,
        word: pen.words.get(&format!("range-{id}")),
    }
}

/// Where limits and value stand on a gauge from 0 to 1: limits at 0.15 and 0.85.
fn positions(input: &Checked) -> (f64, f64, f64) {
    const LOW: f64 = 0.15;
    const HIGH: f64 = 0.85;
    let (low, high) = match (input.low, input.high) {
        (Some(low), Some(high)) => (low, high),
        (None, Some(high)) => (0.0, high),
        (Some(low), None) => (low, low * 2.0 + 1.0),
        (None, None) => return (-1.0, -1.0, 0.5),
    };
    let span = (high - low).max(1e-9);
    let at = ((input.value - low) / span).mul_add(HIGH - LOW, LOW).clamp(0.03, 0.97);
    (input.low.map_or(-1.0, |_| LOW), input.high.map_or(-1.0, |_| HIGH), at)
}

/// The first input that lies outside its limits, in words: its symbol, what was given, and the
/// limit that it passes.
#[must_use]
pub fn first_outside<'a>(pen: &Pen<'_>, outcome: &'a Outcome) -> Option<(&'a Checked, [String; 3])> {
    let outside = || outcome.inputs.iter().filter(|input| !input.inside());
    // What makes a figure "at least" is an input that was put at its upper end.
    let raises = |input: &&Checked| input.above() && input.was_held();
    let input = outside().find(|input| outcome.at_least && raises(input)).or_else(|| outside().next())?;
    let limit = if input.above() { input.high } else { input.low }?;
    let said =
        [symbol(pen, input.symbol), number(pen, input.value, input.unit), number(pen, limit, input.unit)];
    Some((input, said))
}

/// Is its answer the least temperature to weld at?
const fn is_preheat(method: Method) -> bool {
    matches!(
        method,
        Method::MethodB
            | Method::Sew088
            | Method::D11Annex
            | Method::MultiRun
            | Method::Seferian
            | Method::DeardenOneill
            | Method::ItoBessyo
            | Method::ThinTube
    )
}

/// A temperature as it is read and set: to the whole degree, and to the safe side of it where one is
/// known. A preheat and the heat that opens a hub are rounded up, the cold of a pin is rounded down.
fn whole_degrees(pen: &Pen<'_>, outcome: &Outcome, value: f64) -> Both {
    match outcome.method {
        Method::ShrinkFit if outcome.name == "fit-pin-alone" => {
            rounded(pen, value, |figure| (figure + 1e-6).floor())
        }
        Method::ShrinkFit => degrees_up(pen, value),
        method if is_preheat(method) => degrees_up(pen, value),
        _ => pen.show.temperature(value),
    }
}

/// A temperature up to the whole degree, in the reader's unit and in the other.
#[must_use]
pub fn degrees_up(pen: &Pen<'_>, value: f64) -> Both {
    rounded(pen, value, |figure| (figure - 1e-6).ceil())
}

fn rounded(pen: &Pen<'_>, value: f64, round: impl Fn(f64) -> f64) -> Both {
    let shown = |unit: TemperatureUnit| pen.show.with_unit(round(unit.from_c(value)), 0, unit.symbol());
    let unit = pen.show.units.temperature;
    Both { main: shown(unit), second: shown(unit.other()) }
}

/// An answer in the reader's unit and in the other: a range of temperatures is rounded
/// outwards; where only one end is known it reads "at most" or "at least".
#[must_use]
pub fn answer_figure(pen: &Pen<'_>, outcome: &Outcome) -> Both {
    let plain = |main: String| Both { main, second: String::new() };
    let exact = |value: f64| match outcome.unit {
        Unit::Celsius => in_both(pen, &whole_degrees(pen, outcome, value)),
        unit => of_unit(value, unit, &pen.show),
    };
    let ends = |both: Both, key: &str| Both {
        main: pen.words.with(key, &[("figure", &both.main)]),
        second: pen.words.with(key, &[("figure", &both.second)]),
    };
    match (outcome.value, outcome.low, outcome.high, outcome.unit) {
        (None, Some(low), Some(high), Unit::Celsius) => band(pen, low, high),
        (None, None, Some(high), Unit::Celsius) => ends(pen.show.minimum(high, None), "tint-at-most"),
        (None, Some(low), None, Unit::Celsius) => ends(pen.show.maximum(low, None), "tool-from"),
        (value, Some(low), Some(high), _) => {
            let spread = pen.words.with("tool-spread", &[("low", &exact(low)), ("high", &exact(high))]);
            match value {
                Some(value) => Both { main: exact(value), second: spread },
                None => plain(spread),
            }
        }
        (Some(value), ..) => plain(exact(value)),
        (None, None, Some(high), _) => plain(pen.words.with("tint-at-most", &[("figure", &exact(high))])),
        (None, Some(low), None, _) => plain(pen.words.with("tool-from", &[("figure", &exact(low))])),
        (None, None, None, _) => plain(pen.words.get("cli-no-figure")),
    }
}

/// An answer as a figure to be shown large, and the range that it lies in as a note.
#[must_use]
pub fn large_answer(pen: &Pen<'_>, outcome: &Outcome) -> (Both, String) {
    let shown = answer_figure(pen, outcome);
    match outcome.value {
        Some(value) if outcome.unit == Unit::Celsius => (whole_degrees(pen, outcome, value), shown.second),
        Some(value) => (both_of_unit(value, outcome.unit, &pen.show), shown.second),
        None => (shown, String::new()),
    }
}
