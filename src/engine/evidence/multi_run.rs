//! What preheat does multi-run weld metal need by itself?

use crate::engine::error::{Domain, THICKNESS};
use crate::engine::source_ids::{SUZUKI, published};
use crate::engine::{EngineError, Outcome, RangeCheck, Step, Unit};

/// MPa in one kgf/mm² (standard gravity, exact).
pub const MPA_PER_KGF_MM2: f64 = 9.806_65;

/// Limits of the formula: hydrogen (JIS) in ml/100 g.
pub const H_JIS_LIMITS_ML: (f64, f64) = (0.1, 40.0);
/// Limits of the formula: weld thickness in mm.
pub const THICKNESS_LIMITS_MM: (f64, f64) = (15.0, 40.0);
/// Limits of the formula: tensile strength of the deposit in kgf/mm².
pub const STRENGTH_LIMITS_KGF_MM2: (f64, f64) = (60.0, 90.0);

/// Preheat of multi-run weld metal: `T = 120 + 120 log10(H/3.5) + 5 (hw - 20) + 8 (sB - 83)` °C.
///
/// H by the glycerin method of JIS in ml/100 g, hw the weld thickness in mm, sB the
/// tensile strength of the deposit in kgf/mm².
#[must_use]
pub fn multi_run_c(h_jis_ml: f64, weld_thickness_mm: f64, strength_kgf_mm2: f64) -> f64 {
    120.0
        + 120.0 * (h_jis_ml / 3.5).log10()
        + 5.0 * (weld_thickness_mm - 20.0)
        + 8.0 * (strength_kgf_mm2 - 83.0)
}

/// The same with its range: H 0.1-40 ml/100 g, hw 15-40 mm, sB 60-90 kgf/mm².
///
/// Source: Suzuki et al. (abstract). The figure is the equation's, also below room
/// temperature: step `T`; the value is empty below 20 °C.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn multi_run(h_jis_ml: f64, weld_thickness_mm: f64, strength_mpa: f64) -> Result<Outcome, EngineError> {
    Domain::new("H", 0.001, 200.0).check(h_jis_ml)?;
    THICKNESS.check(weld_thickness_mm)?;
    Domain::new("sB", 50.0, 3000.0).check(strength_mpa)?;
    let strength_kgf = strength_mpa / MPA_PER_KGF_MM2;
    let t_c = multi_run_c(h_jis_ml, weld_thickness_mm, strength_kgf);
    let limit = |symbol, value, (low, high): (f64, f64)| RangeCheck {
        symbol,
        value,
        low: Some(low),
        high: Some(high),
    };
    // The limits are stated in kgf/mm²; strength is shown in MPa, as it was asked.
    let strength_limits =
        (STRENGTH_LIMITS_KGF_MM2.0 * MPA_PER_KGF_MM2, STRENGTH_LIMITS_KGF_MM2.1 * MPA_PER_KGF_MM2);
    let mut outcome = Outcome::new("multi-run", t_c, Unit::Celsius, published(SUZUKI, "abstract"))
        .checked(vec![
            limit("H", h_jis_ml, H_JIS_LIMITS_ML),
            limit("hw", weld_thickness_mm, THICKNESS_LIMITS_MM),
            limit("sB", strength_mpa, strength_limits),
        ])
        .worked(vec![
            Step { symbol: "sB/9.80665", value: strength_kgf, unit: Unit::One },
            Step { symbol: "T", value: t_c, unit: Unit::Celsius },
        ]);
    outcome.value = (t_c >= super::method_b::NO_PREHEAT_BELOW_C).then_some(t_c);
    Ok(outcome)
}
