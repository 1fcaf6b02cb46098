//! How slowly must the weld cool to 100 °C: Yurioka's cracking index of 1983.

use super::multi_run::MPA_PER_KGF_MM2;
use crate::engine::error::Domain;
use crate::engine::{Checked, EngineError, Outcome};
use crate::reference::{Method, Unit};

/// Cracking index: `CI = CE_N + 0.15 log10(H) + 0.30 log10(0.017 Kt sw)`.
///
/// CE N in weight percent, H by JIS in ml/100 g, Kt the notch factor of the root,
/// sw the stress at the weld (its yield) in kgf/mm².
#[must_use]
pub fn yurioka_1983(cen: f64, h_jis_ml: f64, notch_factor: f64, stress_kgf_mm2: f64) -> f64 {
    cen + 0.15 * h_jis_ml.log10() + 0.30 * (0.017 * notch_factor * stress_kgf_mm2).log10()
}

/// Critical cooling time to 100 °C: `t100cr = exp(67.6 CI³ - 182.0 CI² + 163.8 CI - 41.0)` s.
///
/// The last constant is cut off in the public text and is from memory.
#[must_use]
pub fn t100cr_s(index: f64) -> f64 {
    (67.6 * index.powi(3) - 182.0 * index.powi(2) + 163.8 * index - 41.0).exp()
}

/// What the index is asked with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrackingIndex {
    /// CE N, weight percent.
    pub cen: f64,
    /// Hydrogen by the glycerin method of JIS, ml/100 g.
    pub h_jis_ml: f64,
    /// Notch factor Kt: about 1.5 for a smooth root, 4 and more for a sharp one.
    pub notch_factor: f64,
    /// Stress at the weld, MPa.
    pub stress_mpa: f64,
}

/// The index and the critical cooling time: the weld is safe where its own time from
/// the arc to 100 °C is at least `t100cr`.
///
/// Source: Yurioka et al., Welding Journal, June 1983. Tests held 0.02-0.26 % C.
///
/// # Errors
/// An input that is not a number, negative or that no weld has; an index outside 0-1.2,
/// where the equation leaves every measured time.
pub fn cracking_index(asked: CrackingIndex) -> Result<[Outcome; 2], EngineError> {
    let CrackingIndex { cen, h_jis_ml, notch_factor, stress_mpa } = asked;
    Domain::new("CE_N", 0.0, 20.0).check(cen)?;
    Domain::new("H", 0.01, 200.0).check(h_jis_ml)?;
    Domain::new("Kt", 1.0, 20.0).check(notch_factor)?;
    Domain::new("sw", 10.0, 3000.0).check(stress_mpa)?;
    let index = yurioka_1983(cen, h_jis_ml, notch_factor, stress_mpa / MPA_PER_KGF_MM2);
    Domain::new("CI", 0.0, 1.2).check(index)?;
    Ok([
        Outcome::new(Method::Yurioka1983, index, Unit::One).named("cracking-index").from_inputs(vec![
            Checked::free("CE_N", cen, Unit::Percent),
            Checked::free("H_JIS", h_jis_ml, Unit::MlPer100g),
            Checked::free("Kt", notch_factor, Unit::One),
            Checked::free("sw", stress_mpa, Unit::Megapascal),
        ]),
        Outcome::new(Method::Yurioka1983Time, t100cr_s(index), Unit::Second)
            .named("t100-critical")
            .from_inputs(vec![Checked::free("CI", index, Unit::One)]),
    ])
}
