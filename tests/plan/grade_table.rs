//! Every grade in each of its conditions, at five thicknesses: a page that a practitioner reads
//! for what would make one laugh or fear. Written anew with `STRAWBLUE_BLESS=1`.

use std::collections::BTreeSet;
use std::fmt::Write;
use std::path::PathBuf;
use std::sync::Arc;

use strawblue::engine::job::{Condition, Joint, Member, Process, Restraint, Run, Steel};
use strawblue::engine::plan::{Plan, Verdict, plan};
use strawblue::reference::{ConditionKind, Grade, embedded};

use crate::jobs;

const THICKNESSES_MM: [f64; 5] = [6.0, 12.0, 25.0, 50.0, 90.0];
/// A step between neighbours that has to be told, K.
const STEP_K: f64 = 60.0;
/// No wider step is explained but the end of what a table clears, K.
const NO_STEP_ABOVE_K: f64 = 100.0;

fn planned(grade: &Grade, kind: ConditionKind, thickness_mm: f64) -> Plan {
    let mut job = jobs::job(embedded(), &[], Joint::Butt, &[], Restraint::Medium);
    job.runs.push(Run { process: Process::Gmaw, hydrogen_ml: 5.0, net_heat_kj_per_mm: 1.2 });
    job.members.push(Member {
        steel: Steel::Grade(Arc::new(grade.clone())),
        condition: Condition { kind, temper_c: None },
        thickness_mm,
        round: false,
        yield_mpa: None,
        hardness_hv: None,
        buttered: false,
    });
    plan(embedded(), &job)
}

/// A cell: minimum and maximum, or what stands in their place; `*` where a fact is asked first.
fn cell(plan: &Plan) -> String {
    let asks = if plan.asks.is_empty() { "" } else { "*" };
    match (plan.verdict, plan.minimum_c, plan.interpass_c) {
        (Verdict::Window | Verdict::NoPreheat | Verdict::NoWindow, Some(low_c), Some(high_c)) => {
            let shut = if plan.verdict == Verdict::NoWindow { " shut" } else { "" };
            format!("{low_c:.0}-{high_c:.0}{asks}{shut}")
        }
        (verdict, ..) => verdict.id().to_owned(),
    }
}

fn page() -> (String, Vec<String>) {
    let mut rows = String::new();
    let mut steps = String::new();
    let mut too_wide = Vec::new();
    for grade in &embedded().grades {
        let kinds: BTreeSet<ConditionKind> = grade.condition_kinds().into_iter().collect();
        for kind in kinds.into_iter().chain([ConditionKind::Unknown]) {
            let plans: Vec<Plan> =
                THICKNESSES_MM.iter().map(|&thickness_mm| planned(grade, kind, thickness_mm)).collect();
            let cells: Vec<String> = plans.iter().map(cell).collect();
            let _ = writeln!(rows, "| {} | {kind:?} | {} |", grade.id, cells.join(" | "));
            for (place, pair) in plans.windows(2).enumerate() {
                let (Some(thin_c), Some(thick_c)) = (pair[0].minimum_c, pair[1].minimum_c) else { continue };
                let by = |plan: &Plan| plan.governing().map_or("none", |item| item.outcome.method.id());
                let (thin_mm, thick_mm) = (THICKNESSES_MM[place], THICKNESSES_MM[place + 1]);
                let what = format!(
                    "{} {kind:?}, {thin_mm} to {thick_mm} mm: {thin_c:.0} °C by {}, {thick_c:.0} °C by {}",
                    grade.id,
                    by(&pair[0]),
                    by(&pair[1])
                );
                if thick_c - thin_c > STEP_K {
                    let _ = writeln!(steps, "- {what}");
                }
                // What a table clears ends where the table ends.
                let most_k = if thin_c <= 0.0 { f64::INFINITY } else { NO_STEP_ABOVE_K };
                if !(0.0..=most_k).contains(&(thick_c - thin_c)) {
                    too_wide.push(what);
                }
            }
        }
    }
    let head: Vec<String> = THICKNESSES_MM.iter().map(|thickness_mm| format!("{thickness_mm} mm")).collect();
    let text = format!(
        "# Every grade in its conditions\n\nA butt weld by GMAW, 5 ml/100 g, 1.2 kJ/mm net, medium restraint, grade only: minimum preheat and maximum \
         interpass in °C, 0 for none. `*` a fact is asked above the figure; `shut` no usable window. Made by \
         `STRAWBLUE_BLESS=1 cargo test --no-default-features --test plan grade_table`.\n\n| grade | condition | {} |\n|---|---|{}\n{rows}\n\
         ## Steps of more than {STEP_K} K between neighbours\n\nWhere a table or a category ends, or a row of a \
         handbook starts, the figure steps: the step is the source's own.\n\n{steps}",
        head.join(" | "),
        "---|".repeat(THICKNESSES_MM.len()),
    );
    (text, too_wide)
}

#[test]
fn the_page_of_all_grades_is_as_kept_and_no_step_is_wild() {
    let (made, too_wide) = page();
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/plan/grades.md");
    if std::env::var_os("STRAWBLUE_BLESS").is_some() {
        std::fs::write(&path, &made).expect("the page is written");
    }
    let kept = std::fs::read_to_string(&path).expect("the page is read");
    assert!(made == kept, "tests/plan/grades.md is not what the plans are: write it anew and look at it");
    assert!(too_wide.is_empty(), "{}", too_wide.join("\n"));
}
