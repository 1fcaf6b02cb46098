//! What else does the plan say: t8/5 at both ends of its window, hardness of the
//! heat-affected zone, post-heat, the wait before inspection, tacks, where to measure.

use super::figures::lies_under_buttering;
use super::{Action, Edge, Plan, upper};
use crate::engine::cooling_time::Cooling;
use crate::engine::inspection::{WeldToInspect, inspection_wait};
use crate::engine::job::{Job, Joint};
use crate::engine::part::Part;
use crate::engine::post_heat::{Hold, PostHeatAnswer, PostHeatQuery, WeldPath, hold_after_welding};
use crate::engine::{Outcome, hardness, treatment};
use crate::reference::{Element, FactorRange, Reference};

/// t8/5 that a quenched and tempered steel is welded inside, s.
pub const QT_SPAN_S: (f64, f64) = (5.0, 20.0);
/// Tacks and short beads: this much above the minimum, K (common practice 40–50).
const TACK_MORE_K: f64 = 40.0;
/// And so much room is left under the maximum, K.
const TACK_ROOM_K: f64 = 10.0;

/// t8/5 of one member at both ends of the window, s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolingTime {
    /// The member.
    pub member: usize,
    /// At the minimum, with the lowest heat input and the joint's smaller shape factor.
    pub fastest_s: f64,
    /// At the minimum, with the highest heat input and the larger shape factor.
    pub slow_at_minimum_s: f64,
    /// At the maximum interpass, with the lowest heat input and the smaller shape factor.
    pub fast_at_maximum_s: f64,
    /// At the maximum interpass, with the highest heat input and the larger shape factor.
    pub slowest_s: f64,
    /// The net heat input that brings the fastest cooling to the lower end of the span, kJ/mm,
    /// where the cooling of a quenched and tempered member leaves 5–20 s.
    pub heat_for_span_kj_per_mm: Option<f64>,
}

/// The slowest cooling that arc welding is ordinarily done with, s: a longer one at the minimum is a heat
/// input that the thickness hardly takes (common practice, no source).
const SLOWEST_ORDINARY_S: f64 = 100.0;

impl CoolingTime {
    /// Does the joint cool so slowly already at the minimum that its heat input may be wrong?
    #[must_use]
    pub fn heat_in_doubt(&self) -> bool {
        self.fastest_s > SLOWEST_ORDINARY_S
    }

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

/// What is done after welding, and for which weld.
#[derive(Debug, Clone, PartialEq)]
pub struct PostHeat {
    /// The answer.
    pub answer: PostHeatAnswer,
    /// The weld that it holds for.
    pub weld: WeldPath,
    /// Was the weld's size taken, since nobody told it?
    pub size_taken: bool,
    /// Were the hours shorter for a weld of a quarter of a size that was taken?
    pub size_matters: bool,
}

/// A post-heat of more hours than these is kept up by nobody, h (common practice, no source).
pub const PRACTICABLE_H: f64 = 24.0;

impl PostHeat {
    /// The hours as shown, where no shop keeps a joint hot so long.
    #[must_use]
    pub fn too_long_h(&self) -> Option<f64> {
        let hours = self.answer.main.as_ref()?.shown_h();
        (hours > PRACTICABLE_H).then_some(hours)
    }
}

/// The side questions of a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Side {
    /// t8/5 by member.
    pub cooling: Vec<CoolingTime>,
    /// Hardness estimates by member, at the fastest cooling.
    pub hardness: Vec<(usize, Vec<Outcome>)>,
    /// Post-heat, where the plan asks for it.
    pub post_heat: Option<PostHeat>,
    /// The wait before inspection: the strictest rule first.
    pub wait: Vec<Outcome>,
    /// Tack between these, the first exact, °C; `None` where no preheat is needed.
    pub tack: Option<(f64, Edge)>,
    /// The zone that must be warm.
    pub warm_zone: WarmZone,
}

/// The coldest that the equations of t8/5 are asked at, °C.
pub(super) const COLDEST_C: f64 = -50.0;

