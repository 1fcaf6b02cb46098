//! From a job as typed to a job as the engine sees it: the whole.

use crate::typed_job::{read, small};
use proptest::prelude::*;
use strawblue::engine::job::{Joint, Process, Restraint};
use strawblue::job::{DefaultValue, Fault, Field, FieldProblem, JobText, Reading, demo_job, read_job};
use strawblue::reference::{ConditionKind, embedded};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

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
        Fault::Contradicts { with: Field::Shape },
        Fault::LittleHydrogen { process: Process::SmawRutile, least_ml: 15.0 },
        Fault::SeveralSteels { typed: "x".to_owned(), steels: vec!["y".to_owned(), "z".to_owned()] },
        Fault::TravelTwice,
        Fault::TimedTravel { mm_per_min: 30_000.0 },
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
