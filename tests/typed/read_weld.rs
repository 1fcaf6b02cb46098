//! Processes, joints, hydrogen and heat input as typed.

use crate::typed_job::{faults, small};
use proptest::prelude::*;
use strawblue::engine::job::{Joint, Process};
use strawblue::job::typed::{self, TypedProcess};
use strawblue::job::{DefaultValue, Fault, Field, FieldProblem};
use strawblue::reference::embedded;
use strawblue::units::{Problem, Show, TemperatureUnit};
use strawblue::words::Words;

#[test]
fn a_covering_is_told_by_its_hydrogen_or_asked() {
    let process = |process: &str, hydrogen: &str| {
        small(&[("process", process), ("hydrogen", hydrogen)]).map(|found| found.job.runs[0].process)
    };
    assert_eq!(process("smaw", "H16"), Ok(Process::SmawBasic));
    assert_eq!(process("stick", "H4R"), Ok(Process::SmawBasic));
    assert_eq!(process("smaw", "8 ml"), Ok(Process::SmawBasic));
    assert!(process("smaw", "12 ml").is_err());
    assert!(process("smaw", "D1.1 H3").is_err());
    assert!(matches!(
        faults(&[("process", "smaw")])[0],
        ("process", Fault::Typed(Problem::Ambiguous { .. }))
    ));
}

/// A covered electrode that is not basic brings its hydrogen however it is kept: 30 ml and
/// more for cellulosic, 15 ml and more for rutile (from memory); none at all is no measurement
/// (common practice, no source).
#[test]
fn less_hydrogen_than_the_process_gives_is_refused() {
    let fault = |process: &str, hydrogen: &str| {
        small(&[("process", process), ("hydrogen", hydrogen)]).err().map(|found| found[0].fault.clone())
    };
    let little = |process, least_ml| Some(Fault::LittleHydrogen { process, least_ml });
    assert_eq!(fault("E6010", "3 ml"), little(Process::SmawCellulosic, 30.0));
    assert_eq!(fault("E6013", "H4"), little(Process::SmawRutile, 15.0));
    assert_eq!(fault("gtaw + E6010", "3"), little(Process::SmawCellulosic, 30.0));
    assert_eq!(fault("gtaw + E6010", "3 + 40"), None);
    assert_eq!(fault("E6010", "D1.1 H3"), None);
    assert_eq!(fault("fcaw-self", "1"), little(Process::FcawSelf, 4.0));
    for process in ["gtaw", "E7018", "E6010"] {
        assert!(matches!(fault(process, "0"), Some(Fault::Typed(Problem::OutOfRange { .. }))), "{process}");
    }
    // What filler makers sell and measure is taken.
    for (process, hydrogen) in
        [("gtaw", "1"), ("E7018", "3 ml"), ("E7018", "AWS H2"), ("fcaw", "H4"), ("mcaw", "H4"), ("saw", "H4")]
    {
        assert_eq!(fault(process, hydrogen), None, "{process} {hydrogen}");
    }
    // Each class that the dataset has for a process can be typed with it.
    for row in embedded().processes.iter() {
        for id in &row.designators {
            let class = embedded().designators.get(id).expect("a class");
            assert!(class.up_to_ml.is_none_or(|ml| ml >= row.hydrogen_least_ml()), "{} {id}", row.id);
        }
    }
    let said = FieldProblem {
        slot: Field::Hydrogen.into(),
        fault: Fault::LittleHydrogen { process: Process::SmawCellulosic, least_ml: 30.0 },
    };
    let said = said.say(&Words::english());
    assert!(said.contains("30\u{a0}ml/100\u{a0}g") && !said.contains("process-"), "{said}");
}

/// A leg is that of a fillet. The throat that follows from it must not stand for the depth of
/// a butt weld: multi-run weld metal 40 mm deep asks for much more preheat than 15 mm of it.
#[test]
fn a_leg_counts_for_a_fillet_only() {
    for &joint in Joint::ALL {
        let read = |leg: &str| small(&[("joint", joint.id()), ("shape", "plate"), ("leg", leg)]);
        let found = read("6").expect("reads");
        let said = found.defaulted.iter().any(|found| found.value == DefaultValue::LegNotUsed);
        assert_eq!(found.job.weld.thickness_mm.is_some(), joint.has_fillet(), "{}", joint.id());
        assert_eq!(said, !joint.has_fillet(), "{}", joint.id());
        // What is left in the field of another joint stands in nobody's way.
        assert_eq!(read("six").is_ok(), !joint.has_fillet(), "{}", joint.id());
    }
    let minimum_c = |leg: &[(&str, &str)]| {
        let butt = [
            ("steel", "S690QL"),
            ("condition", "Q&T 560 C"),
            ("thickness", "40"),
            ("process", "smaw basic"),
            ("hydrogen", "H5"),
            ("heat-input", "1.5"),
            ("restraint", "medium"),
            ("weld-strength", "850 MPa"),
            ("weld-cet", "0.33"),
        ];
        let job = small(&[&butt[..], leg].concat()).expect("reads").job;
        strawblue::engine::plan::plan(embedded(), &job).minimum.expect("a figure").exact_c
    };
    assert_eq!(minimum_c(&[]), minimum_c(&[("leg", "6")]));
}

