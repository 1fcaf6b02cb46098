//! Every question is fully declared, and every word that it needs exists.

use std::collections::BTreeSet;

use strawblue::questions::{self, Answers, Given, Kind, Preset, Problem};
use strawblue::words::Words;

fn need(words: &Words, key: &str) {
    assert!(words.has(key), "data/en.ftl lacks `{key}`");
    assert!(!key.starts_with("option-") || !words.get(key).contains('{'), "`{key}` refers to nothing");
}

#[test]
fn every_declared_key_has_its_words() {
    let words = Words::english();
    for question in questions::ALL {
        need(&words, &format!("question-{}", question.name));
        need(&words, &format!("question-{}.about", question.name));
        for input in question.inputs {
            need(&words, &format!("input-{}", input.key));
            if let Kind::Choice(ids) = input.kind {
                ids.iter().for_each(|id| need(&words, &format!("option-{id}")));
            }
        }
        question.answers.iter().for_each(|name| need(&words, &format!("answer-{name}")));
        question.notes.iter().for_each(|id| need(&words, &format!("note-{id}")));
    }
    need(&words, &format!("note-{}", questions::OUTSIDE_RANGE));
    questions::STEEL_NOTES.iter().for_each(|id| need(&words, &format!("note-{id}")));
}

#[test]
fn every_refusal_has_its_words() {
    use strawblue::engine::EngineError;
    let words = Words::english();
    let engine = [
        EngineError::NotANumber { symbol: "d" },
        EngineError::BelowZero { symbol: "d", value: -1.0 },
        EngineError::OutOfDomain { symbol: "d", value: 9.0, low: 1.0, high: 2.0 },
        EngineError::NoAnswer { reason: "cools-slowly-anyway" },
        EngineError::NoAnswer { reason: "cools-fast-anyway" },
        EngineError::NoAnswer { reason: "hardness-no-order" },
        EngineError::NoAnswer { reason: "post-heat-above-ceiling" },
        EngineError::NoAnswer { reason: "table-has-no-row" },
        EngineError::NoAnswer { reason: "category-hydrogen" },
    ];
    let mut problems: Vec<Problem> = engine.into_iter().map(Problem::Engine).collect();
    problems.push(Problem::Missing { keys: vec!["thickness"] });
    problems.push(Problem::MissingSeveral { each: vec![vec!["composition", "cet"], vec!["thickness"]] });
    problems.push(Problem::OnlyOne { keys: vec!["composition", "cet"] });
    problems.push(Problem::TravelTwice);
    problems.push(Problem::UnknownInput { key: "tea".to_owned() });
    problems.push(Problem::WrongKind { key: "thickness" });
    problems.push(Problem::NotOffered { key: "joint", given: "knot".to_owned(), offered: &["butt"] });
    for problem in problems {
        need(&words, &problem.key());
        let values = problem.values();
        let values: Vec<(&str, &str)> = values.iter().map(|(name, value)| (*name, value.as_str())).collect();
        let said = words.with(&problem.key(), &values);
        assert!(
            !said.contains('{') && !said.contains('$'),
            "a value of {problem:?} is not filled in: {said}"
        );
    }
}

#[test]
fn names_and_keys_are_unique_and_numbers_have_limits() {
    let mut names = BTreeSet::new();
    for question in questions::ALL {
        assert!(names.insert(question.name), "two questions are called {}", question.name);
        let mut keys = BTreeSet::new();
        for input in question.inputs {
            assert!(keys.insert(input.key), "{} asks {} twice", question.name, input.key);
            if input.kind.numeric() {
                let (Some(low), Some(high)) = (input.low, input.high) else {
                    panic!("{}: {} has no limits", question.name, input.key);
                };
                if let Some(Preset::Number(value)) = input.default {
                    assert!(
                        (low..=high).contains(&value),
                        "{}: {} defaults outside",
                        question.name,
                        input.key
                    );
                }
            }
            if let (Kind::Choice(ids), Some(Preset::Choice(id))) = (input.kind, input.default) {
                assert!(ids.contains(&id), "{}: {} defaults to {id}", question.name, input.key);
            }
        }
        assert!(std::ptr::eq(questions::find(question.name).unwrap(), *question));
    }
    assert!(questions::find("no-such-question").is_none());
}

