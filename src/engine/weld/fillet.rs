//! How large is a fillet, and how large must it be?

use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Step, Unit};
use crate::reference::{Method, WeldRuns};

/// Leg of a fillet, mm.
pub(super) const LEG: Domain = Domain::new("leg", 1.0, 60.0);
const SECOND: Domain = Domain::new("second-leg", 1.0, 60.0);
/// One leg is no longer than so many of the other.
const LONGER: f64 = 4.0;

/// A fillet between two faces at a right angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fillet {
    /// One leg, mm.
    pub first_mm: f64,
    /// The other leg, mm.
    pub second_mm: f64,
}

impl Fillet {
    /// With legs of one length.
    #[must_use]
    pub const fn equal(leg_mm: f64) -> Self {
        Self { first_mm: leg_mm, second_mm: leg_mm }
    }

    /// Passes legs that a fillet can have.
    ///
    /// # Errors
    /// A leg that is not a number or outside 1 to 60 mm; one more than four times the other.
    pub fn checked(first_mm: f64, second_mm: Option<f64>) -> Result<Self, EngineError> {
        let first_mm = LEG.check(first_mm)?;
        let second_mm = SECOND.check(second_mm.unwrap_or(first_mm))?;
        Domain::new("second-leg", first_mm / LONGER, first_mm * LONGER).check(second_mm)?;
        Ok(Self { first_mm, second_mm })
    }

    /// The shorter leg, mm.
    #[must_use]
    pub fn shorter_mm(&self) -> f64 {
        self.first_mm.min(self.second_mm)
    }

    /// Width of a flat face, mm: `sqrt(z1² + z2²)`.
    #[must_use]
    pub fn face_mm(&self) -> f64 {
        self.first_mm.hypot(self.second_mm)
    }

    /// Height of the largest triangle within it, mm: `a = z1 z2 / sqrt(z1² + z2²)` (EN 1993-1-8 4.5.2).
    #[must_use]
    pub fn throat_mm(&self) -> f64 {
        self.first_mm * self.second_mm / self.face_mm()
    }

    /// Height of the largest triangle with equal sides within it, mm, as DIN 18800 has it.
    #[must_use]
    pub fn isosceles_mm(&self) -> f64 {
        self.shorter_mm() / std::f64::consts::SQRT_2
    }

    /// Area with a flat face, mm²: `z1 z2 / 2`.
    #[must_use]
    pub fn flat_mm2(&self) -> f64 {
        self.first_mm * self.second_mm / 2.0
    }

    /// Area with a face that stands out by so much, mm²: two thirds of a rectangle more; below zero
    /// the face is hollow.
    #[must_use]
    pub fn area_mm2(&self, convexity_mm: f64) -> f64 {
        (self.flat_mm2() + 2.0 / 3.0 * self.face_mm() * convexity_mm).max(0.0)
    }

    /// Area as it is planned, mm².
    #[must_use]
    pub fn planned_mm2(&self, runs: &WeldRuns) -> f64 {
        self.area_mm2(runs.convexity_share * self.face_mm())
    }
}

/// The leg of a fillet with equal legs and the planned convexity, of an area, mm.
#[must_use]
pub fn leg_of_area_mm(runs: &WeldRuns, area_mm2: f64) -> f64 {
    (area_mm2 / Fillet::equal(1.0).planned_mm2(runs)).sqrt()
}

/// Least leg by the table, mm: by the thinner part with low-hydrogen filler, else by the thicker one. It
/// need not be larger than the thinner part is thick.
#[must_use]
pub fn least_leg_mm(runs: &WeldRuns, thinner_mm: f64, thicker_mm: f64, low_hydrogen: bool) -> f64 {
    let counted_mm = if low_hydrogen { thinner_mm } else { thicker_mm };
    let row = runs.least_legs.iter().find(|row| row.up_to_mm.is_none_or(|up_to| counted_mm <= up_to));
    row.map_or(0.0, |row| row.leg_mm).min(thinner_mm)
}

/// Least throat by the thicker part, mm: `sqrt t - 0.5`, at least 3 mm.
#[must_use]
pub fn least_throat_mm(runs: &WeldRuns, thicker_mm: f64) -> f64 {
    (thicker_mm.sqrt() - runs.throat_less_mm).max(runs.least_throat_mm)
}