/// "None" may mean that the parts are free, and it may mean that nothing is stated: it counts
/// as low, which is said. What is assumed of a basic electrode holds for a dried one.
#[test]
fn what_counts_in_place_of_a_word_is_said() {
    let said = |pairs: &[(&str, &str)]| {
        let found = small(pairs).expect("reads");
        let words = Words::english();
        found.defaulted.iter().map(|found| found.say(&words, &Show::default())).collect::<Vec<_>>().join("; ")
    };
    assert!(said(&[("restraint", "none")]).contains("none"));
    assert!(!said(&[("restraint", "low")]).contains("none"));
    let assumed = said(&[("process", "E7018")]);
    assert!(assumed.contains("8\u{a0}ml") && assumed.contains("dry consumables"), "{assumed}");
    assert!(!said(&[("process", "gtaw")]).contains("dry consumables"));
}

#[test]
fn an_open_class_takes_the_worse_of_class_and_process() {
    let hydrogen = |process: &str| {
        small(&[("process", process), ("hydrogen", "EN A")]).expect("reads").job.runs[0].hydrogen_ml
    };
    assert_eq!(hydrogen("gtaw"), 30.0);
    assert_eq!(hydrogen("smaw cellulosic"), 60.0);
}

#[test]
fn one_figure_for_all_or_one_for_each() {
    let found = small(&[("process", "gtaw + smaw basic"), ("hydrogen", "3 + H4"), ("heat-input", "0.9")]);
    let runs = found.expect("reads").job.runs;
    assert_eq!((runs[0].hydrogen_ml, runs[1].hydrogen_ml), (3.0, 4.0));
    assert_eq!((runs[0].net_heat_kj_per_mm, runs[1].net_heat_kj_per_mm), (0.9, 0.9));
    assert_eq!(
        faults(&[("process", "gtaw"), ("hydrogen", "3 + H4")]),
        [("hydrogen", Fault::Count { typed: 2, processes: 1 })]
    );
}

/// 25 V, 150 A, 2.5 mm/s, k 0.8: E 1.5, Q 1.2 kJ/mm (EN 1011-1 Table 1 for k; plain
/// arithmetic). 28 V, 250 A, 12 in/min: 35.0 kJ/in without k.
#[test]
fn heat_input_from_the_machine_or_from_arc_energy() {
    let net = |pairs: &[(&str, &str)]| small(pairs).expect("reads").job.runs[0].net_heat_kj_per_mm;
    let by_arc =
        net(&[("process", "smaw basic"), ("volts", "25"), ("amps", "150 A"), ("travel", "2.5 mm/s")]);
    assert!((by_arc - 1.2).abs() < 1e-12);
    assert!((net(&[("process", "smaw basic"), ("arc-energy", "1.5")]) - 1.2).abs() < 1e-12);
    let inch = net(&[("process", "saw"), ("volts", "28"), ("amps", "250"), ("travel", "12 in/min")]);
    assert!((inch * 25.4 - 35.0).abs() < 1e-9);
    assert_eq!(
        faults(&[("heat-input", "1"), ("arc-energy", "1.5")]),
        [("arc-energy", Fault::Conflict { with: Field::HeatInput.into() })]
    );
    assert_eq!(faults(&[("volts", "25")]), [("amps", Fault::Missing), ("travel", Fault::Missing)]);
    assert!(matches!(
        faults(&[("volts", "60"), ("amps", "1500"), ("travel", "5 mm/min")])[0],
        ("travel", Fault::NetHeat { .. })
    ));
}

