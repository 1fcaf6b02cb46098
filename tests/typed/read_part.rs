//! Steels, certificates, conditions and hardness as typed.

use crate::typed_job::{job, small};
use strawblue::engine::job::Steel;
use strawblue::job::{
    DefaultValue, Fault, Field, OwnSteel, Reading, find_filler, find_steel, read_job, typed,
};
use strawblue::reference::{ConditionKind, Element, embedded};
use strawblue::units::{Problem, TemperatureUnit, Units};

#[test]
fn a_slip_lists_neighbours_and_picks_none() {
    let reference = embedded();
    assert_eq!(find_steel("SAE 4140", reference).expect("exact").id, "4140");
    assert_eq!(find_steel("aisi 4140", reference).expect("exact").id, "4140");
    let near = find_steel("4141", reference).expect_err("a slip");
    assert!(near.iter().any(|name| name.contains("4140")), "{near:?}");
    assert!(find_steel("unobtainium", reference).expect_err("none").is_empty());
    // Numbers of steels that are only similar are listed, not taken.
    let cross = find_steel("1.0503", reference).expect_err("listed");
    assert!(cross.iter().any(|name| name.contains("1045")), "{cross:?}");
    // Words beside a designation are not part of it.
    assert!(find_steel("4140 1.2379", reference).is_err());
    assert_eq!(find_filler("er70s-6", reference).expect("exact").classification, "ER70S-6");
    assert!(!find_filler("ER70S6X", reference).expect_err("a slip").is_empty());
    for grade in reference.grades.iter() {
        for similar in &grade.near {
            let taken = find_steel(similar, reference).ok();
            assert_ne!(taken.map(|found| &found.id), Some(&grade.id), "{similar} is only similar");
        }
    }
    // Every grade and filler is found by its own designation.
    for grade in reference.grades.iter() {
        assert_eq!(find_steel(&grade.designation, reference).map(|found| &found.id), Ok(&grade.id));
    }
    for filler in reference.fillers.iter() {
        assert_eq!(find_filler(&filler.classification, reference).map(|found| &found.id), Ok(&filler.id));
    }
}

/// The message of a wrong steel offers an analysis in its place, so it must be read there.
#[test]
fn an_analysis_in_the_place_of_a_name() {
    let read = |typed: &str| small(&[("steel", typed), ("thickness", "25")]);
    for typed in ["C=0.41 Si=0.25 Mn=0.85 Cr=1.0 Mo=0.2", "C 0.41 Si 0.25 Mn 0.85 Cr 1.0 Mo 0.2"] {
        let job = read(typed).expect("reads").job;
        let Steel::Certificate { composition, grade: None } = &job.members[0].steel else {
            panic!("{typed}: {:?}", job.members[0].steel)
        };
        assert!((composition.get(Element::C) - 0.41).abs() < 1e-9 && composition.get(Element::Mo) > 0.19);
    }
    assert!(matches!(read("unmarked C 0.6").expect("reads").job.members[0].steel, Steel::Unmarked { .. }));
    let fault = |typed: &str| read(typed).expect_err("not read").remove(0).fault;
    assert!(matches!(fault("C=0.41 Mn=85"), Fault::Typed(Problem::OutOfRange { .. })));
    assert!(matches!(fault("C 0.41 Si 0.25"), Fault::NeedsCarbonAndManganese));
    assert!(matches!(fault("unobtainium"), Fault::UnknownSteel { .. }));
    // A name is a name: one symbol and a figure is no analysis.
    assert!(matches!(read("C45").expect("reads").job.members[0].steel, Steel::Grade(_)));
    assert!(matches!(fault("C 47"), Fault::UnknownSteel { .. } | Fault::SeveralSteels { .. }));
    let both = small(&[("steel", "C=0.4 Mn=0.8"), ("certificate", "C 0.4 Mn 0.8"), ("thickness", "25")]);
    assert!(matches!(both.expect_err("told twice")[0].fault, Fault::Conflict { .. }));
}

