//! What does the joint look like, and how far does the part go?

use super::Refusal;
use crate::engine::error::Domain;
use crate::engine::job::Joint;

/// How far a part goes where nobody said, mm. A longer part is usually slower to heat and cools
/// its joint faster.
pub const REACH_MM: f64 = 300.0;
/// The same for welded bars, mm.
pub const BAR_REACH_MM: f64 = 250.0;
/// Length of a weld that nobody said, mm.
pub const WELD_LENGTH_MM: f64 = 300.0;

/// Which tee.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TeeKind {
    /// Fillets on both sides of the web.
    BothSides,
    /// A fillet on one side.
    OneSide,
    /// The plate ends under the web; the fillet lies in the inside corner.
    Corner,
}

/// A joint with its sizes, mm. Reaches are measured from the middle of the joint, not from the
/// toe of the weld.
#[derive(Debug, Clone, Copy, PartialEq)]
#[allow(missing_docs, reason = "each field is a size by its name; the recipe says where it lies")]
pub enum JointShape {
    /// A boss or pin through a plate, a fillet on each face; weld 0 the upper, weld 1 the lower.
    BossThrough {
        plate_mm: f64,
        diameter_mm: f64,
        boss_length_mm: f64,
        plate_width_mm: f64,
        plate_length_mm: f64,
        leg_mm: f64,
    },
    /// A web on a plate; weld 0 on the right, weld 1 on the left.
    Tee {
        kind: TeeKind,
        plate_mm: f64,
        web_mm: f64,
        leg_mm: f64,
        half_width_mm: f64,
        web_height_mm: f64,
        length_mm: f64,
    },
    /// A plate on a plate.
    Lap {
        lower_mm: f64,
        upper_mm: f64,
        leg_mm: f64,
        overlap_mm: f64,
        lower_reach_mm: f64,
        upper_reach_mm: f64,
        length_mm: f64,
    },
    /// A single V through the thinner plate, both flush below.
    Butt { first_mm: f64, second_mm: f64, gap_mm: f64, angle_deg: f64, half_width_mm: f64, length_mm: f64 },
    /// A gouge that is filled.
    Repair { plate_mm: f64, depth_mm: f64, width_mm: f64, half_width_mm: f64, length_mm: f64 },
    /// A layer on a shaft, in a band at mid-length.
    RunOnShaft { diameter_mm: f64, layer_mm: f64, band_mm: f64, shaft_length_mm: f64 },
    /// Bar on bar, a groove all round.
    BarToBar {
        first_mm: f64,
        second_mm: f64,
        first_length_mm: f64,
        second_length_mm: f64,
        root_radius_mm: f64,
        groove_mm: f64,
    },
}

/// A member's thickness, mm.
const MEMBER: Domain = Domain::new("t", 3.0, 400.0);
/// How far a part goes, mm.
const REACH: Domain = Domain::new("L", 3.0, 5000.0);

