//! The shop's answers on the safe side: electrodes, batches, the air of a room, flames, counts.

use crate::asking::{ask, figure};
use strawblue::questions::{self, Answers, Given, Problem, Reply, SAYING_NO};
use strawblue::reference::{Basis, embedded};
use strawblue::words::Words;

fn rests_on_memory(reply: &Reply, name: &str) -> bool {
    let outcome = reply.answer(name).expect("an answer");
    matches!(outcome.basis(&embedded().methods), Basis::Memory { .. })
}

fn electrodes(class: &str, hours: f64, flags: &[&str]) -> Reply {
    let given = Answers::new()
        .with("electrode-class", Given::Choice(class.to_owned()))
        .with("hours-out", Given::Number(hours));
    let given = flags.iter().fold(given, |all, key| all.with(*key, Given::Flag(true)));
    questions::find("electrode-exposure").expect("a question").ask(&given).expect("it answers")
}

/// The trial of the suffix R is 9 h; only the row of E70 has that in the open air (AWS D1.1 Table 5.1,
/// from memory).
#[test]
fn the_suffix_r_lengthens_the_time_of_e70_alone() {
    for (class, hours) in [("e70", 9.0), ("e80", 2.0), ("e90", 1.0), ("e100", 0.5)] {
        let reply = electrodes(class, 0.25, &["moisture-resistant"]);
        assert!((figure(&reply, "exposure-limit") - hours).abs() < 1e-12, "{class}");
        assert!(rests_on_memory(&reply, "exposure-limit"), "{class}");
        assert_eq!(reply.notes.contains(&"exposure-read-box"), class != "e70", "{class}");
        assert!(!electrodes(class, 0.25, &[]).notes.contains(&"exposure-read-box"), "{class}");
    }
    assert!(electrodes("e80", 3.0, &["moisture-resistant"]).notes.contains(&"exposure-rebake"));
}

/// What the oven needs, and what a maker's test may allow, come from the data with their marks.
#[test]
fn the_oven_and_the_makers_test_have_their_figures() {
    let rules = &embedded().electrode_exposure;
    let oven = electrodes("e70", 1.0, &["back-to-oven"]);
    assert!((figure(&oven, "exposure-oven-temperature") - rules.oven_c).abs() < 1e-12);
    assert!((figure(&oven, "exposure-oven-hours") - rules.oven_hours).abs() < 1e-12);
    assert!(electrodes("e70", 1.0, &[]).answer("exposure-oven-hours").is_none());
    let late = electrodes("e90", 2.0, &[]);
    assert!((figure(&late, "exposure-tested") - 5.0).abs() < 1e-12);
    assert!(rests_on_memory(&late, "exposure-tested"));
    assert!(electrodes("e90", 0.5, &[]).answer("exposure-tested").is_none());
    assert_eq!(rules.rebakes_most, 1, "the question asks whether they were rebaked, not how often");
}

/// A piece must be welded, not only begun, before it is too cold.
#[test]
fn the_weld_itself_counts_against_the_time_that_the_heat_lasts() {
    let batch = |by: f64| {
        let given = [
            ("heating-minutes", 5.0),
            ("heating-minutes-most", 8.0),
            ("weld-minutes", 10.0),
            ("pieces", 4.0),
            ("weld-by-minutes", by),
        ];
        ask("batch-rhythm", &given, &[]).expect("it answers")
    };
    // Ready up to 3 min too soon, then 10 min of welding.
    assert!(batch(12.9).notes.contains(&"rhythm-cools-again"));
    assert!(!batch(13.1).notes.contains(&"rhythm-cools-again"));
    assert!(SAYING_NO.contains(&"rhythm-cools-again"));
}

fn air(room: f64, nitrogen: f64, ice: f64) -> Reply {
    let given = [("room-volume", room), ("nitrogen-litres", nitrogen), ("dry-ice", ice)];
    ask("room-air", &given, &[]).expect("it answers")
}

/// No air has more than a million parts in a million, nor less than no oxygen; oxygen is that of air which
/// gives way by as much as gas comes, which no mixing goes below.
#[test]
fn carbon_dioxide_is_a_part_of_the_air() {
    for ice in [0.1, 1.0, 10.0, 100.0, 1000.0] {
        let reply = air(2.0, 0.0, ice);
        let (oxygen, dioxide) = (figure(&reply, "air-oxygen"), figure(&reply, "air-carbon-dioxide"));
        assert!(dioxide <= 1e6, "{ice} kg: {dioxide} ppm");
        assert!(oxygen >= 0.0 && oxygen <= 20.9 * (1.0 - dioxide / 1e6) + 1e-9, "{ice} kg: {oxygen} %");
        assert!(rests_on_memory(&reply, "air-oxygen") && rests_on_memory(&reply, "air-carbon-dioxide"));
    }
    assert!(!rests_on_memory(&air(50.0, 2.0, 0.0), "air-oxygen"));
}

