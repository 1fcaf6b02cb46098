//! The second half of the second law: where a grade's name carries more than its composition, the
//! certificate alone is no easier, but for what no analysis can show.

use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use std::sync::Arc;
use strawblue::engine::certificate::outside_named_grade;
use strawblue::engine::family::Family;
use strawblue::engine::job::{Code, Condition, Job, Joint, Member, Restraint, Steel};
use strawblue::engine::part::Part;
use strawblue::engine::plan::{Figures, figures};
use strawblue::reference::{Composition, ConditionKind, Element, Grade, Method, embedded};

use crate::jobs;
use crate::laws::{a_job, jobs_a_lane};

/// What is the same within, K.
const WITHIN_K: f64 = 5.0;
/// A sheet or a row by thickness that, as a category of AWS D1.1 does, goes with the name alone: rails, a tool steel that is alloyed as
/// 4130 is, half a percent of molybdenum without chromium, the standards of A514 and A517.
const MINIMUM_BY_NAME: [&str; 6] = ["R260", "RAIL-AREMA", "P20", "16Mo3", "A514", "A517"];
/// A maximum of the grade's own, or of a rolling that no analysis shows.
const MAXIMUM_BY_NAME: [&str; 5] = ["A537-2", "A656-80", "S500MC", "S700MC", "S960MC"];

fn is_one_of(grade: &Grade, names: &[&str]) -> bool {
    names.iter().any(|name| grade.id.starts_with(name))
}

fn lane(seed: u8) {
    let mut runner =
        TestRunner::new_with_rng(Config::default(), TestRng::from_seed(RngAlgorithm::ChaCha, &[seed; 32]));
    let grades: Vec<&Grade> = embedded().grades.iter().collect();
    let (mut compared, mut lower) = (0, 0);
    for nth in 0..jobs_a_lane() {
        let grade = grades[nth % grades.len()];
        let kinds = grade.condition_kinds();
        let kind = kinds.get(nth / grades.len() % (kinds.len() + 1));
        let kind = kind.copied().unwrap_or(ConditionKind::Unknown);
        let mut job: Job = a_job().new_tree(&mut runner).expect("a job").current();
        // A code's row for a listed grade goes with the name by its own words.
        job.code = Code::None;
        job.members.truncate(1);
        let mut of = |named: Option<Arc<Grade>>| -> Option<Figures> {
            job.members[0] = Member {
                steel: Steel::Certificate { composition: grade.nominal(), grade: named },
                condition: Condition { kind, temper_c: None },
                yield_mpa: None,
                ..job.members[0].clone()
            };
            figures(embedded(), &job)
        };
        let (named, alone) = (of(Some(Arc::new(grade.clone()))), of(None));
        // What asks first gives no figure, so none that is too easy.
        let (Some(named), Some(alone)) = (named, alone) else { continue };
        compared += 1;
        let what = format!("{} {kind:?}", grade.id);
        if let (Some(named_c), Some(alone_c)) = (named.exact_c, alone.exact_c)
            && grade.d11_category.is_none()
            && !is_one_of(grade, &MINIMUM_BY_NAME)
        {
            assert!(alone_c >= named_c - WITHIN_K, "{what}: {named_c} named, {alone_c} alone\n{job:?}");
            lower += usize::from(named_c < alone_c - WITHIN_K);
        }
        // What is welded too slowly has no maximum to weld by; the practice figure follows the minimum.
        let by_practice = alone.upper.interpass.by == "practice-interpass";
        if !by_practice && !alone.upper.too_slow && !is_one_of(grade, &MAXIMUM_BY_NAME) {
            let (named_c, alone_c) = (named.interpass_c, alone.interpass_c);
            assert!(alone_c <= named_c + WITHIN_K, "{what}: {named_c} named, {alone_c} alone\n{job:?}");
        }
    }
    let enough = compared > jobs_a_lane() * 2 / 3 && lower > jobs_a_lane() / 100;
    assert!(enough, "{compared} compared, {lower} easier by name");
}

#[test]
fn a_certificate_alone_is_no_easier_than_the_name_lane_1() {
    lane(19);
}

#[test]
fn a_certificate_alone_is_no_easier_than_the_name_lane_2() {
    lane(29);
}

#[test]
fn a_certificate_alone_is_no_easier_than_the_name_lane_3() {
    lane(31);
}

