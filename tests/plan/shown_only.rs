//! What is shown beside a plan and never governs it can be taken out of the dataset, and no plan
//! changes; what may govern can't.

use std::collections::BTreeSet;
use std::sync::Arc;

use strawblue::engine::evidence::{Evidence, Standing};
use strawblue::engine::job::{Condition, Job, Joint, Member, Process, Restraint, Run, Steel};
use strawblue::engine::plan::{Ceiling, Plan, Verdict, plan};
use strawblue::reference::{Reference, RowUse, embedded};

use crate::jobs;

/// Every grade alone, in each condition that it comes in, thin to thick, by a dry and by a damp process.
fn every_grade() -> Vec<Job> {
    let mut made = Vec::new();
    for grade in embedded().grades.iter() {
        for kind in grade.conditions.iter().map(|condition| condition.kind) {
            for thickness_mm in [8.0, 20.0, 40.0, 90.0] {
                for hydrogen_ml in [4.0, 12.0] {
                    let mut job = jobs::job(embedded(), &[], Joint::Butt, &[], Restraint::Medium);
                    job.runs.push(Run { process: Process::SmawBasic, hydrogen_ml, net_heat_kj_per_mm: 1.2 });
                    job.members.push(Member {
                        steel: Steel::Grade(Arc::new(grade.clone())),
                        condition: Condition { kind, temper_c: None },
                        thickness_mm,
                        round: false,
                        yield_mpa: None,
                        hardness_hv: None,
                        buttered: false,
                    });
                    made.push(job);
                }
            }
        }
    }
    made
}

/// What a plan asks for.
fn asks(plan: &Plan) -> (Verdict, Option<f64>, Option<f64>, Option<f64>, &Ceiling) {
    let exact = plan.minimum.as_ref().map(|limit| limit.exact_c);
    (plan.verdict, exact, plan.minimum_c, plan.interpass_c, &plan.ceiling)
}

fn evidence_of<'a>(plan: &'a Plan, id: &'a str) -> impl Iterator<Item = &'a Evidence> {
    plan.evidence.iter().filter(move |evidence| evidence.outcome.method.id() == id)
}

/// The dataset without its handbook rows that are shown only.
pub(crate) fn quiet() -> Reference {
    let mut quiet = embedded().clone();
    quiet.practice.low_hydrogen.rows.retain(|row| row.row_use != RowUse::ShownOnly);
    quiet
}

#[test]
fn a_row_that_is_shown_only_changes_no_plan() {
    let quiet = quiet();
    let rows = &embedded().practice.low_hydrogen.rows;
    let gone: Vec<String> =
        rows.iter().filter(|row| row.row_use == RowUse::ShownOnly).map(|row| row.grade.clone()).collect();
    assert!(!gone.is_empty() && !quiet.practice.low_hydrogen.rows.is_empty());
    let mut vanished = BTreeSet::new();
    for job in every_grade() {
        let (loud, still) = (plan(embedded(), &job), plan(&quiet, &job));
        assert_eq!(asks(&loud), asks(&still), "{job:?}");
        let of_gone =
            |evidence: &&Evidence| evidence.outcome.row.as_ref().is_some_and(|row| gone.contains(row));
        let shown: Vec<&Evidence> = evidence_of(&loud, "practice-low-h").filter(of_gone).collect();
        assert!(shown.iter().all(|evidence| evidence.standing == Standing::ShownOnly), "{shown:?}");
        assert_eq!(evidence_of(&still, "practice-low-h").filter(of_gone).count(), 0);
        vanished.extend(shown.iter().filter_map(|evidence| evidence.outcome.row.clone()));
    }
    // The row of 8620 answers who asks for it: that steel is planned by a sheet of its own.
    assert_eq!(vanished.into_iter().collect::<Vec<_>>(), ["8630"]);
}

#[test]
fn the_old_chart_by_group_changes_no_plan() {
    let mut vanished = 0;
    for job in every_grade() {
        let mut quiet = job.clone();
        let Steel::Grade(grade) = &mut quiet.members[0].steel else { continue };
        let grade = Arc::make_mut(grade);
        if grade.published_preheat.take_if(|published| published.sae_chart).is_none() {
            continue;
        }
        let (loud, still) = (plan(embedded(), &job), plan(embedded(), &quiet));
        assert_eq!(asks(&loud), asks(&still), "{job:?}");
        let shown: Vec<&Evidence> = evidence_of(&loud, "sae-chart").collect();
        assert!(shown.iter().all(|evidence| evidence.standing == Standing::ShownOnly), "{shown:?}");
        assert_eq!(evidence_of(&still, "sae-chart").count(), 0);
        vanished += shown.len();
    }
    assert!(vanished > 100, "the chart was only shown {vanished} times");
}

/// The other way about: a row that may govern is missed by the plans that it governs.
#[test]
fn a_row_that_may_govern_changes_plans() {
    type Spoil = fn(&mut Reference);
    let spoils: [(&str, Spoil); 3] = [
        ("practice-low-h", |reference| {
            reference.practice.low_hydrogen.rows.retain(|row| row.row_use == RowUse::ShownOnly);
        }),
        ("ceq-bands", |reference| reference.practice.ceq_bands.steps.clear()),
        ("d11-annex", |reference| reference.d11.annex.rows.clear()),
    ];
    for (id, spoil) in spoils {
        let mut poorer = embedded().clone();
        spoil(&mut poorer);
        let (mut governed, mut changed) = (0, 0);
        for job in every_grade() {
            let whole = plan(embedded(), &job);
            if whole.minimum.as_ref().is_some_and(|limit| limit.by == id) {
                governed += 1;
                changed += usize::from(asks(&whole) != asks(&plan(&poorer, &job)));
            }
        }
        assert!(governed > 0 && changed > 0, "{id}: governs {governed} plans, missed by {changed}");
    }
}
