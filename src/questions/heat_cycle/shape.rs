//! The joint that a heat cycle is asked of: what is told of it, and what is usual where nothing is.

use strum::VariantNames;

use super::{Answers, Problem};
use crate::engine::heat_cycle::{JointShape, REACH_MM};
use crate::engine::job::Joint;

/// All joints have a section.
pub(super) const JOINTS: &[&str] = Joint::VARIANTS;
pub(super) const JOINT: &str = "joint";
pub(super) const FIRST: &str = "first-thickness";
pub(super) const SECOND: &str = "second-thickness";
pub(super) const LEG: &str = "leg";
pub(super) const DEPTH: &str = "groove-depth";
pub(super) const WIDTH: &str = "groove-width";
pub(super) const PLATE_WIDTH: &str = "plate-width";
pub(super) const PLATE_LENGTH: &str = "plate-length";

const BUTT: &str = "butt";
const REPAIR: &str = "repair";
const SHAFT: &str = "run-on-shaft";
const BARS: &str = "bar-to-bar";
/// Joints with fillets.
pub(super) const FILLETS: &[&str] =
    &["t-fillet-one-side", "t-fillet-both-sides", "lap", "corner", "boss-through"];
/// Joints of two parts.
pub(super) const TWO_PARTS: &[&str] =
    &[BUTT, "t-fillet-one-side", "t-fillet-both-sides", "lap", "corner", "boss-through", BARS];
/// Joints with a plate that has a width.
pub(super) const FLAT: &[&str] =
    &[BUTT, "t-fillet-one-side", "t-fillet-both-sides", "lap", "corner", "boss-through", REPAIR];
/// Joints whose weld has a depth of its own.
pub(super) const WITH_DEPTH: &[&str] = &[SHAFT, REPAIR, BARS];
/// Joints whose weld has a width of its own.
pub(super) const WITH_WIDTH: &[&str] = &[BUTT, SHAFT, REPAIR, BARS];

/// A joint, with what was assumed of it.
pub(super) struct Told {
    pub(super) shape: JointShape,
    /// Length of a flat part along its weld, where that is told.
    pub(super) part_length_mm: Option<f64>,
    /// Welds that each layer goes round.
    pub(super) welds: usize,
    /// What is usual and nobody told: ids of notes.
    pub(super) notes: Vec<&'static str>,
}

fn needed(given: &Answers, key: &'static str) -> Result<f64, Problem> {
    given.maybe_number(key).ok_or_else(|| Problem::Missing { keys: vec![key] })
}