/// What is asked of the size of a fillet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilletQuery {
    /// The fillet.
    pub fillet: Fillet,
    /// How far its face stands out, where that is known, mm; below zero it is hollow.
    pub convexity_mm: Option<f64>,
    /// The thinner part, mm.
    pub thinner_mm: Option<f64>,
    /// The thicker part, mm.
    pub thicker_mm: Option<f64>,
    /// Is the filler low in hydrogen?
    pub low_hydrogen: bool,
    /// Does the load come and go?
    pub cyclic: bool,
}

/// The size of a fillet.
#[derive(Debug, Clone, PartialEq)]
pub struct FilletSize {
    /// Throat, area, least leg, least throat.
    pub outcomes: Vec<Outcome>,
    /// Is the leg below the least one?
    pub too_small: bool,
    /// Is the leg larger than the thinner part is thick?
    pub above_plate: bool,
    /// Does the face stand out too far?
    pub too_convex: bool,
}

/// Throat, area, and the least sizes for the parts.
///
/// Source: EN 1993-1-8 4.5.2 for the throat, the AWS D1.1 table for the least leg, the German annex of
/// EN 1993-1-8 for the least throat, from memory the convexities of AWS D1.1.
///
/// # Errors
/// A leg or a thickness that no part has; a face more hollow than the fillet is deep.
pub fn fillet_size(runs: &WeldRuns, asked: &FilletQuery) -> Result<FilletSize, EngineError> {
    let fillet = Fillet::checked(asked.fillet.first_mm, Some(asked.fillet.second_mm))?;
    let throat_mm = fillet.throat_mm();
    let convexity_mm = match asked.convexity_mm {
        Some(own) => Domain::new("convexity", -0.5 * throat_mm, fillet.face_mm() / 2.0).check(own)?,
        None => runs.convexity_share * fillet.face_mm(),
    };
    let thinner_mm = asked.thinner_mm.or(asked.thicker_mm);
    let thicker_mm = asked.thicker_mm.or(asked.thinner_mm);
    for thickness_mm in [thinner_mm, thicker_mm].into_iter().flatten() {
        Domain::new("thickness", 0.5, 5000.0).check(thickness_mm)?;
    }
    let answer = |name, value, unit| Outcome::new(Method::FilletSize, value, unit).named(name);
    let convexity_steps = vec![
        Step::new("face", fillet.face_mm(), Unit::Millimetre),
        Step::new("convexity", convexity_mm, Unit::Millimetre),
    ];
    let area = answer("fillet-area", fillet.area_mm2(convexity_mm), Unit::SquareMillimetre);
    let planned = asked.convexity_mm.is_none();
    let mut outcomes = vec![answer("fillet-throat", throat_mm, Unit::Millimetre)];
    if fillet.first_mm.total_cmp(&fillet.second_mm).is_ne() {
        outcomes.push(answer("fillet-throat-smaller", fillet.isosceles_mm(), Unit::Millimetre));
    }
    outcomes.push(answer("fillet-area-flat", fillet.flat_mm2(), Unit::SquareMillimetre));
    let area = area.worked(convexity_steps);
    outcomes.push(if planned { area.resting_on(&runs.convexity_basis) } else { area });
    let mut too_small = false;
    if let (Some(thinner), Some(thicker)) = (thinner_mm, thicker_mm) {
        let (thinner, thicker) = (thinner.min(thicker), thinner.max(thicker));
        let table_mm = least_leg_mm(runs, thinner, thicker, asked.low_hydrogen);
        let cyclic_counts = asked.cyclic && runs.cyclic_leg_mm > table_mm;
        let least_mm = if cyclic_counts { runs.cyclic_leg_mm.min(thinner) } else { table_mm };
        let basis = if cyclic_counts { &runs.cyclic_basis } else { &runs.least_legs_basis };
        too_small = fillet.shorter_mm() < least_mm;
        let throat = least_throat_mm(runs, thicker);
        outcomes.push(answer("least-leg", least_mm, Unit::Millimetre).resting_on(basis));
        outcomes.push(answer("least-throat", throat, Unit::Millimetre).resting_on(&runs.throat_basis));
    }
    let most = runs.convexities.iter().find(|row| row.up_to_mm.is_none_or(|up| fillet.face_mm() <= up));
    Ok(FilletSize {
        outcomes,
        too_small,
        above_plate: thinner_mm.is_some_and(|thinner_mm| fillet.first_mm.max(fillet.second_mm) > thinner_mm),
        too_convex: !planned && most.is_some_and(|row| convexity_mm > row.most_mm),
    })
}
