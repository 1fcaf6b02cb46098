//! What preheat does Seferian's formula give?

use super::{Case, Evidence, Standing};
use crate::engine::error::{Domain, THICKNESS};
use crate::engine::{Checked, EngineError, Outcome, Says, Step};
use crate::reference::Composition;
use crate::reference::Element::{C, Cr, Mn, Mo, Ni};
use crate::reference::{Method, Unit};

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

/// Seferian's preheat with its steps; it clears where the formula has no root.
///
/// It knows neither hydrogen nor heat input and states no range.
///
/// # Errors
/// An equivalent or thickness that is not a number, negative, or that no part has.
pub fn seferian(c_chem: f64, thickness_mm: f64) -> Result<Outcome, EngineError> {
    Domain::new("C_chem", 0.0, 20.0).check(c_chem)?;
    THICKNESS.check(thickness_mm)?;
    Ok(worked(c_chem, thickness_mm))
}

fn worked(c_chem: f64, thickness_mm: f64) -> Outcome {
    let total = c_total(c_chem, thickness_mm);
    let outcome = Outcome::new(Method::Seferian, 0.0, Unit::Celsius)
        .from_inputs(vec![
            Checked::free("C_chem", c_chem, Unit::Percent),
            Checked::free("d", thickness_mm, Unit::Millimetre),
        ])
        .worked(vec![
            Step::new("C_size", total - c_chem, Unit::Percent),
            Step::new("C_tot", total, Unit::Percent),
        ]);
    match preheat_c(total) {
        Some(at_c) => Outcome { value: Some(at_c), ..outcome },
        None => outcome.saying(Says::Clears),
    }
}

/// The formula's word on a member, shown only.
#[must_use]
pub fn on(case: &Case<'_>) -> Evidence {
    let outcome = worked(c_chem(&case.chemistry.composition), case.member.thickness_mm);
    Evidence { standing: Standing::ShownOnly, ..case.evidence(outcome) }
}
