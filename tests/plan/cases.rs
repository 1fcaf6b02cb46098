//! Jobs as people type them, with what the plan must come to and must say.

use crate::jobs;
use ron::value::RawValue;
use serde::Deserialize;
use std::sync::Arc;
use strawblue::engine::job::{Condition, Joint, Member, Process, Restraint, Run, Steel};
use strawblue::engine::plan::{Action, Ceiling, Verdict, plan};
use strawblue::job::{JobText, Reading, read_job};
use strawblue::reference::{ConditionKind, embedded};
use strawblue::units::Units;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    job: Box<RawValue>,
    verdict: String,
    /// The exact minimum lies here, °C; nothing where there is no figure.
    minimum_c: Option<(f64, f64)>,
    #[serde(default)]
    interpass_c: Option<f64>,
    ceiling: Wanted,
    #[serde(default)]
    actions: Vec<String>,
    #[serde(default)]
    no_actions: Vec<String>,
    #[serde(default)]
    must_say: Vec<String>,
    #[serde(default)]
    never_say: Vec<String>,
}

#[derive(Deserialize)]
enum Wanted {
    At(f64),
    Ask,
    None,
}

fn faults(case: &Case) -> Vec<String> {
    let text = JobText::from_ron(case.job.get_ron()).unwrap_or_else(|error| panic!("{}: {error}", case.name));
    let reading = Reading {
        reference: embedded(),
        own_steels: &[],
        units: Units::C_MM,
        mark: strawblue::units::Mark::Point,
    };
    let job = read_job(&text, &reading).unwrap_or_else(|problems| panic!("{}: {problems:?}", case.name)).job;
    let plan = plan(embedded(), &job);
    let said = jobs::said(&job, &plan);
    let mut wrong = Vec::new();
    let mut check = |holds: bool, what: String| {
        if !holds {
            wrong.push(format!("{}: {what}", case.name));
        }
    };
    check(plan.verdict.id() == case.verdict, format!("verdict {}", plan.verdict.id()));
    // A plan that needs no preheat carries 0.
    let exact_c = plan.minimum_c.map(|shown_c| plan.minimum.as_ref().map_or(shown_c, |limit| limit.exact_c));
    let minimum_right = match (exact_c, case.minimum_c) {
        (Some(exact_c), Some((low_c, high_c))) => (low_c..=high_c).contains(&exact_c),
        (exact_c, wanted) => exact_c.is_none() && wanted.is_none(),
    };
    check(minimum_right, format!("minimum {exact_c:?}"));
    if case.interpass_c.is_some() {
        check(plan.interpass_c == case.interpass_c, format!("interpass {:?}", plan.interpass_c));
    }
    let ceiling_right = match (&case.ceiling, &plan.ceiling) {
        (Wanted::At(wanted_c), Ceiling::At(_)) => plan.ceiling_c == Some(*wanted_c),
        (Wanted::Ask, Ceiling::AskTemper { .. }) | (Wanted::None, Ceiling::BelowTransformation) => true,
        _ => false,
    };
    check(ceiling_right, format!("ceiling {:?}", plan.ceiling));
    let ids: Vec<&str> = plan.actions.iter().map(|action| action.id()).collect();
    for id in &case.actions {
        check(ids.contains(&id.as_str()), format!("lacks {id}: {ids:?}"));
    }
    for id in &case.no_actions {
        check(!ids.contains(&id.as_str()), format!("has {id}"));
    }
    for text in &case.must_say {
        check(said.contains(text.as_str()), format!("does not say “{text}”"));
    }
    for text in &case.never_say {
        check(!said.contains(text.as_str()), format!("says “{text}”"));
    }
    wrong
}

#[test]
fn every_case_comes_to_what_it_must() {
    let cases: Vec<Case> = ron::from_str(include_str!("cases.ron")).expect("cases.ron reads");
    let wrong: Vec<String> = cases.iter().flat_map(faults).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

const TEMPERED: [ConditionKind; 4] = [
    ConditionKind::HardenedTempered,
    ConditionKind::NormalisedTempered,
    ConditionKind::CaseHardened,
    ConditionKind::InductionHardened,
];

/// Common practice, no source: a temper is lost at its own temperature, so a part that is or
/// may be tempered has a ceiling or a question; and a refusal stands before any figure.
#[test]
fn every_grade_that_may_be_tempered_has_a_ceiling_or_a_question() {
    let mut wrong = Vec::new();
    for grade in &embedded().grades {
        let mut kinds = grade.condition_kinds();
        let listed = kinds.clone();
        kinds.push(ConditionKind::Unknown);
        for kind in kinds {
            let mut job = jobs::job(embedded(), &[], Joint::Butt, &[], Restraint::Medium);
            job.runs.push(Run { process: Process::Gmaw, hydrogen_ml: 5.0, net_heat_kj_per_mm: 1.2 });
            job.members.push(Member {
                steel: Steel::Grade(Arc::new(grade.clone())),
                condition: Condition { kind, temper_c: None },
                thickness_mm: 25.0,
                round: false,
                yield_mpa: None,
                hardness_hv: None,
                buttered: false,
            });
            let made = plan(embedded(), &job);
            let said = jobs::said(&job, &made);
            if matches!(made.verdict, Verdict::Refused(_)) {
                if made.minimum_c.is_some() || said.contains("None") {
                    wrong.push(format!("{} {kind:?} is refused with a figure", grade.id));
                }
                continue;
            }
            if made.verdict == Verdict::Asks {
                if made.minimum_c.or(made.interpass_c).is_some() || made.asks.is_empty() {
                    wrong.push(format!("{} {kind:?} is asked for with a figure", grade.id));
                }
                continue;
            }
            let may_be = TEMPERED.contains(&kind)
                || (kind == ConditionKind::Unknown && listed.iter().any(|kind| TEMPERED.contains(kind)));
            let open = made.ceiling == Ceiling::BelowTransformation;
            if may_be && open {
                wrong.push(format!("{} {kind:?} has no ceiling", grade.id));
            }
            let asks = matches!(made.ceiling, Ceiling::AskTemper { .. });
            if asks != made.actions.contains(&Action::AskTemper) {
                wrong.push(format!("{} {kind:?} asks in one place only", grade.id));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