#[test]
fn what_is_missing_unknown_or_of_another_kind_is_said() {
    let method_b = questions::find("method-b").unwrap();
    let none = method_b.ask(&Answers::new()).unwrap_err();
    let each = vec![vec!["composition", "cet"], vec!["thickness"], vec!["hydrogen"], vec!["heat-input"]];
    assert_eq!(none, Problem::MissingSeveral { each });
    let tea = method_b.ask(&Answers::new().with("tea", Given::Number(1.0))).unwrap_err();
    assert_eq!(tea, Problem::UnknownInput { key: "tea".to_owned() });
    let text = method_b.ask(&Answers::new().with("thickness", Given::Text("thick".to_owned()))).unwrap_err();
    assert_eq!(text, Problem::WrongKind { key: "thickness" });
    let no_steel = Answers::new()
        .with("thickness", Given::Number(20.0))
        .with("hydrogen", Given::Number(5.0))
        .with("heat-input", Given::Number(1.0));
    assert_eq!(method_b.ask(&no_steel).unwrap_err(), Problem::Missing { keys: vec!["composition", "cet"] });
    let joint = questions::find("combined-thickness").unwrap();
    let knot = joint.ask(&Answers::new().with("joint", Given::Choice("knot".to_owned()))).unwrap_err();
    assert!(matches!(knot, Problem::NotOffered { key: "joint", .. }));
}

#[test]
fn every_row_of_a_table_is_offered() {
    let reference = strawblue::reference::embedded();
    let offered =
        |question: &str, key: &str| match questions::find(question).unwrap().input(key).unwrap().kind {
            Kind::Choice(ids) => ids.to_vec(),
            kind => panic!("{key} of {question} is {kind:?}"),
        };
    let grades: Vec<&str> =
        reference.practice.low_hydrogen.rows.iter().map(|row| row.grade.as_str()).collect();
    assert_eq!(offered("practice-rows", "grade"), grades);
    let groups: Vec<&str> = reference.own_sheets.groups.iter().map(|group| group.id.as_str()).collect();
    assert_eq!(offered("navsea-rows", "group"), groups);
    let letters: Vec<String> =
        reference.d11.categories.iter().map(|row| row.category.to_ascii_lowercase().to_string()).collect();
    assert_eq!(offered("d11-category", "category"), letters);
}

/// Two inputs that say one thing may contradict each other: neither is dropped in silence.
#[test]
fn what_is_said_twice_is_refused() {
    let number = |name: &str, pairs: &[(&'static str, f64)]| {
        let given =
            pairs.iter().fold(Answers::new(), |made, (key, value)| made.with(*key, Given::Number(*value)));
        questions::find(name).unwrap().ask(&given).unwrap_err()
    };
    let both = [("weld-thickness", 20.0), ("strength", 700.0), ("hydrogen", 5.0), ("hydrogen-jis", 1.0)];
    assert_eq!(number("multi-run", &both), Problem::OnlyOne { keys: vec!["hydrogen", "hydrogen-jis"] });
    let one = number("multi-run", &both[..2]);
    assert_eq!(one, Problem::Missing { keys: vec!["hydrogen", "hydrogen-jis"] });
    // An efficiency of one's own stands beside the process.
    let of_heat = number("heat-input", &[("volts", 25.0)]);
    let each =
        vec![vec!["amps"], vec!["travel-speed", "arc-time", "run-length"], vec!["process", "efficiency"]];
    assert_eq!(of_heat, Problem::MissingSeveral { each });
}

/// A timed run and a travel speed may say two different things: neither is dropped in silence.
#[test]
fn a_speed_beside_a_timed_run_is_refused() {
    let heat_input = questions::find("heat-input").unwrap();
    let run = Answers::new()
        .with("volts", Given::Number(25.0))
        .with("amps", Given::Number(150.0))
        .with("efficiency", Given::Number(0.8))
        .with("arc-time", Given::Number(80.0))
        .with("run-length", Given::Number(200.0));
    let timed = heat_input.ask(&run).unwrap();
    let speed = run.clone().with("travel-speed", Given::Number(2.5));
    assert_eq!(heat_input.ask(&speed).unwrap_err().key(), "error-travel-twice");
    // 25 V · 150 A · 80 s / 200 mm = 1.5 kJ/mm of arc energy, 1.2 net.
    assert!((timed.answer("net-heat-input").unwrap().value.unwrap() - 1.2).abs() < 1e-9);
}
