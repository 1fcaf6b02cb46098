//! How much steel draws heat from the weld: combined thickness.

use super::error::{Domain, THICKNESS};
use super::{Checked, Ends, EngineError, Outcome, Step, Unit};
use crate::reference::{Joint, Method, MethodRow};

/// Distance from the weld line over which a thickness is averaged, mm.
pub const AVERAGED_OVER_MM: f64 = 75.0;

/// The joint whose combined thickness is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Meeting<'a> {
    /// The joint's row: how many ways heat leaves through each member.
    pub joint: &'a Joint,
    /// The first member: the one that goes on past the weld (flange, lower plate, shaft), the
    /// plate around a boss, or either of two equal ones, mm.
    pub first_mm: f64,
    /// The second member: the one that ends at the weld (web, upper plate), the boss, or the
    /// other of two equal ones, mm; `None` takes the first once more.
    pub second_mm: Option<f64>,
    /// Are directly opposed twin fillets laid at the same time?
    pub opposed_at_once: bool,
}

impl Meeting<'_> {
    /// Combined thickness, mm: each member as often as heat leaves through it; half of that
    /// where opposed twin fillets are laid at once.
    ///
    /// Source: EN 1011-2 C.2.4, from memory; each joint's row says what it rests on.
    /// ```
    /// use strawblue::{engine::combined_thickness::Meeting, reference};
    /// let joint = reference::embedded().joint("t-fillet-one-side").unwrap();
    /// let t = Meeting { joint, first_mm: 20.0, second_mm: Some(15.0), opposed_at_once: false };
    /// assert_eq!(t.combined_mm(), 55.0);
    /// ```
    #[must_use]
    pub fn combined_mm(&self) -> f64 {
        let sum = self.joint.ways.combined_mm(self.first_mm, self.second_mm.unwrap_or(self.first_mm));
        if self.halved() { 0.5 * sum } else { sum }
    }

    /// Only fillets that face each other can be laid at once.
    #[must_use]
    pub fn halved(&self) -> bool {
        self.opposed_at_once && self.joint.id == "t-fillet-both-sides"
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
/// Valid for bars up to 40 mm diameter; other joints state no range.
///
/// # Errors
/// A thickness that is not a number, negative, or that no part has.
pub fn combined_thickness(row: &MethodRow, meeting: Meeting<'_>) -> Result<Outcome, EngineError> {
    let first = THICKNESS.check(meeting.first_mm)?;
    let second = meeting.second_mm.map(|d| Domain::new("d2", 0.1, 5000.0).check(d)).transpose()?;
    let joint = meeting.joint;
    let mm = Unit::Millimetre;
    let mut steps = vec![Step { symbol: "d1", value: first, unit: mm }];
    steps.extend(second.map(|value| Step { symbol: "d2", value, unit: mm }));
    let inputs = if joint.first_is_round && joint.second_is_round {
        vec![
            Checked::of(row, "D1", first, Ends::Drawn),
            Checked::of(row, "D2", second.unwrap_or(first), Ends::Drawn),
        ]
    } else {
        Vec::new()
    };
    Ok(Outcome::new(Method::CombinedThickness, meeting.combined_mm(), mm)
        .resting_on(&joint.ways_basis)
        .from_inputs(inputs)
        .worked(steps))
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
    Ok(Outcome::new(Method::TaperedThickness, mean, Unit::Millimetre))
}
