//! Whole situations against the figure that a careful welding engineer would use: the
//! figures, the exit status of the command line, and what the plan must say beside them.
//!
//! Common practice, no source, where a row names none; the methods behind it are cited in the
//! plan itself.

use crate::jobs::{MemberRow, RunRow, job, said};
use serde::Deserialize;
use strawblue::engine::job::{Job, Joint, Restraint};
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
    /// Is there no figure at all?
    #[serde(default)]
    no_figure: bool,
    /// Is the filler austenitic?
    #[serde(default)]
    austenitic: bool,
    /// Facts that are asked first.
    #[serde(default)]
    asks: Vec<String>,
    /// The temper and the hardness that the window stands under, °C and HV.
    #[serde(default)]
    needs: Option<(f64, f64)>,
    /// The lever that opens the window.
    #[serde(default)]
    opened_by: Option<String>,
    /// The leg of its fillet, mm.
    #[serde(default)]
    leg_mm: Option<f64>,
    /// The most hours of its post-heat and where they begin, °C.
    #[serde(default)]
    post_heat: Option<(f64, f64)>,
    /// Exit status of the command line: 0 is a safe answer.
    exit: u8,
    /// Is there a window wide enough to work in?
    safe_window: bool,
    set_by: Option<String>,
    actions: Vec<String>,
    /// Texts that stand in the report.
    must_say: Vec<String>,
    /// Texts that do not.
    #[serde(default)]
    never_say: Vec<String>,
    /// A lever with the least and the most that it takes off the minimum, K.
    #[serde(default)]
    lever: Option<(String, f64, f64)>,
}

fn throat_mm(leg_mm: f64) -> f64 {
    leg_mm * std::f64::consts::FRAC_1_SQRT_2
}

/// The one figure of the post-heat, as it is shown, h, and the temperature that it begins at, °C.
fn post_heat(job: &Job) -> (f64, f64) {
    let made = plan(embedded(), job).side.and_then(|side| side.post_heat).and_then(|held| held.answer.main);
    made.map_or((f64::NAN, f64::NAN), |hold| (hold.shown_h(), hold.low_c))
}

const NEAR_K: f64 = 5.0;
/// As many situations as there are.
const WINDOWS: usize = 27;

#[test]
fn every_situation_lies_in_its_window() {
    let windows: Vec<Window> = ron::from_str(include_str!("windows.ron")).expect("windows.ron reads");
    assert_eq!(windows.len(), WINDOWS, "every situation is there");
    let mut faults = Vec::new();
    for row in &windows {
        let mut job = job(embedded(), &row.members, row.joint, &row.runs, row.restraint);
        job.weld.austenitic = row.austenitic;
        job.weld.thickness_mm = row.leg_mm.map(throat_mm);
        let plan = plan(embedded(), &job);
        let mut fault = |what: String| faults.push(format!("{} ({}): {what}", row.id, row.case));
        let asks: Vec<&str> = plan.asks.iter().map(|asked| asked.ask.id()).collect();
        if row.asks.iter().any(|ask| !asks.contains(&ask.as_str())) {
            fault(format!("asks {asks:?}"));
        }
        let needs = plan.needs.map(|needs| (needs.temper_c.ceil(), needs.hardness_hv.unwrap_or(0.0).floor()));
        if row.needs.is_some() && needs != row.needs {
            fault(format!("needs {needs:?}"));
        }
        let opens = |id: &str| plan.levers.iter().any(|lever| lever.opens && lever.change.id() == id);
        if row.opened_by.as_deref().is_some_and(|id| !opens(id)) {
            fault(format!("is not opened: {:?}", plan.levers));
        }
        let minimum_c = plan.minimum_c.unwrap_or(f64::NAN);
        if row.no_figure {
            if plan.minimum_c.or(plan.interpass_c).or(plan.ceiling_c).is_some() {
                fault(format!("has a figure: {minimum_c}"));
            }
            if plan.verdict.id() != row.verdict || plan.verdict.answers() {
                fault(format!("verdict {}", plan.verdict.id()));
            }
            let said = said(&job, &plan);
            for text in row.must_say.iter().filter(|text| !said.contains(text.as_str())) {
                fault(format!("does not say: {text}\n{said}"));
            }
            for text in row.never_say.iter().filter(|text| said.contains(text.as_str())) {
                fault(format!("says: {text}"));
            }
            continue;
        }
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
        if u8::from(!plan.verdict.answers()) != row.exit {
            fault(format!("exit status of {}, wanted {}", plan.verdict.id(), row.exit));
        }
        if plan.usable_window != row.safe_window {
            fault(format!("safe window {}", plan.usable_window));
        }
        let said = said(&job, &plan);
        for text in row.must_say.iter().filter(|text| !said.contains(text.as_str())) {
            fault(format!("does not say: {text}\n{said}"));
        }
        for text in row.never_say.iter().filter(|text| said.contains(text.as_str())) {
            fault(format!("says: {text}"));
        }
        if let Some((id, least_k, most_k)) = &row.lever {
            let gain_k = plan.levers.iter().find(|lever| lever.change.id() == id);
            let gain_k = gain_k.map_or(f64::NAN, |lever| minimum_c - lever.minimum_c);
            if !(*least_k..=*most_k).contains(&gain_k) {
                fault(format!("{id} takes {gain_k} K off"));
            }
        }
        if let (Some((most_h, from_c)), Some(leg_mm)) = (row.post_heat, row.leg_mm) {
            let (hours, low_c) = post_heat(&job);
            if !hours.total_cmp(&most_h).is_le() || (low_c - from_c).abs().total_cmp(&NEAR_K).is_gt() {
                fault(format!("post-heat of {hours} h from {low_c} °C"));
            }
            // A thinner leg never takes longer.
            for smaller in 1..=19 {
                let thinner = leg_mm * f64::from(smaller) / 20.0;
                job.weld.thickness_mm = Some(throat_mm(thinner));
                let thinner_h = post_heat(&job).0;
                if thinner_h > hours {
                    fault(format!("post-heat of {thinner_h} h for a leg of {thinner} mm"));
                }
            }
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
