//! What preheat does Ito and Bessyo's cracking parameter give for the severest restraint?

use super::{Case, Evidence, NO_PREHEAT_BELOW_C, Standing};
use crate::engine::error::{Domain, THICKNESS};
use crate::engine::hydrogen::h_jis_ml;
use crate::engine::{Checked, Ends, EngineError, Outcome, Says, Step};
use crate::reference::{Element, Method, MethodRow, Unit};

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

/// What the formula is asked with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ItoBessyo {
    /// Pcm, weight percent.
    pub pcm: f64,
    /// Carbon, weight percent, where it is known.
    pub carbon: Option<f64>,
    /// Hydrogen by the glycerin method of JIS, ml/100 g.
    pub h_jis_ml: f64,
    /// Plate thickness, mm.
    pub thickness_mm: f64,
    /// Intensity of restraint, kgf/(mm·mm); `None` takes the y-groove test's own.
    pub restraint_kgf_per_mm2: Option<f64>,
}

/// Preheat by `Pc` (a y-groove test: the severest restraint) or by `Pw` where K is given.
///
/// Valid for C 0.07-0.22 %, H 1-5 ml/100 g, h 19-50 mm, heat input about 1.7 kJ/mm.
/// Source: Ito and Bessyo 1968-69, from memory.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn ito_bessyo(row: &MethodRow, asked: ItoBessyo) -> Result<Outcome, EngineError> {
    Domain::new("Pcm", 0.0, 10.0).check(asked.pcm)?;
    Domain::new("H", 0.0, 200.0).check(asked.h_jis_ml)?;
    THICKNESS.check(asked.thickness_mm)?;
    asked.restraint_kgf_per_mm2.map(|k| Domain::new("K", 0.0, 1e6).check(k)).transpose()?;
    Ok(worked(row, asked))
}

fn worked(row: &MethodRow, asked: ItoBessyo) -> Outcome {
    let ItoBessyo { pcm, carbon, h_jis_ml, thickness_mm, restraint_kgf_per_mm2 } = asked;
    let (symbol, parameter) = match restraint_kgf_per_mm2 {
        Some(k) => ("Pw", pw(pcm, h_jis_ml, k)),
        None => ("Pc", pc(pcm, h_jis_ml, thickness_mm)),
    };
    let t0_c = preheat_c(parameter);
    let mut inputs = vec![
        Checked::free("Pcm", pcm, Unit::Percent),
        Checked::of(row, "H_JIS", h_jis_ml, Ends::Drawn),
        Checked::of(row, "d", thickness_mm, Ends::Drawn),
    ];
    inputs.extend(carbon.map(|carbon| Checked::of(row, "C", carbon, Ends::Drawn)));
    let outcome = Outcome::new(Method::ItoBessyo, t0_c, Unit::Celsius)
        .from_inputs(inputs)
        .worked(vec![Step::new(symbol, parameter, Unit::Percent), Step::new("T0", t0_c, Unit::Celsius)]);
    if t0_c < NO_PREHEAT_BELOW_C { outcome.saying(Says::Clears) } else { outcome }
}

/// The formula's word on a member, shown only; none on a steel with other carbon than the tested ones had, or
/// with more hydrogen: 545 °C for a 4140 and 805 °C for a rutile electrode compare with nothing.
#[must_use]
pub fn on(case: &Case<'_>) -> Option<Evidence> {
    let asked = ItoBessyo {
        pcm: case.chemistry.pcm(),
        carbon: Some(case.chemistry.nominal.get(Element::C)),
        // By conversion it falls below zero, where there is none left to count.
        h_jis_ml: h_jis_ml(case.hydrogen_ml).max(0.0),
        thickness_mm: case.member.thickness_mm,
        restraint_kgf_per_mm2: None,
    };
    let outcome = worked(case.row(Method::ItoBessyo), asked);
    let tested = outcome.inputs.iter().all(|input| match input.symbol {
        "C" => input.inside(),
        "H_JIS" => input.high.is_none_or(|high| input.value <= high),
        _ => true,
    });
    tested.then(|| Evidence { standing: Standing::ShownOnly, ..case.evidence(outcome) })
}
