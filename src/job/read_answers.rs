//! From what is typed for a question to what the question takes.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::field_problem::{say_several_steels, say_unknown_steel};
use super::read_part::LOOKED_FOR;
use super::typed::{self, CertificateLine};
use super::{Reading, ToldSteel, find_steel, is_other_name, several_steels};
use crate::engine::job::Steel;
use crate::questions::{
    self, AT_GRADE_MAXIMUM, Answers, COMPOSITION, Given, Input, Kind, NOT_STATED, OfPlan, Question,
};
use crate::reference::{Composition, Element, Grade, Reference, embedded};
use crate::units::{self, Accepts, LengthUnit, Problem, TimeUnit, Units, Within};
use crate::words::Words;

/// Keys of the legs of a fillet, which a drawing writes as z.
const LEGS: [&str; 2] = ["leg", "second-leg"];
/// Key of a grade, for a question that takes a composition.
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
    /// It is a number that several steels bear; their figures differ.
    SeveralSteels {
        /// As typed.
        typed: String,
        /// Each steel, with what it has otherwise than the others.
        steels: Vec<ToldSteel>,
    },
    /// A figure that no steel has: the decimal mark, most likely.
    Improbable(typed::Improbable),
    /// A composition without a grade must state carbon and manganese.
    NeedsCarbonAndManganese,
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
            AnswerFault::UnknownSteel { typed, near } => say_unknown_steel(typed, near, words),
            AnswerFault::SeveralSteels { typed, steels } => say_several_steels(typed, steels, words),
            AnswerFault::Improbable(slip) => slip.say(words),
            AnswerFault::NeedsCarbonAndManganese => words.get("job-needs-carbon-manganese"),
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
        Kind::Mass => pick("kg", "lb"),
        Kind::GasFlow => pick("m³/h", "ft³/h"),
        Kind::Volume => pick("m³", "ft³"),
        Kind::Of(quantity) => quantity.unit(units),
        other => other.unit().unwrap_or(""),
    }
}

/// What a question refuses, in one plain line.
#[must_use]
pub fn say_refusal(problem: &questions::Problem, words: &Words) -> String {
    let values = problem.values().into_iter().map(|(name, value)| (name, words.value(&value)));
    let values: Vec<(&str, String)> = values.collect();
    let values: Vec<(&str, &str)> = values.iter().map(|(name, value)| (*name, value.as_str())).collect();
    words.with(&problem.key(), &values)
}

/// Reads what is typed for a question, key by key; texts of nothing but space are not given.
///
/// A composition may come whole (`composition`), as elements (`C`, `Mn`), as a grade
/// (`steel`), or as a grade with elements. It is read as a job's is: beside a grade what is
/// not stated counts at the grade's maximum; without one carbon and manganese must be stated.
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
    let mut certificate: Vec<String> = Vec::new();
    let mut grade: Option<&Grade> = None;
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
        if takes_composition && key == COMPOSITION {
            certificate.push(text.clone());
        } else if let Some(input) = question.input(key) {
            match read_answer(input, text, reading) {
                Ok(given) => answers.set(key.clone(), given),
                Err(found) => problems.push(fault(found)),
            }
        } else if takes_composition && key == STEEL {
            // A steel of the reader's own is its certificate, with its grade.
            let own = reading.own_steels.iter().find(|own| own.is_called(text));
            certificate.extend(own.map(|own| own.composition.clone()));
            let name = own.map_or(text.as_str(), |own| own.grade.trim());
            if name.is_empty() {
                continue;
            }
            match find_steel(name, reading.reference) {
                Ok(found) => {
                    if own.is_none() && is_other_name(name, found) {
                        answers.take_for(name.trim().to_owned(), found.designation.clone());
                    }
                    grade = Some(found);
                }
                Err(near) => {
                    let (typed, steels) = (name.to_owned(), several_steels(name, reading.reference));
                    problems.push(fault(if steels.is_empty() {
                        AnswerFault::UnknownSteel { typed, near }
                    } else {
                        AnswerFault::SeveralSteels { typed, steels }
                    }));
                }
            }
        } else if takes_composition && Element::from_symbol(key).is_some() {
            certificate.push(format!("{key} {text}"));
        } else {
            let unknown = questions::Problem::UnknownInput { key: key.clone() };
            problems.push(fault(AnswerFault::Refused(unknown)));
        }
    }
    let line = (!certificate.is_empty()).then(|| typed::composition(&certificate.join("; "))).transpose();
    match line {
        Ok(line) => {
            if let Err(fault) = steel(&mut answers, grade, line) {
                problems.push(AnswerProblem { key: COMPOSITION.to_owned(), fault });
            }
        }
        Err(problem) => {
            problems.push(AnswerProblem { key: COMPOSITION.to_owned(), fault: AnswerFault::Typed(problem) });
        }
    }
    if problems.is_empty() { Ok(answers) } else { Err(problems) }
}

