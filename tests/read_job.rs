//! From a job as typed to a job as the engine sees it.

use proptest::prelude::*;
use strawblue::engine::job::{Joint, Process, Restraint, Steel};
use strawblue::log::typed::{self, TypedProcess};
use strawblue::log::{
    DefaultValue, Fault, Field, FieldProblem, JobText, OwnSteel, ReadJob, Reading, demo_job, find_filler,
    find_steel, read_job,
};
use strawblue::reference::{ConditionKind, Element, embedded};
use strawblue::units::{Problem, Show, TemperatureUnit, Units};
use strawblue::words::Words;

fn job(pairs: &[(&str, &str)]) -> JobText {
    let mut made = JobText::default();
    for (id, text) in pairs {
        made.set(Field::from_id(id).unwrap_or_else(|| panic!("field {id}")), Some((*text).to_owned()));
    }
    made
}

fn read(pairs: &[(&str, &str)]) -> Result<ReadJob, Vec<FieldProblem>> {
    read_job(&job(pairs), &Reading { reference: embedded(), own_steels: &[], units: Units::C_MM })
}

/// A whole small job, with some fields changed.
fn small(changed: &[(&str, &str)]) -> Result<ReadJob, Vec<FieldProblem>> {
    let mut text = job(&[("steel", "4140"), ("thickness", "25"), ("joint", "butt"), ("process", "gtaw")]);
    for (id, value) in changed {
        text.set(Field::from_id(id).expect("a field"), Some((*value).to_owned()));
    }
    read_job(&text, &Reading { reference: embedded(), own_steels: &[], units: Units::C_MM })
}

fn faults(pairs: &[(&str, &str)]) -> Vec<(&'static str, Fault)> {
    small(pairs).expect_err("a problem").into_iter().map(|found| (found.field.id(), found.fault)).collect()
}

#[test]
fn the_demo_job_reads_with_nothing_left_to_defaults() {
    let found =
        read_job(&demo_job(), &Reading { reference: embedded(), own_steels: &[], units: Units::F_IN })
            .expect("reads");
    assert_eq!(found.defaulted, []);
    assert_eq!(found.units, Units::C_MM);
    let job = found.job;
    assert_eq!((job.joint, job.restraint), (Joint::BossThrough, Restraint::High));
    assert_eq!(job.members[0].thickness_mm, 30.0);
    assert!(job.members[1].round && job.members[1].thickness_mm == 90.0);
    assert_eq!(job.members[1].condition.kind, ConditionKind::HardenedTempered);
    assert_eq!(job.members[1].condition.temper_c, Some(540.0));
    assert_eq!(job.runs.len(), 2);
    assert_eq!((job.runs[1].process, job.runs[1].hydrogen_ml), (Process::SmawBasic, 4.0));
    // Throat of an 8 mm leg: 8 / √2.
    assert!((job.weld.thickness_mm.expect("a leg") - 5.657).abs() < 1e-3);
}

#[test]
fn what_is_not_stated_is_said() {
    let found = small(&[]).expect("reads");
    let said: Vec<_> = found.defaulted.iter().map(|found| (found.field.id(), found.value.clone())).collect();
    assert_eq!(
        said,
        [
            ("condition", DefaultValue::UnknownCondition),
            ("steel-b", DefaultValue::SamePart),
            ("hydrogen", DefaultValue::Hydrogen { process: Process::Gtaw, ml: 3.0 }),
            ("heat-input", DefaultValue::NetHeat(1.0)),
            ("restraint", DefaultValue::Restraint(Restraint::Medium)),
            ("runs", DefaultValue::SeveralRuns),
            ("shop", DefaultValue::Shop(20.0)),
        ]
    );
    assert_eq!(found.job.members.len(), 2);
    let words = Words::english();
    for defaulted in &found.defaulted {
        let line = defaulted.say(&words, &Show::default());
        assert!(!line.starts_with("default-") && !line.contains('{'), "{line}");
    }
}

#[test]
fn all_problems_come_at_once_in_the_order_of_the_fields() {
    let found = read(&[("thickness", "900 mm"), ("hydrogen", "H3"), ("process", "smaw"), ("shop", "200")]);
    let ids: Vec<_> = found.expect_err("problems").iter().map(|problem| problem.field.id()).collect();
    assert_eq!(ids, ["steel", "thickness", "joint", "process", "hydrogen", "shop"]);
}

