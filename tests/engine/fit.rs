//! Shrink fits: printed examples that the registry does not ask, laws, refusals.

use crate::asking::{ask, figure, near, refused};
use proptest::prelude::*;
use strawblue::engine::EngineError;
use strawblue::engine::fit::grip::Grip;
use strawblue::engine::fit::local::LocalHeat;
use strawblue::engine::fit::metal::{End, growth, temperature_for};
use strawblue::engine::thermal::carbon_steel;
use strawblue::questions::{Problem, fit_drawing};
use strawblue::reference::{Metal, embedded};

fn metal(id: &str) -> &'static Metal {
    embedded().metals.get(id).expect("a row of data/expansion.ron")
}

/// Steel tyres on steel wheels, as a public collection of worked problems prints them (mathalino 267 and
/// 208): p = 1.5444 MPa for 12 mm on 2000 mm at a rise of 55 K with 11.7e-6 a K; and 0.8889 MPa for 10 mm
/// on 1500 mm with 0.5 mm, 75.4 kN m at 0.30 (the second answer is worked from the printed problem). Both
/// take a thin ring and a rigid wheel: Lamé comes within the ring's thickness over its radius.
#[test]
fn thin_rings_of_a_collection_of_problems() {
    let ring = |diameter_mm: f64, thick_mm: f64| Grip {
        diameter_mm,
        outer_mm: diameter_mm + 2.0 * thick_mm,
        pin_bore_mm: 0.0,
        hub_mpa: 200_000.0,
        pin_mpa: 1e15,
        poisson: 0.3,
    };
    let thin_mpa = |one: &Grip, interference_um: f64| {
        let thick_mm = (one.outer_mm - one.diameter_mm) / 2.0;
        let strain = 1e-3 * interference_um / one.diameter_mm;
        2.0 * one.hub_mpa * strain * thick_mm / one.diameter_mm
    };
    for (one, interference_um, printed_mpa) in
        [(ring(2000.0, 12.0), 1e3 * 11.7e-6 * 55.0 * 2000.0, 1.5444), (ring(1500.0, 10.0), 500.0, 0.8889)]
    {
        near(thin_mpa(&one, interference_um), printed_mpa, 5e-5);
        let thinness = (one.outer_mm - one.diameter_mm) / one.diameter_mm;
        let lame_mpa = one.stresses(interference_um).pressure;
        near(lame_mpa, printed_mpa, thinness * printed_mpa);
    }
    let second = ring(1500.0, 10.0);
    near(second.torque_nm(second.force_kn(0.888_889, 0.30, 80.0)), 75_398.2, 0.2);
}

/// Plain evaluations of the classical disc: expansion 12.8e-6 a K.
#[test]
fn a_bore_that_is_heated_alone() {
    for (bore_mm, outer_mm, heated_mm, rise_k, even_k, opening_um) in [
        (50.0, 200.0, 200.0, 250.0, 250.0, 160.0),
        (50.0, 200.0, 150.0, 250.0, 133.333, 85.3333),
        (50.0, 200.0, 100.0, 250.0, 50.0, 32.0),
        (50.0, 400.0, 100.0, 250.0, 11.9048, 7.61905),
        (50.0, 400.0, 200.0, 250.0, 59.5238, 38.0952),
        (20.0, 120.0, 60.0, 300.0, 68.5714, 17.5543),
    ] {
        let heat = LocalHeat { bore_mm, outer_mm, heated_mm, rise_k };
        near(heat.even_rise_k(), even_k, 0.001);
        near(heat.opening_um(1.28e-5), opening_um, 0.001);
    }
}

/// EN 1993-1-2 3.4.1.1 and Annex C.3; handbook means (4140: 12.3 to 100 °C, 12.7 to 200, 13.7 to 400).
#[test]
fn metals_grow_as_their_tables_say() {
    let steel = metal("steel");
    near(growth(steel, 300.0, End::Least).expect("in range"), 3.718e-3, 5e-7);
    near(growth(steel, -78.5, End::Least).expect("in range"), -1.0e-3, 1e-12);
    near(growth(steel, -196.0, End::Least).expect("in range"), -1.9e-3, 1e-12);
    near(growth(metal("stainless"), 300.0, End::Least).expect("in range"), 4.85104e-3, 1e-8);
    for (at_c, mean) in [(100.0, 12.3), (200.0, 12.7), (300.0, 13.2), (400.0, 13.7), (600.0, 14.5)] {
        let grown = growth(metal("low-alloy-steel"), at_c, End::Least).expect("in range");
        near(grown, 1e-6 * mean * (at_c - 20.0), 1e-9);
    }
    let iron = metal("grey-iron");
    near(growth(iron, 220.0, End::Least).expect("in range"), 10.4e-6 * 200.0, 1e-12);
    near(growth(iron, 220.0, End::Most).expect("in range"), 13.0e-6 * 200.0, 1e-12);
    assert_eq!(growth(iron, 301.0, End::Least), None);
    assert_eq!(growth(metal("aluminium-bronze"), -78.5, End::Least), None);
    assert_eq!(growth(steel, -197.0, End::Least), None);
    assert_eq!(growth(steel, f64::NAN, End::Least), None);
}

