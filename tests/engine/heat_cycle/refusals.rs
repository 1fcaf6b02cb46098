//! What is refused, with the figures that say what would do.

use std::ops::ControlFlow;

use strawblue::engine::heat_cycle::torch::how_far_to_spread;
use strawblue::engine::heat_cycle::{
    Closure, Fineness, HeatCycle, JointShape, Reading, Refusal, Source, efficiency_of_first_part, preheat,
    run,
};
use strawblue::reference::embedded;

use super::joints::{cycle, demo, go_on};

fn refused(change: impl FnOnce(&mut HeatCycle)) -> Refusal {
    let mut query = demo(Fineness::Live);
    change(&mut query);
    cycle(&query).err().unwrap_or_else(|| panic!("{query:?} is answered"))
}

#[test]
fn a_weak_flame_is_told_what_would_do() {
    let refusal = refused(|query| query.source = Source::Torch { power_w: 1000.0 });
    let Refusal::MinimumNotReached { power_w: Some(power_w), minutes, .. } = refusal else {
        panic!("{refusal}")
    };
    assert!((minutes - 120.0).abs() < 1e-6);
    // Just that much does, and a twentieth less does not.
    let with = |power_w| HeatCycle {
        source: Source::Torch { power_w },
        ceiling_c: None,
        passes: vec![],
        ..demo(Fineness::Live)
    };
    assert!(preheat(embedded(), &with(power_w * 1.01), &mut go_on).is_ok());
    assert!(preheat(embedded(), &with(power_w * 0.95), &mut go_on).is_err());
}

#[test]
fn limits_that_leave_no_room_are_refused() {
    let above = refused(|query| query.ceiling_c = Some(350.0));
    assert_eq!(above, Refusal::GoalAboveCap { goal_c: 330.0, cap_c: 325.0 });
    let cool_oven = refused(|query| query.source = Source::Oven { at_c: 320.0 });
    assert_eq!(cool_oven, Refusal::GoalAboveCap { goal_c: 330.0, cap_c: 320.0 });
    let none = refused(|query| query.interpass_c = Some(300.0));
    assert_eq!(none, Refusal::NoWindow { minimum_c: 300.0, most_c: 300.0 });
    assert!(matches!(
        refused(|query| query.source = Source::Torch { power_w: 80e3 }),
        Refusal::FluxTooHigh { most_kw_per_m2, .. } if (most_kw_per_m2 - 450.0).abs() < 1e-9
    ));
    assert!(matches!(refused(|query| query.post_heat.at_c = 700.0), Refusal::Input(_)));
    assert!(matches!(refused(|query| query.passes[0].weld = 2), Refusal::Input(_)));
    assert!(matches!(refused(|query| query.minimum_c = f64::NAN), Refusal::Input(_)));
}

#[test]
fn sizes_that_no_joint_has_are_refused() {
    let boss = |plate_mm: f64, leg_mm: f64| JointShape::BossThrough {
        plate_mm,
        diameter_mm: 90.0,
        boss_length_mm: 120.0,
        plate_width_mm: 160.0,
        plate_length_mm: 400.0,
        leg_mm,
    };
    for shape in [boss(2.9, 8.0), boss(401.0, 8.0), boss(30.0, 1.9), boss(30.0, 30.0)] {
        assert!(matches!(refused(|query| query.shape = shape), Refusal::Input(_)), "{shape:?}");
    }
    let huge = JointShape::BossThrough {
        plate_mm: 400.0,
        diameter_mm: 400.0,
        boss_length_mm: 2000.0,
        plate_width_mm: 5000.0,
        plate_length_mm: 5000.0,
        leg_mm: 2.0,
    };
    let query = HeatCycle { shape: huge, ..demo(Fineness::Check) };
    assert!(matches!(
        run(embedded(), &query, &mut go_on),
        Err(Refusal::TooManyCells { cells, most: 4000 }) if cells > 4000
    ));
}

