//! Jobs as people type them, with what the plan must come to and must say.

mod jobs;

use ron::value::RawValue;
use serde::Deserialize;
use strawblue::engine::plan::{Ceiling, plan};
use strawblue::log::{JobText, Reading, read_job};
use strawblue::reference::embedded;
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
    let reading = Reading { reference: embedded(), own_steels: &[], units: Units::C_MM };
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
    let cases: Vec<Case> = ron::from_str(include_str!("plan/cases.ron")).expect("cases.ron reads");
    let wrong: Vec<String> = cases.iter().flat_map(faults).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
