//! A plan and a question ask one function: each figure of a plan's evidence is the answer of
//! the question of that method, asked with the inputs that counted.

use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use std::sync::Arc;
use strawblue::engine::evidence::Evidence;
use strawblue::engine::evidence::multi_run::MPA_PER_KGF_MM2;
use strawblue::engine::job::Job;
use strawblue::engine::plan::plan;
use strawblue::engine::{Outcome, Says};
use strawblue::questions::{self, Answers, COMPOSITION, Given};
use strawblue::reference::{Method, embedded};

use crate::laws::a_job;

/// Jobs that are planned and asked.
const JOBS: usize = 10_000;

/// What was asked, and what must come back.
struct Asked {
    question: &'static str,
    answer: &'static str,
    given: Answers,
}

/// The question of a piece of evidence with the inputs that counted; `None` for what has none: a
/// sheet of its own, cold steel, a demand.
fn question_of(job: &Job, item: &Evidence) -> Option<Asked> {
    let outcome = &item.outcome;
    let used = |symbol: &str| Given::Number(outcome.input(symbol).expect("the input").used);
    let row = || outcome.row.clone().expect("a row");
    let restraint = Given::Choice(job.restraint.id().to_owned());
    let grade = || {
        let steel = &job.members[item.member.expect("a member")].steel;
        Given::Steel(Box::new(steel.clone()))
    };
    let given = Answers::new();
    let (question, answer, given) = match outcome.method {
        // The steps add up to the figure without what a cool shop adds.
        Method::MethodB | Method::CoolOrDamp => {
            let given = given.with("cet", used("CET")).with("thickness", used("d"));
            let given = given.with("hydrogen", used("HD")).with("heat-input", used("Q"));
            ("method-b", "method-b", given.with("restraint", restraint))
        }
        Method::D11Annex => {
            let given = given.with("pcm", used("Pcm")).with("thickness", used("d"));
            ("d11-annex", "d11-annex", given.with("hydrogen", used("HD")).with("restraint", restraint))
        }
        Method::D11Category => {
            let given = given.with("category", Given::Choice(row().to_lowercase()));
            ("d11-category", "d11-category", given.with("thickness", used("d")))
        }
        Method::TableC1 => {
            // An element beyond its limit shuts the table whatever the equivalent is.
            outcome
                .inputs
                .iter()
                .all(|input| input.symbol.len() > 2 || ["CE", "Q", "HD"].contains(&input.symbol))
                .then_some(())?;
            let given = given.with("ce", used("CE")).with("hydrogen", used("HD"));
            ("table-c1", "table-c1", given.with("heat-input", used("Q")).with("combined", used("d_comb")))
        }
        Method::PracticeLowH => {
            let given = given.with("grade", Given::Choice(row())).with("thickness", used("d"));
            ("practice-rows", "practice-rows", given.with("hydrogen", used("HD")))
        }
        Method::CeqBands => {
            ("ceq-bands", "ceq-bands", given.with("ceq", used("Ceq")).with("hydrogen", used("HD")))
        }
        Method::CarbonLine => {
            let given = given.with("carbon", used("C")).with("hydrogen", used("HD"));
            ("carbon-line", "carbon-line", given.with("thickness", used("d")))
        }
        Method::MultiRun => {
            let strength = outcome.input("sigma_B").expect("the strength").used * MPA_PER_KGF_MM2;
            let given = given.with("hydrogen-jis", used("H_JIS")).with("weld-thickness", used("h_w"));
            ("multi-run", "multi-run", given.with("strength", Given::Number(strength)))
        }
        Method::Seferian => {
            ("seferian", "seferian", given.with("c-chem", used("C_chem")).with("thickness", used("d")))
        }
        Method::DeardenOneill => ("dearden-oneill", "dearden-oneill", given.with("ce", used("CE"))),
        Method::ItoBessyo => {
            let given = given.with("pcm", used("Pcm")).with("hydrogen-jis", used("H_JIS"));
            ("ito-bessyo", "ito-bessyo", given.with("thickness", used("d")))
        }
        Method::GradeRows => {
            ("grade-figures", "grade-rows", given.with(COMPOSITION, grade()).with("thickness", used("d")))
        }
        Method::SaeChart => {
            let given = given.with(COMPOSITION, grade()).with("thickness", Given::Number(20.0));
            ("grade-figures", "sae-chart", given)
        }
        Method::DataSheet => {
            let sheet = embedded().grade(&row()).expect("a grade").clone();
            let steel = strawblue::engine::job::Steel::Grade(Arc::new(sheet));
            let given = given.with(COMPOSITION, Given::Steel(Box::new(steel)));
            let given = given.with("thickness", Given::Number(20.0));
            ("grade-figures", "data-sheet", given.with("hydrogen", used("HD")))
        }
        _ => return None,
    };
    Some(Asked { question, answer, given })
}

