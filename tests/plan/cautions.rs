//! Which cautions a job brings up first, judged by what would hurt a person or the part in
//! just that job.

use std::collections::BTreeSet;

use ron::value::RawValue;
use serde::Deserialize;
use strawblue::engine::plan::{cautions, plan};
use strawblue::job::{JobText, Reading, read_job};
use strawblue::reference::embedded;
use strawblue::units::Units;

/// How many cautions stand beside the number.
const SHOWN: usize = 3;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    job: Box<RawValue>,
    /// The first three, in order.
    first: Vec<String>,
    /// Also there, anywhere.
    also: Vec<String>,
    /// Not there.
    never: Vec<String>,
}

fn cases() -> Vec<Case> {
    ron::from_str(include_str!("cautions.ron")).expect("cautions.ron reads")
}

/// The ids of the cautions of a case, worst first, each with its directness.
fn raised(case: &Case) -> Vec<(String, u8)> {
    let text = JobText::from_ron(case.job.get_ron()).unwrap_or_else(|error| panic!("{}: {error}", case.name));
    let reading = Reading { reference: embedded(), own_steels: &[], units: Units::C_MM };
    let read = read_job(&text, &reading).unwrap_or_else(|problems| panic!("{}: {problems:?}", case.name));
    let made = plan(embedded(), &read.job);
    cautions(embedded(), &read.job, &made)
        .into_iter()
        .map(|raised| (raised.caution.id.clone(), raised.directness))
        .collect()
}

#[test]
fn what_matters_in_this_job_stands_first() {
    let mut wrong = Vec::new();
    for case in &cases() {
        let raised = raised(case);
        let ids: Vec<&str> = raised.iter().map(|(id, _)| id.as_str()).collect();
        let first = &ids[..SHOWN.min(ids.len())];
        if first != case.first {
            wrong.push(format!("{}: {first:?} stand first, not {:?}", case.name, case.first));
        }
        let missing: Vec<&String> = case.also.iter().filter(|id| !ids.contains(&id.as_str())).collect();
        let silly: Vec<&String> = case.never.iter().filter(|id| ids.contains(&id.as_str())).collect();
        if !missing.is_empty() || !silly.is_empty() {
            wrong.push(format!("{}: lacks {missing:?}, has {silly:?}", case.name));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_cases_speak_of_cautions_that_exist_and_of_different_ones() {
    let mut first = BTreeSet::new();
    let cases = cases();
    assert!(cases.len() >= 10);
    for case in &cases {
        assert_eq!(case.first.len(), SHOWN, "{}", case.name);
        for id in case.first.iter().chain(&case.also).chain(&case.never) {
            assert!(embedded().cautions.get(id).is_some(), "{}: {id}", case.name);
        }
        first.insert(case.first[0].clone());
    }
    assert!(first.len() >= 6, "nearly all jobs begin with the same caution: {first:?}");
}

#[test]
fn nothing_that_every_job_brings_stands_before_what_this_job_does_at_the_same_severity() {
    for case in &cases() {
        let raised = raised(case);
        for pair in raised.windows(2) {
            let severity = |id: &str| embedded().cautions.get(id).unwrap().severity;
            let (before, after) = (&pair[0], &pair[1]);
            assert!(
                before.1 >= 2 || after.1 < 2 || severity(&before.0) < severity(&after.0),
                "{}: {before:?} before {after:?}",
                case.name
            );
        }
    }
}