/// The weld that cools fastest (least heat, the joint's smaller shape factors) and the one that
/// cools slowest.
pub(super) fn welds(reference: &Reference, job: &Job, thickness_mm: f64) -> (Cooling, Cooling) {
    let one = FactorRange { low: 1.0, high: 1.0 };
    let (f2, f3) = reference.joints.get(job.joint.id()).map_or((one, one), |joint| (joint.f2, joint.f3));
    let most_heat = job.runs.iter().map(|run| run.net_heat_kj_per_mm).fold(0.0, f64::max);
    let weld =
        |net_heat_kj_per_mm, f2, f3| Cooling { net_heat_kj_per_mm, thickness_mm: Some(thickness_mm), f2, f3 };
    (weld(job.net_heat_kj_per_mm(), f2.low, f3.low), weld(most_heat, f2.high, f3.high))
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
    let start_c = if minimum_c > 0.0 { minimum_c } else { job.shop_c };
    parts
        .iter()
        .enumerate()
        .filter(|&(member, part)| part.by_methods() && !lies_under_buttering(parts, member))
        .map(|(member, part)| {
            let thickness_mm = part.member.thickness_mm;
            let (fast, slow) = welds(reference, job, thickness_mm);
            let end_c = interpass_c.min(450.0);
            let (fastest_s, slowest_s) = (fast.t85_s(start_c), slow.t85_s(end_c));
            let leaves = fastest_s < QT_SPAN_S.0 || slowest_s > QT_SPAN_S.1;
            CoolingTime {
                member,
                fastest_s,
                slow_at_minimum_s: slow.t85_s(start_c),
                fast_at_maximum_s: fast.t85_s(end_c),
                slowest_s,
                heat_for_span_kj_per_mm: (leaves && part.minds_cooling_time())
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
    let asked = plan.usable_window
        && !job.weld.austenitic
        && plan.actions.iter().any(|action| {
            matches!(
                action,
                Action::PostHeatBeforeCold | Action::PostHeatAboveM90 | Action::HeatTreatStraightAfter
            )
        });
    let post_heat = if asked { post_heat_of(reference, job, parts, plan) } else { None };
    Some(Side {
        wait: strictest_wait(reference, job, parts),
        cooling,
        hardness,
        post_heat,
        tack: tack(plan),
        warm_zone: WarmZone {
            distance_mm: job.thickest_mm().max(reference.d11.warm_zone.min_mm),
            coldest_member: thickest_member(job),
        },
    })
}

/// Depth of a build-up that nobody told, mm.
const DEPTH_TAKEN_MM: f64 = 10.0;
/// The longest leg that a fillet is taken to have where nobody told it, mm.
const LEG_TAKEN_MM: f64 = 25.0;

/// The weld whose hydrogen is to leave, and whether its size was taken: a fillet as long in the
/// leg as its thinner part is thick, a butt weld through the thinner part.
fn weld_path(reference: &Reference, job: &Job) -> (WeldPath, bool) {
    let told_mm = job.weld.thickness_mm;
    let thinnest_mm = job.members.iter().map(|member| member.thickness_mm).fold(f64::INFINITY, f64::min);
    let layer_mm = told_mm.unwrap_or_else(|| DEPTH_TAKEN_MM.min(job.thickest_mm()));
    // A crack may go through: what nobody told of a repair is the whole thickness.
    let gouge_mm = told_mm.unwrap_or(f64::INFINITY).min(job.thickest_mm());
    let taken = told_mm.is_none();
    match job.joint {
        joint if joint.has_fillet() => match told_mm {
            Some(throat_mm) => (WeldPath::Fillet { throat_mm }, false),
            None => (WeldPath::fillet_of_leg(thinnest_mm.min(LEG_TAKEN_MM)), true),
        },
        Joint::RunOnShaft => (WeldPath::BuildUp { depth_mm: layer_mm }, taken),
        Joint::Repair => (WeldPath::Repair { depth_mm: gouge_mm }, taken),
        joint => {
            let through = match joint {
                Joint::BarToBar => WeldPath::BarToBar { diameter_mm: thinnest_mm },
                _ => WeldPath::FullButt { thickness_mm: thinnest_mm, one_face_closed: false },
            };
            // A groove holds no more than a weld through the whole part: it is as clean no later.
            let left = reference.post_heat.left;
            let depth = told_mm.filter(|told_mm| *told_mm < thinnest_mm);
            let groove = depth
                .map(|depth_mm| WeldPath::PartGroove { depth_mm })
                .filter(|groove| groove.spread_mm2(reference, left) < through.spread_mm2(reference, left));
            (groove.unwrap_or(through), taken)
        }
    }
}

/// Post-heat for the weld of this job, between its minimum and the lower of interpass and
/// ceiling.
fn post_heat_of(reference: &Reference, job: &Job, parts: &[Part<'_>], plan: &Plan) -> Option<PostHeat> {
    let minimum_c = plan.minimum.as_ref().map_or(job.shop_c.max(0.0), |limit| limit.exact_c);
    let interpass_c = plan.interpass.as_ref()?.exact_c;
    let most_c = plan.ceiling.exact_c().map_or(interpass_c, |ceiling_c| interpass_c.min(ceiling_c));
    let most_of = |element| {
        let shares = parts.iter().filter(|part| part.hardens());
        shares.map(|part| part.chemistry.composition.get(element)).reduce(f64::max)
    };
    let (weld, size_taken) = weld_path(reference, job);
    let asked = PostHeatQuery {
        weld,
        hydrogen_ml: job.hydrogen_ml(),
        minimum_c: minimum_c.min(most_c),
        most_c,
        m90_c: plan.ms_m90_c.map(|(_, m90_c)| m90_c),
        chromium_percent: most_of(Element::Cr),
        vanadium_percent: most_of(Element::V),
        austenitic_weld_metal: job.weld.austenitic,
    };
    let answer = hold_after_welding(reference, &asked).ok()?;
    let hours = |answer: &PostHeatAnswer| answer.main.as_ref().map(Hold::shown_h);
    let quartered = || PostHeatQuery { weld: weld.quartered(), ..asked };
    let shorter =
        || hold_after_welding(reference, &quartered()).ok().as_ref().and_then(hours) < hours(&answer);
    let size_matters = size_taken && shorter();
    Some(PostHeat { answer, weld, size_taken, size_matters })
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

/// Tacks cool fastest: 40 K more than the exact minimum, up to the interpass; where the window is
/// too narrow for it, its hottest 10 K.
fn tack(plan: &Plan) -> Option<(f64, Edge)> {
    let (minimum, most) = (plan.minimum.as_ref()?, plan.interpass.as_ref()?);
    plan.usable_window.then(|| (tack_from_c(minimum.exact_c, most.exact_c), Edge::of(most)))
}

/// From which temperature a tack is made, °C, by the exact minimum and maximum.
#[must_use]
pub fn tack_from_c(minimum_c: f64, maximum_c: f64) -> f64 {
    (minimum_c + TACK_MORE_K).min(maximum_c - TACK_ROOM_K).max(minimum_c)
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
