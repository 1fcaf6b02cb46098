//! The steps of a plan: in the order of time, one way for each fact, and no two that contradict.
//! Their order is common practice, no source; that a post-heat follows welding before the part is
//! cold and that the inspection waits is EN 1011-2 (recalled).

use proptest::prelude::*;
use proptest::test_runner::Config;
use std::sync::Arc;
use strawblue::engine::job::{Demands, Job, Repair, Steel};
use strawblue::engine::plan::{
    Action, Branch, Deed, Find, Note, Phase, Plan, Step, StepFigure, Verdict, plan,
};
use strawblue::reference::{ConditionKind, embedded};

use crate::laws::a_job;
use crate::typed_job::small;

/// What a rounded figure may miss an exact one by, K.
const SAME_K: f64 = 1e-6;

/// A job of the laws with a part of some grade in some condition, a filler, demands, a buttering.
fn any_job() -> impl Strategy<Value = Job> {
    let grades = embedded().grades.iter().count();
    let demand = prop_oneof![3 => Just(None), 1 => (0.0..500.0f64).prop_map(Some)];
    (
        a_job(),
        prop_oneof![1 => Just(None), 2 => (0..grades).prop_map(Some)],
        any::<prop::sample::Index>(),
        prop_oneof![2 => Just(None), 1 => (150.0..700.0f64).prop_map(Some)],
        (any::<bool>(), any::<bool>(), 0..4u8, any::<[bool; 5]>()),
        (demand.clone(), demand.clone(), demand),
    )
        .prop_map(|(mut job, grade, condition, temper_c, (cut, buttered, filler, told), demanded)| {
            if let Some(grade) = grade.and_then(|place| embedded().grades.iter().nth(place)) {
                let kinds = grade.condition_kinds();
                let member = &mut job.members[0];
                member.steel = Steel::Grade(Arc::new(grade.clone()));
                member.condition.kind =
                    if kinds.is_empty() { ConditionKind::Unknown } else { *condition.get(&kinds) };
                member.condition.temper_c = temper_c;
                member.buttered = buttered;
            }
            job.thermal_cut = cut;
            let [crack, oil_soaked, old_weld, hardfacing, build_up] = told;
            job.repair = Repair { crack, oil_soaked, old_weld, hardfacing, build_up, ..Repair::default() };
            job.weld.austenitic = filler == 0;
            let (preheat_c, interpass_c, ceiling_c) = demanded;
            job.demands = Demands { preheat_c, interpass_c, ceiling_c };
            job
        })
}

fn deeds(way: &[&Step]) -> Vec<Deed> {
    way.iter().map(|step| step.deed).collect()
}

fn said(way: &[&Step], note: fn(&Note) -> bool) -> usize {
    way.iter().flat_map(|step| &step.notes).filter(|found| note(found)).count()
}

