//! Whole situations against the figure that a careful welding engineer would use.

mod jobs;

use jobs::{MemberRow, RunRow, job};
use serde::Deserialize;
use strawblue::engine::job::{Joint, Restraint};
use strawblue::engine::plan::plan;
use strawblue::reference::embedded;

#[derive(Debug, Deserialize)]
struct Window {
    id: String,
    case: String,
    members: Vec<MemberRow>,
    joint: Joint,
    runs: Vec<RunRow>,
    restraint: Restraint,
    least_c: f64,
    ok_c: (f64, f64),
    interpass_c: f64,
    ceiling_c: Option<f64>,
    verdict: String,
    set_by: Option<String>,
    actions: Vec<String>,
}

const NEAR_K: f64 = 5.0;

#[test]
fn every_situation_lies_in_its_window() {
    let windows: Vec<Window> = ron::from_str(include_str!("plan/windows.ron")).expect("windows.ron reads");
    assert_eq!(windows.len(), 14, "every situation is there");
    let mut faults = Vec::new();
    for row in &windows {
        let job = job(embedded(), &row.members, row.joint, &row.runs, row.restraint);
        let plan = plan(embedded(), &job);
        let mut fault = |what: String| faults.push(format!("{} ({}): {what}", row.id, row.case));
        let minimum_c = plan.minimum_c.unwrap_or(f64::NAN);
        // A figure that is none compares as far away.
        if (minimum_c - row.least_c).abs().total_cmp(&NEAR_K).is_gt() {
            fault(format!("minimum {minimum_c}, wanted {}", row.least_c));
        }
        if !(row.ok_c.0..=row.ok_c.1).contains(&minimum_c) {
            fault(format!("minimum {minimum_c} outside {:?}", row.ok_c));
        }
        let interpass_c = plan.interpass_c.unwrap_or(f64::NAN);
        if (interpass_c - row.interpass_c).abs().total_cmp(&NEAR_K).is_gt() {
            fault(format!("interpass {interpass_c}, wanted {}", row.interpass_c));
        }
        if plan.ceiling_c != row.ceiling_c {
            fault(format!("ceiling {:?}, wanted {:?}", plan.ceiling_c, row.ceiling_c));
        }
        if plan.verdict.id() != row.verdict {
            fault(format!("verdict {}, wanted {}", plan.verdict.id(), row.verdict));
        }
        let by = plan.minimum.as_ref().map(|limit| limit.by);
        if row.set_by.is_some() && by != row.set_by.as_deref() {
            fault(format!("set by {by:?}, wanted {:?}", row.set_by));
        }
        for action in &row.actions {
            if !plan.actions.iter().any(|found| found.id() == action) {
                fault(format!("action {action} missing: {:?}", plan.actions));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