/// Immediately dangerous from 40 000 ppm (NIOSH, from memory).
#[test]
fn much_carbon_dioxide_is_told_as_deadly() {
    let said = |ice: f64, note: &str| air(30.0, 0.0, ice).notes.contains(&note);
    assert!(said(0.5, "air-carbon-dioxide-high") && !said(0.5, "air-carbon-dioxide-deadly"));
    assert!(said(3.0, "air-carbon-dioxide-deadly") && said(3.0, "air-carbon-dioxide-high"));
    assert!(!said(0.1, "air-carbon-dioxide-high"));
    assert!(SAYING_NO.contains(&"air-carbon-dioxide-deadly"));
}

/// The notes say the limits that the data judge by.
#[test]
fn limits_of_the_air_are_said_as_the_data_have_them() {
    let (words, fits) = (Words::english(), &embedded().fits);
    for (note, limit) in [
        ("note-air-oxygen-low", fits.oxygen_least_percent.to_string()),
        ("note-air-carbon-dioxide-high", fits.carbon_dioxide_most_ppm.to_string()),
        ("note-air-carbon-dioxide-deadly", "40\u{a0}000".to_owned()),
    ] {
        let text = words.get(note);
        let bare = |text: &str| text.replace(['\u{a0}', '\u{202f}', ' '], "");
        assert!(bare(&text).contains(&bare(&limit)), "{note}: {text}");
    }
    assert!((fits.carbon_dioxide_deadly_ppm - 40_000.0).abs() < 1e-9);
    for text in ["error-torch-too-small", "note-torch-not-sure"] {
        assert!(words.get(text).contains("two hours"), "{text}");
    }
    assert!((embedded().heat_cycle.longest_flame_min - 120.0).abs() < 1e-9);
}

fn torch(mass: f64, to_c: f64, flow: f64, pieces: f64) -> Result<Reply, Problem> {
    let given = [
        ("mass", mass),
        ("wanted-temperature", to_c),
        ("fuel-flow", flow),
        ("flame-share", 0.3),
        ("pieces", pieces),
        ("cylinder", 6.0),
    ];
    ask("torch-heating", &given, &[])
}

/// Nobody holds a flame on one part for longer than the heat cycle takes any.
#[test]
fn a_flame_that_is_far_too_small_is_refused() {
    let refused = |reply: Result<Reply, Problem>| reply.expect_err("it is refused").key();
    assert_eq!(refused(torch(5000.0, 300.0, 0.5, 1.0)), "error-torch-too-small");
    assert_eq!(refused(torch(100_000.0, 600.0, 0.01, 1000.0)), "error-torch-too-small");
    // A batch may take days: no field that nobody typed is blamed for it.
    let long = torch(100.0, 300.0, 1.0, 10_000.0).expect("it answers");
    assert!(figure(&long, "torch-minutes") < 120.0);
    let given = [("mass", 60.0), ("wanted-temperature", 200.0)];
    let weakest = ask("torch-heating", &given, &[("tip", "small")]).expect("the strongest one does");
    assert!(weakest.notes.contains(&"torch-not-sure"), "{weakest:?}");
    let most = weakest.answer("torch-minutes").and_then(|minutes| minutes.high);
    assert!(most.is_none_or(|most| most <= 120.0), "{most:?}");
}

/// Nothing is welded by halves.
#[test]
fn counts_are_whole() {
    let refused = |name: &str, key: &str, numbers: &[(&str, f64)], choices: &[(&str, &str)]| {
        let problem = ask(name, numbers, choices).expect_err("it is refused");
        assert_eq!(problem.key(), "error-not-whole", "{name}");
        assert!(problem.values().iter().any(|(_, value)| value == key), "{name}: {problem:?}");
        assert!(Words::english().has(&problem.key()));
    };
    let torch = [("mass", 5.0), ("wanted-temperature", 200.0), ("fuel-flow", 1.0), ("pieces", 2.5)];
    refused("torch-heating", "pieces", &torch, &[]);
    let batch = [("heating-minutes", 5.0), ("weld-minutes", 10.0), ("pieces", 3.2)];
    refused("batch-rhythm", "pieces", &batch, &[]);
    let joint = [
        ("first-thickness", 20.0),
        ("second-thickness", 20.0),
        ("leg", 8.0),
        ("fuel-flow", 3.0),
        ("minimum-preheat", 150.0),
        ("heat-input", 1.2),
        ("runs", 1.5),
    ];
    refused("heat-cycle", "runs", &joint, &[("joint", "t-fillet-one-side")]);
}

