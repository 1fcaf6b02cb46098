//! How does hydrogen other than a table's own move its figure, and thin material?
//!
//! `ΔH(ref) = 62·(HD^0.35 − ref^0.35)` within −50 … +60 K: the hydrogen term of EN
//! 1011-2 Method B on another base; its use here is common practice. Held at +60 K the
//! figure is "at least": more hydrogen asks for more than it says. Source:
//! `data/practice.ron`.

use crate::engine::{Checked, Outcome, Step};
use crate::reference::{HydrogenShift, ThicknessCredit, Unit};

/// A figure moved for another hydrogen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shift {
    /// What is added, K.
    pub added_k: f64,
    /// What the formula gives, beside the most that may be added, K. At its lower limit it
    /// only keeps a figure up.
    pub raw: Checked,
}

impl Shift {
    /// The shift from a base, both in ml/100 g.
    #[must_use]
    pub fn of(shift: &HydrogenShift, hydrogen_ml: f64, base_ml: f64) -> Self {
        let raw_k =
            shift.factor_k * (hydrogen_ml.max(0.0).powf(shift.exponent) - base_ml.powf(shift.exponent));
        let raw = Checked::up_to("ΔH", raw_k.max(shift.min_k), Unit::Kelvin, Some(shift.max_k)).held();
        Self { added_k: raw.used, raw }
    }

    /// The same without credit for less hydrogen.
    #[must_use]
    pub fn upward(self) -> Self {
        Self { added_k: self.added_k.max(0.0), ..self }
    }

    /// Moves a figure: adds the hydrogen, the shift and its steps to an answer.
    #[must_use]
    pub fn applied(self, mut outcome: Outcome, hydrogen_ml: f64) -> Outcome {
        outcome.value = outcome.value.map(|value_c| value_c + self.added_k);
        outcome.inputs.push(Checked::free("HD", hydrogen_ml, Unit::MlPer100g));
        outcome.inputs.push(self.raw);
        outcome.steps.push(Step::new("ΔH", self.added_k, Unit::Kelvin));
        outcome.at_least |= self.raw.above();
        outcome.printed = outcome.printed.filter(|_| self.added_k.abs() < 1e-12);
        outcome
    }
}

/// `factor·[tanh(d/scale) − tanh(base/scale)]` within its limits, K.
#[must_use]
pub fn thickness_credit_k(credit: &ThicknessCredit, thickness_mm: f64) -> f64 {
    let raw = credit.factor_k
        * ((thickness_mm / credit.scale_mm).tanh() - (credit.base_mm / credit.scale_mm).tanh());
    raw.clamp(credit.min_k, credit.max_k)
}
