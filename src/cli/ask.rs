//! `ask`: one physical question.

use std::fmt::Write;

use serde_json::{Value, json};

use super::arguments::Request;
use super::outcome_json::OutcomeJson;
use super::{NO_SAFE_ANSWER, NOT_UNDERSTOOD, Said, ask_text};
use crate::engine::EngineError;
use crate::job::{DefaultValue, Defaulted, Field};
use crate::job::{Reading, STEEL, read_answers, say_refusal, shown_unit};
use crate::questions::{self, COMPOSITION, Input, Kind, Preset, Problem, Question};
use crate::reference::embedded;
use crate::report::Pen;
use crate::units::{Mark, Show, Units};
use crate::words::{List, Words};

/// The list of questions, what one takes, or its answer.
pub(super) fn ask(name: Option<&str>, pairs: &[(String, String)], request: &Request, words: &Words) -> Said {
    let Some(name) = name else { return list(request, words) };
    let Some(question) = questions::find(name) else {
        let near = words.list(List::Comma, &near(name));
        let key = if near.is_empty() { "cli-unknown-question" } else { "cli-unknown-question-near" };
        let says = words.with(key, &[("given", &crate::units::shortened(name)), ("near", &near)]);
        return Said::problems(&[("ask".to_owned(), says)], request.json);
    };
    if pairs.is_empty() {
        return describe(question, request, words);
    }
    let reading = Reading { reference: embedded(), own_steels: &[], units: request.units, mark: Mark::Point };
    let answers = match read_answers(question, pairs, &reading) {
        Ok(answers) => answers,
        Err(problems) => {
            let problems: Vec<(String, String)> =
                problems.into_iter().map(|problem| (problem.key.clone(), problem.say(words))).collect();
            return Said::problems(&problems, request.json);
        }
    };
    match question.ask_finely(&answers) {
        Ok(reply) => {
            let answered =
                reply.answers.first().is_some_and(|first| {
                    first.value.is_some() || first.low.is_some() || first.high.is_some()
                }) || reply.notes.contains(&questions::NO_PREHEAT);
            let show = Show::new(request.units, words);
            let taken_for = answers.taken_for().map(|(typed, grade)| {
                let value = DefaultValue::TakenFor { typed: typed.to_owned(), grade: grade.to_owned() };
                Defaulted { slot: Field::Steel.into(), value }.say(words, &show)
            });
            let said = if request.json {
                let methods = &reading.reference.methods;
                let answers: Vec<OutcomeJson> =
                    reply.answers.iter().map(|outcome| OutcomeJson::of(outcome, methods)).collect();
                Said::json(&json!({
                    "question": question.name, "answers": answers, "notes": reply.notes,
                    "taken_for": taken_for,
                }))
            } else {
                let pen = Pen { reference: reading.reference, words, show };
                let taken_for = taken_for.map_or_else(String::new, |said| format!("\n{said}\n"));
                Said::answered(ask_text::reply(question, &reply, &pen) + &taken_for)
            };
            if answered { said } else { said.with_status(NO_SAFE_ANSWER) }
        }
        Err(problem) => {
            // What was typed is sound and the method has no figure for it.
            let status = match &problem {
                Problem::Engine(EngineError::NoAnswer { .. }) => NO_SAFE_ANSWER,
                _ => NOT_UNDERSTOOD,
            };
            let says = say_refusal(&problem, words);
            Said::problems(&[(question.name.to_owned(), says)], request.json).with_status(status)
        }
    }
}

fn list(request: &Request, words: &Words) -> Said {
    let about = |question: &Question| words.get(&format!("question-{}.about", question.name));
    if request.json {
        let all: Vec<Value> = questions::ALL
            .iter()
            .map(|question| json!({ "name": question.name, "about": about(question) }))
            .collect();
        return Said::json(&json!({ "questions": all }));
    }
    let mut made = words.get("cli-questions") + "\n\n";
    for question in questions::ALL {
        let _ = writeln!(made, "  {:<28} {}", question.name, about(question));
    }
    Said::answered(made + "\n" + &words.get("cli-questions-more") + "\n")
}

fn describe(question: &Question, request: &Request, words: &Words) -> Said {
    if request.json {
        let inputs: Vec<Value> = question
            .inputs
            .iter()
            .map(|input| {
                let options = if let Kind::Choice(offered) = input.kind { offered } else { &[] };
                json!({
                    "key": input.key, "name": words.get(&format!("input-{}", input.key)),
                    "unit": input.kind.unit(), "low": input.low, "high": input.high,
                    "required": input.required, "options": options,
                })
            })
            .collect();
        return Said::json(
            &json!({ "question": question.name, "inputs": inputs, "answers": question.answers }),
        );
    }
    let mut made = format!(
        "{}\n{}\n\n",
        words.get(&format!("question-{}", question.name)),
        words.get(&format!("question-{}.about", question.name))
    );
    for input in question.inputs {
        let _ = writeln!(made, "  {:<20} {}", input.key, takes(input, request.units, words));
    }
    if question.input(COMPOSITION).is_some() {
        let _ = writeln!(made, "  {:<20} {}", "C, Mn, …", words.get("cli-takes-elements"));
        let _ = writeln!(made, "  {:<20} {}", STEEL, words.get("cli-takes-steel"));
    }
    Said::answered(made)
}

/// What an input takes, with the unit that a bare number gets, and what counts where it is not given.
fn takes(input: &Input, units: Units, words: &Words) -> String {
    let made = kind_of(input, units, words);
    let default = match input.default {
        Some(Preset::Number(value)) => {
            let value = words.value(&value.to_string());
            Some(format!("{value} {}", input.kind.unit().unwrap_or("")).trim().to_owned())
        }
        Some(Preset::Choice(id)) => Some(id.to_owned()),
        Some(Preset::Flag(on)) => Some(if on { "yes" } else { "no" }.to_owned()),
        None => None,
    };
    match default {
        _ if input.required => made + "; " + &words.get("cli-required"),
        Some(value) => made + "; " + &words.with("cli-default", &[("value", &value)]),
        None => made,
    }
}

/// The same beside a plan, which knows some of it.
pub(super) fn takes_beside_plan(input: &Input, units: Units, words: &Words) -> String {
    if input.of_plan.is_none() {
        return takes(input, units, words);
    }
    kind_of(input, units, words) + "; " + &words.get("cli-of-plan")
}

/// The name of an input, and its options or its unit.
fn kind_of(input: &Input, units: Units, words: &Words) -> String {
    let unit = if input.kind == Kind::Flag { "yes, no" } else { shown_unit(input.kind, units) };
    let mut made = words.get(&format!("input-{}", input.key));
    if let Kind::Choice(offered) = input.kind {
        let _ = write!(made, ": {}", words.list(List::Comma, offered));
    } else if !unit.is_empty() {
        let _ = write!(made, " [{unit}]");
    }
    made
}

/// Questions whose name holds what was typed, or shares its first letters.
fn near(name: &str) -> Vec<&'static str> {
    let name = name.to_lowercase().replace(['_', ' '], "-");
    let parts: Vec<&str> = name.split('-').filter(|part| part.len() > 2).collect();
    questions::ALL
        .iter()
        .map(|question| question.name)
        .filter(|known| parts.iter().any(|part| known.split('-').any(|word| shares(word, part))))
        .collect()
}

fn shares(word: &str, part: &str) -> bool {
    word.chars().zip(part.chars()).take_while(|(one, other)| one == other).count() >= 3
}
