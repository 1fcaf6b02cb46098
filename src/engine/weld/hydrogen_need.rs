//! How little hydrogen must the filler of this joint bring?

use crate::engine::job::Restraint;
use crate::reference::HydrogenRows;

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

/// The most hydrogen that a filler may bring, the strictest row of `data/weld_strength.ron` that holds: lean
/// and thin, else usual, rich or held stiffly.
#[must_use]
pub fn hydrogen_need(rows: &HydrogenRows, joint: &HydrogenJoint) -> HydrogenNeed {
    let hardest =
        joint.carbon > rows.hardest_carbon || joint.hardness_hv.is_some_and(|hv| hv > rows.hardest_from_hv);
    let rich =
        joint.ce > rows.rich_ce || joint.carbon > rows.rich_carbon || joint.restraint == Restraint::High;
    let most_ml = if hardest || rich {
        rows.rich_ml
    } else if joint.ce < rows.lean_ce && joint.thickness_mm < rows.thin_below_mm {
        rows.thin_ml
    } else {
        rows.usual_ml
    };
    let lean = !hardest && joint.carbon <= rows.lean_carbon && joint.ce <= rows.lean_ce;
    HydrogenNeed { most_ml, driest_process: hardest, lean }
}