#[test]
fn what_is_asked_in_vain_is_refused() {
    let diameter = |mm: f64| [("diameter", mm), ("hub-ceiling", 400.0)];
    let of_table = |mm: f64| ask("shrink-fit", &diameter(mm), &[("fit", "h7-s6")]);
    for outside_mm in [10.0, 250.01, 1000.0] {
        assert_eq!(refused(of_table(outside_mm)), "error-fit-outside-table");
    }
    assert!(of_table(10.01).is_ok() && of_table(250.0).is_ok());
    let measured =
        |mm: f64| ask("shrink-fit", &[("diameter", 50.0), ("interference", mm), ("hub-ceiling", 400.0)], &[]);
    assert_eq!(refused(measured(0.51)), "error-fit-too-tight");
    assert!(measured(0.5).is_ok());
    for absurd_mm in [-0.05, 59.0, f64::NAN] {
        assert!(measured(absurd_mm).is_err(), "{absurd_mm}");
    }
    let twice = ask(
        "shrink-fit",
        &[("diameter", 50.0), ("interference", 0.05), ("hub-ceiling", 400.0)],
        &[("fit", "h7-s6")],
    );
    assert!(matches!(twice, Err(Problem::OnlyOne { .. })));
    let no_ceiling = ask("shrink-fit", &[("diameter", 50.0), ("interference", 0.05)], &[]);
    assert!(matches!(no_ceiling, Err(Problem::Missing { .. })), "a ceiling is asked, not guessed");
    let bronze = ask(
        "shrink-fit",
        &[("diameter", 50.0), ("interference", 0.05), ("hub-ceiling", 300.0), ("pin-temperature", -78.5)],
        &[("pin-metal", "aluminium-bronze")],
    );
    assert_eq!(refused(bronze), "error-fit-pin-beyond-figures");
    let cold =
        [("diameter", 50.0), ("outer-diameter", 100.0), ("hub-length", 40.0), ("hub-temperature", 90.0)];
    assert_eq!(refused(ask("fit-time", &cold, &[("fit", "h7-s6")])), "error-fit-not-open");
    let thin = [("diameter", 50.0), ("outer-diameter", 50.0), ("fit-length", 40.0), ("interference", 0.05)];
    assert!(matches!(
        ask("fit-strength", &thin, &[]),
        Err(Problem::Engine(EngineError::OutOfDomain { symbol: "outer-diameter", .. }))
    ));
}

/// A hub that would pass its ceiling has no figure that could be taken for leave to heat it.
#[test]
fn above_the_ceiling_there_is_no_temperature() {
    let at = |ceiling_c: f64| {
        ask("shrink-fit", &[("diameter", 50.0), ("hub-ceiling", ceiling_c)], &[("fit", "h7-u6")])
            .expect("asked")
    };
    for ceiling_c in [25.0, 60.0, 90.0, 150.0, 200.0, 229.0, 230.0, 300.0] {
        let reply = at(ceiling_c);
        for answer in &reply.answers {
            let hot = answer.name.starts_with("fit-hub");
            assert!(!hot || answer.value.is_none_or(|hub_c| hub_c <= ceiling_c), "{answer:?}");
        }
        assert_eq!(
            reply.answer("fit-hub-temperature").is_some_and(|hub| hub.value.is_some()),
            ceiling_c > 229.5
        );
    }
}

fn shrunk(diameter_mm: f64, um: f64, pin_c: f64) -> f64 {
    let given = [
        ("diameter", diameter_mm),
        ("interference", um / 1000.0),
        ("hub-ceiling", 700.0),
        ("pin-temperature", pin_c),
    ];
    figure(&ask("shrink-fit", &given, &[]).expect("asked"), "fit-hub-temperature")
}