#[test]
fn an_efficiency_that_no_flame_has_is_refused() {
    let query = demo(Fineness::Live);
    let found = efficiency_of_first_part(embedded(), &query, 42.4e3, 60.0, Reading::Coldest(300.0));
    assert!(matches!(found, Err(Refusal::Efficiency { efficiency, low, .. }) if efficiency < low));
}

#[test]
fn it_stops_when_told_to() {
    let mut steps = 0;
    let stopped = run(embedded(), &demo(Fineness::Live), &mut |_, _| {
        steps += 1;
        if steps < 20 { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
    });
    assert_eq!((stopped.err(), steps), (Some(Refusal::Stopped), 20));
}

#[test]
fn every_refusal_has_its_key_and_figures() {
    let refusal = Refusal::MinimumNotReached {
        coldest_c: 249.0,
        minutes: 120.0,
        power_w: Some(2500.0),
        held_back: false,
    };
    assert_eq!(refusal.key(), "refused-minimum-not-reached");
    assert_eq!(refusal.values(), [("coldest", 249.0), ("minutes", 120.0), ("power", 2.5)]);
    assert!(Refusal::Stopped.values().is_empty());
}

/// The demo by its second program: 4.9, 6.1 and 6.1 min at 75, 100 and 125 mm.
#[test]
fn how_far_to_spread_the_flame() {
    let spread = how_far_to_spread(embedded(), &demo(Fineness::Live), &mut go_on);
    let minutes: Vec<f64> = spread
        .tried
        .iter()
        .map(|(_, found)| found.as_ref().map_or(f64::NAN, |found| found.heated.minutes))
        .collect();
    for (found, is) in minutes.iter().zip([4.9, 6.1, 6.1]) {
        assert!((found - is).abs() <= 0.1, "{minutes:?}");
    }
    assert_eq!(spread.advised_mm, Some(75.0));
}

/// A ceiling that holds the flame back leaves no power that would do, and none is promised.
#[test]
fn a_power_that_the_ceiling_holds_back_is_not_promised() {
    let close = |query: &mut HeatCycle, power_w: f64| {
        query.source = Source::Torch { power_w };
        query.ceiling_c = Some(356.0);
    };
    let weak = refused(|query| close(query, 1000.0));
    assert!(matches!(weak, Refusal::MinimumNotReached { power_w: None, held_back: false, .. }), "{weak}");
    let strong = refused(|query| close(query, 12e3));
    assert!(
        matches!(
            strong,
            Refusal::MinimumNotReached { power_w: None, held_back: true, .. }
                | Refusal::ReserveNotReached { held_back: true, .. }
        ),
        "{strong}"
    );
    let said = strawblue::engine::EngineError::from(strong);
    assert_eq!(said.key(), "error-heat-held-back");
    assert!(strawblue::words::Words::english().has(&said.key()));
    // Farther up there is one, and it does under that ceiling.
    let wide = |power_w| HeatCycle {
        source: Source::Torch { power_w },
        ceiling_c: Some(400.0),
        passes: vec![],
        ..demo(Fineness::Live)
    };
    let Err(Refusal::MinimumNotReached { power_w: Some(power_w), .. }) =
        preheat(embedded(), &wide(1000.0), &mut go_on)
    else {
        panic!("it does")
    };
    assert!(preheat(embedded(), &wide(power_w * 1.01), &mut go_on).is_ok());
    assert!(preheat(embedded(), &wide(power_w * 0.95), &mut go_on).is_err());
}

/// Books that don't close give no figure, in a program that is built for speed too.
#[test]
fn books_that_do_not_close_are_refused() {
    assert_eq!(Closure { energy: 1e-12, hydrogen: 0.0 }.check(), Ok(()));
    for (energy, hydrogen) in [(1e-6, 0.0), (0.0, 1e-6), (f64::NAN, 0.0), (0.0, f64::NAN)] {
        let refused = Closure { energy, hydrogen }.check().expect_err("it is refused");
        assert_eq!(strawblue::engine::EngineError::from(refused).key(), "error-heat-not-closed");
    }
}