/// Where every action of a plan is said on a way, if it is: by a step, a note, or among what must be
/// found out first.
fn is_said(action: Action, way: &[&Step], made: &Plan) -> bool {
    let find = |wanted| made.sequence.find.contains(&wanted);
    let deed = |wanted: &[Deed]| way.iter().filter(|step| wanted.contains(&step.deed)).count() == 1;
    let noted = |wanted: fn(&Note) -> bool| said(way, wanted) >= 1;
    let treated = [
        Deed::TemperNow,
        Deed::HeatTreatNow,
        Deed::HeatTreatLater,
        Deed::NoStressRelief,
        Deed::NoHotTreatment,
    ];
    // A furnace straight after the last run takes the place of a hold.
    let in_furnace = || {
        noted(|note| matches!(note, Note::ReplacesHold)) && deed(&[Deed::FurnaceFirst, Deed::HeatTreatNow])
    };
    match action {
        Action::QualifyProcedure => find(Find::Procedure),
        Action::RemoveCase => deed(&[Deed::GrindLayer]) && noted(|note| matches!(note, Note::CarbonCase)),
        Action::RemoveHardSkin => deed(&[Deed::GrindLayer]) && noted(|note| matches!(note, Note::HardLayer)),
        Action::PostHeatBeforeCold => {
            (deed(&[Deed::PostHeat, Deed::LongerWait, Deed::NoPostHeat]) || in_furnace())
                && noted(|note| matches!(note, Note::MinimumAboveM90))
        }
        Action::PostHeatAboveM90 => {
            (deed(&[Deed::PostHeatIfHot, Deed::LongerWait, Deed::NoPostHeat]) || in_furnace())
                && noted(|note| matches!(note, Note::AboveM90))
        }
        Action::HeatTreatStraightAfter | Action::HeatTreatAfter => {
            let clash = find(Find::OtherFiller) || find(Find::OneTreatment);
            deed(&treated) && (clash || find(Find::HeatTreatment))
        }
        Action::AskTemper => find(Find::Temper) || find(Find::TooHard),
        Action::CoolingTimeOutside => {
            noted(|note| matches!(note, Note::CoolsFast { .. } | Note::CoolsSlow { .. }))
        }
        Action::NoPwht => deed(&[Deed::NoStressRelief, Deed::NoHotTreatment]),
        Action::CoolSlowly => {
            deed(&[Deed::CoolSlowly, Deed::CoolByRate, Deed::CoolToTemper]) || deed(&[Deed::HeatTreatNow])
        }
        Action::FillerUnknown => find(Find::Filler),
        Action::CutEdges => deed(&[Deed::CutEdges]),
        Action::GradeOnly => find(Find::Certificate),
        Action::TrialPiece => deed(&[Deed::TrialPiece]),
        Action::ShortBeads => noted(|note| matches!(note, Note::PeenBeads)) || deed(&[Deed::WeldThrough]),
        Action::DryFirst => deed(&[Deed::CleanAndDry]),
        Action::TooHard => find(Find::TooHard),
        Action::Buttering => {
            deed(&[Deed::Butter, Deed::ButterCold]) || noted(|note| matches!(note, Note::ForButtering))
        }
        // Beside the steps: `said_beside` looks there.
        Action::CrackedCase => made.cracked.is_some(),
        Action::DryElectrodes => deed(&[Deed::DryConsumables]),
        Action::AusteniticFiller => {
            deed(&[Deed::NoHotTreatment]) && noted(|note| matches!(note, Note::TurnsBrittle))
        }
    }
}

