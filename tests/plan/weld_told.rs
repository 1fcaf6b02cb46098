//! What is told of the weld beside what its plan counts with: load, position, groove, length.

use strawblue::engine::plan::plan;
use strawblue::engine::weld_of_job::{Chosen, Laid, NoLayers, weld_of_job};
use strawblue::job::{DefaultValue, ReadJob};
use strawblue::reference::embedded;

use crate::jobs::said;
use crate::typed_job::small;
use crate::weld::asked;

fn told(pairs: &[(&str, &str)]) -> ReadJob {
    small(pairs).unwrap_or_else(|problems| panic!("{pairs:?}: {problems:?}"))
}

/// Count of runs and area of the whole, mm².
fn runs(pairs: &[(&str, &str)]) -> Result<(usize, f64), NoLayers> {
    let read = told(pairs);
    let made = plan(embedded(), &read.job);
    let weld = weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld");
    if let Ok(layers) = &weld.layers {
        let laid: f64 = layers.beads.iter().map(|bead| bead.area_mm2).sum();
        assert!((laid / layers.need_mm2 - 1.0).abs() < 1e-9, "{laid} of {}", layers.need_mm2);
    }
    weld.layers.map(|layers| (layers.beads.len(), layers.need_mm2))
}

const BUTT: [(&str, &str); 4] =
    [("steel", "S355J2"), ("thickness", "20 mm"), ("joint", "butt"), ("process", "smaw basic")];

fn with<'a>(more: &[(&'a str, &'a str)]) -> Vec<(&'a str, &'a str)> {
    let mut pairs: Vec<(&str, &str)> =
        BUTT.iter().copied().filter(|(key, _)| more.iter().all(|(other, _)| other != key)).collect();
    pairs.extend_from_slice(more);
    pairs
}

/// The area of a V is a matter of geometry: `g t + t² tan(α/2)`.
#[test]
fn a_groove_that_is_told_has_its_runs() {
    assert_eq!(runs(&BUTT), Err(NoLayers::Groove));
    let pairs = with(&[("groove", "v"), ("groove-angle", "60"), ("root-gap", "2 mm"), ("root-face", "0")]);
    let read = told(&pairs);
    let made = plan(embedded(), &read.job);
    let weld = weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld");
    let layers = weld.layers.as_ref().expect("runs");
    let Laid::Groove(groove) = layers.laid else { panic!("{:?}", layers.laid) };
    assert!((groove.area_mm2() - (40.0 + 400.0 * 30.0_f64.to_radians().tan())).abs() < 1e-9);
    // The same as the question of the Bench, with the arc energy that the plan counts with.
    let energy = weld.runs[0].energy.arc_kj_per_mm;
    let figures = [
        ("thickness", 20.0),
        ("groove-angle", 60.0),
        ("root-gap", 2.0),
        ("root-face", 0.0),
        ("arc-energy", energy),
    ];
    let bench = asked("groove-area", &figures, &[("groove-shape", "v"), ("process", "smaw-basic")]);
    assert_eq!(layers.outcomes, bench.answers);
    let count = bench.answer("groove-runs").and_then(|one| one.value).expect("a count");
    assert_eq!(layers.beads.len() as f64, count);
    // What is not told of it is the usual, and said.
    let open = told(&with(&[("groove", "v")]));
    let usual = |value: &DefaultValue| open.defaulted.iter().any(|found| found.value == *value);
    assert!(usual(&DefaultValue::GrooveAngle(60.0)) && usual(&DefaultValue::RootGap(2.0)));
    // An angle without a shape is asked for it; a groove of another joint is not used, and that is said.
    assert!(small(&with(&[("groove-angle", "60")])).is_err());
    let lap = told(&with(&[("joint", "lap"), ("leg", "6"), ("groove", "v")]));
    assert!(lap.defaulted.iter().any(|found| found.value == DefaultValue::GrooveNotUsed));
    assert_eq!(lap.told.groove, None);
    // One that nobody can cut has no runs, and the plan stands.
    assert!(matches!(runs(&with(&[("groove", "v"), ("root-face", "25")])), Err(NoLayers::Outside(_))));
}

