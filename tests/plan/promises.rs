//! What a plan promises beside its figures holds when it is done: a lever put into the job, a
//! temper that the window stands under.

use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use strawblue::engine::job::{Condition, Job, Steel};
use strawblue::engine::part::Part;
use strawblue::engine::plan::{Change, Lever, Plan, Verdict, plan};
use strawblue::reference::{ConditionKind, embedded};

use crate::laws::a_job;

/// Jobs that are planned.
const JOBS: usize = 10_000;
/// Shown figures closer than this are one, K.
const SAME_K: f64 = 1e-6;
/// t8/5 that a quenched and tempered or thermomechanical steel is welded inside, s.
const SPAN_S: (f64, f64) = (5.0, 20.0);

fn each_job(mut check: impl FnMut(&Job, &Plan)) {
    let mut runner = TestRunner::deterministic();
    for _ in 0..JOBS {
        let job = a_job().new_tree(&mut runner).expect("a job").current();
        check(&job, &plan(embedded(), &job));
    }
}

/// The job with a lever pulled, as its reader would type it.
fn pulled(job: &Job, lever: &Lever) -> Job {
    let mut job = job.clone();
    match lever.change {
        Change::HydrogenDown { to_ml, .. } => {
            job.runs.iter_mut().for_each(|run| run.hydrogen_ml = run.hydrogen_ml.min(to_ml));
        }
        Change::MoreHeat { from_kj_per_mm, to_kj_per_mm } => {
            let factor = to_kj_per_mm / from_kj_per_mm;
            job.runs.iter_mut().for_each(|run| run.net_heat_kj_per_mm *= factor);
        }
        Change::LessHeat { to_kj_per_mm, .. } => {
            job.runs
                .iter_mut()
                .for_each(|run| run.net_heat_kj_per_mm = run.net_heat_kj_per_mm.min(to_kj_per_mm));
        }
        Change::SkinOff { member } => {
            let part = &mut job.members[member];
            part.condition = Condition { kind: ConditionKind::Unknown, temper_c: None };
            part.hardness_hv = None;
        }
        Change::Certificate => {
            let likely: Vec<_> = Part::all(&job).iter().map(|part| part.chemistry.likely).collect();
            for (member, composition) in job.members.iter_mut().zip(likely) {
                if let Steel::Grade(grade) = &member.steel {
                    member.steel = Steel::Certificate { composition, grade: Some(grade.clone()) };
                }
            }
        }
        Change::Buttering { member } => job.members[member].buttered = true,
    }
    job
}

/// t8/5 of every member that minds it at both ends of the window, s.
fn minded(job: &Job, plan: &Plan) -> Vec<(f64, f64)> {
    let parts = Part::all(job);
    let cooling = plan.side.iter().flat_map(|side| &side.cooling);
    cooling
        .filter(|time| parts[time.member].minds_cooling_time())
        .map(|time| (time.fastest_s, time.slowest_s))
        .collect()
}

#[test]
fn a_lever_gives_what_it_promises_and_pushes_no_cooling_time_out() {
    let mut tried = 0;
    each_job(|job, now| {
        for lever in &now.levers {
            let changed = pulled(job, lever);
            let then = plan(embedded(), &changed);
            let what = format!("{lever:?}\n{job:?}");
            assert!((then.minimum_c.unwrap_or(0.0) - lever.minimum_c).abs() < SAME_K, "{what}");
            assert!((then.interpass_c.unwrap_or(0.0) - lever.interpass_c).abs() < SAME_K, "{what}");
            assert!(!now.usable_window || then.usable_window, "closes the window: {what}");
            assert_eq!(lever.opens, then.usable_window && !now.usable_window, "{what}");
            for (was, is) in minded(job, now).iter().zip(minded(&changed, &then)) {
                assert!(is.0 >= SPAN_S.0.min(was.0) - 1e-3, "t8/5 {was:?} to {is:?}: {what}");
                assert!(is.1 <= SPAN_S.1.max(was.1) + 1e-3, "t8/5 {was:?} to {is:?}: {what}");
            }
            tried += 1;
        }
    });
    assert!(tried > 2_000, "{tried} levers");
}

/// A part that meets the condition which stands above the window may have the whole window.
#[test]
fn the_window_holds_for_a_part_that_meets_its_condition() {
    let mut met = 0;
    each_job(|job, now| {
        let Some(needs) = now.needs else { return };
        assert!(now.asks.iter().any(|asked| asked.member == needs.member), "{job:?}");
        assert!(needs.hardness_hv.is_none_or(|hv| hv <= 400.0), "{needs:?}");
        if job.members[needs.member].condition.kind != ConditionKind::HardenedTempered {
            return;
        }
        let mut told = job.clone();
        for member in &mut told.members {
            if member.condition.kind == ConditionKind::HardenedTempered && member.condition.temper_c.is_none()
            {
                member.condition.temper_c = Some(needs.temper_c.ceil());
            }
        }
        let then = plan(embedded(), &told);
        assert_eq!(then.minimum_c, now.minimum_c, "{job:?}");
        assert!(then.interpass_c >= now.interpass_c, "{:?} {:?}\n{job:?}", then.interpass_c, now.interpass_c);
        met += 1;
    });
    assert!(met > 500, "{met} conditions were met");
}

/// Where nothing is known of a tempered part there is a question, a condition or a low maximum:
/// never a high figure in silence.
#[test]
fn no_tempered_part_is_heated_in_silence() {
    each_job(|job, now| {
        let parts = Part::all(job);
        let open = parts.iter().any(|part| {
            part.member.condition.kind == ConditionKind::HardenedTempered
                && part.member.condition.temper_c.is_none()
                && part.member.hardness_hv.is_none()
        });
        if open && now.verdict.answers() && now.interpass_c.is_some_and(|most_c| most_c > 205.0) {
            let said = now.needs.is_some() || now.ceiling_c.is_some() || !now.asks.is_empty();
            assert!(said, "{job:?}");
        }
        if now.verdict == Verdict::Asks {
            assert!(!now.asks.is_empty() && now.minimum_c.is_none(), "{job:?}");
        }
    });
}
