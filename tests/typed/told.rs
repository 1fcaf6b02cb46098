//! What a job tells for the sake of safety: every answer is read by its id and comes back as it was
//! written, what is not told stays so, and a file from before these fields is read as ever.

use strawblue::engine::safety_facts::SafetyFacts;
use strawblue::engine::weld::{groove::GrooveShape, matching::WeldLoad};
use strawblue::job::typed::{Typed, told};
use strawblue::job::{Fault, Field, JobText, Reading, demo_job, read_job};
use strawblue::reference::{
    Assembly, Cavity, Cleaner, Coating, Grinder, HeatSource, Inspection, Position, WorkPlace, embedded,
};
use strawblue::units::{Problem, Units};
use strawblue::words::Words;

fn reading() -> Reading<'static> {
    Reading {
        reference: embedded(),
        own_steels: &[],
        units: Units::C_MM,
        mark: strawblue::units::Mark::Point,
    }
}

/// Every answer is read by its id, its everyday words lead to it, and its words are there.
fn each_answer<T: Typed + std::fmt::Debug + 'static>() {
    let words = Words::english();
    for answer in T::VARIANTS {
        let said = format!("{answer:?}");
        assert_eq!(told::<T>(answer.id()), Ok(*answer), "{said}");
        assert_eq!(told::<T>(&answer.id().to_uppercase().replace('-', "_")), Ok(*answer), "{said}");
        assert!(words.has(answer.key()), "{said}");
        // What is accepted names every answer.
        assert!(words.get(T::ACCEPTS.key()).contains(answer.id()), "{said}");
    }
    for (word, answer) in T::WORDS {
        assert_eq!(told::<T>(word), Ok(*answer), "{word}");
    }
    assert!(
        matches!(told::<T>("perhaps"), Err(Problem::NotUnderstood { accepts, .. }) if accepts == T::ACCEPTS)
    );
}

#[test]
fn every_answer_is_read() {
    each_answer::<HeatSource>();
    each_answer::<Coating>();
    each_answer::<Cavity>();
    each_answer::<Cleaner>();
    each_answer::<Assembly>();
    each_answer::<WorkPlace>();
    each_answer::<Grinder>();
    each_answer::<Inspection>();
    each_answer::<WeldLoad>();
    each_answer::<Position>();
    each_answer::<GrooveShape>();
}

// A plate that nobody can name is the worst that it may be: 29 CFR 1910.1027, Appendix A, tells
// why a guess is not enough.
#[test]
fn what_nobody_can_name_is_the_worst_of_its_kind() {
    assert_eq!(told("unknown"), Ok(Coating::Cadmium));
    assert_eq!(told("not known"), Ok(Cleaner::Chlorinated));
}

#[test]
fn all_of_it_is_kept_in_a_file_and_read_from_it() {
    let mut job = demo_job();
    let told = [
        (Field::HeatSource, "acetylene"),
        (Field::Cylinders, "3"),
        (Field::Coating, "galvanized"),
        (Field::Cavity, "oil"),
        (Field::Cleaner, "brake cleaner"),
        (Field::Assembly, "hot-hub"),
        (Field::Place, "pit"),
        (Field::Alone, "yes"),
        (Field::CopperAlloy, "no"),
        (Field::Seals, "yes"),
        (Field::Battery, "no"),
        (Field::Grinder, "hand"),
        (Field::LightMetal, "yes"),
        (Field::Lifted, "yes"),
        (Field::Overnight, "no"),
        (Field::Inspection, "mt"),
    ];
    for (field, text) in told {
        job.set(field, Some(text.to_owned()));
    }
    let text = ron::to_string(&job).expect("it is written");
    let read =
        read_job(&JobText::from_ron(&text).expect("it is read"), &reading()).expect("it is understood");
    let expected = SafetyFacts {
        heat_source: Some(HeatSource::Acetylene),
        cylinders: Some(3),
        coating: Some(Coating::Zinc),
        cavity: Some(Cavity::Oil),
        cleaner: Some(Cleaner::Chlorinated),
        assembly: Some(Assembly::HotHub),
        place: Some(WorkPlace::Confined),
        alone: Some(true),
        copper_alloy: Some(false),
        seals: Some(true),
        battery: Some(false),
        grinder: Some(Grinder::Hand),
        light_metal: Some(true),
        lifted: Some(true),
        overnight: Some(false),
        inspection: Some(Inspection::Magnetic),
    };
    assert_eq!(read.job.safety, expected);
}

#[test]
fn what_is_not_told_is_not_no_and_is_no_default() {
    for file in [include_str!("../../data/demo.ron"), include_str!("kept/job-1.ron")] {
        let job = JobText::from_ron(file).expect("it is read");
        let read = read_job(&job, &reading()).expect("it is understood");
        assert_eq!(read.job.safety, SafetyFacts::default());
        assert!(read.defaulted.iter().all(|found| found.slot.field < Field::HeatSource));
    }
}

#[test]
fn a_word_that_is_not_known_is_answered_with_what_is_accepted() {
    let mut job = demo_job();
    job.set(Field::Coating, Some("shiny".to_owned()));
    let problems = read_job(&job, &reading()).expect_err("it is not known");
    assert_eq!(problems.len(), 1);
    assert_eq!(problems[0].slot, Field::Coating.into());
    assert!(matches!(&problems[0].fault, Fault::Typed(Problem::NotUnderstood { .. })));
    assert!(problems[0].say(&Words::english()).contains("zinc"));
}