/// Puts the steel into the answers, as a job takes it.
fn steel(
    answers: &mut Answers,
    grade: Option<&Grade>,
    line: Option<CertificateLine>,
) -> Result<(), AnswerFault> {
    let unmarked = line.as_ref().and_then(|line| Some((line, line.unmarked_steel(&embedded().unmarked)?)));
    if let Some((line, steel)) = unmarked {
        if let Some(composition) = steel.analysis() {
            asked_about(line, composition, None)?;
        }
        answers.set(COMPOSITION, Given::Steel(Box::new(steel)));
        return Ok(());
    }
    let given = match (grade, line) {
        (None, None) => return Ok(()),
        (Some(grade), None) => Given::Steel(Box::new(Steel::Grade(Arc::new(grade.clone())))),
        (Some(grade), Some(line)) => {
            let (composition, at_maximum) = line.with_grade(grade);
            asked_about(&line, &composition, Some(grade))?;
            if !at_maximum.is_empty() {
                answers.note(AT_GRADE_MAXIMUM);
            }
            let grade = Some(Arc::new(grade.clone()));
            Given::Steel(Box::new(Steel::Certificate { composition, grade }))
        }
        (None, Some(line)) => {
            if ![Element::C, Element::Mn].iter().all(|element| line.stated.contains(element)) {
                return Err(AnswerFault::NeedsCarbonAndManganese);
            }
            asked_about(&line, &line.composition, None)?;
            if LOOKED_FOR.iter().any(|element| !line.stated.contains(element)) {
                answers.note(NOT_STATED);
            }
            Given::Composition(line.composition)
        }
    };
    answers.set(COMPOSITION, given);
    Ok(())
}

/// Refuses a figure that no steel has: it is asked about before anything is worked out from it.
fn asked_about(
    line: &CertificateLine,
    composition: &Composition,
    grade: Option<&Grade>,
) -> Result<(), AnswerFault> {
    let found = typed::improbable(&line.stated, composition, grade);
    found.first().map_or(Ok(()), |slip| Err(AnswerFault::Improbable(*slip)))
}

/// One input as typed, in the unit of its kind.
///
/// # Errors
/// It can't be read.
pub fn read_answer(input: &Input, text: &str, reading: &Reading<'_>) -> Result<Given, AnswerFault> {
    match input.kind {
        // Gathered with the elements and the grade before it comes here.
        Kind::Composition => {
            let line = typed::composition(text).map_err(AnswerFault::Typed)?;
            Ok(Given::Composition(line.composition))
        }
        Kind::Choice(offered) => Ok(Given::Choice(choice(input, text, offered, reading.reference))),
        Kind::Flag => typed::yes_no(text).map(Given::Flag).map_err(AnswerFault::Typed),
        Kind::Text => Ok(Given::Text(text.trim().to_owned())),
        _ => reading
            .mark
            .read(text, |text| number(input, text, reading.units))
            .map(Given::Number)
            .map_err(AnswerFault::Typed),
    }
}

/// A number as typed, in the unit of its kind.
fn number(input: &Input, text: &str, units: Units) -> Result<f64, Problem> {
    let within = Within::new(input.low.unwrap_or(-1e9), input.high.unwrap_or(1e9));
    let times = |factor: f64| Within::new(within.low * factor, within.high * factor);
    match input.kind {
        Kind::Number => units::number(text, within),
        Kind::Percent => units::percent(text, within),
        Kind::Length if LEGS.contains(&input.key) => {
            units::leg(text, units.length, within).map(|length| length.mm)
        }
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
        Kind::Mass => units::mass(text, units.length, within),
        Kind::GasFlow => units::gas_flow(text, units.length, within),
        Kind::Volume => units::volume(text, units.length, within),
        Kind::Of(quantity) => quantity.read(text, units, within),
        Kind::Composition | Kind::Choice(_) | Kind::Flag | Kind::Text => {
            Err(Problem::not_understood(text, Accepts::Number))
        }
    }
}

/// The id of a choice. What a plan has too may be written in any way that the job takes. What
/// is not offered comes back as it is: the question refuses it with what it offers. A restraint
/// of "none" is refused so, since it may mean that none is stated.
fn choice(input: &Input, text: &str, offered: &[&str], reference: &Reference) -> String {
    let id = units::tidy(text).to_lowercase().replace([' ', '_'], "-");
    let as_typed = match input.of_plan {
        _ if offered.contains(&id.as_str()) => Some(id),
        Some(OfPlan::Process | OfPlan::RootProcess | OfPlan::FillProcess) => {
            match typed::process(text, reference) {
                Ok(typed::TypedProcess::Known(process)) => Some(process.id().to_owned()),
                _ => None,
            }
        }
        Some(OfPlan::Joint) => typed::joint(text).ok().map(|joint| joint.id().to_owned()),
        Some(OfPlan::Restraint) if !typed::restraint_is_none(text) => {
            typed::restraint(text).ok().map(|restraint| restraint.id().to_owned())
        }
        _ => None,
    };
    as_typed.filter(|id| offered.contains(&id.as_str())).unwrap_or_else(|| text.trim().to_owned())
}

/// Reads choices of questions as older sessions keep them: there an id bore its input's key
/// before it (`surface-bright` for the surface `bright`).
pub(super) fn choices_without_keys(choices: &mut BTreeMap<String, String>) {
    for (kept, id) in choices {
        let Some((name, key)) = kept.split_once('.') else { continue };
        let input = questions::find(name).and_then(|question| question.input(key));
        let Some(Kind::Choice(offered)) = input.map(|input| input.kind) else { continue };
        let bare = id.strip_prefix(key).and_then(|rest| rest.strip_prefix('-'));
        if let Some(bare) = bare.filter(|bare| offered.contains(bare)).map(str::to_owned) {
            *id = bare;
        }
    }
}
