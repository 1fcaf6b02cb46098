//! A plan as JSON: SI units, stable keys. What each key is stands in `help json`, key by key
//! the messages `json-KEY` (`src/cli/json_keys.rs`).

use serde::Serialize;

use super::cycle::CycleJson;
use super::outcome_json::{BasisJson, OutcomeJson};
use super::sequence_json::{StepJson, steps};
use super::weld_json::{WeldJson, weld_json};
use crate::engine::evidence::Evidence;
use crate::engine::family::Family;
use crate::engine::job::Job;
use crate::engine::plan::{Ceiling, CoolingTime, Plan, Verdict};
use crate::engine::post_heat::outcomes;
use crate::job::ReadJob;
use crate::reference::{Methods, Reference};

/// The whole answer.
#[derive(Debug, Serialize)]
pub(super) struct PlanJson {
    verdict: &'static str,
    family: Option<&'static str>,
    preheat_min_c: Option<f64>,
    preheat_min_exact_c: Option<f64>,
    preheat_at_least: bool,
    dry_from_c: Option<f64>,
    interpass_max_c: Option<f64>,
    interpass_max_exact_c: Option<f64>,
    ceiling_c: Option<f64>,
    ceiling: &'static str,
    usable_window: bool,
    asks: Vec<AskJson>,
    remarks: Vec<RemarkJson>,
    trial_warnings: Vec<String>,
    needs_temper_c: Option<f64>,
    needs_hardness_hv_max: Option<f64>,
    documented_window: Option<SpanJson>,
    least_bad: Option<SpanJson>,
    governed_by: Option<&'static str>,
    combined_thickness_mm: f64,
    members: Vec<MemberJson>,
    evidence: Vec<EvidenceJson>,
    actions: Vec<&'static str>,
    levers: Vec<LeverJson>,
    routes: Vec<RouteJson>,
    cautions: Vec<String>,
    cautions_left_out: Vec<String>,
    not_told: Vec<&'static str>,
    cooling: Vec<CoolingJson>,
    post_heat: Vec<OutcomeJson>,
    inspection_wait_h: Option<f64>,
    tack_low_c: Option<f64>,
    tack_high_c: Option<f64>,
    warm_zone_mm: Option<f64>,
    find_first: Vec<&'static str>,
    sequence: Vec<StepJson>,
    weld: Option<WeldJson>,
    heat_cycle: Option<CycleJson>,
    assumed: Vec<AssumedJson>,
}

/// A fact that is asked for.
#[derive(Debug, Serialize)]
struct AskJson {
    member: usize,
    fact: &'static str,
}

/// What is said above the figures.
#[derive(Debug, Serialize)]
struct RemarkJson {
    id: &'static str,
    member: Option<usize>,
}

/// Both ends of a window, °C.
#[derive(Debug, Serialize)]
struct SpanJson {
    low_c: f64,
    high_c: f64,
}

#[derive(Debug, Serialize)]
struct MemberJson {
    steel: Option<String>,
    family: &'static str,
    thickness_mm: f64,
    preheat_min_c: Option<f64>,
    ce_iiw: f64,
    cet: f64,
    pcm: f64,
}

/// An outcome with its place in the plan.
#[derive(Debug, Serialize)]
struct EvidenceJson {
    #[serde(flatten)]
    outcome: OutcomeJson,
    value_c: Option<f64>,
    obligation: &'static str,
    member: Option<usize>,
    standing: &'static str,
}

#[derive(Debug, Serialize)]
struct LeverJson {
    id: &'static str,
    preheat_min_c: Option<f64>,
    interpass_max_c: f64,
    opens: bool,
}

#[derive(Debug, Serialize)]
struct RouteJson {
    id: String,
    preheat_low_c: f64,
    preheat_high_c: f64,
    interpass_max_c: Option<f64>,
    bead_mm: Option<f64>,
    cooling_k_per_h: Option<f64>,
    basis: BasisJson,
}

#[derive(Debug, Serialize)]
struct CoolingJson {
    member: usize,
    t85_fastest_s: f64,
    t85_slow_at_minimum_s: f64,
    t85_fast_at_maximum_s: f64,
    t85_slowest_s: f64,
}

/// A value that was put where nobody typed one.
#[derive(Debug, Serialize)]
pub(super) struct AssumedJson {
    /// The field.
    pub(super) field: String,
    /// What was put there, in words.
    pub(super) value: String,
}

/// A preheat as printed: a minimum of 0 means that none is needed.
fn needed(minimum_c: f64) -> Option<f64> {
    (minimum_c > 0.0).then_some(minimum_c)
}