/// What a cool shop adds to Method B, which its question does not know.
fn added_k(outcome: &Outcome) -> f64 {
    outcome.steps.iter().find(|step| step.symbol == "cool or damp").map_or(0.0, |step| step.value)
}

/// Why the answer is not the evidence's, where it isn't.
fn differs(item: &Evidence, asked: &Asked) -> Option<String> {
    let question = questions::find(asked.question).expect("the question");
    let reply = match question.ask(&asked.given) {
        Ok(reply) => reply,
        Err(problem) => return Some(format!("{}: {problem}", asked.question)),
    };
    let answer = reply.answer(asked.answer).expect("the answer");
    let outcome = &item.outcome;
    let same = |one: Option<f64>, other: Option<f64>| match (one, other) {
        (Some(one), Some(other)) => (one - other).abs() <= 1e-9 * one.abs().max(1.0),
        (None, None) => true,
        _ => false,
    };
    let value = outcome.value.map(|value| value - added_k(outcome));
    let equal = answer.says == outcome.says
        && same(answer.value, value)
        && same(answer.low, outcome.low)
        && same(answer.high, outcome.high)
        && answer.own_basis == outcome.own_basis;
    (!equal).then(|| format!("{}: asked {answer:?}\nplanned {outcome:?}", asked.question))
}

#[test]
fn a_question_answers_what_the_plan_shows() {
    let mut runner = TestRunner::deterministic();
    let mut met = std::collections::BTreeMap::new();
    for _ in 0..JOBS {
        let job = a_job().new_tree(&mut runner).expect("a job").current();
        for item in plan(embedded(), &job).evidence {
            let Some(asked) = question_of(&job, &item) else { continue };
            *met.entry(item.outcome.method).or_insert(0) += 1;
            if let Some(said) = differs(&item, &asked) {
                panic!("{said}");
            }
        }
    }
    assert!(met.len() >= 14, "only {met:?} were met");
}

/// The comparison finds a drift of a thousandth: a figure that moved, a clearance that became a
/// figure, another basis.
#[test]
fn a_drift_is_found() {
    let mut runner = TestRunner::deterministic();
    let mut planted = 0;
    for _ in 0..200 {
        let job = a_job().new_tree(&mut runner).expect("a job").current();
        for mut item in plan(embedded(), &job).evidence {
            let Some(asked) = question_of(&job, &item) else { continue };
            assert_eq!(differs(&item, &asked), None);
            let sound = item.clone();
            if let Some(value) = &mut item.outcome.value {
                *value += 1e-3;
                planted += 1;
                assert!(differs(&item, &asked).is_some(), "{:?}", item.outcome);
                item = sound;
            }
            item.outcome.says = if item.outcome.says == Says::Clears { Says::Figure } else { Says::Clears };
            assert!(differs(&item, &asked).is_some(), "{:?}", item.outcome);
        }
    }
    assert!(planted > 1000, "only {planted} drifts were planted");
}
