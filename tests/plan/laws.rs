//! Laws that the plan keeps whatever the job.
//!
//! 1. The minimum never falls when carbon, any alloying element, thickness, hydrogen,
//!    restraint, weld CET or weld strength rises or heat input falls, across every border.
//! 2. A certificate with a grade's composition gives the grade's practice rows, and is no easier
//!    than what its grade's name adds.
//!
//! The other laws of the plan stand in `promises`.

use crate::jobs;
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use std::sync::Arc;
use strawblue::engine::family::Family;
use strawblue::engine::job::{
    Code, Condition, Demands, Job, Joint, Member, Process, Restraint, Run, Steel, WeldMetal,
};
use strawblue::engine::part::Part;
use strawblue::engine::plan::{figures, plan};
use strawblue::engine::safety_facts::SafetyFacts;
use strawblue::reference::{Composition, ConditionKind, Element, Reference, embedded};

/// Jobs, or steps from one to a harder one, in each of a law's four lanes. In the gate 20,000 in all, since it
/// draws the same ones every time; `STRAWBLUE_LANE=15000` makes it as long as one likes.
pub(crate) fn jobs_a_lane() -> usize {
    let told = std::env::var("STRAWBLUE_LANE").ok();
    told.map_or(5_000, |text| text.parse().expect("STRAWBLUE_LANE is a number of jobs"))
}

/// Values on and around the borders that the rule speaks of.
const CARBON: [f64; 18] = [
    0.03, 0.05, 0.12, 0.20, 0.2499, 0.25, 0.2501, 0.26, 0.29, 0.32, 0.3201, 0.35, 0.38, 0.43, 0.45, 0.50,
    0.80, 0.81,
];
const ALLOY: [f64; 12] = [0.0, 0.03, 0.06, 0.20, 0.25, 0.499, 0.5, 0.501, 0.70, 0.85, 1.10, 1.50];
const MANGANESE: [f64; 9] = [0.3, 0.5, 0.64, 0.75, 0.9, 1.04, 1.4, 1.7, 1.9];
const THICKNESS: [f64; 22] = [
    3.0, 6.0, 9.5, 9.525, 9.6, 10.0, 12.7, 12.8, 19.05, 19.1, 25.0, 25.4, 25.5, 38.0, 38.1, 38.2, 50.8, 50.9,
    63.5, 75.0, 75.1, 120.0,
];
const HYDROGEN: [f64; 15] =
    [0.5, 1.0, 2.0, 3.0, 3.01, 5.0, 5.01, 8.0, 10.0, 10.01, 15.0, 15.01, 20.0, 30.0, 60.0];
const HEAT: [f64; 12] = [0.3, 0.5, 0.7, 0.999, 1.0, 1.3, 1.9, 2.0, 2.5, 3.5, 4.0, 5.0];
const ELEMENTS: [Element; 11] = [
    Element::Si,
    Element::Mn,
    Element::Cr,
    Element::Mo,
    Element::Ni,
    Element::V,
    Element::Cu,
    Element::Nb,
    Element::Ti,
    Element::B,
    Element::C,
];

fn on_or_near(borders: &'static [f64]) -> impl Strategy<Value = f64> {
    (0..borders.len(), prop_oneof![3 => Just(1.0), 1 => 0.9..1.1f64])
        .prop_map(move |(place, factor)| borders[place] * factor)
}

fn composition() -> impl Strategy<Value = Composition> {
    (
        on_or_near(&CARBON),
        on_or_near(&MANGANESE),
        0.0..1.0f64,
        proptest::collection::vec(prop_oneof![2 => Just(0.0), 3 => on_or_near(&ALLOY)], 4),
        proptest::collection::vec(prop_oneof![2 => Just(0.0), 1 => 0.0..0.12f64], 4),
        prop_oneof![4 => Just(0.0), 1 => 0.0..0.006f64],
    )
        .prop_map(|(c, mn, si, main, micro, b)| {
            Composition::new(&[
                (Element::C, c),
                (Element::Mn, mn),
                (Element::Si, si),
                (Element::Cr, main[0]),
                (Element::Mo, main[1].min(1.0)),
                (Element::Ni, main[2] * 2.0),
                (Element::Cu, main[3] * 0.5),
                (Element::V, micro[0]),
                (Element::Nb, micro[1]),
                (Element::Ti, micro[2]),
                (Element::N, micro[3] * 0.1),
                (Element::B, b),
            ])
        })
}

