//! From a job as typed to a job as the engine sees it: the whole.

use crate::typed_job::{every_slot, read, small};
use proptest::prelude::*;
use strawblue::engine::job::{Joint, Process, Restraint};
use strawblue::job::typed::Improbable;
use strawblue::job::{
    DefaultValue, Fault, Field, FieldProblem, JobText, Reading, Slot, ToldSteel, demo_job, read_job,
};
use strawblue::reference::{ConditionKind, Element, embedded};
use strawblue::units::{Show, Units};
use strawblue::words::Words;

#[test]
fn the_demo_job_reads_with_nothing_left_to_defaults() {
    let found = read_job(
        &demo_job(),
        &Reading {
            reference: embedded(),
            own_steels: &[],
            units: Units::F_IN,
            mark: strawblue::units::Mark::Point,
        },
    )
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
    let said: Vec<_> = found.defaulted.iter().map(|found| (found.slot.id(), found.value.clone())).collect();
    assert_eq!(
        said,
        [
            ("condition".into(), DefaultValue::UnknownCondition),
            ("steel-b".into(), DefaultValue::SamePart),
            ("hydrogen".into(), DefaultValue::Hydrogen { process: Process::Gtaw, ml: 3.0 }),
            ("heat-input".into(), DefaultValue::NetHeat(1.0)),
            ("runs".into(), DefaultValue::SeveralRuns),
            ("restraint".into(), DefaultValue::Restraint(Restraint::Medium)),
            ("shop".into(), DefaultValue::Shop(20.0)),
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
    let ids: Vec<_> = found.expect_err("problems").iter().map(|problem| problem.slot.id()).collect();
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
    for slot in every_slot() {
        assert_eq!(Slot::from_id(&slot.id()), Some(slot));
        let name = slot.name(&words);
        assert!(!name.contains("field-") && !name.contains('{'), "{name}");
    }
    let told = |name: &str| ToldSteel { designation: name.to_owned(), shares: vec![format!("C {name}")] };
    let all = [
        Fault::Missing,
        Fault::UnknownSteel { typed: "x".to_owned(), near: vec![] },
        Fault::UnknownSteel { typed: "x".to_owned(), near: vec!["y".to_owned()] },
        Fault::UnknownFiller { typed: "x".to_owned(), near: vec![] },
        Fault::UnknownFiller { typed: "x".to_owned(), near: vec!["y".to_owned()] },
        Fault::Conflict { with: Field::Leg.into() },
        Fault::Contradicts { with: Field::Shape.into() },
        Fault::LittleHydrogen { process: Process::SmawRutile, least_ml: 15.0 },
        Fault::SeveralSteels { typed: "x".to_owned(), steels: ["y", "z"].map(told).to_vec() },
        Fault::TravelTwice,
        Fault::TimedTravel { mm_per_min: 30_000.0 },
        Fault::Count { typed: 2, processes: 3 },
        Fault::NetHeat { net_kj_per_mm: 20.0 },
        Fault::NeedsCarbonAndManganese,
        Fault::ThirdPart,
        Fault::Improbable(Improbable { element: Element::C, percent: 4.1, likely: Some(0.41) }),
        Fault::Improbable(Improbable { element: Element::C, percent: 0.0, likely: None }),
        Fault::FillerOfOtherProcess {
            filler: "x".to_owned(),
            process: Process::Gtaw,
            fits: vec![Process::SmawBasic],
        },
        Fault::FillerOnStainless { filler: "x".to_owned(), steel: None, fits: vec!["y".to_owned()] },
    ];
    for fault in all {
        let said = FieldProblem { slot: Field::Steel.into(), fault }.say(&words);
        assert!(!said.contains('{') && !said.starts_with("job-"), "{said}");
    }
}

// What is no steel, or a steel whose standard limits no carbon, is answered with that, and not
// with steels that happen to be called alike.
#[test]
fn a_word_of_the_shop_in_the_steel_field_is_answered() {
    let words = Words::english();
    let say = |typed: &str| {
        let reference = embedded();
        let near = strawblue::job::find_steel(typed, reference).expect_err("it is no designation");
        let fault = Fault::UnknownSteel { typed: typed.to_owned(), near };
        FieldProblem { slot: Field::Steel.into(), fault }.say(&words)
    };
    for (typed, part) in [
        ("6061", "This is not a steel"),
        ("aluminium", "This is not a steel"),
        ("titanium", "This is not a steel"),
        ("A615", "limits phosphorus only"),
        ("A148", "limits strength, not chemistry"),
        ("bolt", "property class"),
        ("manganese steel", "must stay cool"),
    ] {
        let said = say(typed);
        assert!(said.contains(part), "{typed}: {said}");
    }
    assert!(!say("6061").contains("Similar"), "{}", say("6061"));
    assert!(!say("9999").contains("This is not a steel"));
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
        texts in proptest::collection::vec(proptest::option::of("(.{0,20}|[0-9.,/+ ]{1,8}(mm|in|F|C|H|ml|kJ|V|A)?|smaw|tig|butt|high|4140|C .4 Mn .8)"), every_slot().len())
    ) {
        let mut job = JobText::default();
        for (slot, text) in every_slot().into_iter().zip(texts) {
            job.set(slot, text);
        }
        let words = Words::english();
        match read_job(&job, &Reading { reference: embedded(), own_steels: &[], units: Units::F_IN, mark: strawblue::units::Mark::Point }) {
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
