//! The heat cycle as a question: what it offers, what calibrates it, what it refuses.
#![allow(clippy::unwrap_used, reason = "a question that is gone fails the test")]

use std::ops::ControlFlow;

use strawblue::engine::EngineError;
use strawblue::engine::heat_cycle::{Refusal, flow_levers, plain_preheat};
use strawblue::questions::{self, Answers, Given, Kind, Problem, Reply, SAYING_NO};
use strawblue::reference::{Method, embedded};
use strawblue::words::Words;

/// The invented demo.
const DEMO: [(&str, f64); 11] = [
    ("first-thickness", 30.0),
    ("second-thickness", 90.0),
    ("leg", 8.0),
    ("plate-width", 160.0),
    ("plate-length", 400.0),
    ("fuel-flow", 2.831_684_659),
    ("minimum-preheat", 300.0),
    ("interpass-most", 400.0),
    ("ceiling", 510.0),
    ("heat-input", 1.2),
    ("room-temperature", 15.0),
];

/// The demo, with these figures besides.
pub(super) fn ask(more: &[(&str, f64)]) -> Result<Reply, Problem> {
    let given = more.iter().fold(without(&[]), |all, (key, value)| all.with(*key, Given::Number(*value)));
    questions::find("heat-cycle").unwrap().ask(&given)
}

/// The demo without some of its facts.
fn without(gone: &[&str]) -> Answers {
    let mut given = Answers::new().with("joint", Given::Choice("boss-through".to_owned()));
    if !gone.contains(&"carbon-steel") {
        given = given.with("carbon-steel", Given::Flag(true));
    }
    let kept = DEMO.iter().filter(|(key, _)| !gone.contains(key));
    kept.fold(given, |all, (key, value)| all.with(*key, Given::Number(*value)))
}

fn minutes(reply: &Reply) -> f64 {
    reply.answer("heat-minutes").unwrap().value.unwrap()
}

#[test]
fn every_arc_of_the_data_is_offered() {
    let rows: Vec<&str> = embedded().heat_cycle.arcs.iter().map(|row| row.id.as_str()).collect();
    for key in ["process", "root-process"] {
        match questions::find("heat-cycle").unwrap().input(key).unwrap().kind {
            Kind::Choice(ids) => assert_eq!(ids, rows, "{key}"),
            kind => panic!("{key} is {kind:?}"),
        }
    }
}

/// The second program finds 0.26041 where the coldest place had 300 °C after 5 min.
#[test]
fn the_first_part_says_what_the_flame_brings() {
    let timed = ask(&[("first-part-minutes", 5.0)]).unwrap();
    let stated = ask(&[("flame-share", 0.26041)]).unwrap();
    assert!((minutes(&timed) / minutes(&stated) - 1.0).abs() < 0.03);
    assert!(!timed.notes.contains(&"torch-efficiency"));
    let both = ask(&[("first-part-minutes", 5.0), ("flame-share", 0.3)]).unwrap_err();
    assert_eq!(both, Problem::OnlyOne { keys: vec!["flame-share", "first-part-minutes"] });
}

#[test]
fn a_share_that_nobody_knows_gives_ranges() {
    let reply = ask(&[]).unwrap();
    let span = reply.answer("heat-minutes").unwrap();
    assert!(span.low.unwrap() < span.value.unwrap() && span.value.unwrap() < span.high.unwrap());
    let left = reply.answer("heat-weld-by").unwrap();
    assert!(left.low.unwrap() < left.high.unwrap());
    assert!(left.low.unwrap() <= left.value.unwrap() && left.value.unwrap() <= left.high.unwrap());
    let share = |name| reply.answer(name).unwrap().high.unwrap();
    assert!(share("heat-hydrogen-held") < share("heat-hydrogen-none"));
}

#[test]
fn refusals_have_their_words() {
    let words = Words::english();
    for (more, reason) in [
        (&[("fuel-flow", 0.28)][..], "heat-minimum-not-reached"),
        (&[("ceiling", 340.0)], "heat-goal-above-cap"),
        (&[("interpass-most", 300.0)], "heat-no-range"),
        (&[("fuel-flow", 20.0)], "heat-flux-too-high"),
        (&[("first-part-minutes", 0.2)], "heat-efficiency"),
        (&[("minimum-preheat", 40.0), ("room-temperature", 40.0)], "torch-not-hotter"),
        (&[("hold-temperature", 520.0)], "post-heat-above-ceiling"),
    ] {
        let problem = ask(more).unwrap_err();
        assert_eq!(problem, Problem::Engine(EngineError::NoAnswer { reason }), "{more:?}");
        assert!(words.has(&problem.key()), "{reason}");
    }
    for reason in ["heat-reserve-not-reached", "heat-too-hot", "heat-too-large"] {
        assert!(words.has(&EngineError::NoAnswer { reason }.key()), "{reason}");
    }
}

/// A ceiling that nobody told is told of, and the name says that the surface is an average.
#[test]
fn a_ceiling_that_is_not_told_is_told_of() {
    let words = Words::english();
    assert!(!ask(&[]).unwrap().notes.contains(&"heat-ceiling-not-told"));
    let question = questions::find("heat-cycle").unwrap();
    let open = question.ask(&without(&["ceiling"])).unwrap();
    assert!(open.notes.contains(&"heat-ceiling-not-told"));
    assert!(words.get("answer-heat-surface").contains("moving flame"));
}

