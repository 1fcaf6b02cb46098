//! Two readings on the joint set its losses: against the model itself, against a body that is equally hot all
//! through, and laws.
#![allow(clippy::unwrap_used, reason = "a reading that is refused fails the test")]

use std::f64::consts::PI;

use strawblue::engine::EngineError;
use strawblue::engine::heat_cycle::{
    Fineness, HeatCycle, JointShape, Keep, Losses, Phase, Refusal, losses_by_readings, preheat, run,
};
use strawblue::engine::lumped::{Around, Body, seconds_between};
use strawblue::engine::two_readings::TwoReadings;
use strawblue::questions::{Problem, Reply};
use strawblue::reference::embedded;

use super::joints::{demo, go_on};

fn losses(query: &HeatCycle, first_c: f64, second_c: f64, minutes: f64) -> Result<Losses, Refusal> {
    let readings = TwoReadings { first_c, second_c, minutes, off_k: (1.0, 1.0), shop_c: query.shop_c };
    losses_by_readings(embedded(), query, &readings, &mut go_on)
}

/// Minutes of the model between two temperatures of the measured place, with nothing welded.
fn minutes(query: &HeatCycle, first_c: f64, second_c: f64) -> f64 {
    let query = HeatCycle { passes: vec![], keep: Keep::Curves, ..query.clone() };
    let cooled = run(embedded(), &query, &mut go_on).unwrap().moments;
    let cooling: Vec<_> = cooled.iter().filter(|moment| moment.phase == Phase::Cooling).collect();
    let when = |at_c: f64| {
        let after = cooling.iter().position(|moment| moment.required_point_c <= at_c).unwrap();
        let (one, other) = (cooling[after - 1], cooling[after]);
        let share = (one.required_point_c - at_c) / (one.required_point_c - other.required_point_c);
        one.minute + share * (other.minute - one.minute)
    };
    when(second_c) - when(first_c)
}

/// What the model foretells changes nothing; what a more windy shop shows is that shop's.
#[test]
fn the_model_finds_its_own_losses() {
    let query = demo(Fineness::Live);
    for (first_c, second_c) in [(325.0, 305.0), (300.0, 250.0), (200.0, 150.0)] {
        let own = losses(&query, first_c, second_c, minutes(&query, first_c, second_c)).unwrap();
        assert!((own.times - 1.0).abs() < 0.01, "{own:?} at {first_c}");
        assert!(own.least < own.times && own.times < own.most, "{own:?}");
        let windy = minutes(&query.losing(1.7), first_c, second_c);
        let found = losses(&query, first_c, second_c, windy).unwrap();
        assert!((found.times / 1.7 - 1.0).abs() < 0.05, "{found:?} at {first_c}");
    }
}

/// A small part is nearly equally hot all through: `m c(T) dT/dt = -k A loss(T)`, closed but for the heat content
/// of EN 1993-1-2, so that twice the losses halve its minutes (textbooks of heat transfer, lumped capacity).
#[test]
fn a_body_that_is_equally_hot_has_the_closed_form() {
    let (plate_mm, diameter_mm, boss_length_mm, leg_mm) = (30.0, 60.0, 110.0, 8.0);
    let shape = JointShape::BossThrough {
        plate_mm,
        diameter_mm,
        boss_length_mm,
        plate_width_mm: 120.0,
        plate_length_mm: 120.0,
        leg_mm,
    };
    let query = HeatCycle {
        shape,
        zone_mm: 45.0,
        required_mm: 20.0,
        minimum_c: 200.0,
        passes: vec![],
        ..demo(Fineness::Live)
    };
    let mass_kg = preheat(embedded(), &query, &mut go_on).unwrap().mass_kg;
    let (disc, boss) = ((120.0 * 120.0 / PI).sqrt(), diameter_mm / 2.0);
    let faces = 2.0 * PI * (disc * disc - (boss + leg_mm) * (boss + leg_mm)) + 2.0 * PI * disc * plate_mm;
    let ends = 2.0 * PI * boss * boss + 2.0 * PI * boss * (boss_length_mm - plate_mm - 2.0 * leg_mm);
    let fillets = 2.0 * 2.0 * PI * (boss + leg_mm / 2.0) * leg_mm * 2.0_f64.sqrt();
    let body = Body { mass_kg, surface_m2: (faces + ends + fillets) * 1e-6 };
    let (first_c, second_c) = (190.0, 170.0);
    for times in [0.7, 1.0, 2.0] {
        let around = Around { w_per_m2_k: 10.0 * times, emissivity: 0.8 * times, air_c: query.shop_c };
        let seconds = seconds_between(body, 0.0, around, first_c, second_c).unwrap();
        let found = losses(&query, first_c, second_c, seconds / 60.0).unwrap();
        assert!((found.times / times - 1.0).abs() < 0.03, "{found:?} for {times}");
    }
}