proptest! {
    /// More interference, a smaller diameter or a warmer pin never asks for a cooler hub.
    #[test]
    fn tighter_is_hotter(
        diameter_mm in 12.0..240.0_f64, um in 5.0..80.0_f64, more in 0.1..40.0_f64, pin_c in -190.0..15.0_f64,
    ) {
        let hub_c = shrunk(diameter_mm, um, pin_c);
        prop_assert!(shrunk(diameter_mm, um + more, pin_c) >= hub_c);
        prop_assert!(shrunk(diameter_mm + more, um, pin_c) <= hub_c);
        prop_assert!(shrunk(diameter_mm, um, pin_c + 5.0) >= hub_c);
    }

    /// All lengths ten times as long give the same temperature, pressure and share, and the room is the
    /// one that was asked for: what the hub grew, less what had to go.
    #[test]
    fn a_scaled_fit_is_the_same_fit(diameter_mm in 12.0..240.0_f64, um in 5.0..80.0_f64, times in 0.2..10.0_f64) {
        let (small, large) = (shrunk(diameter_mm, um, 20.0), shrunk(times * diameter_mm, times * um, 20.0));
        prop_assert!((small - large).abs() < 1e-6, "{small} {large}");
        let grown_um = 1e3 * diameter_mm * carbon_steel::elongation(small);
        prop_assert!((grown_um - um - diameter_mm).abs() < 1e-6);
        let grip = |scale: f64| Grip {
            diameter_mm: diameter_mm * scale, outer_mm: 2.1 * diameter_mm * scale,
            pin_bore_mm: 0.3 * diameter_mm * scale, hub_mpa: 206e3, pin_mpa: 206e3, poisson: 0.3,
        };
        let (one, other) = (grip(1.0).stresses(um), grip(times).stresses(times * um));
        prop_assert!((one.pressure - other.pressure).abs() <= 1e-9 * one.pressure);
    }

    /// What both parts give way makes up the interference (Lamé: radial displacement of each).
    #[test]
    fn both_give_way_by_the_interference(
        diameter_mm in 12.0..240.0_f64, wall in 1.05..4.0_f64, bore in 0.0..0.9_f64, um in 5.0..300.0_f64,
    ) {
        let grip = Grip {
            diameter_mm, outer_mm: wall * diameter_mm, pin_bore_mm: bore * diameter_mm,
            hub_mpa: 206e3, pin_mpa: 110e3, poisson: 0.3,
        };
        let found = grip.stresses(um);
        let hub = (found.hub_hoop + grip.poisson * found.pressure) / grip.hub_mpa;
        let pin = (found.pin_hoop + grip.poisson * found.pressure) / grip.pin_mpa;
        prop_assert!((1e3 * diameter_mm * (hub - pin) - um).abs() < 1e-9 * um);
        // Forces across a half of the hub balance: the mean of the hoop stress over the wall.
        prop_assert!(found.hub_hoop > found.hub_outside && found.hub_mises >= found.hub_hoop);
        prop_assert!(grip.stresses(um + 1.0).pressure > found.pressure);
    }

    /// A smaller hot zone opens the bore less, and never more than a hub that is hot all over.
    #[test]
    fn less_hot_metal_opens_less(bore_mm in 10.0..100.0_f64, wall in 1.1..8.0_f64, a in 0.0..1.0_f64, b in 0.0..1.0_f64) {
        let outer_mm = bore_mm * wall;
        let heat = |part: f64| LocalHeat {
            bore_mm, outer_mm, heated_mm: bore_mm + part * (outer_mm - bore_mm), rise_k: 200.0,
        };
        let (less, more) = (a.min(b), a.max(b));
        prop_assert!(heat(less).even_rise_k() <= heat(more).even_rise_k() + 1e-9);
        prop_assert!((0.0..=1.0 + 1e-12).contains(&heat(a).share()));
    }

    /// Growth rises with temperature, and its inverse finds it again.
    #[test]
    fn growth_and_its_inverse(at in 0usize..9, share in 0.0..1.0_f64) {
        let metal = &embedded().metals.rows()[at];
        let coldest = metal.cold.last().map_or(-40.0, |point| point.at_c);
        let at_c = coldest + share * (metal.up_to_c - coldest);
        let grown = growth(metal, at_c, End::Least).expect("in range");
        prop_assert!(growth(metal, (at_c - 5.0).max(coldest), End::Least).expect("in range") <= grown);
        let found = temperature_for(metal, grown, End::Least).expect("in range");
        prop_assert!((found - at_c).abs() < 1e-6, "{} {found} {at_c}", metal.id);
    }
}