/// Grades whose own rows, categories and covers are part of the rule.
const GRADES: [&str; 9] = ["4140", "4130", "4340", "8630", "1045", "A36", "A572-60", "A514F", "S690QL"];

fn a_member() -> impl Strategy<Value = Member> {
    (
        composition(),
        on_or_near(&THICKNESS),
        0..5usize,
        prop_oneof![2 => Just(None), 1 => (0..GRADES.len()).prop_map(Some)],
        200.0..900.0f64,
    )
        .prop_map(|(composition, thickness_mm, state, grade, yield_mpa)| {
            let kind = [
                ConditionKind::AsRolled,
                ConditionKind::Normalised,
                ConditionKind::HardenedTempered,
                ConditionKind::HardenedTempered,
                ConditionKind::Unknown,
            ][state];
            let grade = grade
                .map(|place| Arc::new(embedded().grades.get(GRADES[place]).expect("a known grade").clone()));
            Member {
                steel: Steel::Certificate { composition, grade },
                condition: Condition { kind, temper_c: None },
                thickness_mm,
                round: false,
                yield_mpa: (state == 2).then_some(yield_mpa),
                hardness_hv: None,
                buttered: false,
            }
        })
}

pub(crate) fn a_job() -> impl Strategy<Value = Job> {
    (
        proptest::collection::vec(a_member(), 1..=2),
        0..Joint::ALL.len(),
        0..Process::ALL.len(),
        on_or_near(&HYDROGEN),
        on_or_near(&HEAT),
        0..3usize,
        (
            prop_oneof![2 => Just(None), 1 => (0.1..0.6f64).prop_map(Some)],
            prop_oneof![2 => Just(None), 1 => (400.0..1000.0f64).prop_map(Some)],
            any::<bool>(),
        ),
        prop_oneof![4 => Just(20.0), 1 => -20.0..10.0f64],
        any::<bool>(),
    )
        .prop_map(
            |(
                members,
                joint,
                process,
                hydrogen_ml,
                net_heat_kj_per_mm,
                restraint,
                (cet, tensile_mpa, several_runs),
                shop_c,
                d11,
            )| Job {
                members,
                joint: Joint::ALL[joint],
                runs: vec![Run { process: Process::ALL[process], hydrogen_ml, net_heat_kj_per_mm }],
                restraint: [Restraint::Low, Restraint::Medium, Restraint::High][restraint],
                weld: WeldMetal { cet, tensile_mpa, several_runs, ..WeldMetal::default() },
                shop_c,
                damp: false,
                code: if d11 { Code::AwsD11 } else { Code::None },
                demands: Demands::default(),
                thermal_cut: false,
                repair: strawblue::engine::job::Repair::default(),
                safety: SafetyFacts::default(),
            },
        )
}

/// One thing that makes a job harder.
#[derive(Debug, Clone, Copy)]
enum Harder {
    Element(usize, f64),
    Thickness(f64),
    Hydrogen(f64),
    Restraint,
    WeldCet(f64),
    WeldStrength(f64),
    LessHeat(f64),
}

