//! What preheat does Ito and Bessyo's cracking parameter give for the severest restraint?

use crate::engine::error::{Domain, THICKNESS};
use crate::engine::{EngineError, Outcome, RangeCheck, Step, Unit};
use crate::reference::Basis;

/// Intensity of restraint of a y-groove test per mm of thickness, kgf/(mm·mm).
pub const Y_GROOVE_RESTRAINT_PER_MM: f64 = 69.0;

/// Cracking parameter of the y-groove test: `Pc = Pcm + H/60 + h/600`.
///
/// Pcm in weight percent, H by the glycerin method of JIS in ml/100 g, h in mm.
#[must_use]
pub const fn pc(pcm: f64, h_jis_ml: f64, thickness_mm: f64) -> f64 {
    pcm + h_jis_ml / 60.0 + thickness_mm / 600.0
}

/// The same by intensity of restraint K in kgf/(mm·mm): `Pw = Pcm + H/60 + K/40000`.
#[must_use]
pub const fn pw(pcm: f64, h_jis_ml: f64, restraint_kgf_per_mm2: f64) -> f64 {
    pcm + h_jis_ml / 60.0 + restraint_kgf_per_mm2 / 40_000.0
}

/// Preheat of a cracking parameter: `T0 = 1440 P - 392` °C.
#[must_use]
pub const fn preheat_c(parameter: f64) -> f64 {
    1440.0 * parameter - 392.0
}

/// What the formula asks of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ItoBessyo {
    /// Pcm, weight percent.
    pub pcm: f64,
    /// Hydrogen by the glycerin method of JIS, ml/100 g.
    pub h_jis_ml: f64,
    /// Plate thickness, mm.
    pub thickness_mm: f64,
    /// Intensity of restraint, kgf/(mm·mm); `None` takes the y-groove test's own.
    pub restraint_kgf_per_mm2: Option<f64>,
}

/// Preheat by `Pc` (a y-groove test: the severest restraint) or by `Pw` where K is given.
///
/// Valid for H 1-5 ml/100 g, h 19-50 mm, heat input about 1.7 kJ/mm.
/// Source: Ito and Bessyo 1968-69, from memory.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn ito_bessyo(inputs: ItoBessyo) -> Result<Outcome, EngineError> {
    let ItoBessyo { pcm, h_jis_ml, thickness_mm, restraint_kgf_per_mm2 } = inputs;
    Domain::new("Pcm", 0.0, 10.0).check(pcm)?;
    Domain::new("H", 0.0, 200.0).check(h_jis_ml)?;
    THICKNESS.check(thickness_mm)?;
    let (symbol, parameter) = match restraint_kgf_per_mm2 {
        Some(k) => ("Pw", pw(pcm, h_jis_ml, Domain::new("K", 0.0, 1e6).check(k)?)),
        None => ("Pc", pc(pcm, h_jis_ml, thickness_mm)),
    };
    let limit = |symbol, value, low, high| RangeCheck { symbol, value, low: Some(low), high: Some(high) };
    let t0_c = preheat_c(parameter);
    let mut outcome = Outcome::new(
        "ito-bessyo",
        t0_c,
        Unit::Celsius,
        Basis::memory("Ito and Bessyo 1968-69; passes a numeric check"),
    )
    .checked(vec![limit("H", h_jis_ml, 1.0, 5.0), limit("h", thickness_mm, 19.0, 50.0)])
    .worked(vec![
        Step { symbol, value: parameter, unit: Unit::Percent },
        Step { symbol: "T0", value: t0_c, unit: Unit::Celsius },
    ]);
    outcome.value = (t0_c >= super::method_b::NO_PREHEAT_BELOW_C).then_some(t0_c);
    Ok(outcome)
}
