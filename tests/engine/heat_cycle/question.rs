//! The heat cycle as a question: what it offers, what calibrates it, what it refuses.
#![allow(clippy::unwrap_used, reason = "a question that is gone fails the test")]

use strawblue::engine::EngineError;
use strawblue::questions::{self, Answers, Given, Kind, Problem, Reply};
use strawblue::reference::embedded;
use strawblue::words::Words;

/// The invented demo, with these figures besides.
fn ask(more: &[(&str, f64)]) -> Result<Reply, Problem> {
    let demo = [
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
    let given = Answers::new()
        .with("joint", Given::Choice("boss-through".to_owned()))
        .with("carbon-steel", Given::Flag(true));
    let given =
        demo.iter().chain(more).fold(given, |all, (key, value)| all.with(*key, Given::Number(*value)));
    questions::find("heat-cycle").unwrap().ask(&given)
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