fn reason(found: Result<Losses, Refusal>) -> String {
    match found {
        Err(Refusal::Input(EngineError::NoAnswer { reason })) => reason.to_owned(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_no_air_explains_is_refused() {
    let query = demo(Fineness::Live);
    let own = minutes(&query, 325.0, 305.0);
    assert_eq!(reason(losses(&query, 325.0, 305.0, own / 4.0)), "readings-too-quick");
    assert_eq!(reason(losses(&query, 325.0, 305.0, own * 4.0)), "readings-too-slow");
    assert_eq!(reason(losses(&query, 325.0, 324.0, own)), "readings-close");
    assert_eq!(reason(losses(&query, 305.0, 325.0, own)), "readings-not-falling");
    // Hotter than planned is heated further, even past the ceiling that the flame keeps under.
    let hot =
        losses(&query, 420.0, 390.0, minutes(&HeatCycle { reserve_k: 130.0, ..query.clone() }, 420.0, 390.0));
    let hot = hot.unwrap();
    assert!((hot.times - 1.0).abs() < 0.1, "{hot:?}");
}

/// The demo with a fall of 15 K in so many minutes.
fn read(minutes: f64) -> Result<Reply, Problem> {
    let more = [("first-reading", 325.0), ("second-reading", 310.0), ("minutes-between", minutes)];
    super::question::ask(&[&[("flame-share", 0.3)], &more[..]].concat())
}

/// A quicker fall leaves no more minutes, and no answer forgets what it counts with.
#[test]
fn a_quicker_fall_never_leaves_more_minutes() {
    let figure = |reply: &Reply, name: &str| reply.answer(name).unwrap().value.unwrap();
    let replies = [6.0, 4.0, 3.0, 2.4, 2.0, 1.5].map(read);
    let replies: Vec<Reply> = replies.into_iter().filter_map(Result::ok).collect();
    assert!(replies.len() >= 3, "too few of them are what a joint does: {}", replies.len());
    let mut before: Option<(f64, f64)> = None;
    for reply in &replies {
        assert!(reply.notes.contains(&"heat-by-readings"));
        let (left, times) = (figure(reply, "heat-weld-by"), figure(reply, "heat-losses"));
        for name in ["heat-weld-by", "heat-minutes", "heat-cooling"] {
            let step = reply.answer(name).unwrap().steps.iter().find(|step| step.symbol == "losses");
            assert!(step.is_some_and(|step| (step.value - times).abs() < 1e-12), "{name}");
        }
        if let Some((left_before, times_before)) = before {
            assert!(left <= left_before && times > times_before, "{left} min, {times} times");
        }
        before = Some((left, times));
    }
    let bare = super::question::ask(&[("flame-share", 0.3)]).unwrap();
    assert!(bare.answer("heat-losses").is_none() && !bare.notes.contains(&"heat-by-readings"));
}

/// All three figures, or none.
#[test]
fn half_a_reading_is_asked_for() {
    let half = super::question::ask(&[("first-reading", 325.0)]).unwrap_err();
    let each = vec![vec!["second-reading"], vec!["minutes-between"]];
    assert_eq!(half, Problem::MissingSeveral { each });
    let most = super::question::ask(&[("first-reading", 325.0), ("second-reading", 310.0)]).unwrap_err();
    assert_eq!(most, Problem::Missing { keys: vec!["minutes-between"] });
}