/// A range that is part from memory is not marked as published.
#[test]
fn marks_are_those_of_their_weakest_part() {
    let reference = embedded();
    let torch = [("mass", 5.0), ("wanted-temperature", 200.0), ("fuel-flow", 1.0)];
    assert!(rests_on_memory(&ask("torch-heating", &torch, &[]).expect("it answers"), "torch-minutes"));
    // A hub that rises by less than 100 K has 20 K of reserve, which nobody printed.
    let hub = |interference: f64| {
        let given = [("diameter", 200.0), ("interference", interference), ("room-to-enter", 0.02)];
        let given = [given.as_slice(), &[("hub-ceiling", 600.0)]].concat();
        rests_on_memory(&ask("shrink-fit", &given, &[]).expect("it answers"), "fit-hub-out-of-heat")
    };
    assert!(hub(0.05) && !hub(0.5));
    for metal in &reference.metals {
        let told = format!("{:?}", metal.basis);
        assert!(metal.basis.kind() == "memory" || !told.contains("memory"), "{}: {told}", metal.id);
    }
    let given = [
        ("mass", 8.0),
        ("size", 25.0),
        ("from-temperature", 300.0),
        ("to-temperature", 100.0),
        ("wanted-rate", 50.0),
    ];
    let cooling = ask("part-cooling", &given, &[]).expect("it answers");
    let blanket = cooling.answer("cooling-blanket").expect("it answers").own_basis.clone();
    assert_eq!(blanket.as_ref(), Some(&reference.heat_cycle.blanket_basis));
}

/// Bi = h V / (A λ): a bar of 100 mm at 600 °C in still air loses 56 W/(m² K) through 25 mm, λ 34: 0.04;
/// one of 400 mm has four times that. Under 0.1 a body is one body (handbooks of heat transfer).
#[test]
fn a_part_that_is_not_even_is_told_of() {
    let uneven = |diameter: f64, from_c: f64, wrapped: &str| {
        let mass = 7.85e-6 * std::f64::consts::FRAC_PI_4 * diameter * diameter * 20.0 * diameter;
        let given =
            [("mass", mass), ("size", diameter), ("from-temperature", from_c), ("to-temperature", 100.0)];
        let reply = ask("part-cooling", &given, &[("shape", "bar"), ("wrapped", wrapped)]);
        reply.expect("it answers").notes.contains(&"cooling-uneven")
    };
    assert!(!uneven(100.0, 600.0, "still-air") && uneven(400.0, 600.0, "still-air"));
    assert!(!uneven(400.0, 600.0, "blanket"));
}

/// A bare part glows as well: what would cool it slowly enough by air alone does not do without a
/// blanket, and steel gives its heat up fastest well below the peak of its specific heat.
#[test]
fn no_blanket_is_said_only_of_a_part_that_cools_slowly_bare() {
    let cooling = |mass: f64, from: f64, to: f64, wanted: f64| {
        let numbers = [
            ("mass", mass),
            ("size", 50.0),
            ("from-temperature", from),
            ("to-temperature", to),
            ("wanted-rate", wanted),
        ];
        ask("part-cooling", &numbers, &[]).expect("it answers")
    };
    for (mass, from, to, wanted) in
        [(20.0, 300.0, 100.0, 150.0), (20.0, 735.0, 300.0, 50.0), (35.0, 300.0, 200.0, 50.0)]
    {
        let reply = cooling(mass, from, to, wanted);
        assert!(figure(&reply, "cooling-rate") > wanted, "bare it cools faster than {wanted} K/h");
        assert!(figure(&reply, "cooling-blanket") >= 25.0, "one layer at least");
        assert!(!reply.notes.contains(&"cooling-no-blanket-needed"));
    }
    let slow = cooling(2000.0, 150.0, 100.0, 500.0);
    assert!(figure(&slow, "cooling-rate") < 500.0 && figure(&slow, "cooling-blanket") == 0.0);
    assert!(slow.notes.contains(&"cooling-no-blanket-needed"));
    // From the peak down it is the greatest rate on the way that is told.
    let (whole, lower) = (cooling(20.0, 735.0, 300.0, 50.0), cooling(20.0, 650.0, 300.0, 50.0));
    assert!(figure(&whole, "cooling-rate") >= figure(&lower, "cooling-rate"));
}
