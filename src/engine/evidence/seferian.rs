//! What preheat does Seferian's formula give?

use crate::engine::error::{Domain, THICKNESS};
use crate::engine::source_ids::{WORKSHEET, published};
use crate::engine::{EngineError, Outcome, Step, Unit};
use crate::reference::Composition;
use crate::reference::Element::{C, Cr, Mn, Mo, Ni};

/// Chemical carbon equivalent of Seferian: `C + (Mn+Cr)/9 + Ni/18 + 7 Mo/90`, weight percent.
#[must_use]
pub fn c_chem(steel: &Composition) -> f64 {
    steel.get(C) + (steel.get(Mn) + steel.get(Cr)) / 9.0 + steel.get(Ni) / 18.0 + 7.0 * steel.get(Mo) / 90.0
}

/// Total equivalent: `C_tot = C_chem (1 + 0.005 e)`, e in mm.
#[must_use]
pub const fn c_total(c_chem: f64, thickness_mm: f64) -> f64 {
    c_chem * (1.0 + 0.005 * thickness_mm)
}

/// Preheat: `Tp = 350 sqrt(C_tot - 0.25)` °C, or `None` where `C_tot` is at most 0.25.
///
/// Source: D. Séférian, Métallurgie de la soudure (Dunod 1959/65), as public
/// worksheets give it. A published example (15CrMo, 25 mm):
/// ```
/// use strawblue::engine::evidence::seferian::{c_total, preheat_c};
/// let found = preheat_c(c_total(0.361, 25.0)).unwrap();
/// assert_eq!(found.round(), 138.0);
/// ```
#[must_use]
pub fn preheat_c(c_total: f64) -> Option<f64> {
    (c_total > 0.25).then(|| 350.0 * (c_total - 0.25).sqrt())
}

/// Seferian's preheat with its steps; no value where the formula has none.
///
/// It knows neither hydrogen nor heat input and states no range.
///
/// # Errors
/// An equivalent or thickness that is not a number, negative, or that no part has.
pub fn seferian(c_chem: f64, thickness_mm: f64) -> Result<Outcome, EngineError> {
    Domain::new("C_chem", 0.0, 20.0).check(c_chem)?;
    THICKNESS.check(thickness_mm)?;
    let total = c_total(c_chem, thickness_mm);
    let step = |symbol, value| Step { symbol, value, unit: Unit::Percent };
    let mut outcome = Outcome::new(
        "seferian",
        0.0,
        Unit::Celsius,
        published(WORKSHEET, "Séférian, Métallurgie de la soudure"),
    )
    .worked(vec![step("C_chem", c_chem), step("C_size", total - c_chem), step("C_tot", total)]);
    outcome.value = preheat_c(total);
    Ok(outcome)
}
