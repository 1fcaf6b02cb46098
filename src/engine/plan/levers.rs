//! What would lower the minimum or open the window?
//!
//! Each lever is the whole plan run again with one thing changed: hydrogen one class
//! down, heat input + 25 %, a certificate in place of the grade, a buttering layer.
//! Levers that gain nothing are left out. Helps without a published number (weaker
//! filler, sequence, shrink fit) are named by the screen, never counted.

use strum::IntoStaticStr;

use super::figures::{Figures, figures};
use crate::engine::family::Family;
use crate::engine::job::{Job, Steel};
use crate::engine::part::Part;
use crate::reference::Reference;

/// Upper ends of the hydrogen classes of EN 1011-2, ml/100 g.
const CLASS_ENDS_ML: [f64; 4] = [3.0, 5.0, 10.0, 15.0];
/// The heat-input lever.
const MORE_HEAT: f64 = 1.25;
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
    if !parts.iter().any(Part::by_methods) || now_c <= 0.0 {
        return Vec::new();
    }
    let mut found: Vec<Lever> = changes(job, parts)
        .into_iter()
        .filter_map(|(change, changed)| {
            let then = figures(reference, &changed)?;
            let minimum_c = then.minimum_c?;
            let opens = then.usable && !now.usable;
            // A layer that can't be laid is no help.
            if matches!(change, Change::Buttering { .. }) && !then.usable {
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

fn changes(job: &Job, parts: &[Part<'_>]) -> Vec<(Change, Job)> {
    let mut made = Vec::with_capacity(4);
    let from_ml = job.hydrogen_ml();
    if let Some(to_ml) = CLASS_ENDS_ML.into_iter().rev().find(|&end_ml| end_ml < from_ml) {
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
    made.extend(buttering(job, parts));
    made
}

/// Buttering takes a hardenable member's own heat-affected zone out of the final joint:
/// what is left is asked of the other member and the weld metal. Its other limits stay.
fn buttering(job: &Job, parts: &[Part<'_>]) -> Option<(Change, Job)> {
    let hardens = |part: &Part<'_>| {
        (part.family.traits().hardens_through || part.family == Family::Tool) && !part.member.buttered
    };
    let member = parts.iter().position(hardens)?;
    if job.members.len() < 2 {
        return None;
    }
    let mut changed = job.clone();
    changed.members[member].buttered = true;
    Some((Change::Buttering { member }, changed))
}