/// What is wrong with one way through the steps.
fn faults(job: &Job, made: &Plan, branch: Option<Branch>, way: &[&Step]) -> Vec<String> {
    let mut wrong = Vec::new();
    let mut must = |holds: bool, what: &str| {
        if !holds {
            wrong.push(what.to_owned());
        }
    };
    let phases: Vec<Phase> = way.iter().map(|step| step.phase()).collect();
    // What a repair finds is taken off one after the other: each deed once, in the order of the deeds.
    let on = |pair: &[&Step]| {
        let repair = pair.iter().all(|step| step.phase() == Phase::Repair);
        pair[0].phase() < pair[1].phase() || repair && pair[0].deed < pair[1].deed
    };
    must(way.windows(2).all(on), "a phase twice, or back in time");
    must(phases.first() == Some(&Phase::MakeSafe), "it does not begin with making safe");
    must(phases.last() == Some(&Phase::Inspect), "it does not end with the inspection");
    for phase in [Phase::Clean, Phase::Weld] {
        must(phases.contains(&phase), "no cleaning, or no weld");
    }
    let deeds = deeds(way);
    let does = |deed: Deed| deeds.contains(&deed);
    let heated = phases.contains(&Phase::Heat);
    must(heated == made.minimum.is_some() || made.verdict == Verdict::TwoRoutes, "heat without a minimum");
    must(
        heated || !phases.contains(&Phase::Measure) && !phases.contains(&Phase::Tack),
        "measured, not heated",
    );
    must(heated || !phases.contains(&Phase::Stop), "kept hot, and never heated");
    let to_furnace = does(Deed::TemperNow) || does(Deed::HeatTreatNow);
    let slowly = does(Deed::CoolSlowly) || does(Deed::CoolStill) || does(Deed::CoolByRate);
    must(!(to_furnace && slowly), "into the furnace and under the blanket");
    must(to_furnace == (branch == Some(Branch::FurnaceAtHand)), "the furnace of another way");
    must(!(does(Deed::NoHotTreatment) && made.sequence.branches.len() > 1), "treated and not");
    let post_heat = phases.contains(&Phase::PostHeat);
    must(!(post_heat && job.weld.austenitic), "post-heat of austenitic weld metal");
    if made.verdict != Verdict::TwoRoutes {
        let least_c = made.minimum.as_ref().map_or(f64::NEG_INFINITY, |limit| limit.exact_c);
        let interpass_c = made.interpass.as_ref().map_or(f64::INFINITY, |limit| limit.exact_c);
        let ceiling_c = made.ceiling.exact_c().unwrap_or(f64::INFINITY);
        let most_c = interpass_c.min(ceiling_c);
        for step in way {
            let (low, high) = match step.figure {
                Some(StepFigure::Range(low, high)) => (low, high),
                Some(StepFigure::Least(edge)) => (edge, edge),
                _ => continue,
            };
            match step.phase() {
                Phase::Heat | Phase::Tack | Phase::Weld | Phase::Stop => {
                    must(low.exact_c >= least_c - SAME_K, "colder than the minimum");
                    must(high.exact_c <= most_c + SAME_K, "hotter than the maximum");
                }
                _ => {}
            }
            must(low.exact_c <= high.exact_c && low.least_c() <= high.most_c() || low == high, "no room");
        }
        let tack = way.iter().find(|step| step.phase() == Phase::Tack);
        must(tack.is_none_or(|step| matches!(step.figure, Some(StepFigure::Range(..)))), "a bare tack");
        for note in way.iter().flat_map(|step| &step.notes) {
            match note {
                Note::HeldAt { low, high } => {
                    must(high.exact_c <= most_c + SAME_K && low.exact_c <= high.exact_c, "post-heat too hot");
                    must(low.exact_c >= least_c.min(most_c) - SAME_K, "post-heat too cold");
                }
                Note::Ceiling(edge) => must((edge.exact_c - ceiling_c).abs() < SAME_K, "another ceiling"),
                _ => {}
            }
        }
    }
    for step in way {
        if let Some(StepFigure::Printed(low_c, high_c)) = step.figure {
            must(step.phase() == Phase::HeatTreat, "a printed range of another step");
            must(printed_of(job, (low_c, high_c)), "a range that no part prints");
            must(!made.actions.contains(&Action::AskTemper), "a range before the temper is known");
        }
    }
    // Within a step too, what comes first is read first.
    for step in way {
        let at = |wanted: fn(&Note) -> bool| step.notes.iter().position(wanted);
        must(at(|note| matches!(note, Note::TemperFirst)).is_none_or(|at| at == 0), "known too late");
        must(at(|note| matches!(note, Note::TurnBefore)).is_none_or(|at| at == 0), "turned too late");
    }
    // Austenite that outlives the furnace turns hard as it cools, so it is tempered once more after it.
    let of = |deed: Deed| way.iter().position(|step| step.deed == deed);
    let outlives = of(Deed::HeatTreatNow).filter(|&at| {
        let noted = |note: fn(&Note) -> bool| way[at].notes.iter().any(note);
        noted(|note| matches!(note, Note::ReplacesHold))
            && noted(|note| matches!(note, Note::MinimumAboveM90))
    });
    must(of(Deed::TemperAgain) == outlives.map(|at| at + 1), "tempered once more straight after the furnace");
    for action in &made.actions {
        must(is_said(*action, way, made), &format!("{action:?} is not said"));
    }
    wrong
}

/// Does a part of the job print this range for its heat treatment, and none another one?
fn printed_of(job: &Job, range: (f64, f64)) -> bool {
    let grades = job.members.iter().filter_map(|member| member.steel.grade());
    let printed: Vec<_> = grades.filter_map(|grade| grade.pwht.as_ref()).collect();
    printed.iter().any(|row| row.low_c.zip(row.high_c) == Some(range))
}