#[test]
fn processes_and_joints_as_people_write_them() {
    let rows = [
        ("gtaw", Process::Gtaw),
        ("TIG", Process::Gtaw),
        ("mig", Process::Gmaw),
        ("mma low-hydrogen", Process::SmawBasic),
        ("E7018", Process::SmawBasic),
        ("6013", Process::SmawRutile),
        ("rutile", Process::SmawRutile),
        ("nickel", Process::SmawNickel),
        ("submerged arc", Process::Saw),
        ("smaw-cellulosic", Process::SmawCellulosic),
    ];
    for (text, process) in rows {
        assert_eq!(typed::process(text, embedded()), Ok(TypedProcess::Known(process)), "{text}");
    }
    for &process in Process::ALL {
        assert_eq!(typed::process(process.id(), embedded()), Ok(TypedProcess::Known(process)));
        assert!(embedded().process(process.id()).is_some(), "the dataset has {}", process.id());
    }
    assert_eq!(typed::process("stick", embedded()), Ok(TypedProcess::CoveredElectrode));
    assert!(matches!(typed::process("flux core", embedded()), Err(Problem::Ambiguous { .. })));
    for &joint in Joint::ALL {
        assert_eq!(typed::joint(joint.id()), Ok(joint));
        assert!(embedded().joint(joint.id()).is_some(), "the dataset has {}", joint.id());
    }
    assert!(matches!(typed::joint("fillet"), Err(Problem::Ambiguous { .. })));
}

/// 25 V, 150 A over 200 mm in 80 s, k 0.8: v 2.5 mm/s, E 1.5, Q 1.2 kJ/mm (EN 1011-1; plain
/// arithmetic, as above).
#[test]
fn a_run_timed_with_a_watch_and_measured() {
    let arc = |more: &[(&str, &str)]| {
        small(&[&[("process", "smaw basic"), ("volts", "25"), ("amps", "150")], more].concat())
    };
    for (time, length) in [
        ("80 s", "200 mm"),
        ("80", "200"),
        ("1 min 20 s", "20 cm"),
        ("1:20", "0.2 m"),
        ("0:01:20", "200"),
        ("80", "7.874016 in"),
    ] {
        let found = arc(&[("arc-time", time), ("run-length", length)]).expect("reads");
        let net = found.job.runs[0].net_heat_kj_per_mm;
        assert!((net - 1.2).abs() < 1e-6, "{time} {length}: {net}");
        let said = found.defaulted.iter().find(|found| found.slot == Field::Travel.into()).expect("said");
        let DefaultValue::TimedTravel(speed) = &said.value else { panic!("{said:?}") };
        assert!((speed - 150.0).abs() < 1e-3, "{speed}");
        let line = said.say(&Words::english(), &Show::default());
        assert!(line.contains("150\u{a0}mm/min"), "{line}");
    }
    // One figure for each process, or one for both.
    let two = arc(&[("process", "gtaw + smaw basic"), ("arc-time", "80 + 40"), ("run-length", "200")]);
    let two = two.expect("reads");
    let runs = &two.job.runs;
    // 0.6 × 1.5 and 0.8 × 0.75.
    assert!((runs[0].net_heat_kj_per_mm - 0.9).abs() < 1e-12);
    assert!((runs[1].net_heat_kj_per_mm - 0.6).abs() < 1e-12);
    let said = |nth: usize| two.defaulted.iter().find(|found| found.slot == Field::Travel.nth(nth));
    let speeds = [0, 1].map(|nth| said(nth).map(|found| found.value.clone()));
    assert_eq!(speeds, [150.0, 300.0].map(|speed| Some(DefaultValue::TimedTravel(speed))));
}

