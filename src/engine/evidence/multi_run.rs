//! What preheat does multi-run weld metal need by itself?

use super::NO_PREHEAT_BELOW_C;
use crate::engine::error::{Domain, THICKNESS};
use crate::engine::{Checked, Ends, EngineError, Outcome, Says, Step};
use crate::reference::{Method, MethodRow, Unit};

/// MPa in one kgf/mm² (standard gravity, exact).
pub const MPA_PER_KGF_MM2: f64 = 9.806_65;

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

/// What the formula is asked with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MultiRun {
    /// Hydrogen by the glycerin method of JIS, ml/100 g.
    pub h_jis_ml: f64,
    /// Thickness of the weld, mm.
    pub weld_thickness_mm: f64,
    /// Tensile strength of the deposit, MPa.
    pub strength_mpa: f64,
}

/// The preheat of multi-run weld metal.
///
/// Valid for H 0.1-40 ml/100 g, hw 15-40 mm, sB 60-90 kgf/mm². Source: Suzuki et al.
/// (abstract). The step `T` holds the figure of the equation, also below room temperature;
/// below 20 °C the method asks for no preheat. The formula rises with all three inputs, so
/// that one put at its upper limit makes the figure "at least".
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn multi_run(row: &MethodRow, asked: MultiRun, ends: Ends) -> Result<Outcome, EngineError> {
    Domain::new("H", 0.001, 200.0).check(asked.h_jis_ml)?;
    THICKNESS.check(asked.weld_thickness_mm)?;
    Domain::new("sB", 50.0, 3000.0).check(asked.strength_mpa)?;
    Ok(worked(row, asked, ends))
}

fn worked(row: &MethodRow, asked: MultiRun, ends: Ends) -> Outcome {
    let strength = asked.strength_mpa / MPA_PER_KGF_MM2;
    let inputs = [
        Checked::of(row, "H_JIS", asked.h_jis_ml, ends),
        Checked::of(row, "h_w", asked.weld_thickness_mm, ends),
        Checked::of(row, "sigma_B", strength, ends),
    ];
    let at_c = multi_run_c(inputs[0].used, inputs[1].used, inputs[2].used);
    let mut outcome =
        Outcome::new(Method::MultiRun, at_c, Unit::Celsius).worked(vec![Step::new("T", at_c, Unit::Celsius)]);
    if inputs.iter().any(Checked::was_held) {
        // Converted hydrogen can be below zero, where the equation has no figure.
        outcome.raw = Some(multi_run_c(asked.h_jis_ml, asked.weld_thickness_mm, strength))
            .filter(|raw_c| raw_c.is_finite());
        outcome.at_least = inputs.iter().any(Checked::above);
    }
    outcome.inputs = inputs.to_vec();
    if at_c < NO_PREHEAT_BELOW_C { outcome.saying(Says::Clears) } else { outcome }
}

/// The answer for a job whose figures were read, with its inputs put at the ends of the range.
#[must_use]
pub fn held(row: &MethodRow, asked: MultiRun) -> Outcome {
    worked(row, asked, Ends::Held)
}