proptest! {
    #![proptest_config(Config { cases: 4000, failure_persistence: None, ..Config::default() })]

    #[test]
    fn the_steps_follow_time_and_agree(job in any_job()) {
        let made = plan(embedded(), &job);
        let sequence = &made.sequence;
        if !made.verdict.answers() {
            prop_assert!(sequence.steps.is_empty() && sequence.branches.is_empty(), "steps without an answer");
            return Ok(());
        }
        let branches: Vec<Option<Branch>> = if sequence.branches.is_empty() {
            vec![None]
        } else {
            sequence.branches.iter().map(|(branch, _)| Some(*branch)).collect()
        };
        prop_assert!(branches.len() != 2 || branches[0] != branches[1]);
        prop_assert_eq!(branches.len(), sequence.ways().count());
        for (branch, way) in branches.iter().zip(sequence.ways()) {
            let wrong = faults(&job, &made, *branch, &way);
            prop_assert!(wrong.is_empty(), "{branch:?} {:?}: {wrong:?}\n{job:?}", deeds(&way));
            let numbers: Vec<usize> = sequence
                .numbered()
                .filter(|(_, of, _)| of.is_none() || of == branch)
                .map(|(number, ..)| number)
                .collect();
            prop_assert_eq!(numbers, (1..=way.len()).collect::<Vec<_>>());
        }
    }
}

#[test]
fn every_deed_is_done_in_some_job() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;
    use strum::IntoEnumIterator;

    let mut runner = TestRunner::deterministic();
    // A steel that passes M90 below the 200 °C from which a post-heat counts: none comes to a usable
    // window today, and `tests/engine/post_heat.rs` asks that answer by itself.
    let never = [Deed::LongerWait, Deed::NoPostHeat];
    let mut left: Vec<Deed> = Deed::iter().filter(|deed| !never.contains(deed)).collect();
    for _ in 0..20_000 {
        let job = any_job().new_tree(&mut runner).expect("a job").current();
        let made = plan(embedded(), &job);
        left.retain(|deed| !made.sequence.numbered().any(|(.., step)| step.deed == *deed));
        if left.is_empty() {
            return;
        }
    }
    panic!("never done: {left:?}");
}

/// The range that the dataset has for a steel’s heat treatment is the figure of its step, with its basis;
/// where two parts print two ranges there is none, and each is said.
#[test]
fn a_heat_treatment_has_the_range_that_is_printed() {
    let treated = |first: &str, second: &str| {
        let read = small(&[("steel", first), ("steel-b", second), ("thickness-b", "25")]).expect("a job");
        let made = plan(embedded(), &read.job);
        let steps = made.sequence.numbered().map(|(.., step)| step.clone());
        steps.filter(|step| step.phase() == Phase::HeatTreat).collect::<Vec<_>>()
    };
    let row = embedded().grade("P91").and_then(|grade| grade.pwht.clone()).expect("a heat treatment");
    let range = row.low_c.zip(row.high_c).map(|(low_c, high_c)| StepFigure::Printed(low_c, high_c));
    assert!(range.is_some());
    let alike = treated("P91", "P91");
    assert!(!alike.is_empty());
    for step in alike {
        assert_eq!((step.figure, &step.basis), (range, &row.basis), "{:?}", step.deed);
    }
    for step in treated("P91", "P22") {
        assert_eq!(step.figure, None, "{:?}", step.deed);
        assert_eq!(said(&[&step], |note| matches!(note, Note::PrintedTreatment { .. })), 2);
    }
}

/// The semi-hot way of iron prints a preheat up to 320 °C; where practice allows 315 °C between runs, no step
/// is hotter.
#[test]
fn iron_is_never_heated_above_its_own_maximum() {
    let asked = [
        ("steel", "GREY"),
        ("condition", "as cast"),
        ("process", "smaw nickel"),
        ("demand-preheat", "255 °C"),
    ];
    let read = small(&asked).expect("a job");
    let made = plan(embedded(), &read.job);
    let most_c = made.interpass.as_ref().expect("a maximum").exact_c;
    let hottest_c = made
        .sequence
        .numbered()
        .filter_map(|(.., step)| match step.figure {
            Some(StepFigure::Range(_, high)) => Some(high.exact_c),
            _ => None,
        })
        .fold(f64::NEG_INFINITY, f64::max);
    assert!(hottest_c > 0.0 && hottest_c <= most_c, "{hottest_c} beside {most_c}");
}