#[test]
fn a_timed_run_is_whole_and_stands_alone() {
    let arc = |more: &[(&str, &str)]| faults(&[&[("volts", "25"), ("amps", "150")], more].concat());
    let said = |field: Field, fault: Fault| FieldProblem { slot: field.into(), fault }.say(&Words::english());
    assert_eq!(arc(&[("arc-time", "80 s")]), [("run-length", Fault::Missing)]);
    assert_eq!(arc(&[("run-length", "200")]), [("arc-time", Fault::Missing)]);
    assert!(said(Field::RunLength, Fault::Missing).contains("arc-time"));
    assert!(said(Field::ArcTime, Fault::Missing).contains("run-length"));
    assert_eq!(arc(&[]), [("travel", Fault::Missing)]);
    let either = said(Field::Travel, Fault::Missing);
    assert!(either.contains("mm/min") && either.contains("run-length"), "{either}");
    // Two ways to say how fast: refused even where they agree, with both choices.
    let timed = [("arc-time", "80 s"), ("run-length", "200 mm")];
    for travel in ["150", "90"] {
        let twice = arc(&[&timed[..], &[("travel", travel)]].concat());
        assert_eq!(twice, [("arc-time", Fault::TravelTwice)]);
    }
    assert_eq!(arc(&[("run-length", "200"), ("travel", "150")]), [("run-length", Fault::TravelTwice)]);
    // A run as slow as 5 mm in ten hours has a speed, which is shown.
    let slow = arc(&[("arc-time", "36000"), ("run-length", "5")]);
    assert!(said(Field::RunLength, slow[0].1.clone()).contains("0.008\u{a0}mm/min"));
    let line = said(Field::ArcTime, Fault::TravelTwice);
    assert!(["arc-time", "run-length", "travel"].iter().all(|id| line.contains(id)), "{line}");
    // Beside a stated heat input they say the same thing again, as volts would.
    assert_eq!(
        faults(&[&timed[..], &[("heat-input", "1")]].concat()),
        [("arc-time", Fault::Conflict { with: Field::HeatInput.into() })]
    );
    // Each can be right and both together wrong: 10 m in 20 s is 30 m/min.
    let fast = arc(&[("arc-time", "20"), ("run-length", "10 m")]);
    assert_eq!(fast, [("run-length", Fault::TimedTravel { mm_per_min: 30_000.0 })]);
    assert!(said(Field::RunLength, fast[0].1.clone()).contains("30000\u{a0}mm/min"));
    // A diameter is not how far the arc went around it.
    assert!(matches!(
        arc(&[("arc-time", "80"), ("run-length", "Ø90")])[0],
        ("run-length", Fault::Typed(Problem::NotUnderstood { .. }))
    ));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    /// A timed run is the job with its travel speed typed.
    #[test]
    fn a_timed_run_plans_as_its_travel_speed(
        volts in 15.0_f64..40.0, amps in 60.0_f64..300.0, time_s in 2.0_f64..3000.0, mm_per_min in 60.0_f64..600.0,
    ) {
        let arc = [("volts", volts.to_string()), ("amps", amps.to_string())];
        let with = |more: [(&'static str, String); 2]| {
            let all: Vec<(&str, String)> = arc.iter().cloned().chain(more).collect();
            let all: Vec<(&str, &str)> =
                all.iter().filter(|(_, text)| !text.is_empty()).map(|(id, text)| (*id, text.as_str())).collect();
            small(&all).map(|found| found.job.runs[0].net_heat_kj_per_mm)
        };
        let speed = with([("travel", format!("{mm_per_min} mm/min")), ("name", String::new())]);
        let length_mm = mm_per_min / 60.0 * time_s;
        let timed = with([("arc-time", format!("{time_s} s")), ("run-length", format!("{length_mm} mm"))]);
        match (speed, timed) {
            (Ok(speed), Ok(timed)) => prop_assert!((speed - timed).abs() < 1e-9 * speed, "{} {}", speed, timed),
            // 5 mm is the shortest run that is taken; past it, both ways refuse alike.
            (speed, timed) => prop_assert!(length_mm < 5.0 || speed.is_err() == timed.is_err()),
        }
    }
}

/// Each choice that is offered back is understood as it is written.
#[test]
fn offered_words_can_be_written() {
    let offers = [
        typed::condition("hardened", TemperatureUnit::C).map(|_| ()),
        typed::condition("tempered", TemperatureUnit::C).map(|_| ()),
        typed::process("wire", embedded()).map(|_| ()),
        typed::joint("fillet").map(|_| ()),
        TypedProcess::CoveredElectrode.with_hydrogen("smaw", None).map(|_| ()),
    ];
    for offer in offers {
        for choice in offer.expect_err("asked").choices() {
            let understood = typed::condition(&choice.write, TemperatureUnit::C).is_ok()
                || typed::process(&choice.write, embedded()).is_ok()
                || typed::joint(&choice.write).is_ok();
            assert!(understood, "{}", choice.write);
        }
    }
}

/// The classes that can be typed are those of the dataset, with the same upper end.
#[test]
fn typed_hydrogen_classes_are_those_of_the_dataset() {
    use strawblue::reference::HydrogenScale as Scale;
    for row in embedded().designators.iter() {
        let text = match row.scale {
            Scale::Aws => format!("AWS {}", row.text),
            Scale::Iso => format!("ISO {}", row.text),
            Scale::D11Annex => format!("D1.1 {}", row.text),
            Scale::Letter => format!("EN {}", row.text),
            // Bare words of the IIW are not a class that one types.
            Scale::IiwWord => continue,
        };
        let read = strawblue::units::hydrogen(&text, strawblue::units::limits::HYDROGEN_ML)
            .unwrap_or_else(|found| panic!("{text}: {found:?}"));
        match row.up_to_ml {
            Some(ml) => assert!((read.ml, read.open) == (ml, false), "{text}"),
            None => assert!(read.open && Some(read.ml) > row.above_ml, "{text}"),
        }
    }
}