#[test]
fn a_slip_lists_neighbours_and_picks_none() {
    let reference = embedded();
    assert_eq!(find_steel("SAE 4140", reference).expect("exact").id, "4140");
    assert_eq!(find_steel("aisi 4140", reference).expect("exact").id, "4140");
    let near = find_steel("4141", reference).expect_err("a slip");
    assert!(near.iter().any(|name| name.contains("4140")), "{near:?}");
    assert!(find_steel("unobtainium", reference).expect_err("none").is_empty());
    // Cross-references are figures of another standard: listed, not taken.
    let cross = find_steel("1.0503", reference).expect_err("listed");
    assert!(cross.iter().any(|name| name.contains("1045")), "{cross:?}");
    assert_eq!(find_filler("er70s-6", reference).expect("exact").classification, "ER70S-6");
    assert!(!find_filler("ER70S6X", reference).expect_err("a slip").is_empty());
    // Every grade and filler is found by its own designation.
    for grade in reference.grades.iter() {
        assert_eq!(find_steel(&grade.designation, reference).map(|found| &found.id), Ok(&grade.id));
    }
    for filler in reference.fillers.iter() {
        assert_eq!(find_filler(&filler.classification, reference).map(|found| &found.id), Ok(&filler.id));
    }
}

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
        [("arc-energy", Fault::Conflict { with: Field::HeatInput })]
    );
    assert_eq!(faults(&[("volts", "25")]), [("amps", Fault::Missing), ("travel", Fault::Missing)]);
    assert!(matches!(
        faults(&[("volts", "60"), ("amps", "1500"), ("travel", "5 mm/min")])[0],
        ("travel", Fault::NetHeat { .. })
    ));
}

#[test]
fn a_certificate_alone_or_with_its_grade() {
    let found = small(&[("certificate", "C .41 Mn .85")]).expect("reads");
    let Steel::Certificate { composition, grade: Some(grade) } = &found.job.members[0].steel else {
        panic!("a certificate with its grade")
    };
    assert_eq!(composition.get(Element::C), 0.41);
    // What the certificate leaves out counts at the grade's maximum, never as none.
    assert_eq!(composition.get(Element::Cr), grade.max_of(Element::Cr).expect("4140 has chromium"));
    let mut text = job(&[("thickness", "25"), ("joint", "repair"), ("process", "gtaw")]);
    let reading = Reading { reference: embedded(), own_steels: &[], units: Units::C_MM };
    text.set(Field::Certificate, Some("C 0,41 % Si 0,25 Mn 0,85 Sn 0.01".to_owned()));
    let alone = read_job(&text, &reading).expect("reads");
    assert_eq!(alone.job.members.len(), 1);
    assert!(
        alone
            .defaulted
            .iter()
            .any(|found| matches!(&found.value, DefaultValue::NotStated(all) if all.contains(&Element::Cr)))
    );
    text.set(Field::Certificate, Some("Si 0.25 Cr 1.0".to_owned()));
    let faults = read_job(&text, &reading).expect_err("no carbon");
    assert_eq!(faults[0].fault, Fault::NeedsCarbonAndManganese);
    // The reader's own steel comes by its name.
    let own = [OwnSteel {
        name: "Spindle bar".to_owned(),
        composition: "C .38 Mn 1.4".to_owned(),
        grade: String::new(),
    }];
    text.set(Field::Certificate, None);
    text.set(Field::Steel, Some("spindle bar".to_owned()));
    let reading = Reading { own_steels: &own, ..reading };
    assert!(matches!(
        &read_job(&text, &reading).expect("reads").job.members[0].steel,
        Steel::Certificate { grade: None, .. }
    ));
}

/// ASTM E140: 30 HRC is 302 HV and 286 HB.
#[test]
fn hardness_arrives_in_vickers() {
    let hv =
        |text: &str| small(&[("hardness", text)]).expect("reads").job.members[0].hardness_hv.expect("stated");
    assert_eq!(hv("300 HV"), 300.0);
    assert!((hv("30 HRC") - 302.0).abs() < 1.5);
    assert!((hv("286 HB") - 302.0).abs() < 1.5);
}

