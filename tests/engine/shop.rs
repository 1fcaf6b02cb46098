//! Torch, gas, electrodes, cooling and the air of a room: laws, refusals, and that nothing panics.

use crate::asking::{ask, figure, refused};
use proptest::prelude::*;
use strawblue::engine::fit::shrink::FROZEN;
use strawblue::engine::lumped::{Around, Blanket, Body, Shape, cooling_rate_k_per_h, seconds_between};
use strawblue::engine::thermal::carbon_steel;
use strawblue::questions::{self, Answers, Given, Kind, Problem, Question, Reply};

/// The figure of an answer; no number where it is refused.
fn found(reply: &Result<Reply, Problem>, name: &str) -> f64 {
    reply.as_ref().map_or(f64::NAN, |reply| figure(reply, name))
}

const AIR: Around = Around { w_per_m2_k: 10.0, emissivity: 0.8, air_c: 20.0 };

/// Newton's cooling with one heat transfer: `t = m c / (h A) ln((T0 - Ta) / (T1 - Ta))`, over a span so
/// short that the specific heat stands still. Textbook closed form.
#[test]
fn a_short_cooling_is_the_closed_form() {
    let body = Body::of(10.0, Shape::Plate { thickness_mm: 25.0 });
    let air = Around { emissivity: 0.0, w_per_m2_k: 25.0, air_c: 20.0 };
    let found_s = seconds_between(body, 0.0, air, 200.5, 199.5).expect("it cools");
    let closed_s = body.mass_kg * carbon_steel::specific_heat(200.0) / (25.0 * body.surface_m2)
        * (180.5_f64 / 179.5).ln();
    assert!((found_s - closed_s).abs() < 1e-5 * closed_s, "{found_s} {closed_s}");
}

#[test]
fn bodies_have_their_faces() {
    // 200 x 200 x 25 mm; Ø50 x 300 mm.
    let plate = Body::of(7.85, Shape::Plate { thickness_mm: 25.0 });
    assert!((plate.surface_m2 - 0.1).abs() < 1e-9);
    let bar = Body::of(4.624_03, Shape::Bar { diameter_mm: 50.0 });
    assert!((bar.surface_m2 - 0.051_050_9).abs() < 1e-6);
    let ring = Body::ring(50.0, 100.0, 40.0);
    assert!((ring.mass_kg - 7850.0 * 2.356_194e-4).abs() < 1e-5);
}

#[test]
fn a_blanket_and_its_rate_are_one_another() {
    let blanket = Blanket { w_per_m_k: 0.08, air_w_per_m2_k: 10.0 };
    let body = Body::of(7.85, Shape::Plate { thickness_mm: 25.0 });
    let thickness_mm = blanket.thickness_mm_for(body, 50.0, 300.0, 20.0);
    let wrapped =
        Around { w_per_m2_k: blanket.passes_w_per_m2_k(thickness_mm), emissivity: 0.0, air_c: 20.0 };
    assert!((cooling_rate_k_per_h(body, wrapped, 300.0) - 50.0).abs() < 1e-9);
}

