//! What would lower the minimum or open the window?
//!
//! Each lever is the whole plan run again with one thing changed: hydrogen one class
//! down, as far as the process and its consumable can give it; heat input + 25 %; the heat input
//! that brings t8/5 to 20 s where a long one shuts the window; a certificate in place of the
//! grade; a hard skin ground off; a buttering layer.
//! Levers that gain nothing are left out, and so are those that push t8/5 out of 5-20 s, or
//! further out. Helps without a published number (weaker filler, sequence, shrink fit) are named
//! by the screen, never counted.

use strum::IntoStaticStr;

use super::figures::{Figures, figures};
use super::side;
use super::upper::LEAST_WINDOW_K;
use crate::engine::family::Family;
use crate::engine::job::{Alloy, Condition, Job, Member, Run, Steel};
use crate::engine::part::Part;
use crate::reference::{ConditionKind, Element, Process, Reference};

/// Upper ends of the hydrogen classes of EN 1011-2, ml/100 g.
const CLASS_ENDS_ML: [f64; 4] = [3.0, 5.0, 10.0, 15.0];
/// The heat-input lever.
const MORE_HEAT: f64 = 1.25;
/// Times of t8/5 closer than this are the same, s.
const SAME_S: f64 = 1e-6;
/// Rounds in which heat input and minimum settle.
const ROUNDS: usize = 6;
/// A gain under this is no gain, K.
const NO_GAIN_K: f64 = 1.0;

/// What is changed.
#[derive(Debug, Clone, Copy, PartialEq, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Change {
    /// Hydrogen one class down.
    HydrogenDown {
        /// From, ml/100 g.
        from_ml: f64,
        /// To, ml/100 g.
        to_ml: f64,
    },
    /// More heat input.
    MoreHeat {
        /// From, kJ/mm net.
        from_kj_per_mm: f64,
        /// To, kJ/mm net.
        to_kj_per_mm: f64,
    },
    /// Less heat input: t8/5 would be too long even at the minimum.
    LessHeat {
        /// From, kJ/mm net.
        from_kj_per_mm: f64,
        /// To, kJ/mm net.
        to_kj_per_mm: f64,
    },
    /// Every hard skin ground off: a part is then as its core is.
    SkinOff,
    /// A test that shows how little alloy a part without a mark has.
    LittleAlloy {
        /// The member.
        member: usize,
    },
    /// A certificate in place of the grade; counted at what it would likely read.
    Certificate,
    /// A buttering layer on this member, put on at the member's own minimum.
    Buttering {
        /// The member.
        member: usize,
    },
}