fn harder() -> impl Strategy<Value = Harder> {
    let rise = || prop_oneof![1 => Just(1e-6), 2 => 0.0..0.02f64, 2 => 0.0..0.4f64];
    prop_oneof![
        4 => (0..ELEMENTS.len(), rise()).prop_map(|(place, by)| Harder::Element(place, by)),
        2 => rise().prop_map(Harder::Thickness),
        2 => rise().prop_map(Harder::Hydrogen),
        1 => Just(Harder::Restraint),
        1 => rise().prop_map(Harder::WeldCet),
        1 => rise().prop_map(Harder::WeldStrength),
        2 => rise().prop_map(Harder::LessHeat),
    ]
}

fn raise(job: &Job, how: Harder) -> Job {
    let mut changed = job.clone();
    match how {
        Harder::Element(place, by) => {
            for member in &mut changed.members {
                if let Steel::Certificate { composition, .. } = &mut member.steel {
                    let element = ELEMENTS[place];
                    let by = if matches!(element, Element::B) { by * 0.01 } else { by };
                    composition.set(element, composition.get(element) + by);
                }
            }
        }
        Harder::Thickness(by) => {
            for member in &mut changed.members {
                member.thickness_mm *= 1.0 + by;
            }
        }
        Harder::Hydrogen(by) => changed.runs[0].hydrogen_ml *= 1.0 + by,
        Harder::Restraint => {
            changed.restraint = match job.restraint {
                Restraint::Low => Restraint::Medium,
                _ => Restraint::High,
            };
        }
        Harder::WeldCet(by) => changed.weld.cet = job.weld.cet.map(|cet| cet + by),
        Harder::WeldStrength(by) => {
            changed.weld.tensile_mpa = job.weld.tensile_mpa.map(|mpa| mpa * (1.0 + by));
        }
        Harder::LessHeat(by) => changed.runs[0].net_heat_kj_per_mm /= 1.0 + by,
    }
    changed
}

fn by_methods(job: &Job) -> bool {
    Part::all(job).iter().all(|part| {
        matches!(
            part.family,
            Family::Structural | Family::QuenchedTempered | Family::PlainCarbon | Family::Hardenable
        )
    })
}

fn exact_c(reference: &Reference, job: &Job) -> Option<f64> {
    figures(reference, job)?.exact_c
}

fn lane(seed: u8) {
    let steps = u32::try_from(jobs_a_lane()).expect("a number of steps");
    let mut runner = TestRunner::new_with_rng(
        Config { cases: steps, max_global_rejects: steps, failure_persistence: None, ..Config::default() },
        proptest::test_runner::TestRng::from_seed(proptest::test_runner::RngAlgorithm::ChaCha, &[seed; 32]),
    );
    runner
        .run(&(a_job(), harder()), |(job, how)| {
            let harder = raise(&job, how);
            prop_assume!(by_methods(&job) && by_methods(&harder));
            let before = exact_c(embedded(), &job);
            let after = exact_c(embedded(), &harder);
            let (Some(before), Some(after)) = (before, after) else {
                return Err(TestCaseError::fail(format!("a figure is missing: {before:?} {after:?}")));
            };
            prop_assert!(after >= before - 1e-6, "{how:?}: {before} °C fell to {after} °C");
            Ok(())
        })
        .unwrap_or_else(|fault| panic!("{fault}"));
}

#[test]
fn the_minimum_never_falls_when_the_job_gets_harder_lane_1() {
    lane(11);
}

#[test]
fn the_minimum_never_falls_when_the_job_gets_harder_lane_2() {
    lane(22);
}

#[test]
fn the_minimum_never_falls_when_the_job_gets_harder_lane_3() {
    lane(33);
}

#[test]
fn the_minimum_never_falls_when_the_job_gets_harder_lane_4() {
    lane(44);
}

proptest! {
    #![proptest_config(Config { cases: 400, failure_persistence: None, ..Config::default() })]

    #[test]
    fn levers_never_promise_a_higher_minimum(job in a_job()) {
        let plan = plan(embedded(), &job);
        for lever in &plan.levers {
            prop_assert!(lever.opens || lever.minimum_c < plan.minimum_c.unwrap_or(0.0), "{lever:?}");
        }
    }
}