/// Makes the answer of a plan.
pub(super) fn plan_json(
    reference: &Reference,
    read: &ReadJob,
    plan: &Plan,
    heat_cycle: Option<CycleJson>,
    assumed: Vec<AssumedJson>,
    trial_warnings: Vec<String>,
) -> PlanJson {
    let methods = &reference.methods;
    let side = plan.side.as_ref();
    let briefing = &plan.briefing;
    let rows = reference.cautions.rows();
    let ids = |places: &[usize]| places.iter().map(|place| rows[*place].id.clone()).collect::<Vec<_>>();
    let routes = if plan.verdict == Verdict::TwoRoutes { plan.routes.as_slice() } else { &[] };
    PlanJson {
        verdict: plan.verdict.id(),
        family: plan.family().map(Family::id),
        preheat_min_c: plan.minimum_c.and_then(needed),
        preheat_min_exact_c: plan.minimum.as_ref().map(|limit| limit.exact_c),
        preheat_at_least: plan.minimum.as_ref().is_some_and(|limit| limit.at_least),
        dry_from_c: plan.dry_from.map(|least| least.exact_c.ceil()),
        interpass_max_c: plan.interpass_c,
        interpass_max_exact_c: plan.interpass.as_ref().map(|limit| limit.exact_c),
        ceiling_c: plan.ceiling_c,
        ceiling: match plan.ceiling {
            Ceiling::At(_) => "at",
            Ceiling::AskTemper { .. } => "ask-temper",
            Ceiling::BelowTransformation => "none",
        },
        usable_window: plan.usable_window,
        asks: plan.asks.iter().map(|asked| AskJson { member: asked.member, fact: asked.ask.id() }).collect(),
        remarks: plan
            .remarks
            .iter()
            .map(|remark| RemarkJson { id: remark.id(), member: remark.member() })
            .collect(),
        trial_warnings,
        needs_temper_c: plan.needs.map(|needs| needs.temper_c.ceil()),
        needs_hardness_hv_max: plan.needs.and_then(|needs| needs.hardness_hv).map(f64::floor),
        documented_window: plan.documented.as_ref().map(|own| SpanJson {
            low_c: own.least_high.unwrap_or(own.least).as_minimum_c(),
            high_c: own.most.as_maximum_c(),
        }),
        least_bad: plan.least_bad.map(|way| SpanJson { low_c: way.low_c, high_c: way.high_c }),
        governed_by: plan.governing().map(|item| item.outcome.method.id()),
        combined_thickness_mm: plan.combined_mm,
        members: members(&read.job, plan),
        evidence: plan.evidence.iter().map(|item| evidence_json(item, methods)).collect(),
        actions: plan.actions.iter().map(|action| action.id()).collect(),
        levers: plan
            .levers
            .iter()
            .map(|lever| LeverJson {
                id: lever.change.id(),
                preheat_min_c: needed(lever.minimum_c),
                interpass_max_c: lever.interpass_c,
                opens: lever.opens,
            })
            .collect(),
        routes: routes
            .iter()
            .map(|route| RouteJson {
                id: route.id.clone(),
                preheat_low_c: route.preheat_low_c,
                preheat_high_c: route.preheat_high_c,
                interpass_max_c: route.interpass_c,
                bead_mm: route.bead_mm,
                cooling_k_per_h: route.cooling_k_per_h,
                basis: BasisJson::from(&route.basis),
            })
            .collect(),
        cautions: [ids(&briefing.always), ids(&briefing.own)].concat(),
        cautions_left_out: ids(&briefing.left_out),
        not_told: briefing.not_told.iter().map(|fact| fact.id()).collect(),
        cooling: side.iter().flat_map(|side| &side.cooling).map(cooling_json).collect(),
        post_heat: side
            .and_then(|side| side.post_heat.as_ref())
            .map(|held| outcomes(reference, &held.answer))
            .unwrap_or_default()
            .iter()
            .map(|outcome| OutcomeJson::of(outcome, methods))
            .collect(),
        inspection_wait_h: side.and_then(|side| side.wait.first()).and_then(|wait| wait.value),
        tack_low_c: side.and_then(|side| side.tack).map(|(low_c, _)| low_c),
        tack_high_c: side.and_then(|side| side.tack).map(|(_, high)| high.most_c()),
        warm_zone_mm: side.map(|side| side.warm_zone.distance_mm),
        find_first: plan.sequence.find.iter().map(|find| find.id()).collect(),
        sequence: steps(plan),
        weld: weld_json(reference, read, plan),
        heat_cycle,
        assumed,
    }
}

const fn cooling_json(time: &CoolingTime) -> CoolingJson {
    CoolingJson {
        member: time.member,
        t85_fastest_s: time.fastest_s,
        t85_slow_at_minimum_s: time.slow_at_minimum_s,
        t85_fast_at_maximum_s: time.fast_at_maximum_s,
        t85_slowest_s: time.slowest_s,
    }
}

fn members(job: &Job, plan: &Plan) -> Vec<MemberJson> {
    job.members
        .iter()
        .zip(&plan.members)
        .map(|(member, note)| MemberJson {
            steel: member.steel.grade().map(|grade| grade.id.clone()),
            family: note.family.id(),
            thickness_mm: member.thickness_mm,
            preheat_min_c: note.minimum_c.and_then(needed),
            ce_iiw: note.chemistry.ce(),
            cet: note.chemistry.cet(),
            pcm: note.chemistry.pcm(),
        })
        .collect()
}

fn evidence_json(item: &Evidence, methods: &Methods) -> EvidenceJson {
    EvidenceJson {
        outcome: OutcomeJson::of(&item.outcome, methods),
        value_c: item.value_c(),
        obligation: item.obligation.id(),
        member: item.member,
        standing: item.standing.id(),
    }
}