/// A deeper groove, a wider one and one with a root by another process: the runs fill it, and never fewer
/// fill more.
#[test]
fn more_groove_never_takes_fewer_runs() {
    for (process, shape) in
        [("smaw basic", "v"), ("gmaw", "bevel"), ("gtaw + smaw basic", "double-v"), ("fcaw", "u")]
    {
        let mut before = (0, 0.0);
        for mm in [8, 10, 14, 20, 28, 40, 55] {
            let mm = format!("{mm} mm");
            let found = runs(&with(&[("thickness", &mm), ("groove", shape), ("process", process)]));
            let found = found.unwrap_or_else(|why| panic!("{process} {shape} {mm}: {why:?}"));
            assert!(
                found.0 >= before.0 && found.1 > before.1,
                "{process} {shape} {mm}: {found:?} {before:?}"
            );
            before = found;
        }
        assert!(before.0 > 20, "{process} {shape}: {before:?}");
    }
}

/// AISC 360-16 Table J2.5: matching filler in a full groove in tension across it and in shear; one level
/// lower in compression; any strength where the stress is along the weld.
#[test]
fn the_load_decides_what_must_match() {
    let verdict = |load: &str, filler: &str| {
        let pairs = [
            ("steel", "4140"),
            ("condition", "hardened and tempered 600 °C"),
            ("hardness", "300 HB"),
            ("thickness", "30 mm"),
            ("joint", "butt"),
            ("process", "smaw basic"),
            ("hydrogen", "H4"),
            ("filler", filler),
            ("load", load),
        ];
        let read = told(&pairs);
        let made = plan(embedded(), &read.job);
        let weld = weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld");
        (weld.runs[0].fillers.chosen.clone().expect("it is chosen").verdict, said(&read.job, &made))
    };
    for load in ["", "tension", "shear", "compression"] {
        assert!(matches!(verdict(load, "E7018").0, Chosen::Refused(_)), "{load}");
    }
    assert!(matches!(verdict("along", "E7018").0, Chosen::Fits(_)));
}

/// The larger run of the flat position takes fewer of them: AWS D1.1 lets a single run be 10 mm flat and 8 mm
/// horizontal by hand (Table 5.7, from memory).
#[test]
fn the_position_decides_how_large_a_run_is() {
    let leg = |position: &str| {
        runs(&[
            ("steel", "S355J2"),
            ("thickness", "30 mm"),
            ("joint", "lap"),
            ("leg", "24 mm"),
            ("process", "smaw basic"),
            ("heat-input", "4 kJ/mm"),
            ("position", position),
        ])
        .expect("runs")
    };
    assert_eq!(leg(""), leg("horizontal"));
    assert!(leg("flat").0 < leg("horizontal").0, "{:?} {:?}", leg("flat"), leg("horizontal"));
}

/// Filler of a line by its length: area times length times the density of steel, 7.85 kg/dm³, over what of the
/// filler ends in the weld.
#[test]
fn a_length_gives_the_filler() {
    let pairs = with(&[("joint", "t-fillet-both-sides"), ("leg", "8 mm"), ("weld-length", "500 mm")]);
    let read = told(&pairs);
    let made = plan(embedded(), &read.job);
    let weld = weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld");
    let area_mm2 = weld.layers.as_ref().expect("runs").need_mm2;
    let share = embedded().welding.runs.process("smaw-basic").expect("a row").deposited_share;
    let filler = weld.runs[0].amount.iter().find(|one| one.name == "amount-filler").and_then(|one| one.value);
    let expected = area_mm2 * 1000.0 * 7.85e-6 / share;
    assert!((filler.expect("a mass") / expected - 1.0).abs() < 1e-9, "{filler:?} {expected}");
    // Nobody told it: nothing is made up. Round a pin it follows from the diameter.
    let open = told(&with(&[("joint", "t-fillet-both-sides"), ("leg", "8 mm")]));
    let made = plan(embedded(), &open.job);
    let weld = weld_of_job(embedded(), &open.job, &open.told, &made).expect("a weld");
    assert!(weld.runs[0].amount.is_empty());
}

