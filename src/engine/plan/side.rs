//! What else does the plan say: t8/5 at both ends of its window, hardness of the
//! heat-affected zone, post-heat, the wait before inspection, tacks, where to measure.

use super::figures::lies_under_buttering;
use super::{Action, Plan, upper};
use crate::engine::cooling_time::Cooling;
use crate::engine::family::Family;
use crate::engine::inspection::{WeldToInspect, inspection_wait};
use crate::engine::job::Job;
use crate::engine::part::Part;
use crate::engine::post_heat::{PostHeat, post_heat};
use crate::engine::{Outcome, hardness, treatment};
use crate::reference::{FactorRange, Reference};

/// t8/5 that a quenched and tempered steel is welded inside, s.
pub const QT_SPAN_S: (f64, f64) = (5.0, 20.0);
/// Post-heat is asked at this or at the plan's minimum, whichever is higher, °C.
const POST_HEAT_FROM_C: f64 = 250.0;
/// Share of the hydrogen that may stay in the middle of the section after post-heat.
const HYDROGEN_LEFT: f64 = 0.1;
/// Tacks and short beads: this much above the minimum, K (common practice 40–50).
pub(super) const TACK_MORE_K: f64 = 50.0;

/// t8/5 of one member at both ends of the window, s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolingTime {
    /// The member.
    pub member: usize,
    /// At the minimum, with the lowest heat input and the joint's smaller shape factor.
    pub fastest_s: f64,
    /// At the maximum interpass, with the highest heat input and the larger shape factor.
    pub slowest_s: f64,
    /// The net heat input that brings the fastest cooling to the lower end of the span, kJ/mm,
    /// where the cooling of a quenched and tempered member leaves 5–20 s.
    pub heat_for_span_kj_per_mm: Option<f64>,
}

impl CoolingTime {
    /// Does it leave the span of a quenched and tempered member?
    #[must_use]
    pub const fn outside(&self) -> bool {
        self.heat_for_span_kj_per_mm.is_some()
    }
}

/// Where the zone that must be warm reaches, and how it is proved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarmZone {
    /// Distance to each side of the weld, mm.
    pub distance_mm: f64,
    /// The thick member: where the coldest point is looked for.
    pub coldest_member: usize,
}

/// The side questions of a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Side {
    /// t8/5 by member.
    pub cooling: Vec<CoolingTime>,
    /// Hardness estimates by member, at the fastest cooling.
    pub hardness: Vec<(usize, Vec<Outcome>)>,
    /// Post-heat (temperature, time by diffusion, time by the trade's rule), where the plan
    /// asks for it.
    pub post_heat: Vec<Outcome>,
    /// The wait before inspection: the strictest rule first.
    pub wait: Vec<Outcome>,
    /// Tack at this temperature, °C; `None` where no preheat is needed.
    pub tack_c: Option<f64>,
    /// The zone that must be warm.
    pub warm_zone: WarmZone,
}

