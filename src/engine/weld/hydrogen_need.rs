//! How little hydrogen must the filler of this joint bring?

use crate::engine::job::Restraint;

/// Figures of the table, each common practice without a source; beside it stand AWS D1.5 for
/// fracture-critical members and AWS D1.1, which ask 4 to 16 ml/100 g.
const LEAN_CE: f64 = 0.45;
const RICH_CE: f64 = 0.60;
const LEAN_CARBON: f64 = 0.25;
const HARD_CARBON: f64 = 0.30;
const HARDEST_CARBON: f64 = 0.45;
const THIN_BELOW_MM: f64 = 20.0;
const HARD_FROM_HV: f64 = 350.0;

/// What the joint is told by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HydrogenJoint {
    /// CE(IIW) of the richest part, %.
    pub ce: f64,
    /// Carbon of the richest part, %.
    pub carbon: f64,
    /// The thicker part, mm.
    pub thickness_mm: f64,
    /// How stiffly it is held.
    pub restraint: Restraint,
    /// The hardest part, HV, where one is measured.
    pub hardness_hv: Option<f64>,
}

/// The need of a joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HydrogenNeed {
    /// At most so much, ml in 100 g.
    pub most_ml: f64,
    /// So hardenable that TIG, or austenitic or nickel filler, is needed as well?
    pub driest_process: bool,
    /// So lean that rutile and cellulosic electrodes stay in use?
    pub lean: bool,
}

/// The most hydrogen that a filler may bring, the strictest row that holds (common practice): lean and
/// thin 16 ml/100 g, else 10, rich or held stiffly 5.
#[must_use]
pub fn hydrogen_need(joint: &HydrogenJoint) -> HydrogenNeed {
    let hardest = joint.carbon > HARDEST_CARBON || joint.hardness_hv.is_some_and(|hv| hv > HARD_FROM_HV);
    let rich = joint.ce > RICH_CE || joint.carbon > HARD_CARBON || joint.restraint == Restraint::High;
    let most_ml = if hardest || rich {
        5.0
    } else if joint.ce < LEAN_CE && joint.thickness_mm < THIN_BELOW_MM {
        16.0
    } else {
        10.0
    };
    let lean = !hardest && joint.carbon <= LEAN_CARBON && joint.ce <= LEAN_CE;
    HydrogenNeed { most_ml, driest_process: hardest, lean }
}