/// What a picture is drawn from is what is answered. The tightest pair of Ø90 H7/s6 is 93 µm too tight
/// (ISO 286-2: s6 is +71 to +93 µm, H7 0 to +35 µm, so 36 to 93 µm), and steel grows by 12e-6 a K (handbooks,
/// common practice): the line climbs by d times that.
#[test]
fn a_fit_is_drawn_as_it_is_answered() {
    let given = [("diameter", 90.0), ("hub-ceiling", 580.0), ("room-temperature", 15.0)];
    let fit = [("fit", "h7-s6")];
    let answered = ask("shrink-fit", &given, &fit).expect("an answer");
    let given = crate::asking::given(&given, &fit);
    let drawn = fit_drawing(&given, Some(300.0)).expect("a drawing");
    near(drawn.tight_um, 93.0, 1e-9);
    near(drawn.needed_c.expect("it opens"), figure(&answered, "fit-hub-temperature"), 0.01);
    let (first, last) = (drawn.tightest[0], *drawn.tightest.last().expect("a line"));
    near(first.1, -93.0, 1e-6);
    near(drawn.loosest[0].1, -36.0, 1e-6);
    let climb_um = (last.1 - first.1) / (last.0 - first.0);
    near(climb_um, 1e3 * 90.0 * 12e-6, 0.15);
    assert!(drawn.tightest.windows(2).all(|pair| pair[0].1 < pair[1].1), "hotter is never tighter");
    let looser = drawn.tightest.iter().zip(&drawn.loosest).all(|(tight, loose)| tight.1 < loose.1);
    assert!(looser, "the loosest pair has more room everywhere");
    // Hub and pin of one metal are as tight together at the preheat as cold.
    let (both_c, left_um) = drawn.afterwards.expect("a preheat");
    near(both_c, 300.0, 1e-9);
    near(left_um, 93.0, 1e-6);
    // Between two points of the line the answer has its room.
    let wanted = drawn.wanted_um;
    let after = drawn.tightest.iter().position(|(_, room_um)| *room_um >= wanted).expect("it is reached");
    let needed_c = drawn.needed_c.expect("it opens");
    assert!((drawn.tightest[after - 1].0..=drawn.tightest[after].0).contains(&needed_c));
}

/// A bore that is heated alone is drawn as it is answered: at each temperature it opens by the share of the
/// hub's area that is hot (the classical elastic disc), of Ø90 in Ø200 out to Ø150 (150² - 90²)/(200² - 90²).
#[test]
fn a_bore_that_is_heated_alone_is_drawn_below_the_hub_that_is_hot_all_over() {
    let sizes = [("diameter", 90.0), ("hub-ceiling", 700.0), ("outer-diameter", 200.0)];
    let drawn = |heated_mm: f64| {
        let given = [&sizes[..], &[("heated-diameter", heated_mm)]].concat();
        let answered = ask("shrink-fit", &given, &[("fit", "h7-s6")]).expect("an answer");
        let drawn = fit_drawing(&crate::asking::given(&given, &[("fit", "h7-s6")]), None).expect("a drawing");
        (answered, drawn)
    };
    let (answered, part) = drawn(150.0);
    let share = (150.0_f64.powi(2) - 90.0_f64.powi(2)) / (200.0_f64.powi(2) - 90.0_f64.powi(2));
    assert_eq!(part.locally.len(), part.tightest.len());
    for ((_, local_um), (_, whole_um)) in part.locally.iter().zip(&part.tightest) {
        near(local_um + part.tight_um, share * (whole_um + part.tight_um), 1e-6);
    }
    let needed_c = part.needed_locally_c.expect("it opens");
    near(needed_c, figure(&answered, "fit-hub-local"), 1e-9);
    assert!(needed_c > part.needed_c.expect("it opens"), "a part of the heat does less");
    // All of it hot is the whole hub.
    let (_, whole) = drawn(200.0);
    assert_eq!(whole.needed_locally_c, whole.needed_c);
    assert_eq!(whole.locally, whole.tightest);
    let outside = [&sizes[..], &[("heated-diameter", 80.0)]].concat();
    assert!(ask("shrink-fit", &outside, &[("fit", "h7-s6")]).is_err(), "the zone lies round the bore");
    assert_eq!(refused(ask("shrink-fit", &sizes, &[("fit", "h7-s6")])), "error-missing");
}