#[test]
fn the_order_of_the_parts_changes_nothing() {
    let plate = [("steel", "S355J2"), ("thickness", "30 mm"), ("condition", "as rolled")];
    let boss = [("steel", "4140"), ("diameter", "90"), ("condition", "Q&T 540")];
    let common = [("joint", "boss-through"), ("process", "gtaw")];
    let second = |pairs: &[(&str, &str); 3]| pairs.map(|(id, text)| (format!("{id}-b"), text.to_owned()));
    let order = |first: &[(&str, &str); 3], other: &[(&str, &str); 3]| {
        let other = second(other);
        let other: Vec<(&str, &str)> = other.iter().map(|(id, text)| (id.as_str(), text.as_str())).collect();
        read(&[first.as_slice(), &other, &common].concat()).expect("reads").job
    };
    assert_eq!(order(&plate, &boss), order(&boss, &plate));
}

#[test]
fn conditions_as_people_write_them() {
    use ConditionKind as Kind;
    let rows = [
        ("hardened and tempered 540 C", Kind::HardenedTempered, Some(540.0)),
        ("Q&T 540", Kind::HardenedTempered, Some(540.0)),
        ("+QT", Kind::HardenedTempered, None),
        ("quenched & tempered at 1000 °F", Kind::HardenedTempered, Some(537.777_777)),
        ("annealed", Kind::Annealed, None),
        ("normalised", Kind::Normalised, None),
        ("normalized and tempered 650", Kind::NormalisedTempered, Some(650.0)),
        ("as rolled", Kind::AsRolled, None),
        ("hot rolled", Kind::AsRolled, None),
        ("thermomechanically rolled", Kind::Thermomechanical, None),
        ("case-hardened, tempered 170", Kind::CaseHardened, Some(170.0)),
        ("induction hardened", Kind::InductionHardened, None),
        ("cold drawn", Kind::ColdWorked, None),
        ("as cast", Kind::AsCast, None),
        ("unknown", Kind::Unknown, None),
    ];
    for (text, kind, temper_c) in rows {
        let read =
            typed::condition(text, TemperatureUnit::C).unwrap_or_else(|found| panic!("{text}: {found:?}"));
        assert_eq!(read.kind, kind, "{text}");
        let close = match (read.temper_c, temper_c) {
            (Some(one), Some(other)) => (one - other).abs() < 1e-3,
            (one, other) => one == other,
        };
        assert!(close, "{text}: {:?}", read.temper_c);
    }
    assert!(matches!(typed::condition("hardened", TemperatureUnit::C), Err(Problem::Ambiguous { .. })));
    assert!(matches!(typed::condition("tempered 540", TemperatureUnit::C), Err(Problem::Ambiguous { .. })));
    assert!(matches!(typed::condition("annealed 540", TemperatureUnit::C), Err(Problem::Trap { .. })));
    assert!(matches!(typed::condition("Q&T 2000", TemperatureUnit::C), Err(Problem::OutOfRange { .. })));
    assert!(matches!(typed::condition("shiny", TemperatureUnit::C), Err(Problem::NotUnderstood { .. })));
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
        assert_eq!(typed::process(text), Ok(TypedProcess::Known(process)), "{text}");
    }
    for process in Process::ALL {
        assert_eq!(typed::process(process.id()), Ok(TypedProcess::Known(process)));
        assert!(embedded().process(process.id()).is_some(), "the dataset has {}", process.id());
    }
    assert_eq!(typed::process("stick"), Ok(TypedProcess::CoveredElectrode));
    assert!(matches!(typed::process("flux core"), Err(Problem::Ambiguous { .. })));
    for joint in Joint::ALL {
        assert_eq!(typed::joint(joint.id()), Ok(joint));
        assert!(embedded().joint(joint.id()).is_some(), "the dataset has {}", joint.id());
    }
    assert!(matches!(typed::joint("fillet"), Err(Problem::Ambiguous { .. })));
}

