//! What preheat does Method B (CET) of EN 1011-2 ask for?

use crate::engine::error::{Domain, HEAT, HYDROGEN, THICKNESS};
use crate::engine::source_ids::{SEW_088, WORKSHEET, published};
use crate::engine::{EngineError, Outcome, RangeCheck, Step, Unit};

/// A result below this temperature means "no preheat by this method", °C.
pub const NO_PREHEAT_BELOW_C: f64 = 20.0;

/// Margin by which the parent's CET must exceed the weld's to govern, weight percent (from memory).
pub const WELD_MARGIN_CET: f64 = 0.03;

/// Above this CET more heat would raise the figure: the heat term turns its sign.
pub const HEAT_TERM_TURNS_AT_CET: f64 = 32.0 / 53.0;

/// Method B's preheat as the equation gives it, °C; it may be below room temperature.
///
/// `Tp = 697 CET + 160 tanh(d/35) + 62 HD^0.35 + (53 CET - 32) Q - 328`
///
/// CET in weight percent, d the greater single plate thickness in mm, HD in ml/100 g
/// by ISO 3690, Q the net heat input in kJ/mm (thermal efficiency included).
/// Valid for CET 0.20-0.50, d 10-90, HD 1-20, Q 0.5-4.0, yield up to 1000 MPa.
/// Source: EN 1011-2 C.3.3, equation C.8, as an engineer's worksheet gives it. A published
/// example:
/// ```
/// use strawblue::engine::evidence::method_b::method_b_c;
/// assert_eq!(method_b_c(0.2840, 31.5, 5.0, 1.3).round(), 71.0);
/// ```
#[must_use]
pub fn method_b_c(cet: f64, d_mm: f64, hd_ml: f64, q_kj_per_mm: f64) -> f64 {
    697.0 * cet + 160.0 * (d_mm / 35.0).tanh() + 62.0 * hd_ml.powf(0.35) + (53.0 * cet - 32.0) * q_kj_per_mm
        - 328.0
}

/// The older SEW 088 Beiblatt 1 (1993): 700 CET and -330, yield 300-1000 MPa, °C.
#[must_use]
pub fn sew_088_c(cet: f64, d_mm: f64, hd_ml: f64, q_kj_per_mm: f64) -> f64 {
    method_b_c(cet, d_mm, hd_ml, q_kj_per_mm) + 3.0 * cet - 2.0
}

/// The part of the composition: `750 CET - 150`, K.
///
/// The four parts are 0 near CET 0.20, 30 mm, 4 ml/100 g and 1 kJ/mm, and sum to
/// [`method_b_c`] exactly. Source: EN 1011-2 C.3, equations C.3 to C.6, from memory.
#[must_use]
pub const fn cet_part_k(cet: f64) -> f64 {
    750.0 * cet - 150.0
}

/// The part of the thickness: `160 tanh(d/35) - 110`, K.
#[must_use]
pub fn thickness_part_k(d_mm: f64) -> f64 {
    160.0 * (d_mm / 35.0).tanh() - 110.0
}

/// The part of the hydrogen: `62 HD^0.35 - 100`, K.
#[must_use]
pub fn hydrogen_part_k(hd_ml: f64) -> f64 {
    62.0 * hd_ml.powf(0.35) - 100.0
}

/// The part of the heat input: `(53 CET - 32) Q - 53 CET + 32`, K.
#[must_use]
pub const fn heat_part_k(cet: f64, q_kj_per_mm: f64) -> f64 {
    (53.0 * cet - 32.0) * (q_kj_per_mm - 1.0)
}

/// The CET that Method B is asked at: the parent's, or the weld's + 0.03 where that is higher.
#[must_use]
pub fn governing_cet(parent_cet: f64, weld_cet: Option<f64>) -> f64 {
    weld_cet.map_or(parent_cet, |weld| parent_cet.max(weld + WELD_MARGIN_CET))
}

/// What Method B asks of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MethodB {
    /// CET, weight percent.
    pub cet: f64,
    /// The greater single plate thickness, mm.
    pub thickness_mm: f64,
    /// Diffusible hydrogen, ml/100 g.
    pub hydrogen_ml: f64,
    /// Net heat input, kJ/mm.
    pub net_heat_kj_per_mm: f64,
}

impl MethodB {
    fn check(&self) -> Result<(), EngineError> {
        Domain::new("CET", 0.0, 5.0).check(self.cet)?;
        THICKNESS.check(self.thickness_mm)?;
        HYDROGEN.check(self.hydrogen_ml)?;
        HEAT.check(self.net_heat_kj_per_mm).map(|_| ())
    }

    /// The inputs beside the limits of C.3.3.
    #[must_use]
    pub fn range(&self) -> Vec<RangeCheck> {
        let limit = |symbol, value, low, high| RangeCheck { symbol, value, low: Some(low), high: Some(high) };
        vec![
            limit("CET", self.cet, 0.20, 0.50),
            limit("d", self.thickness_mm, 10.0, 90.0),
            limit("HD", self.hydrogen_ml, 1.0, 20.0),
            limit("Q", self.net_heat_kj_per_mm, 0.5, 4.0),
        ]
    }
}

/// Method B's preheat with its parts; no value where it falls below 20 °C, which
/// means "no preheat by this method". The step `Tp` holds the figure of the equation.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn method_b(inputs: MethodB) -> Result<Outcome, EngineError> {
    inputs.check()?;
    let MethodB { cet, thickness_mm, hydrogen_ml, net_heat_kj_per_mm } = inputs;
    let sum_c = method_b_c(cet, thickness_mm, hydrogen_ml, net_heat_kj_per_mm);
    let part = |symbol, value| Step { symbol, value, unit: Unit::Kelvin };
    let mut outcome =
        Outcome::new("method-b", sum_c, Unit::Celsius, published(WORKSHEET, "EN 1011-2 C.3, equation C.8"))
            .checked(inputs.range())
            .worked(vec![
                part("Tp(CET)", cet_part_k(cet)),
                part("Tp(d)", thickness_part_k(thickness_mm)),
                part("Tp(HD)", hydrogen_part_k(hydrogen_ml)),
                part("Tp(Q)", heat_part_k(cet, net_heat_kj_per_mm)),
                Step { symbol: "Tp", value: sum_c, unit: Unit::Celsius },
            ]);
    outcome.value = (sum_c >= NO_PREHEAT_BELOW_C).then_some(sum_c);
    Ok(outcome)
}

/// The same by SEW 088 Beiblatt 1 (1993), shown beside Method B.
///
/// # Errors
/// As [`method_b`].
pub fn sew_088(inputs: MethodB) -> Result<Outcome, EngineError> {
    inputs.check()?;
    let sum_c = sew_088_c(inputs.cet, inputs.thickness_mm, inputs.hydrogen_ml, inputs.net_heat_kj_per_mm);
    let mut outcome = Outcome::new(
        "sew-088",
        sum_c,
        Unit::Celsius,
        published(SEW_088, "p. 368, SEW 088 Beiblatt 1 (1993)"),
    )
    .checked(inputs.range())
    .worked(vec![Step { symbol: "Tp", value: sum_c, unit: Unit::Celsius }]);
    outcome.value = (sum_c >= NO_PREHEAT_BELOW_C).then_some(sum_c);
    Ok(outcome)
}