impl JointShape {
    /// A joint of which only thickness and leg are known: what the first part and the second
    /// part of the sketch are as thick as, mm.
    #[must_use]
    pub fn usual(joint: Joint, first_mm: f64, second_mm: f64, leg_mm: f64) -> Self {
        let tee = |kind| Self::Tee {
            kind,
            plate_mm: first_mm,
            web_mm: second_mm,
            leg_mm,
            half_width_mm: REACH_MM,
            web_height_mm: REACH_MM,
            length_mm: WELD_LENGTH_MM,
        };
        match joint {
            Joint::BossThrough => Self::BossThrough {
                plate_mm: first_mm,
                diameter_mm: second_mm,
                boss_length_mm: first_mm + 2.0 * (second_mm / 2.0).max(40.0),
                plate_width_mm: 2.0 * REACH_MM,
                plate_length_mm: 2.0 * REACH_MM,
                leg_mm,
            },
            Joint::TFilletBothSides => tee(TeeKind::BothSides),
            Joint::TFilletOneSide => tee(TeeKind::OneSide),
            Joint::Corner => tee(TeeKind::Corner),
            Joint::Lap => Self::Lap {
                lower_mm: first_mm,
                upper_mm: second_mm,
                leg_mm,
                overlap_mm: 100.0,
                lower_reach_mm: REACH_MM,
                upper_reach_mm: REACH_MM,
                length_mm: WELD_LENGTH_MM,
            },
            Joint::Butt => Self::Butt {
                first_mm,
                second_mm,
                gap_mm: 3.0,
                angle_deg: 60.0,
                half_width_mm: REACH_MM,
                length_mm: WELD_LENGTH_MM,
            },
            Joint::Repair => Self::Repair {
                plate_mm: first_mm,
                depth_mm: 10.0,
                width_mm: 20.0,
                half_width_mm: REACH_MM,
                length_mm: 100.0,
            },
            Joint::RunOnShaft => Self::RunOnShaft {
                diameter_mm: first_mm,
                layer_mm: 3.0,
                band_mm: 40.0,
                shaft_length_mm: 2.0 * REACH_MM,
            },
            Joint::BarToBar => Self::BarToBar {
                first_mm,
                second_mm,
                first_length_mm: BAR_REACH_MM,
                second_length_mm: BAR_REACH_MM,
                root_radius_mm: 4.0,
                groove_mm: 16.0,
            },
        }
    }

    /// Beads side by side in a layer round a shaft; each covers some 8 mm of its band.
    #[must_use]
    pub fn beads(&self) -> Option<f64> {
        match *self {
            Self::RunOnShaft { band_mm, .. } => Some((band_mm / 8.0).round().max(1.0)),
            _ => None,
        }
    }

    /// What all runs of one weld lay, mm² of its cross-section; of a layer, what one bead lays.
    #[must_use]
    pub fn laid_mm2(&self) -> f64 {
        match *self {
            Self::BossThrough { leg_mm, .. } | Self::Tee { leg_mm, .. } | Self::Lap { leg_mm, .. } => {
                leg_mm * leg_mm / 2.0
            }
            Self::Butt { first_mm, second_mm, gap_mm, angle_deg, .. } => {
                let thin_mm = first_mm.min(second_mm);
                thin_mm * (gap_mm + thin_mm * (angle_deg.to_radians() / 2.0).tan())
            }
            Self::Repair { depth_mm, width_mm, .. } => depth_mm * width_mm,
            Self::RunOnShaft { layer_mm, band_mm, .. } => layer_mm * band_mm / self.beads().unwrap_or(1.0),
            // From a quarter of its width at the root to the whole outside.
            Self::BarToBar { first_mm, second_mm, root_radius_mm, groove_mm, .. } => {
                (first_mm.min(second_mm) / 2.0 - root_radius_mm) * groove_mm * 0.625
            }
        }
    }

    /// Length of the weld of a section that runs along, mm; none for round parts.
    #[must_use]
    pub const fn weld_length_mm(&self) -> Option<f64> {
        match *self {
            Self::Tee { length_mm, .. }
            | Self::Lap { length_mm, .. }
            | Self::Butt { length_mm, .. }
            | Self::Repair { length_mm, .. } => Some(length_mm),
            Self::BossThrough { .. } | Self::RunOnShaft { .. } | Self::BarToBar { .. } => None,
        }
    }

    /// The thickness that rules of measuring go by, mm: the plate's, not the boss's.
    #[must_use]
    pub const fn thickness_mm(&self) -> f64 {
        match *self {
            Self::BossThrough { plate_mm, .. } | Self::Repair { plate_mm, .. } => plate_mm,
            Self::Tee { plate_mm: one, web_mm: other, .. }
            | Self::Lap { lower_mm: one, upper_mm: other, .. }
            | Self::Butt { first_mm: one, second_mm: other, .. }
            | Self::BarToBar { first_mm: one, second_mm: other, .. } => {
                if one > other {
                    one
                } else {
                    other
                }
            }
            Self::RunOnShaft { diameter_mm, .. } => diameter_mm,
        }
    }