/// Each choice that is offered back is understood as it is written.
#[test]
fn offered_words_can_be_written() {
    let offers = [
        typed::condition("hardened", TemperatureUnit::C).map(|_| ()),
        typed::condition("tempered", TemperatureUnit::C).map(|_| ()),
        typed::process("wire").map(|_| ()),
        typed::joint("fillet").map(|_| ()),
        TypedProcess::CoveredElectrode.with_hydrogen("smaw", None).map(|_| ()),
    ];
    for offer in offers {
        for choice in offer.expect_err("asked").choices() {
            let understood = typed::condition(&choice.write, TemperatureUnit::C).is_ok()
                || typed::process(&choice.write).is_ok()
                || typed::joint(&choice.write).is_ok();
            assert!(understood, "{}", choice.write);
        }
    }
}

#[test]
fn certificates_as_they_are_pasted() {
    let carbon = |text: &str| typed::composition(text).map(|line| line.composition.get(Element::C));
    let rows = [
        "C=0.405 Mn=0.875",
        "C .405 Si .25 Mn .875",
        "C 0,405 %; Mn 0,875 %",
        "c: 0.405, mn: 0.875",
        "C Si Mn P S\n0.405 0.25 0.875 0.012 <0.005",
        "C | 0.405 | Mn | 0.875 | B 5 ppm",
        "C 0,405,Mn 0,875",
    ];
    for text in rows {
        assert_eq!(carbon(text), Ok(0.405), "{text}");
    }
    let boron = typed::composition("C .2 Mn 1 B 5 ppm").expect("reads").composition.get(Element::B);
    assert!((boron - 0.0005).abs() < 1e-12);
    assert_eq!(typed::composition("C .2 Mn 1 CEV 0.4").expect("reads").unused, ["CEV"]);
    for text in ["C 40 Mn 85", "C", "0.4", "C 0.4 C 0.5", "Xx 0.4", "C 0.4 0.5", "C -0.4", "🔥"] {
        assert!(typed::composition(text).is_err(), "{text}");
    }
}

#[test]
fn every_field_has_words() {
    let words = Words::english();
    for field in Field::ALL {
        assert!(words.has(&field.key()), "{}", field.key());
        assert_eq!(Field::from_id(field.id()), Some(*field));
        assert_eq!(Field::from_id(&field.id().replace('-', "_")), Some(*field));
    }
    let all = [
        Fault::Missing,
        Fault::UnknownSteel { typed: "x".to_owned(), near: vec![] },
        Fault::UnknownSteel { typed: "x".to_owned(), near: vec!["y".to_owned()] },
        Fault::UnknownFiller { typed: "x".to_owned(), near: vec![] },
        Fault::UnknownFiller { typed: "x".to_owned(), near: vec!["y".to_owned()] },
        Fault::Conflict { with: Field::Leg },
        Fault::Count { typed: 2, processes: 3 },
        Fault::NetHeat { net_kj_per_mm: 20.0 },
        Fault::NeedsCarbonAndManganese,
    ];
    for fault in all {
        let said = FieldProblem { field: Field::Steel, fault }.say(&words);
        assert!(!said.contains('{') && !said.starts_with("job-"), "{said}");
    }
}

#[test]
fn a_strange_field_in_a_file_is_said() {
    let error = JobText::from_ron("(steel: \"4140\",\n thickess: 30)").expect_err("a slip");
    assert_eq!((error.line, error.unknown_field.as_deref()), (2, Some("thickess")));
    assert_eq!(
        JobText::from_ron("(thickness: 30, damp: true)").expect("reads").get(Field::Damp),
        Some("yes")
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_text_panics_in_any_field(
        texts in proptest::collection::vec(proptest::option::of("(.{0,20}|[0-9.,/+ ]{1,8}(mm|in|F|C|H|ml|kJ|V|A)?|smaw|tig|butt|high|4140|C .4 Mn .8)"), Field::ALL.len())
    ) {
        let mut job = JobText::default();
        for (field, text) in Field::ALL.iter().zip(texts) {
            job.set(*field, text);
        }
        let words = Words::english();
        match read_job(&job, &Reading { reference: embedded(), own_steels: &[], units: Units::F_IN }) {
            Ok(found) => {
                prop_assert!(found.job.thickest_mm() <= 500.001 && found.job.net_heat_kj_per_mm() <= 10.001);
            }
            Err(problems) => {
                prop_assert!(!problems.is_empty());
                for problem in problems {
                    let said = problem.say(&words);
                    prop_assert!(!said.starts_with("typed-") && !said.starts_with("job-"), "{}", said);
                }
            }
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