/// A groove on a tee or a corner is a groove: matching filler, and its own runs. On a repair or a bar it is
/// not counted, and nothing asks for it.
#[test]
fn a_groove_on_a_tee_is_no_fillet() {
    for joint in ["t-fillet-one-side", "corner"] {
        let pairs = with(&[
            ("steel", "4140"),
            ("condition", "hardened and tempered 600 °C"),
            ("joint", joint),
            ("groove", "bevel"),
            ("load", "tension"),
            ("filler", "E7018"),
            ("leg", "6 mm"),
        ]);
        let read = told(&pairs);
        let made = plan(embedded(), &read.job);
        let weld = weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld");
        assert!(matches!(weld.layers.as_ref().expect("runs").laid, Laid::Groove(_)), "{joint}");
        let chosen = weld.runs[0].fillers.chosen.as_ref().expect("it is chosen");
        assert!(matches!(chosen.verdict, Chosen::Refused(_)), "{joint}: {:?}", chosen.verdict);
    }
    for joint in ["repair", "bar-to-bar"] {
        let pairs = with(&[("joint", joint), ("shape", if joint == "repair" { "plate" } else { "round" })]);
        assert_eq!(runs(&pairs), Err(NoLayers::NotCounted), "{joint}");
    }
}

/// ISO 3580 and AWS A5.5: creep-resisting steel takes a filler of its alloy (9Cr-1Mo a B9, 2¼Cr-1Mo a B3), and
/// 4140 none that hardens in air (common practice).
#[test]
fn a_filler_has_the_alloy_of_its_steel() {
    let chromium = |steel: &str, process: &str, more: &[(&str, &str)]| {
        let pairs = [
            &[("steel", steel), ("process", process), ("hydrogen", "H4"), ("joint", "lap"), ("leg", "6")],
            more,
        ]
        .concat();
        let read = told(&with(&pairs));
        let made = plan(embedded(), &read.job);
        let weld = weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld");
        let of = |filler: &&strawblue::reference::Filler| {
            filler.nominal().map(|made| made.get(strawblue::reference::Element::Cr))
        };
        weld.runs[0].fillers.offered.iter().map(of).collect::<Vec<_>>()
    };
    for (steel, low, high) in [("P91", 7.0, 10.5), ("A387-22", 1.7, 3.3)] {
        for process in ["smaw basic", "gtaw"] {
            let found = chromium(steel, process, &[]);
            let fits = |cr: &Option<f64>| cr.is_some_and(|cr| (low..=high).contains(&cr));
            assert!(found.iter().all(fits), "{steel} {process}: {found:?}");
        }
    }
    for process in ["smaw basic", "gtaw", "mcaw"] {
        for joint in ["lap", "butt"] {
            let found = chromium("4140", process, &[("joint", joint), ("condition", "annealed")]);
            assert!(found.iter().all(|cr| cr.is_none_or(|cr| cr <= 2.2)), "{process} {joint}: {found:?}");
        }
    }
}

/// The arc time is length times runs over the speed that is told.
#[test]
fn a_travel_speed_that_is_told_gives_the_time() {
    let pairs = with(&[
        ("joint", "t-fillet-both-sides"),
        ("thickness", "25 mm"),
        ("leg", "10 mm"),
        ("weld-length", "1000 mm"),
        ("amps", "140 A"),
        ("volts", "24 V"),
        ("travel", "50 mm/min"),
    ]);
    let read = told(&pairs);
    let made = plan(embedded(), &read.job);
    let weld = weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld");
    let count = weld.layers.as_ref().expect("runs").beads.len() as f64;
    let time = weld.runs[0].amount.iter().find(|one| one.name == "amount-arc-time").and_then(|one| one.value);
    assert!((time.expect("a time") - count * 2.0 * 1000.0 / 50.0).abs() < 1e-9, "{time:?} for {count} runs");
}

/// A nickel electrode on steel is a nickel electrode (common practice).
#[test]
fn a_nickel_electrode_has_fillers() {
    let pairs = with(&[
        ("steel", "4140"),
        ("joint", "t-fillet-both-sides"),
        ("leg", "8"),
        ("process", "smaw nickel"),
        ("filler", "ENiCrFe-3"),
    ]);
    let read = told(&pairs);
    let made = plan(embedded(), &read.job);
    let weld = weld_of_job(embedded(), &read.job, &read.told, &made).expect("a weld");
    let chosen = weld.runs[0].fillers.chosen.as_ref().expect("it is chosen");
    assert!(!matches!(chosen.verdict, Chosen::Refused(_)), "{:?}", chosen.verdict);
    assert!(weld.runs[0].fillers.offered.iter().all(|filler| filler.tolerates_hydrogen()));
}