#[test]
fn a_certificate_with_a_grades_composition_keeps_its_practice_rows() {
    for id in ["4130", "4140", "4340", "42CrMo4", "34CrMo4", "1045", "C45"] {
        let grade = embedded().grades.get(id).expect("a known grade").clone();
        let mut job = jobs::job(embedded(), &[], Joint::Butt, &[], Restraint::Medium);
        job.runs.push(Run { process: Process::SmawBasic, hydrogen_ml: 5.0, net_heat_kj_per_mm: 1.2 });
        for thickness_mm in [8.0, 20.0, 40.0, 90.0] {
            let named =
                Steel::Certificate { composition: grade.nominal(), grade: Some(Arc::new(grade.clone())) };
            let unnamed = Steel::Certificate { composition: grade.nominal(), grade: None };
            let figure = |steel: Steel| {
                let mut job = job.clone();
                job.members.push(Member {
                    steel,
                    condition: Condition { kind: ConditionKind::Normalised, temper_c: None },
                    thickness_mm,
                    round: false,
                    yield_mpa: None,
                    hardness_hv: None,
                    buttered: false,
                });
                exact_c(embedded(), &job).expect("a figure")
            };
            let (with, without) = (figure(named), figure(unnamed));
            assert!((with - without).abs() <= 5.0, "{id} {thickness_mm} mm: {with} named, {without} unnamed");
        }
    }
}

/// The same in jobs of any kind: hydrogen, heat, restraint, thickness on their borders.
#[test]
fn a_certificate_keeps_its_practice_rows_in_any_job() {
    use proptest::strategy::ValueTree;
    const IDS: [&str; 7] = ["4130", "4140", "4340", "42CrMo4", "34CrMo4", "1045", "C45"];
    let mut runner = TestRunner::deterministic();
    for nth in 0..4 * jobs_a_lane() {
        let mut job = a_job().new_tree(&mut runner).expect("a job").current();
        let grade = embedded().grades.get(IDS[nth % IDS.len()]).expect("a known grade");
        job.members.truncate(1);
        let mut figure = |grade_named: Option<Arc<strawblue::reference::Grade>>| {
            let condition = Condition { kind: ConditionKind::Normalised, temper_c: None };
            let steel = Steel::Certificate { composition: grade.nominal(), grade: grade_named };
            job.members[0] = Member { steel, condition, yield_mpa: None, ..job.members[0].clone() };
            exact_c(embedded(), &job).expect("a figure")
        };
        let (with, without) = (figure(Some(Arc::new(grade.clone()))), figure(None));
        assert!((with - without).abs() <= 5.0, "{}: {with} named, {without} unnamed\n{job:?}", grade.id);
    }
}

/// Caps on the carbon equivalent rise with thickness, and beyond the last one none holds.
#[test]
fn a_thicker_part_of_a_capped_grade_never_asks_for_less() {
    let capped = || embedded().grades.iter().filter(|grade| grade.cev_cap.is_some());
    assert!(capped().count() > 15);
    for grade in capped() {
        let mut before = (0.0, 0.0);
        for thickness_mm in (4..=300).map(f64::from) {
            let mut job = jobs::job(embedded(), &[], Joint::Butt, &[], Restraint::High);
            job.runs.push(Run { process: Process::Gmaw, hydrogen_ml: 5.0, net_heat_kj_per_mm: 1.2 });
            job.members.push(Member {
                steel: Steel::Grade(Arc::new(grade.clone())),
                condition: Condition { kind: ConditionKind::Unknown, temper_c: None },
                thickness_mm,
                round: false,
                yield_mpa: None,
                hardness_hv: None,
                buttered: false,
            });
            let asks = exact_c(embedded(), &job).expect("a figure");
            assert!(asks >= before.1 - 1e-6, "{} {thickness_mm} mm: {before:?}, then {asks}", grade.id);
            before = (thickness_mm, asks);
        }
    }
}