#[test]
fn what_is_asked_in_vain_is_refused() {
    let torch = |mass: f64, to_c: f64, flow: f64| {
        let given = [
            ("mass", mass),
            ("wanted-temperature", to_c),
            ("fuel-flow", flow),
            ("flame-share", 0.2),
            ("thickness", 20.0),
        ];
        ask("torch-heating", &given, &[])
    };
    assert_eq!(refused(torch(200.0, 400.0, 0.1)), "error-torch-too-weak");
    assert_eq!(refused(torch(5.0, 15.0, 1.0)), "error-torch-not-hotter");
    for absurd in [-1.0, 0.0, f64::NAN, f64::INFINITY, 1e9] {
        assert!(torch(absurd, 200.0, 1.0).is_err(), "{absurd}");
    }
    let natural = ask(
        "torch-heating",
        &[("mass", 5.0), ("wanted-temperature", 200.0)],
        &[("tip", "small"), ("fuel", "natural-gas")],
    );
    assert!(matches!(natural, Err(Problem::Missing { .. })), "no class of tips is told for natural gas");
    let cooling = |from_c: f64, to_c: f64| {
        ask(
            "part-cooling",
            &[("mass", 5.0), ("size", 20.0), ("from-temperature", from_c), ("to-temperature", to_c)],
            &[],
        )
    };
    assert_eq!(refused(cooling(100.0, 200.0)), "error-cooling-not-colder");
    assert_eq!(refused(cooling(100.0, 20.0)), "error-cooling-below-shop");
    let rhythm =
        [("heating-minutes", 5.0), ("heating-minutes-most", 4.0), ("weld-minutes", 10.0), ("pieces", 2.0)];
    assert_eq!(refused(ask("batch-rhythm", &rhythm, &[])), "error-rhythm-swapped");
    let empty = ask("room-air", &[("room-volume", 40.0)], &[]);
    assert!(matches!(empty, Err(Problem::Missing { .. })));
}

fn minutes(mass: f64, to_c: f64, flow: f64, thickness: Option<f64>) -> f64 {
    let mut given =
        vec![("mass", mass), ("wanted-temperature", to_c), ("fuel-flow", flow), ("flame-share", 0.3)];
    given.extend(thickness.map(|mm| ("thickness", mm)));
    found(&ask("torch-heating", &given, &[]), "torch-minutes")
}

proptest! {
    /// A heavier part, a hotter aim, a weaker flame and counted losses never take fewer minutes.
    #[test]
    fn harder_heating_takes_longer(
        mass in 0.5..80.0_f64, to_c in 60.0..600.0_f64, flow in 1.0..6.0_f64, thickness in 5.0..100.0_f64,
    ) {
        let taken = minutes(mass, to_c, flow, None);
        prop_assert!(minutes(mass * 1.2, to_c, flow, None) > taken);
        prop_assert!(minutes(mass, to_c + 10.0, flow, None) > taken);
        prop_assert!(minutes(mass, to_c, flow * 0.9, None) > taken);
        let with_losses = minutes(mass, to_c, flow, Some(thickness));
        prop_assert!(with_losses.is_nan() || with_losses > taken);
    }

    /// A thinner plate, moving air and a thinner blanket never cool it later.
    #[test]
    fn what_takes_more_heat_cools_sooner(mass in 20.0..80.0_f64, size in 6.0..60.0_f64, blanket in 5.0..80.0_f64) {
        let cools = |size: f64, wrapped: &str, blanket: f64| {
            let given = [
                ("mass", mass), ("size", size), ("from-temperature", 250.0), ("to-temperature", 150.0),
                ("blanket", blanket),
            ];
            found(&ask("part-cooling", &given, &[("wrapped", wrapped)]), "cooling-minutes")
        };
        let still = cools(size, "still-air", 25.0);
        prop_assert!(cools(size, "draught", 25.0) < still && still < cools(size, "blanket", blanket));
        prop_assert!(cools(size * 0.9, "still-air", 25.0) < still);
        prop_assert!(cools(size, "blanket", blanket * 1.1) > cools(size, "blanket", blanket));
    }

    /// Two halves of a cooling are the whole of it.
    #[test]
    fn cooling_adds_up(mass in 0.5..80.0_f64, size in 6.0..100.0_f64, middle_c in 130.0..280.0_f64) {
        let body = Body::of(mass, Shape::Plate { thickness_mm: size });
        let span = |from_c, to_c| seconds_between(body, 0.0, AIR, from_c, to_c).expect("it cools");
        let (whole, parts) = (span(300.0, 110.0), span(300.0, middle_c) + span(middle_c, 110.0));
        prop_assert!((whole - parts).abs() < 1e-4 * whole);
    }

    /// Whatever is given: an answer with figures that are figures, or a problem; never a panic.
    #[test]
    fn nothing_panics(which in 0usize..14, picks in prop::collection::vec((0u8..8, -10.0..10.0_f64), 14)) {
        let question = ALL[which];
        let mut given = Answers::new();
        for (input, (how, size)) in question.inputs.iter().zip(&picks) {
            let (low, high) = (input.low.unwrap_or(-1e9), input.high.unwrap_or(1e9));
            match input.kind {
                Kind::Choice(ids) if *how > 0 => {
                    given.set(input.key, Given::Choice(ids[usize::from(*how) % ids.len()].to_owned()));
                }
                Kind::Flag => given.set(input.key, Given::Flag(*how > 3)),
                kind if kind.numeric() => {
                    let value = match how {
                        0 => continue,
                        1 => low,
                        2 => high,
                        3 => 10f64.powf(*size),
                        4 => f64::NAN,
                        _ => low + (high - low) * (size / 20.0 + 0.5),
                    };
                    given.set(input.key, Given::Number(value));
                }
                _ => {}
            }
        }
        if let Ok(reply) = question.ask(&given) {
            for outcome in &reply.answers {
                for value in [outcome.value, outcome.low, outcome.high].into_iter().flatten() {
                    prop_assert!(value.is_finite(), "{}: {outcome:?}", question.name);
                }
                if let (Some(low), Some(high)) = (outcome.low, outcome.high) {
                    prop_assert!(low <= high, "{}: {outcome:?}", question.name);
                }
            }
        }
    }
}