#[test]
fn a_certificate_alone_is_no_easier_than_the_name_lane_4() {
    lane(37);
}

/// A certificate alone has no method beyond the nickel at which Method B's range ends in the data.
#[test]
fn the_nickel_at_which_methods_end_is_that_of_the_data() {
    let end = embedded().methods.row(Method::Cet).limit("Ni").and_then(|limit| limit.high).expect("an end");
    let family = |nickel: f64| {
        let mut job = jobs::job(embedded(), &[], Joint::Butt, &[], Restraint::Medium);
        let percent = [(Element::C, 0.1), (Element::Mn, 0.6), (Element::Ni, nickel)];
        job.members.push(Member {
            steel: Steel::Certificate { composition: Composition::new(&percent), grade: None },
            condition: Condition { kind: ConditionKind::Normalised, temper_c: None },
            thickness_mm: 20.0,
            round: false,
            yield_mpa: None,
            hardness_hv: None,
            buttered: false,
        });
        Part::all(&job)[0].family
    };
    assert_eq!(family(end), Family::Structural);
    assert_eq!(family(end + 0.001), Family::HighAlloy);
}

/// A name that the certificate has left makes it no easier: a low-alloy steel under the name of one that
/// takes no preheat, or has a sheet of its own, wants what it wants alone.
#[test]
fn a_name_that_the_certificate_has_left_makes_it_no_easier() {
    let mut runner =
        TestRunner::new_with_rng(Config::default(), TestRng::from_seed(RngAlgorithm::ChaCha, &[41; 32]));
    let percent = |least: u32, most: u32| (least..=most).prop_map(|hundredths| f64::from(hundredths) / 100.0);
    let steel = (percent(8, 60), percent(30, 170), percent(0, 200), percent(0, 60), percent(0, 200));
    let (mut compared, mut harder, mut faults) = (0, 0, Vec::new());
    for nth in 0..6 {
        for grade in &embedded().grades {
            let (c, mn, cr, mo, ni) = steel.new_tree(&mut runner).expect("a steel").current();
            let percent =
                [(Element::C, c), (Element::Mn, mn), (Element::Cr, cr), (Element::Mo, mo), (Element::Ni, ni)];
            let composition = Composition::new(&percent);
            let mut job: Job = a_job().new_tree(&mut runner).expect("a job").current();
            job.code = Code::None;
            job.members.truncate(1);
            let kinds = [ConditionKind::Annealed, ConditionKind::Normalised, ConditionKind::HardenedTempered];
            let kind = kinds[nth % kinds.len()];
            let temper_c = (kind == ConditionKind::HardenedTempered).then_some(560.0);
            job.members[0] = Member {
                steel: Steel::Certificate { composition, grade: None },
                condition: Condition { kind, temper_c },
                yield_mpa: None,
                hardness_hv: None,
                ..job.members[0].clone()
            };
            let alone = figures(embedded(), &job);
            job.members[0].steel = Steel::Certificate { composition, grade: Some(Arc::new(grade.clone())) };
            let left = outside_named_grade(&job.members[0]).iter().any(|element| {
                [Element::C, Element::Cr, Element::Mo, Element::Ni, Element::Mn].contains(element)
            });
            let Some(named) = figures(embedded(), &job).filter(|_| left) else { continue };
            // What is asked for alone may have a sheet by its name.
            let Some(alone) = alone else { continue };
            compared += 1;
            let what = format!("{} with {percent:?} {kind:?}", grade.id);
            if let (Some(named_c), Some(alone_c)) = (named.exact_c, alone.exact_c) {
                if named_c < alone_c - WITHIN_K {
                    faults.push(format!("{what}: {named_c} named, {alone_c} alone"));
                }
                harder += usize::from(named_c > alone_c + WITHIN_K);
            }
            let ceilings = (named.upper.ceiling.exact_c(), alone.upper.ceiling.exact_c());
            if let (Some(named_c), Some(alone_c)) = ceilings
                && named_c > alone_c + WITHIN_K
            {
                faults.push(format!("{what}: ceiling {named_c} named, {alone_c} alone"));
            }
        }
    }
    assert!(faults.is_empty(), "{} of {compared}:\n{}", faults.len(), faults.join("\n"));
    assert!(compared > 1_000, "{compared} compared, {harder} harder by name");
}