impl Change {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// A lever with what it gains.
#[derive(Debug, Clone, PartialEq)]
pub struct Lever {
    /// What is changed.
    pub change: Change,
    /// The minimum with it, as shown, °C; 0 when none is needed.
    pub minimum_c: f64,
    /// The same before rounding, °C.
    pub exact_c: f64,
    /// The interpass with it, as shown, °C.
    pub interpass_c: f64,
    /// The same before rounding, °C.
    pub interpass_exact_c: f64,
    /// Does it open a window that is not there?
    pub opens: bool,
}

/// The levers of a job that gain something, best first.
#[must_use]
pub(super) fn levers(reference: &Reference, job: &Job, parts: &[Part<'_>], now: &Figures) -> Vec<Lever> {
    let Some(now_c) = now.minimum_c else { return Vec::new() };
    if !parts.iter().any(Part::by_methods) || (now_c <= 0.0 && now.usable) {
        return Vec::new();
    }
    let before = spans(reference, job, parts, now);
    let mut found: Vec<Lever> = changes(reference, job, parts, now)
        .into_iter()
        .filter_map(|(change, changed)| {
            let then = figures(reference, &changed)?;
            let minimum_c = then.minimum_c?;
            let opens = then.usable && !now.usable;
            // A layer that can't be laid is no help.
            if matches!(change, Change::Buttering { .. }) && !then.usable {
                return None;
            }
            if pushes_out(&before, &spans(reference, &changed, &Part::all(&changed), &then)) {
                return None;
            }
            let exact_c = then.exact_c.unwrap_or(0.0);
            let gains = exact_c <= now.exact_c.unwrap_or(0.0) - NO_GAIN_K && minimum_c < now_c;
            (gains || opens).then_some(Lever {
                change,
                minimum_c,
                exact_c,
                interpass_c: then.interpass_c,
                interpass_exact_c: then.upper.interpass.exact_c,
                opens,
            })
        })
        .collect();
    found.sort_by(|a, b| b.opens.cmp(&a.opens).then(a.minimum_c.total_cmp(&b.minimum_c)));
    found
}

/// t8/5 at both ends of the window of each member that minds it, s.
fn spans(reference: &Reference, job: &Job, parts: &[Part<'_>], figures: &Figures) -> Vec<(f64, f64)> {
    side::cooling_time(reference, job, parts, figures.minimum_c.unwrap_or(0.0), figures.interpass_c)
        .into_iter()
        .filter(|time| parts[time.member].minds_cooling_time())
        .map(|time| (time.fastest_s, time.slowest_s))
        .collect()
}

/// Does any t8/5 leave its span, or leave it by more?
fn pushes_out(before: &[(f64, f64)], after: &[(f64, f64)]) -> bool {
    let (low_s, high_s) = side::QT_SPAN_S;
    before
        .iter()
        .zip(after)
        .any(|(was, is)| is.0 < low_s.min(was.0) - SAME_S || is.1 > high_s.max(was.1) + SAME_S)
}

/// The heat input at which t8/5 of every member that minds it is 20 s at the minimum that this
/// heat input itself asks for, kJ/mm; `None` where a long t8/5 shuts nothing.
fn less_heat(reference: &Reference, job: &Job, parts: &[Part<'_>], now: &Figures) -> Option<(Change, Job)> {
    if !now.upper.too_slow {
        return None;
    }
    let most = |job: &Job| job.runs.iter().map(|run| run.net_heat_kj_per_mm).fold(0.0, f64::max);
    let mut changed = job.clone();
    let mut minimum_c = now.exact_c.unwrap_or(0.0).max(job.shop_c);
    for _ in 0..ROUNDS {
        let to = parts
            .iter()
            .filter(|part| part.minds_cooling_time())
            .map(|part| {
                let (_, slow) = side::welds(reference, job, part.member.thickness_mm);
                slow.heat_for_kj_per_mm(minimum_c + LEAST_WINDOW_K, side::QT_SPAN_S.1)
            })
            .fold(f64::INFINITY, f64::min);
        // Two figures, downwards: so it is said, and so it is counted.
        let to = (to * 100.0).floor() / 100.0;
        if !to.is_finite() || to <= 0.0 {
            return None;
        }
        for (run, first) in changed.runs.iter_mut().zip(&job.runs) {
            run.net_heat_kj_per_mm = first.net_heat_kj_per_mm.min(to);
        }
        minimum_c = figures(reference, &changed)?.exact_c?.max(job.shop_c);
    }
    let change = Change::LessHeat { from_kj_per_mm: most(job), to_kj_per_mm: most(&changed) };
    Some((change, changed))
}

/// The hard skins of a job, off: nothing is known of a core's own temper.
fn skin_off(job: &Job) -> Option<(Change, Job)> {
    let skinned = |kind| matches!(kind, ConditionKind::CaseHardened | ConditionKind::InductionHardened);
    let mut changed = job.clone();
    let mut any = false;
    for part in changed.members.iter_mut().filter(|part| skinned(part.condition.kind)) {
        part.condition = Condition { kind: ConditionKind::Unknown, temper_c: None };
        part.hardness_hv = None;
        any = true;
    }
    any.then_some((Change::SkinOff, changed))
}

/// The first part without a mark that a test may yet show to have little alloy, with as much carbon.
fn little_alloy(reference: &Reference, job: &Job) -> Option<(Change, Job)> {
    let data = &reference.unmarked;
    let lean = |member: &Member| match &member.steel {
        Steel::Unmarked { composition, alloy: Alloy::Rich, maybe_tool } => {
            let carbon = composition.get(Element::C);
            (carbon <= data.lean_up_to).then(|| Steel::Unmarked {
                composition: data.lean.composition.with(Element::C, carbon),
                alloy: Alloy::Lean,
                maybe_tool: *maybe_tool,
            })
        }
        _ => None,
    };
    let (member, steel) =
        job.members.iter().enumerate().find_map(|(at, member)| Some((at, lean(member)?)))?;
    let mut changed = job.clone();
    // Parts that are alike are of one bar.
    for part in changed.members.iter_mut().filter(|part| part.steel == job.members[member].steel) {
        part.steel = steel.clone();
    }
    Some((Change::LittleAlloy { member }, changed))
}

fn changes(reference: &Reference, job: &Job, parts: &[Part<'_>], now: &Figures) -> Vec<(Change, Job)> {
    let mut made = Vec::with_capacity(4);
    let from_ml = job.hydrogen_ml();
    let least_ml = |run: &Run| reference.process(run.process.id()).map_or(0.0, Process::hydrogen_least_ml);
    if let Some(to_ml) = CLASS_ENDS_ML.into_iter().rev().find(|&end_ml| end_ml < from_ml)
        && job.runs.iter().all(|run| least_ml(run) <= to_ml)
        // The oil's own hydrogen goes with the oil alone.
        && !(job.repair.oil_soaked || job.repair.oil_open)
    {
        let mut changed = job.clone();
        for run in &mut changed.runs {
            run.hydrogen_ml = run.hydrogen_ml.min(to_ml);
        }
        made.push((Change::HydrogenDown { from_ml, to_ml }, changed));
    }
    let from_kj_per_mm = job.net_heat_kj_per_mm();
    let mut changed = job.clone();
    for run in &mut changed.runs {
        run.net_heat_kj_per_mm *= MORE_HEAT;
    }
    made.push((Change::MoreHeat { from_kj_per_mm, to_kj_per_mm: from_kj_per_mm * MORE_HEAT }, changed));
    if parts.iter().any(|part| part.chemistry.grade_only && part.by_methods()) {
        let mut changed = job.clone();
        for (member, part) in changed.members.iter_mut().zip(parts) {
            if let Steel::Grade(grade) = &member.steel {
                member.steel =
                    Steel::Certificate { composition: part.chemistry.likely, grade: Some(grade.clone()) };
            }
        }
        made.push((Change::Certificate, changed));
    }
    made.extend(little_alloy(reference, job));
    made.extend(less_heat(reference, job, parts, now));
    made.extend(skin_off(job));
    made.extend(buttering(job, parts, now));
    made
}

/// Buttering takes a hardenable member's own heat-affected zone out of the final joint:
/// what is left is asked of the other member and the weld metal. Its other limits stay.
///
/// Where the need of one part closes the other's window (steel on cast iron or on austenitic
/// stainless steel) the part that asks for the most is buttered, at its own minimum, and the last
/// joint keeps the other part's figures: the two are never blended.
fn buttering(job: &Job, parts: &[Part<'_>], now: &Figures) -> Option<(Change, Job)> {
    if job.members.len() < 2 {
        return None;
    }
    let may = |part: &Part<'_>| !part.member.buttered && part.family.traits().hardens;
    let asks_most = now.minimum.limit.as_ref().and_then(|limit| limit.member);
    let closes = asks_most.filter(|&member| !now.usable && may(&parts[member]));
    let hardens =
        |part: &Part<'_>| may(part) && (part.family.traits().hardens_through || part.family == Family::Tool);
    let member = closes.or_else(|| parts.iter().position(hardens))?;
    let mut changed = job.clone();
    changed.members[member].buttered = true;
    Some((Change::Buttering { member }, changed))
}
