//! How much steel draws heat from the weld: combined thickness.

use super::error::{Domain, THICKNESS};
use super::job::Joint;
use super::{EngineError, Outcome, RangeCheck, Step, Unit};
use crate::reference::Basis;

/// Distance from the weld line over which a thickness is averaged, mm.
pub const AVERAGED_OVER_MM: f64 = 75.0;

/// The greatest bar diameter that the rule for bars is made for, mm.
pub const BAR_LIMIT_MM: f64 = 40.0;

/// The joint whose combined thickness is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Meeting {
    /// The joint.
    pub joint: Joint,
    /// The member that goes on past the weld on both sides (flange, lower plate, boss,
    /// shaft), or the first member of a butt, corner or bar joint, mm.
    pub through_mm: f64,
    /// The member that ends at the weld (web, upper plate, plate around the boss), or the
    /// second member, mm; `None` takes the first once more. A run on a shaft and a repair
    /// have none.
    pub ending_mm: Option<f64>,
    /// Are directly opposed twin fillets laid at the same time?
    pub opposed_at_once: bool,
}

impl Meeting {
    /// Combined thickness, mm.
    ///
    /// Every path by which heat leaves counts: butt, corner and bars `d1 + d2`; T, lap and
    /// boss `2 through + ending` (the through member counts twice); run on a shaft and
    /// repair `2 d`; half the sum where opposed twin fillets are laid at once.
    ///
    /// Source: EN 1011-2 C.2.4, from memory; boss, shaft and repair by the same rule are
    /// common practice.
    /// ```
    /// use strawblue::engine::{combined_thickness::Meeting, job::Joint};
    /// let t = Meeting { joint: Joint::TFilletOneSide, through_mm: 20.0, ending_mm: Some(15.0), opposed_at_once: false };
    /// assert_eq!(t.combined_mm(), 55.0);
    /// ```
    #[must_use]
    pub fn combined_mm(&self) -> f64 {
        let through = self.through_mm;
        let ending = self.ending_mm.unwrap_or(through);
        let sum = match self.joint {
            Joint::Butt | Joint::Corner | Joint::BarToBar => through + ending,
            Joint::TFilletOneSide | Joint::TFilletBothSides | Joint::Lap | Joint::BossThrough => {
                2.0 * through + ending
            }
            Joint::RunOnShaft | Joint::Repair => 2.0 * through,
        };
        if self.halved() { 0.5 * sum } else { sum }
    }

    /// Only fillets that face each other can be laid at once.
    const fn halved(&self) -> bool {
        self.opposed_at_once && matches!(self.joint, Joint::TFilletBothSides)
    }
}

/// Mean thickness of a part that tapers straight from the weld, over the first 75 mm, mm.
///
/// ```
/// use strawblue::engine::combined_thickness::tapered_mm;
/// assert_eq!(tapered_mm(30.0, 10.0, 150.0), 25.0);
/// ```
#[must_use]
pub fn tapered_mm(at_weld_mm: f64, far_mm: f64, taper_mm: f64) -> f64 {
    if taper_mm <= 0.0 {
        return far_mm;
    }
    let inside = taper_mm.min(AVERAGED_OVER_MM);
    let at_end = at_weld_mm + (far_mm - at_weld_mm) * inside / taper_mm;
    let tapered = f64::midpoint(at_weld_mm, at_end) * inside;
    (tapered + far_mm * (AVERAGED_OVER_MM - inside)) / AVERAGED_OVER_MM
}

/// Combined thickness of a joint with what each member gives.
///
/// # Errors
/// A thickness that is not a number, negative, or that no part has.
pub fn combined_thickness(meeting: Meeting) -> Result<Outcome, EngineError> {
    let through = THICKNESS.check(meeting.through_mm)?;
    let ending = meeting.ending_mm.map(|d| Domain::new("d2", 0.1, 5000.0).check(d)).transpose()?;
    let mm = Unit::Millimetre;
    let mut steps = vec![Step { symbol: "d1", value: through, unit: mm }];
    steps.extend(ending.map(|value| Step { symbol: "d2", value, unit: mm }));
    let basis = match meeting.joint {
        Joint::BossThrough | Joint::RunOnShaft | Joint::Repair | Joint::Lap | Joint::Corner => {
            Basis::Practice
        }
        _ => Basis::memory("EN 1011-2 C.2.4"),
    };
    let range = if meeting.joint == Joint::BarToBar {
        let bar = |symbol, value| RangeCheck { symbol, value, low: None, high: Some(BAR_LIMIT_MM) };
        vec![bar("D1", through), bar("D2", ending.unwrap_or(through))]
    } else {
        Vec::new()
    };
    Ok(Outcome::new("combined-thickness", meeting.combined_mm(), mm, basis).checked(range).worked(steps))
}

/// [`tapered_mm`] as an outcome.
///
/// # Errors
/// A length that is not a number, negative, or that no part has.
pub fn tapered_thickness(at_weld_mm: f64, far_mm: f64, taper_mm: f64) -> Result<Outcome, EngineError> {
    THICKNESS.check(at_weld_mm)?;
    THICKNESS.check(far_mm)?;
    Domain::new("L", 0.0, 5000.0).check(taper_mm)?;
    let mean = tapered_mm(at_weld_mm, far_mm, taper_mm);
    Ok(Outcome::new(
        "tapered-thickness",
        mean,
        Unit::Millimetre,
        Basis::memory("EN 1011-2 C.2.4, over 75 mm"),
    ))
}