/// t8/5 at both ends of a window, for every member that the formula speaks for and whose
/// own zone is heated.
#[must_use]
pub(super) fn cooling_time(
    reference: &Reference,
    job: &Job,
    parts: &[Part<'_>],
    minimum_c: f64,
    interpass_c: f64,
) -> Vec<CoolingTime> {
    let one = FactorRange { low: 1.0, high: 1.0 };
    let (f2, f3) = reference.joints.get(job.joint.id()).map_or((one, one), |joint| (joint.f2, joint.f3));
    let start_c = if minimum_c > 0.0 { minimum_c } else { job.shop_c };
    let most_heat = job.runs.iter().map(|run| run.net_heat_kj_per_mm).fold(0.0, f64::max);
    let weld = |heat, thickness_mm, f2, f3| Cooling {
        net_heat_kj_per_mm: heat,
        thickness_mm: Some(thickness_mm),
        f2,
        f3,
    };
    parts
        .iter()
        .enumerate()
        .filter(|&(member, part)| part.by_methods() && !lies_under_buttering(parts, member))
        .map(|(member, part)| {
            let thickness_mm = part.member.thickness_mm;
            let fast = weld(job.net_heat_kj_per_mm(), thickness_mm, f2.low, f3.low);
            let slow = weld(most_heat, thickness_mm, f2.high, f3.high);
            let (fastest_s, slowest_s) = (fast.t85_s(start_c), slow.t85_s(interpass_c.min(450.0)));
            let leaves = fastest_s < QT_SPAN_S.0 || slowest_s > QT_SPAN_S.1;
            CoolingTime {
                member,
                fastest_s,
                slowest_s,
                heat_for_span_kj_per_mm: (leaves && part.family == Family::QuenchedTempered)
                    .then(|| fast.heat_for_kj_per_mm(start_c.min(upper::HEAT_TREAT_ABOVE_C), QT_SPAN_S.0)),
            }
        })
        .collect()
}

/// The side questions of a plan that has an answer; `None` for one that has none.
#[must_use]
pub(super) fn side(reference: &Reference, job: &Job, parts: &[Part<'_>], plan: &Plan) -> Option<Side> {
    let minimum_c = plan.minimum_c?;
    let interpass_c = plan.interpass_c?;
    let cooling = cooling_time(reference, job, parts, minimum_c, interpass_c);
    let hardness = cooling
        .iter()
        .filter_map(|time| {
            let composition = &parts[time.member].chemistry.composition;
            let outcomes = hardness::hardness(&reference.methods, composition, time.fastest_s).ok()?;
            Some((time.member, outcomes.to_vec()))
        })
        .collect();
    let asked = plan.actions.iter().any(|action| {
        matches!(
            action,
            Action::PostHeatBeforeCold | Action::PostHeatAboveM90 | Action::HeatTreatStraightAfter
        )
    });
    let post_heat = if asked { post_heat_of(reference, job, plan, minimum_c) } else { Vec::new() };
    Some(Side {
        wait: strictest_wait(reference, job, parts),
        cooling,
        hardness,
        post_heat,
        tack_c: (minimum_c > 0.0).then(|| tack_c(plan, minimum_c)),
        warm_zone: WarmZone {
            distance_mm: job.thickest_mm().max(reference.d11.warm_zone.min_mm),
            coldest_member: thickest_member(job),
        },
    })
}

/// Post-heat at 250 °C or the minimum, whichever is higher, and never above the ceiling.
fn post_heat_of(reference: &Reference, job: &Job, plan: &Plan, minimum_c: f64) -> Vec<Outcome> {
    let wanted_c = POST_HEAT_FROM_C.max(minimum_c);
    let asked = PostHeat {
        thickness_mm: job.thickest_mm(),
        temperature_c: plan.ceiling_c.map_or(wanted_c, |ceiling_c| wanted_c.min(ceiling_c)),
        minimum_preheat_c: minimum_c,
        ceiling_c: plan.ceiling_c,
        left: HYDROGEN_LEFT,
    };
    // Both times stand beside each other; which is the longer one is seen.
    let mut found = post_heat(&reference.methods, &reference.own_sheets.diffusion, asked)
        .map(Vec::from)
        .unwrap_or_default();
    found.retain(|outcome| outcome.name != "post-heat-time");
    found
}

/// The strictest wait that any member asks for, with its rules. Only a steel that hardens
/// cracks late from hydrogen: iron and austenitic steel ask for none.
fn strictest_wait(reference: &Reference, job: &Job, parts: &[Part<'_>]) -> Vec<Outcome> {
    parts
        .iter()
        .filter(|part| part.hardens())
        .filter_map(|part| {
            inspection_wait(
                &reference.inspection,
                &WeldToInspect {
                    family: part.family,
                    thickness_mm: part.member.thickness_mm,
                    size_mm: job.weld.thickness_mm,
                    yield_mpa: treatment::yield_mpa(part.member),
                    net_heat_kj_per_mm: job.net_heat_kj_per_mm(),
                    restraint: job.restraint,
                    heat_treated: false,
                },
            )
            .ok()
        })
        .max_by(|a, b| {
            let hours = |wait: &[Outcome]| wait.first().and_then(|outcome| outcome.value).unwrap_or(0.0);
            hours(a).total_cmp(&hours(b))
        })
        .unwrap_or_default()
}

/// Tacks cool fastest: 50 K more than the exact minimum, but never above the interpass.
fn tack_c(plan: &Plan, minimum_c: f64) -> f64 {
    let exact_c = plan.minimum.as_ref().map_or(minimum_c, |limit| limit.exact_c);
    let wanted_c = exact_c + TACK_MORE_K;
    plan.interpass.as_ref().map_or(wanted_c, |limit| wanted_c.min(limit.exact_c)).max(exact_c)
}

fn thickest_member(job: &Job) -> usize {
    let mut best = 0;
    for (index, member) in job.members.iter().enumerate() {
        if member.thickness_mm > job.members[best].thickness_mm {
            best = index;
        }
    }
    best
}