/// UNS and material numbers are exact names of the grade in whose row they stand.
#[test]
fn a_number_that_one_steel_bears_is_that_steel() {
    let reference = embedded();
    for (typed, id) in [
        ("g41400", "4140"),
        ("UNS G41400", "4140"),
        ("1.4301", "304"),
        ("T30402", "D2"),
        ("1.2379", "D2"),
        ("K11856", "A514A"),
    ] {
        let found = find_steel(typed, reference).unwrap_or_else(|near| panic!("{typed}: {near:?}"));
        assert_eq!(found.id, id, "{typed}");
        let read = small(&[("steel", typed), ("thickness", "25")]);
        let said = read.expect("reads").defaulted;
        let taken = said.iter().find(|found| matches!(found.value, DefaultValue::TakenFor { .. }));
        assert!(taken.is_some_and(|found| found.slot == Field::Steel.into()), "{typed}: {said:?}");
    }
    assert_eq!(find_steel("C45E", reference).map(|found| found.designation.as_str()), Ok("C45 / C45E"));
    let own = small(&[("steel", "SAE 4140")]).expect("reads").defaulted;
    assert!(!own.iter().any(|found| matches!(found.value, DefaultValue::TakenFor { .. })));
    // One digit off is another steel, or none.
    for slip in ["G41401", "1.4303", "1.237"] {
        assert!(find_steel(slip, reference).is_err(), "{slip}");
    }
}

/// 1.7225 is the number of 42CrMo4, and stands beside 4140 and 4142 too: their carbon differs.
#[test]
fn a_number_that_several_steels_bear_is_asked_about() {
    let faults = small(&[("steel", "1.7225")]).expect_err("asked");
    let Fault::SeveralSteels { steels, .. } = &faults[0].fault else { panic!("{faults:?}") };
    assert_eq!(steels.len(), 3);
    let said = faults[0].say(&strawblue::words::Words::english());
    assert!(said.contains("3 steels") && said.contains("SAE 4140 (C 0.38–0.43"), "{said}");
    assert!(said.contains("42CrMo4 (C 0.38–0.45"), "{said}");
    // What several have alike is not told.
    assert!(!said.contains(" B "), "{said}");
}

#[test]
fn a_round_that_is_called_a_plate_is_a_contradiction() {
    let faults = |pairs: &[(&str, &str)]| small(pairs).expect_err("refused");
    let by_sign = faults(&[("thickness", "Ø90"), ("shape", "plate")]);
    assert_eq!(by_sign[0].fault, Fault::Contradicts { with: Field::Shape.into() });
    let by_field = faults(&[("thickness", ""), ("diameter", "90"), ("shape", "plate")]);
    assert_eq!(by_field[0].fault, Fault::Contradicts { with: Field::Shape.into() });
    assert!(by_field[0].say(&strawblue::words::Words::english()).contains("plate"));
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
    let reading = Reading {
        reference: embedded(),
        own_steels: &[],
        units: Units::C_MM,
        mark: strawblue::units::Mark::Point,
    };
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
        ("not known", Kind::Unknown, None),
        ("not stated", Kind::Unknown, None),
        ("pre-hardened", Kind::HardenedTempered, None),
        ("prehardened 540", Kind::HardenedTempered, Some(540.0)),
        ("case hardened and tempered 170 C", Kind::CaseHardened, Some(170.0)),
        ("induction hardened and tempered", Kind::InductionHardened, None),
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
    // What a part is not says nothing of what it is.
    for text in [
        "hardened, not tempered",
        "not annealed",
        "not normalised",
        "not case hardened",
        "not hardened and tempered 540 C",
        "annealed, not cold drawn",
        "not",
    ] {
        let read = typed::condition(text, TemperatureUnit::C);
        assert!(matches!(read, Err(Problem::Trap { key: "typed-condition-not", .. })), "{text}: {read:?}");
    }
    // Half a word, and two states at once.
    for text in
        ["pre", "known", "forged, hardened and tempered", "annealed and tempered", "unknown, tempered"]
    {
        let read = typed::condition(text, TemperatureUnit::C);
        assert!(matches!(read, Err(Problem::NotUnderstood { .. })), "{text}: {read:?}");
    }
    assert!(matches!(typed::condition("hardened", TemperatureUnit::C), Err(Problem::Ambiguous { .. })));
    assert!(matches!(typed::condition("tempered 540", TemperatureUnit::C), Err(Problem::Ambiguous { .. })));
    assert!(matches!(typed::condition("annealed 540", TemperatureUnit::C), Err(Problem::Trap { .. })));
    assert!(matches!(typed::condition("Q&T 2000", TemperatureUnit::C), Err(Problem::OutOfRange { .. })));
    assert!(matches!(typed::condition("shiny", TemperatureUnit::C), Err(Problem::NotUnderstood { .. })));
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