    /// Is it one that the model can cut?
    pub(super) fn check(&self) -> Result<(), Refusal> {
        let members = |sizes: &[f64]| sizes.iter().try_for_each(|&mm| MEMBER.check(mm).map(|_| ()));
        let reaches = |sizes: &[f64]| sizes.iter().try_for_each(|&mm| REACH.check(mm).map(|_| ()));
        // A weld no larger than half the way that its member goes.
        let weld = |symbol, mm: f64, most: f64| Domain::new(symbol, 2.0, most).check(mm).map(|_| ());
        match *self {
            Self::BossThrough {
                plate_mm,
                diameter_mm,
                boss_length_mm,
                plate_width_mm,
                plate_length_mm,
                leg_mm,
            } => {
                members(&[plate_mm, diameter_mm])?;
                reaches(&[boss_length_mm, plate_width_mm, plate_length_mm])?;
                let beyond = plate_width_mm.min(plate_length_mm) - diameter_mm;
                let ends = boss_length_mm - plate_mm;
                weld("z", leg_mm, beyond.min(ends) / 4.0)?;
            }
            Self::Tee { plate_mm, web_mm, leg_mm, half_width_mm, web_height_mm, length_mm, .. } => {
                members(&[plate_mm, web_mm])?;
                reaches(&[half_width_mm, web_height_mm, length_mm])?;
                weld("z", leg_mm, (half_width_mm - web_mm / 2.0).min(web_height_mm) / 2.0)?;
            }
            Self::Lap {
                lower_mm,
                upper_mm,
                leg_mm,
                overlap_mm,
                lower_reach_mm,
                upper_reach_mm,
                length_mm,
            } => {
                members(&[lower_mm, upper_mm])?;
                reaches(&[overlap_mm, lower_reach_mm, upper_reach_mm, length_mm])?;
                Domain::new("L", overlap_mm, f64::INFINITY).check(upper_reach_mm)?;
                weld("z", leg_mm, upper_mm.min(lower_reach_mm / 2.0))?;
            }
            Self::Butt { first_mm, second_mm, gap_mm, angle_deg, half_width_mm, length_mm } => {
                members(&[first_mm, second_mm])?;
                reaches(&[half_width_mm, length_mm])?;
                Domain::new("b", 0.0, 20.0).check(gap_mm)?;
                Domain::new("angle", 10.0, 120.0).check(angle_deg)?;
                let half_mm = gap_mm / 2.0 + first_mm.min(second_mm) * (angle_deg.to_radians() / 2.0).tan();
                Domain::new("w", 1.0, half_width_mm / 2.0).check(half_mm)?;
            }
            Self::Repair { plate_mm, depth_mm, width_mm, half_width_mm, length_mm } => {
                members(&[plate_mm])?;
                reaches(&[half_width_mm, length_mm])?;
                Domain::new("a", 2.0, 0.95 * plate_mm).check(depth_mm)?;
                weld("w", width_mm, half_width_mm)?;
            }
            Self::RunOnShaft { diameter_mm, layer_mm, band_mm, shaft_length_mm } => {
                members(&[diameter_mm])?;
                reaches(&[shaft_length_mm])?;
                Domain::new("a", 1.0, diameter_mm / 2.0).check(layer_mm)?;
                weld("b", band_mm, shaft_length_mm / 2.0)?;
            }
            Self::BarToBar {
                first_mm,
                second_mm,
                first_length_mm,
                second_length_mm,
                root_radius_mm,
                groove_mm,
            } => {
                members(&[first_mm, second_mm])?;
                reaches(&[first_length_mm, second_length_mm])?;
                Domain::new("r", 0.5, first_mm.min(second_mm) / 2.0 - 1.0).check(root_radius_mm)?;
                weld("w", groove_mm, first_length_mm.min(second_length_mm))?;
            }
        }
        Ok(())
    }
}
