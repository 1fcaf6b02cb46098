//! From what is typed for a question to what the question takes.

use super::typed;
use super::{Reading, find_steel};
use crate::questions::{self, Answers, COMPOSITION, Given, Input, Kind, Question};
use crate::reference::Element;
use crate::units::{self, LengthUnit, Problem, TimeUnit, Units, Within, shortened};
use crate::words::Words;

/// Key of a steel whose middle composition counts, for a question that takes a composition.
pub const STEEL: &str = "steel";

/// Why an input could not be used.
#[derive(Debug, Clone, PartialEq)]
pub enum AnswerFault {
    /// What is typed is a problem by itself.
    Typed(Problem),
    /// The question refuses it.
    Refused(questions::Problem),
    /// No steel is called exactly that; these are near it.
    UnknownSteel {
        /// As typed.
        typed: String,
        /// Designations near it.
        near: Vec<String>,
    },
    /// The input is given twice.
    Twice,
}

/// An input that could not be used.
#[derive(Debug, Clone, PartialEq)]
pub struct AnswerProblem {
    /// Its key.
    pub key: String,
    /// Why.
    pub fault: AnswerFault,
}

impl AnswerProblem {
    /// The problem in one plain line, without the key.
    #[must_use]
    pub fn say(&self, words: &Words) -> String {
        match &self.fault {
            AnswerFault::Typed(problem) => problem.say(words),
            AnswerFault::Refused(problem) => say_refusal(problem, words),
            AnswerFault::UnknownSteel { typed, near } => {
                let key = if near.is_empty() { "job-unknown-steel-none" } else { "job-unknown-steel" };
                let accepts = words.get(units::Accepts::Steel.key());
                let values = [("typed", shortened(typed)), ("near", near.join(", ")), ("accepts", accepts)];
                words.with(key, &values.each_ref().map(|(name, value)| (*name, value.as_str())))
            }
            AnswerFault::Twice => words.get("asked-twice"),
        }
    }
}

/// The unit that a bare number of a kind takes; empty where it has none.
#[must_use]
pub fn shown_unit(kind: Kind, units: Units) -> &'static str {
    let inch = units.length == LengthUnit::Inch;
    let pick = |metric, other| if inch { other } else { metric };
    match kind {
        Kind::Length => pick("mm", "in"),
        Kind::Temperature => units.temperature.symbol(),
        Kind::HeatInput => pick("kJ/mm", "kJ/in"),
        Kind::Speed => pick("mm/min", "in/min"),
        Kind::Stress => pick("MPa", "ksi"),
        other => other.unit().unwrap_or(""),
    }
}

/// What a question refuses, in one plain line.
#[must_use]
pub fn say_refusal(problem: &questions::Problem, words: &Words) -> String {
    let values = problem.values();
    let values: Vec<(&str, &str)> = values.iter().map(|(name, value)| (*name, value.as_str())).collect();
    words.with(&problem.key(), &values)
}

/// Reads what is typed for a question, key by key; texts of nothing but space are not given.
///
/// A composition may come whole (`composition`), as elements (`C`, `Mn`), or as the middle
/// of a steel (`steel`).
///
/// # Errors
/// Every input that can't be used.
pub fn read_answers(
    question: &Question,
    pairs: &[(String, String)],
    reading: &Reading<'_>,
) -> Result<Answers, Vec<AnswerProblem>> {
    let mut answers = Answers::new();
    let mut problems = Vec::new();
    let mut elements: Vec<String> = Vec::new();
    let takes_composition = question.input(COMPOSITION).is_some();
    for (at, (key, text)) in pairs.iter().enumerate() {
        let fault = |fault| AnswerProblem { key: key.clone(), fault };
        if pairs[..at].iter().any(|(earlier, _)| earlier == key) {
            problems.push(fault(AnswerFault::Twice));
            continue;
        }
        if text.trim().is_empty() {
            continue;
        }
        if let Some(input) = question.input(key) {
            match given(input, text, reading) {
                Ok(given) => answers.set(key.clone(), given),
                Err(found) => problems.push(fault(found)),
            }
        } else if takes_composition && key == STEEL {
            match find_steel(text, reading.reference) {
                Ok(grade) => answers.set(COMPOSITION, Given::Composition(grade.nominal())),
                Err(near) => problems.push(fault(AnswerFault::UnknownSteel { typed: text.clone(), near })),
            }
        } else if takes_composition && Element::from_symbol(key).is_some() {
            elements.push(format!("{key} {text}"));
        } else {
            let unknown = questions::Problem::UnknownInput { key: key.clone() };
            problems.push(fault(AnswerFault::Refused(unknown)));
        }
    }
    if !elements.is_empty() {
        match typed::composition(&elements.join("; ")) {
            Ok(line) => answers.set(COMPOSITION, Given::Composition(line.composition)),
            Err(problem) => problems
                .push(AnswerProblem { key: COMPOSITION.to_owned(), fault: AnswerFault::Typed(problem) }),
        }
    }
    if problems.is_empty() { Ok(answers) } else { Err(problems) }
}

/// One input as typed, in the unit of its kind.
fn given(input: &Input, text: &str, reading: &Reading<'_>) -> Result<Given, AnswerFault> {
    let units = reading.units;
    let within = Within::new(input.low.unwrap_or(-1e9), input.high.unwrap_or(1e9));
    let times = |factor: f64| Within::new(within.low * factor, within.high * factor);
    let number = match input.kind {
        Kind::Number => units::number(text, within),
        Kind::Percent => units::percent(text, within),
        Kind::Length => units::length(text, units.length, within).map(|length| length.mm),
        Kind::Temperature => units::temperature(text, units.temperature, within),
        Kind::HeatInput => units::net_heat(text, units.length, within),
        Kind::Hydrogen => units::hydrogen(text, within).map(|hydrogen| hydrogen.ml),
        Kind::Voltage => units::voltage(text, within),
        Kind::Current => units::current(text, within),
        Kind::Speed => units::travel(text, units.length, times(60.0)).map(|speed| speed / 60.0),
        Kind::Seconds => units::duration(text, TimeUnit::Seconds, within),
        Kind::Hours => units::duration(text, TimeUnit::Hours, times(3600.0)).map(|time| time / 3600.0),
        Kind::Stress => units::strength(text, units.length, within),
        Kind::Composition => {
            let line = typed::composition(text).map_err(AnswerFault::Typed)?;
            return Ok(Given::Composition(line.composition));
        }
        Kind::Choice(offered) => return Ok(Given::Choice(choice(text, offered))),
        Kind::Flag => return typed::yes_no(text).map(Given::Flag).map_err(AnswerFault::Typed),
        Kind::Text => return Ok(Given::Text(text.trim().to_owned())),
    };
    number.map(Given::Number).map_err(AnswerFault::Typed)
}

/// The id of a choice; a process may be written in any way that the job takes. What is not
/// offered comes back as it is: the question refuses it with what it offers.
fn choice(text: &str, offered: &[&str]) -> String {
    let id = units::tidy(text).to_lowercase().replace([' ', '_'], "-");
    if offered.contains(&id.as_str()) {
        return id;
    }
    match typed::process(text) {
        Ok(typed::TypedProcess::Known(process)) if offered.contains(&process.id()) => process.id().to_owned(),
        _ => text.trim().to_owned(),
    }
}