const NAMES: [&str; 14] = [
    "fit-limits",
    "shrink-fit",
    "local-bore",
    "fit-time",
    "fit-at-preheat",
    "even-temperature",
    "fit-strength",
    "room-air",
    "torch-heating",
    "acetylene-draw",
    "batch-rhythm",
    "electrode-exposure",
    "slow-cooling",
    "part-cooling",
];

static ALL: std::sync::LazyLock<Vec<&'static Question>> =
    std::sync::LazyLock::new(|| NAMES.iter().filter_map(|name| questions::find(name)).collect());

/// What is offered are the rows of the data.
#[test]
fn every_row_is_offered() {
    let reference = strawblue::reference::embedded();
    let offered = |question: &str, key: &str| match questions::find(question)
        .and_then(|found| found.input(key))
        .map(|input| input.kind)
    {
        Some(Kind::Choice(ids)) => ids.iter().map(|id| (*id).to_owned()).collect::<Vec<_>>(),
        kind => panic!("{key} of {question} is {kind:?}"),
    };
    let fuels = &reference.fuels;
    assert_eq!(
        offered("shrink-fit", "hub-metal"),
        reference.metals.iter().map(|row| row.id.clone()).collect::<Vec<_>>()
    );
    assert_eq!(
        offered("torch-heating", "fuel"),
        fuels.fuels.iter().map(|row| row.id.clone()).collect::<Vec<_>>()
    );
    assert_eq!(
        offered("torch-heating", "tip"),
        fuels.tips.iter().map(|row| row.id.clone()).collect::<Vec<_>>()
    );
    let classes = reference.electrode_exposure.classes.iter().map(|row| row.id.clone());
    assert_eq!(offered("electrode-exposure", "electrode-class"), classes.collect::<Vec<_>>());
    let families = reference.slow_cooling.iter().map(|row| row.id.clone());
    assert_eq!(offered("slow-cooling", "family"), families.collect::<Vec<_>>());
    let coolants: Vec<&str> = reference.fits.coolants.iter().map(|row| row.id.as_str()).collect();
    assert_eq!(coolants, FROZEN.map(|(id, _)| id));
    assert_eq!(
        offered("shrink-fit", "fit"),
        strawblue::reference::Fit::ALL.iter().map(|fit| fit.id().to_owned()).collect::<Vec<_>>()
    );
}