/// Half the square of the leg is laid at 10.5 J/mm³, by an arc that melts with half its heat at most:
/// 32 mm² need 0.67 kJ/mm.
#[test]
fn runs_that_cannot_fill_the_leg_are_told_of() {
    let said = |more: &[(&str, f64)]| ask(more).unwrap().notes.contains(&"heat-runs-do-not-fill");
    assert!(said(&[("heat-input", 0.66)]) && !said(&[("heat-input", 0.68)]));
    assert!(!said(&[("heat-input", 0.35), ("runs", 2.0)]));
    assert!(!said(&[("heat-input", 0.35), ("root-heat-input", 0.35)]));
    assert!(SAYING_NO.contains(&"heat-runs-do-not-fill"));
}

/// What nobody gave is told, each for the joint that has it.
#[test]
fn what_is_assumed_of_the_joint_is_told() {
    let notes = |answers: &Answers| questions::find("heat-cycle").unwrap().ask(answers).unwrap().notes;
    let boss = notes(&without(&[]));
    assert!(boss.contains(&"heat-usual-boss") && boss.contains(&"heat-pause"));
    assert!(!boss.contains(&"heat-usual-web") && !boss.contains(&"heat-usual-length"));
    let tee = without(&["plate-length"]).with("joint", Given::Choice("t-fillet-one-side".to_owned()));
    let tee = notes(&tee.with("second-thickness", Given::Number(30.0)));
    assert!(tee.contains(&"heat-usual-web") && tee.contains(&"heat-usual-length"));
    assert!(!tee.contains(&"heat-usual-boss") && !tee.contains(&"heat-pause"), "one weld of one run");
    assert!(!tee.contains(&"heat-usual-sizes"), "its width is given");
}

/// Each answer rests on what it is made of, not all on one.
#[test]
fn each_answer_names_what_it_rests_on() {
    let data = embedded();
    let told = |reply: &Reply, name: &str| reply.answer(name).unwrap().own_basis.clone().unwrap();
    let (open, known) = (ask(&[]).unwrap(), ask(&[("flame-share", 0.3)]).unwrap());
    assert_eq!(told(&open, "heat-minutes"), data.fuels.efficiency_basis);
    assert_eq!(told(&known, "heat-minutes"), data.heat_cycle.still_air().basis);
    assert_eq!(told(&open, "heat-cooling"), data.heat_cycle.still_air().basis);
    assert_eq!(told(&open, "heat-wait"), data.methods.row(Method::MeasuringWait).basis);
    let slow = told(&open, "heat-hydrogen-none");
    assert!(format!("{slow:?}").contains("Coe and Moreton"), "{slow:?}");
    let alloyed = questions::find("heat-cycle").unwrap().ask(&without(&["carbon-steel"])).unwrap();
    assert_eq!(told(&alloyed, "heat-hydrogen-none"), data.post_heat.trapping.basis);
}

/// No part is heated past its maximum for the sake of time to weld.
#[test]
fn in_a_narrow_range_the_part_is_heated_to_its_maximum() {
    let heat_cycle = questions::find("heat-cycle").unwrap();
    let goal_c = |most_c: f64| {
        let given = without(&[]).with("interpass-most", Given::Number(most_c));
        let flames = questions::flames(&heat_cycle.filled(&given).unwrap()).unwrap();
        flames.cycle.minimum_c + flames.cycle.reserve_k
    };
    assert!((goal_c(400.0) - 330.0).abs() < 1e-9, "wide");
    assert!((goal_c(325.0) - 325.0).abs() < 1e-9, "narrow");
    let minutes_to = |most_c: f64| minutes(&ask(&[("interpass-most", most_c)]).unwrap());
    assert!(minutes_to(325.0) < minutes_to(400.0), "and that takes less");
}

/// The least flow that is told is enough for the weakest flame, and a tenth less is not.
#[test]
fn a_weak_flame_is_told_which_flow_would_do() {
    let heat_cycle = questions::find("heat-cycle").unwrap();
    let given = without(&["fuel-flow"]).with("fuel-flow", Given::Number(0.2));
    let flames = questions::flames(&heat_cycle.filled(&given).unwrap()).unwrap();
    let mut go_on = |_, _| ControlFlow::Continue(());
    let refusal = flames.run(embedded(), &mut go_on).unwrap_err();
    let levers = flow_levers(embedded(), &flames, &refusal);
    assert_eq!(levers.len(), 2, "{refusal}");
    assert!(levers.iter().all(|lever| lever.quick_min < lever.slow_min && lever.slow_min <= 120.0));
    assert!(levers[1].slow_min < levers[0].slow_min, "more gas is sooner");
    let share = embedded().fuels.efficiency.low;
    let at = |flow: f64| {
        let given = without(&["fuel-flow"]).with("fuel-flow", Given::Number(flow));
        let other = questions::flames(&heat_cycle.filled(&given).unwrap()).unwrap();
        plain_preheat(embedded(), &other.with(share), &mut |_, _| ControlFlow::Continue(()))
    };
    assert!(at(levers[0].flow_m3_per_h).is_ok());
    assert!(at(0.9 * levers[0].flow_m3_per_h - 0.05).is_err());
    // A flame that its ceiling holds back is helped by no gas.
    let held =
        Refusal::MinimumNotReached { coldest_c: 250.0, minutes: 120.0, power_w: None, held_back: true };
    assert!(flow_levers(embedded(), &flames, &held).is_empty());
}
