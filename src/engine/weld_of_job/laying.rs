//! Where are the tacks, and in which order are the runs laid?

use crate::engine::EngineError;
use crate::engine::job::{Job, Joint, Process};
use crate::engine::plan::Plan;
use crate::engine::treatment;
use crate::engine::weld::order::{
    Deed, Face, TACK_SPACING_MM, Tacks, faces, line_tack, ring, ring_order, ring_tacks, segments,
};
use crate::reference::Assembly;

/// Steel whose yield strength is not known counts as strong: longer tacks, MPa.
const STRONG_MPA: f64 = 501.0;
/// A tack's share of a short weld (common practice).
const SHORT_TACK_SHARE: f64 = 1.0 / 3.0;
/// Step of a line by the process, mm: about what one rod lays (common practice).
const STEP_MM: f64 = 100.0;
/// The same for TIG, and at a corner.
const SHORT_STEP_MM: f64 = 60.0;

/// How the weld lies.
#[derive(Debug, Clone, PartialEq)]
pub enum Laying {
    /// Round a pin or between two bars.
    Ring(Ring),
    /// Along a line whose length nobody told.
    Line {
        /// Length of one tack, mm, and its runs.
        tack: (f64, u8),
        /// Step of a run, mm.
        step_mm: f64,
        /// Is the weld so short that a tack at each end is enough?
        short: bool,
        /// On both sides of a part?
        both: bool,
        /// The joint, which may have its own order.
        joint: Joint,
    },
    /// Beads along a shaft.
    Along,
    /// In a cavity.
    Cavity,
    /// Round a pin whose diameter is not told.
    NoDiameter,
}

impl Laying {
    /// Length of the weld on one part, mm: round its pin on every face, or as told of a line; none where it
    /// is not known.
    #[must_use]
    pub(super) fn length_mm(&self, told_mm: Option<f64>, leg_mm: f64) -> Option<f64> {
        match self {
            // The weld runs about the middle of its leg.
            Self::Ring(ring) => {
                Some(std::f64::consts::PI * (ring.diameter_mm + leg_mm) * if ring.both { 2.0 } else { 1.0 })
            }
            Self::Line { both, .. } => told_mm.map(|mm| if *both { 2.0 * mm } else { mm }),
            Self::Along | Self::Cavity | Self::NoDiameter => None,
        }
    }
}

/// A weld round a pin.
#[derive(Debug, Clone, PartialEq)]
pub struct Ring {
    /// Diameter, mm.
    pub diameter_mm: f64,
    /// Is the pin held by a shrink fit?
    pub shrunk: bool,
    /// Is it welded on both faces?
    pub both: bool,
    /// Its tacks.
    pub tacks: Tacks,
    /// Its segments, from 0, in the order in which they are made.
    pub segments: Vec<usize>,
    /// Every deed, where the runs are known.
    pub deeds: Vec<Deed>,
}

impl Ring {
    /// Length of one segment, mm.
    #[must_use]
    #[allow(clippy::cast_precision_loss, reason = "a small count of segments")]
    pub fn segment_mm(&self) -> f64 {
        std::f64::consts::PI * self.diameter_mm / self.segments.len() as f64
    }
}

/// The order of runs over the faces: A1 B1 B2 A2 …
#[must_use]
pub fn faces_in_turn(passes: usize, both: bool) -> Vec<(Face, usize)> {
    (1..=passes).flat_map(|pass| faces(pass, both).iter().map(move |face| (*face, pass))).collect()
}

/// How the weld of a job lies.
///
/// # Errors
/// A diameter or a thickness that no weld has.
pub(super) fn laying(
    job: &Job,
    passes: Option<usize>,
    length_mm: Option<f64>,
) -> Result<Laying, EngineError> {
    let round = job.members.iter().find(|member| member.round).map(|member| member.thickness_mm);
    match (job.joint, round) {
        (Joint::BossThrough, None) => Ok(Laying::NoDiameter),
        (Joint::BossThrough, Some(diameter)) => {
            let fitted = [Assembly::HotHub, Assembly::DryIce, Assembly::Nitrogen];
            let shrunk = job.safety.assembly.is_some_and(|how| fitted.contains(&how));
            ring_of(diameter, shrunk, true, passes)
        }
        (Joint::BarToBar, Some(diameter)) => ring_of(diameter, false, false, None),
        (Joint::RunOnShaft, _) => Ok(Laying::Along),
        (Joint::Repair, _) => Ok(Laying::Cavity),
        (joint, _) => {
            let yields = job.members.iter().filter_map(treatment::yield_mpa).reduce(f64::max);
            let tig = job.runs.iter().any(|run| run.process == Process::Gtaw);
            let (tack_mm, runs) = line_tack(job.thickest_mm(), yields.unwrap_or(STRONG_MPA))?;
            // Of a short weld a tack is a third at most, and one step lays it.
            let most = |mm: f64, share: f64| length_mm.map_or(mm, |length| mm.min(share * length));
            Ok(Laying::Line {
                tack: (most(tack_mm, SHORT_TACK_SHARE), runs),
                short: length_mm.is_some_and(|length| length < TACK_SPACING_MM),
                step_mm: most(if tig || joint == Joint::Corner { SHORT_STEP_MM } else { STEP_MM }, 1.0),
                both: joint == Joint::TFilletBothSides,
                joint,
            })
        }
    }
}

fn ring_of(diameter_mm: f64, shrunk: bool, both: bool, passes: Option<usize>) -> Result<Laying, EngineError> {
    let tacks = ring_tacks(diameter_mm, shrunk)?;
    let deeds = match passes {
        Some(passes) => ring(diameter_mm, passes, both, shrunk)?,
        None => Vec::new(),
    };
    let segments = ring_order(segments(diameter_mm));
    Ok(Laying::Ring(Ring { diameter_mm, shrunk, both, tacks, segments, deeds }))
}

/// Temperature of the tacks, °C: low, and the plan's maximum interpass, which they never pass.
#[must_use]
pub fn tack_c(plan: &Plan) -> Option<(f64, f64)> {
    plan.side.as_ref().and_then(|side| side.tack).map(|(low_c, high)| (low_c, high.most_c()))
}