/// The joint, of its usual sizes where no others are told.
pub(super) fn told(given: &Answers) -> Result<Told, Problem> {
    let wrong = || Problem::WrongKind { key: JOINT };
    let id = given.maybe_choice(JOINT).ok_or_else(wrong)?;
    let joint = *Joint::ALL.iter().find(|joint| joint.id() == id).ok_or_else(wrong)?;
    let first_mm = given.number(FIRST)?;
    let alone = matches!(joint, Joint::Repair | Joint::RunOnShaft);
    let second_mm = if alone { first_mm } else { needed(given, SECOND)? };
    let leg_mm = if joint.has_fillet() { needed(given, LEG)? } else { 0.0 };
    let (width_mm, along_mm) = (given.maybe_number(PLATE_WIDTH), given.maybe_number(PLATE_LENGTH));
    let weld = (given.maybe_number(DEPTH), given.maybe_number(WIDTH));
    let mut shape = JointShape::usual(joint, first_mm, second_mm, leg_mm);
    let half = |usual_mm: f64| width_mm.map_or(usual_mm, |width_mm| width_mm / 2.0);
    let mut notes = Vec::new();
    let mut note_if = |yes: bool, note| notes.extend(yes.then_some(note));
    let round = matches!(joint, Joint::BossThrough | Joint::RunOnShaft | Joint::BarToBar);
    let sizes = matches!(joint, Joint::BossThrough) && along_mm.is_none();
    note_if(
        !matches!(joint, Joint::RunOnShaft | Joint::BarToBar) && (width_mm.is_none() || sizes),
        "heat-usual-sizes",
    );
    match &mut shape {
        JointShape::BossThrough { plate_width_mm, plate_length_mm, .. } => {
            *plate_width_mm = width_mm.unwrap_or(*plate_width_mm);
            *plate_length_mm = along_mm.unwrap_or(*plate_length_mm);
            note_if(true, "heat-usual-boss");
        }
        JointShape::Tee { half_width_mm, length_mm, .. } => {
            *half_width_mm = half(*half_width_mm);
            *length_mm = along_mm.unwrap_or(*length_mm);
            note_if(true, "heat-usual-web");
        }
        JointShape::Lap { overlap_mm, lower_reach_mm, upper_reach_mm, length_mm, .. } => {
            (*lower_reach_mm, *upper_reach_mm) = (half(REACH_MM), half(REACH_MM));
            *overlap_mm = overlap_mm.min(*upper_reach_mm);
            *length_mm = along_mm.unwrap_or(*length_mm);
            note_if(true, "heat-usual-lap");
        }
        JointShape::Butt { gap_mm, angle_deg, half_width_mm, length_mm, .. } => {
            *half_width_mm = half(*half_width_mm);
            *length_mm = along_mm.unwrap_or(*length_mm);
            if let Some(width_mm) = weld.1 {
                let slope = (width_mm - *gap_mm).max(0.0) / 2.0 / first_mm.min(second_mm);
                *angle_deg = 2.0 * slope.atan().to_degrees();
            }
            note_if(true, if weld.1.is_some() { "heat-usual-gap" } else { "heat-usual-groove" });
        }
        JointShape::Repair { depth_mm, width_mm, half_width_mm, length_mm, .. } => {
            *depth_mm = needed(given, DEPTH)?;
            *width_mm = weld.1.unwrap_or(2.0 * *depth_mm);
            *half_width_mm = half(*half_width_mm);
            *length_mm = along_mm.map_or(*length_mm, |along_mm| length_mm.min(along_mm));
            note_if(true, if weld.1.is_some() { "heat-usual-cavity-length" } else { "heat-usual-cavity" });
        }
        JointShape::RunOnShaft { layer_mm, band_mm, shaft_length_mm, .. } => {
            *layer_mm = needed(given, DEPTH)?;
            *band_mm = weld.1.unwrap_or(*band_mm);
            *shaft_length_mm = along_mm.unwrap_or(*shaft_length_mm);
            note_if(weld.1.is_none(), "heat-usual-band");
            note_if(along_mm.is_none(), "heat-usual-shaft");
        }
        JointShape::BarToBar { first_length_mm, second_length_mm, root_radius_mm, groove_mm, .. } => {
            *groove_mm = weld.1.unwrap_or(*groove_mm);
            if let Some(depth_mm) = weld.0 {
                *root_radius_mm = (first_mm.min(second_mm) / 2.0 - depth_mm).max(LEAST_ROOT_MM);
            }
            if let Some(along_mm) = along_mm {
                (*first_length_mm, *second_length_mm) = (along_mm / 2.0, along_mm / 2.0);
            }
            note_if(weld.0.is_none() || weld.1.is_none(), "heat-usual-bars");
            note_if(along_mm.is_none(), "heat-usual-bar-length");
        }
    }
    note_if(!round && along_mm.is_none() && joint != Joint::Repair, "heat-usual-length");
    let both = matches!(joint, Joint::BossThrough | Joint::TFilletBothSides);
    let part_length_mm = along_mm.filter(|_| !round);
    Ok(Told { shape, part_length_mm, welds: if both { 2 } else { 1 }, notes })
}

/// A bar that is welded through keeps a root of this radius in the model, mm.
const LEAST_ROOT_MM: f64 = 1.0;
