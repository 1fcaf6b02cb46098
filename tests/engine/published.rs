//! Every published check in `tests/published/`, asked through the questions registry.
//!
//! A case says whether its figure is printed in a named source (`Published`), reckoned
//! once from a formula by other means (`Computed`), remembered or reckoned from a remembered
//! formula (`Memory`), or common practice with no source (`Practice`).
#![allow(clippy::unwrap_used, reason = "a table that can't be read fails the test")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;
use std::sync::Arc;

use serde::Deserialize;
use strawblue::engine::Outcome;
use strawblue::engine::job::Steel;
use strawblue::questions::{self, Answers, COMPOSITION, Given, OUTSIDE_RANGE, Reply};
use strawblue::reference::{Composition, embedded};

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
enum CaseKind {
    Published,
    Computed,
    Memory,
    Practice,
}

#[derive(Debug, Clone, Deserialize)]
enum Value {
    N(f64),
    Id(String),
    Yes,
}

#[derive(Debug, Clone, Deserialize)]
enum Expected {
    Value {
        answer: String,
        is: f64,
        within: f64,
    },
    Span {
        answer: String,
        low: f64,
        high: f64,
        within: f64,
    },
    /// The value lies in the span of the answer.
    Holds {
        answer: String,
        value: f64,
    },
    Step {
        answer: String,
        symbol: String,
        is: f64,
        within: f64,
    },
    /// What an input counted as.
    Input {
        answer: String,
        symbol: String,
        is: f64,
        within: f64,
    },
    /// The figure as its source prints it.
    Printed {
        answer: String,
        f: f64,
    },
    Nothing {
        answer: String,
    },
    InRange {
        answer: String,
    },
    /// Only a lower end is known.
    AtLeast {
        answer: String,
        is: f64,
        within: f64,
    },
    /// Only an upper end is known.
    AtMost {
        answer: String,
        is: f64,
        within: f64,
    },
    Outside {
        answer: String,
        symbol: String,
    },
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Case {
    pub(super) name: String,
    kind: CaseKind,
    #[serde(default)]
    source: Option<String>,
    question: String,
    /// The steel as a grade.
    #[serde(default)]
    grade: Option<String>,
    #[serde(default)]
    composition: Composition,
    #[serde(default)]
    given: BTreeMap<String, Value>,
    expect: Vec<Expected>,
    #[serde(default)]
    notes: Vec<String>,
    /// Notes that it must not make.
    #[serde(default)]
    silent: Vec<String>,
}

pub(super) struct File {
    pub(super) name: String,
    pub(super) cases: Vec<Case>,
}

/// All files of the folder; none may be skipped, hidden or of another kind.
pub(super) fn files() -> Vec<File> {
    let folder: PathBuf = [env!("CARGO_MANIFEST_DIR"), "tests", "published"].iter().collect();
    let mut paths: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths
        .iter()
        .map(|path| {
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            assert!(name.ends_with(".ron"), "{name}: only .ron files belong here");
            let text = fs::read_to_string(path).unwrap();
            let first = text.lines().next().unwrap_or_default();
            assert!(first.len() > 20 && first.starts_with("// Source: "), "{name}: line 1 names no source");
            let cases: Vec<Case> = ron::from_str(&text).unwrap_or_else(|error| panic!("{name}: {error}"));
            assert!(!cases.is_empty(), "{name}: no case");
            File { name, cases }
        })
        .collect()
}

pub(super) fn ask(case: &Case) -> Result<Reply, String> {
    let question = questions::find(&case.question).ok_or("no such question")?;
    let mut given = Answers::new();
    if case.composition != Composition::default() {
        given.set(COMPOSITION, Given::Composition(case.composition));
    }
    if let Some(id) = &case.grade {
        let grade = embedded().grade(id).ok_or("no such grade")?.clone();
        given.set(COMPOSITION, Given::Steel(Box::new(Steel::Grade(Arc::new(grade)))));
    }
    for (key, value) in &case.given {
        let value = match value {
            Value::N(number) => Given::Number(*number),
            Value::Id(id) => Given::Choice(id.clone()),
            Value::Yes => Given::Flag(true),
        };
        given.set(key, value);
    }
    let reply = question.ask(&given).map_err(|problem| format!("refused: {problem}"))?;
    for outcome in &reply.answers {
        if !question.answers.contains(&outcome.name) {
            return Err(format!("answers `{}`, which it does not declare", outcome.name));
        }
    }
    if let Some(note) =
        reply.notes.iter().find(|note| **note != OUTSIDE_RANGE && !question.notes.contains(note))
    {
        return Err(format!("notes `{note}`, which it does not declare"));
    }
    Ok(reply)
}

fn near(found: Option<f64>, is: f64, within: f64) -> Result<(), String> {
    match found {
        Some(value) if (value - is).abs() <= within + 1e-12 => Ok(()),
        Some(value) => Err(format!("is {value}, not {is} within {within}")),
        None => Err(format!("is empty, not {is}")),
    }
}

fn check(reply: &Reply, expected: &Expected) -> Result<(), String> {
    let outcome = |name: &str| -> Result<&Outcome, String> {
        reply.answer(name).ok_or_else(|| format!("no answer `{name}`"))
    };
    match expected {
        Expected::Value { answer, is, within } => {
            near(outcome(answer)?.value, *is, *within).map_err(|said| format!("{answer} {said}"))
        }
        Expected::Span { answer, low, high, within } => near(outcome(answer)?.low, *low, *within)
            .and_then(|()| near(outcome(answer)?.high, *high, *within))
            .map_err(|said| format!("span of {answer} {said}")),
        Expected::Holds { answer, value } => {
            let (low, high) = (outcome(answer)?.low, outcome(answer)?.high);
            match (low, high) {
                (Some(low), Some(high)) if (low..=high).contains(value) => Ok(()),
                _ => Err(format!("{answer} is {low:?} to {high:?} and does not hold {value}")),
            }
        }
        Expected::Step { answer, symbol, is, within } => {
            let step = outcome(answer)?.steps.iter().find(|step| step.symbol == symbol);
            near(step.map(|step| step.value), *is, *within)
                .map_err(|said| format!("{symbol} of {answer} {said}"))
        }
        Expected::Input { answer, symbol, is, within } => {
            let input = outcome(answer)?.input(symbol);
            near(input.map(|input| input.used), *is, *within)
                .map_err(|said| format!("{symbol} of {answer} {said}"))
        }
        Expected::Printed { answer, f } => {
            let printed = outcome(answer)?.printed.and_then(|printed| printed.f);
            near(printed, *f, 0.0).map_err(|said| format!("{answer}, as printed, {said}"))
        }
        Expected::Nothing { answer } => match outcome(answer)?.value {
            None => Ok(()),
            Some(value) => Err(format!("{answer} is {value}, not empty")),
        },
        Expected::InRange { answer } => {
            if outcome(answer)?.in_range() {
                Ok(())
            } else {
                Err(format!("{answer} is out of range"))
            }
        }
        Expected::AtLeast { answer, is, within } => {
            let found = outcome(answer)?;
            let low = found.low.filter(|_| found.value.is_none() && found.high.is_none());
            near(low, *is, *within).map_err(|said| format!("{answer}, at least, {said}"))
        }
        Expected::AtMost { answer, is, within } => {
            let found = outcome(answer)?;
            let high = found.high.filter(|_| found.value.is_none() && found.low.is_none());
            near(high, *is, *within).map_err(|said| format!("{answer}, at most, {said}"))
        }
        Expected::Outside { answer, symbol } => {
            let outside = |name: &str| {
                outcome(answer).is_ok_and(|found| {
                    found.inputs.iter().any(|check| check.symbol == name && !check.inside())
                })
            };
            if outside(symbol) { Ok(()) } else { Err(format!("{symbol} of {answer} is not marked outside")) }
        }
    }
}

#[test]
fn every_case_of_every_file_agrees() {
    let mut failures = Vec::new();
    let mut asked = 0;
    for File { name, cases } in files() {
        for case in &cases {
            asked += 1;
            match ask(case) {
                Err(said) => failures.push(format!("{name}, {}: {said}", case.name)),
                Ok(reply) => {
                    let wrong = case.expect.iter().filter_map(|expected| check(&reply, expected).err());
                    failures.extend(wrong.map(|said| format!("{name}, {}: {said}", case.name)));
                    let silent = case.notes.iter().filter(|note| !reply.notes.contains(&note.as_str()));
                    failures
                        .extend(silent.map(|note| format!("{name}, {}: does not say `{note}`", case.name)));
                    let said = case.silent.iter().filter(|note| reply.notes.contains(&note.as_str()));
                    failures.extend(said.map(|note| format!("{name}, {}: says `{note}`", case.name)));
                    let declared = questions::find(&case.question).map_or(&[][..], |found| found.notes);
                    let strange = case.silent.iter().filter(|note| !declared.contains(&note.as_str()));
                    failures.extend(strange.map(|note| format!("{name}, {}: no note `{note}`", case.name)));
                }
            }
        }
    }
    assert!(failures.is_empty(), "{} of {asked} cases disagree:\n{}", failures.len(), failures.join("\n"));
    assert!(asked > 400, "only {asked} cases were asked");
}

#[test]
fn sources_stand_beside_what_is_published_and_only_there() {
    for File { name, cases } in files() {
        let mut names = BTreeSet::new();
        for case in cases {
            let at = format!("{name}, {}", case.name);
            assert!(names.insert(case.name.clone()), "{at}: the name is used twice");
            assert!(!case.expect.is_empty(), "{at}: expects nothing");
            let sourced = case.source.as_ref().is_some_and(|source| source.len() > 3);
            match case.kind {
                CaseKind::Published => assert!(sourced, "{at}: published, but by whom?"),
                CaseKind::Memory => assert!(sourced, "{at}: remembered of what?"),
                CaseKind::Practice => assert!(case.source.is_none(), "{at}: common practice has no source"),
                CaseKind::Computed => {}
            }
        }
    }
}

/// What is common practice has no source to name: neither the case, nor the answer of the
/// trade that it checks.
#[test]
fn a_fact_of_the_trade_carries_no_source() {
    let mut facts = 0;
    for File { name, cases } in files() {
        let of_the_trade = name == "trade_facts.ron";
        for case in cases.iter().filter(|case| case.kind == CaseKind::Practice || of_the_trade) {
            facts += 1;
            let at = format!("{name}, {}", case.name);
            assert!(case.kind == CaseKind::Practice && case.source.is_none(), "{at}: names a source");
        }
    }
    assert!(facts >= 14, "only {facts}");
    let methods = &embedded().methods;
    for file in ["skates", "bites"] {
        let given = Answers::new().with("file", Given::Choice(file.to_owned()));
        let reply = questions::find("file-test").unwrap().ask(&given).unwrap();
        assert_eq!(*reply.answers[0].basis(methods), strawblue::reference::Basis::Practice);
    }
}

#[test]
fn every_question_and_every_answer_is_checked() {
    let mut checked: BTreeSet<(String, String)> = BTreeSet::new();
    for case in files().into_iter().flat_map(|file| file.cases) {
        for expected in &case.expect {
            let (Expected::Value { answer, .. }
            | Expected::Span { answer, .. }
            | Expected::Holds { answer, .. }
            | Expected::Step { answer, .. }
            | Expected::Input { answer, .. }
            | Expected::Printed { answer, .. }
            | Expected::Nothing { answer }
            | Expected::InRange { answer }
            | Expected::AtLeast { answer, .. }
            | Expected::AtMost { answer, .. }
            | Expected::Outside { answer, .. }) = expected;
            checked.insert((case.question.clone(), answer.clone()));
        }
    }
    let missing: Vec<String> = questions::ALL
        .iter()
        .flat_map(|question| question.answers.iter().map(move |answer| (question.name, *answer)))
        .filter(|(question, answer)| !checked.contains(&((*question).to_owned(), (*answer).to_owned())))
        .map(|(question, answer)| format!("{question}: {answer}"))
        .collect();
    assert!(missing.is_empty(), "no case checks:\n{}", missing.join("\n"));
}

/// The answer whose figure an expectation holds.
fn figure_of(expected: &Expected) -> Option<&str> {
    match expected {
        Expected::Value { answer, .. }
        | Expected::Span { answer, .. }
        | Expected::Holds { answer, .. }
        | Expected::Step { answer, .. } => Some(answer),
        _ => None,
    }
}

#[test]
fn what_rests_on_a_remembered_formula_says_so_case_by_case() {
    let mut unmarked = Vec::new();
    for File { name, cases } in files() {
        for case in cases.iter().filter(|case| case.kind == CaseKind::Computed) {
            let Ok(reply) = ask(case) else { continue };
            let remembered: BTreeSet<&str> = case
                .expect
                .iter()
                .filter_map(figure_of)
                .filter(|answer| {
                    reply
                        .answer(answer)
                        .is_some_and(|found| found.basis(&embedded().methods).kind() == "memory")
                })
                .collect();
            if !remembered.is_empty() {
                unmarked.push(format!("{name}, {}: {remembered:?}", case.name));
            }
        }
    }
    assert!(
        unmarked.is_empty(),
        "{} cases rest on memory and don't say so:\n{}",
        unmarked.len(),
        unmarked.join("\n")
    );
}
