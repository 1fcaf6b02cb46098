//! What preheat does Method B (CET) of EN 1011-2 ask for?
//!
//! Method B is monotone in each input, so that the plan puts an input beyond its limit *at*
//! the limit (each element, CET, thickness, hydrogen, heat input); put at an upper limit, the
//! answer reads "at least". High restraint adds 25 K (a steelmaker's handbook).

use super::{Case, Evidence, NO_PREHEAT_BELOW_C};
use crate::engine::carbon_equivalent::cet;
use crate::engine::error::{Domain, HEAT, HYDROGEN, THICKNESS};
use crate::engine::{Checked, Ends, EngineError, Outcome, Says, Step};
use crate::reference::{Composition, Element, Method, MethodRow, Unit};

/// High restraint adds this to Method B, K (a steelmaker's handbook).
pub const HIGH_RESTRAINT_K: f64 = 25.0;

/// The weld metal counts as richer than its CET by this, % (from memory).
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

/// The elements that the method limits.
const LIMITED: [Element; 11] = [
    Element::C,
    Element::Si,
    Element::Mn,
    Element::Cr,
    Element::Cu,
    Element::Mo,
    Element::Nb,
    Element::Ni,
    Element::Ti,
    Element::V,
    Element::B,
];

/// The CET that is asked with, and the analysis behind it where one is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CetOf<'a> {
    /// CET with all that is added to it, %.
    pub cet: f64,
    /// The analysis that it comes from, whose elements have limits of their own.
    pub analysis: Option<&'a Composition>,
    /// What is added to the analysis' own CET, %.
    pub add: f64,
}

impl CetOf<'_> {
    /// A bare figure.
    #[must_use]
    pub const fn figure(cet: f64) -> Self {
        Self { cet, analysis: None, add: 0.0 }
    }
}

/// What Method B is asked with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MethodB<'a> {
    /// CET.
    pub cet: CetOf<'a>,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Diffusible hydrogen, ml/100 g.
    pub hydrogen_ml: f64,
    /// Net heat input, kJ/mm.
    pub net_heat_kj_per_mm: f64,
    /// High restraint?
    pub high_restraint: bool,
}

impl MethodB<'_> {
    fn check(&self) -> Result<(), EngineError> {
        Domain::new("CET", 0.0, 5.0).check(self.cet.cet)?;
        THICKNESS.check(self.thickness_mm)?;
        HYDROGEN.check(self.hydrogen_ml)?;
        HEAT.check(self.net_heat_kj_per_mm).map(|_| ())
    }

    /// CET, d, HD and Q, then the elements behind CET.
    fn inputs(&self, row: &MethodRow, ends: Ends) -> Vec<Checked> {
        let mut elements = Vec::new();
        let mut held_cet = self.cet.cet;
        if let Some(analysis) = self.cet.analysis {
            let mut held = *analysis;
            elements.reserve(LIMITED.len());
            for element in LIMITED {
                let input = Checked::of(row, element.symbol(), analysis.get(element), ends);
                held.set(element, input.used);
                elements.push(input);
            }
            if ends == Ends::Held {
                held_cet = cet(&held) + self.cet.add;
            }
        }
        let mut made = Vec::with_capacity(4 + elements.len());
        made.push(Checked { value: self.cet.cet, ..Checked::of(row, "CET", held_cet, ends) });
        made.push(Checked::of(row, "d", self.thickness_mm, ends));
        made.push(Checked::of(row, "HD", self.hydrogen_ml, ends));
        made.push(Checked::of(row, "Q", self.net_heat_kj_per_mm, ends));
        made.append(&mut elements);
        made
    }
}

/// Method B's preheat with its parts; it clears where the figure falls below 20 °C, which
/// means "no preheat by this method". The step `Tp` holds the figure of the equation.
///
/// # Errors
/// An input that is not a number, negative, or that no weld has.
pub fn method_b(row: &MethodRow, asked: &MethodB<'_>, ends: Ends) -> Result<Outcome, EngineError> {
    asked.check()?;
    Ok(worked(row, asked, ends))
}

/// The same for a job whose figures are known to be sound.
fn worked(row: &MethodRow, asked: &MethodB<'_>, ends: Ends) -> Outcome {
    let inputs = asked.inputs(row, ends);
    let [cet, d_mm, hd_ml, q] = [0, 1, 2, 3].map(|place: usize| inputs[place].used);
    let restraint_k = if asked.high_restraint { HIGH_RESTRAINT_K } else { 0.0 };
    let sum_c = method_b_c(cet, d_mm, hd_ml, q) + restraint_k;
    let part = |symbol, value| Step::new(symbol, value, Unit::Kelvin);
    let mut steps = Vec::with_capacity(6);
    steps.extend([
        part("Tp(CET)", cet_part_k(cet)),
        part("Tp(d)", thickness_part_k(d_mm)),
        part("Tp(HD)", hydrogen_part_k(hd_ml)),
        part("Tp(Q)", heat_part_k(cet, q)),
    ]);
    if asked.high_restraint {
        steps.push(part("restraint", restraint_k));
    }
    steps.push(Step::new("Tp", sum_c, Unit::Celsius));
    let mut outcome = Outcome::new(Method::MethodB, sum_c, Unit::Celsius).worked(steps);
    if inputs.iter().any(Checked::was_held) {
        let raw_c =
            method_b_c(asked.cet.cet, asked.thickness_mm, asked.hydrogen_ml, asked.net_heat_kj_per_mm)
                + restraint_k;
        outcome.raw = Some(raw_c);
        outcome.at_least = inputs.iter().any(Checked::above) || raw_c > sum_c + 1e-9;
    }
    outcome.inputs = inputs;
    if sum_c < NO_PREHEAT_BELOW_C { outcome.saying(Says::Clears) } else { outcome }
}

/// The same by SEW 088 Beiblatt 1 (1993), shown beside Method B.
///
/// # Errors
/// As [`method_b`].
pub fn sew_088(row: &MethodRow, asked: &MethodB<'_>) -> Result<Outcome, EngineError> {
    asked.check()?;
    let bare = MethodB { cet: CetOf::figure(asked.cet.cet), ..*asked };
    let sum_c = sew_088_c(asked.cet.cet, asked.thickness_mm, asked.hydrogen_ml, asked.net_heat_kj_per_mm);
    let outcome = Outcome::new(Method::Sew088, sum_c, Unit::Celsius)
        .from_inputs(bare.inputs(row, Ends::Drawn))
        .worked(vec![Step::new("Tp", sum_c, Unit::Celsius)]);
    Ok(if sum_c < NO_PREHEAT_BELOW_C { outcome.saying(Says::Clears) } else { outcome })
}

/// The method on a member's heat-affected zone.
#[must_use]
pub fn asked_of<'a>(case: &Case<'a>) -> MethodB<'a> {
    MethodB {
        cet: CetOf {
            cet: case.chemistry.cet(),
            analysis: Some(&case.chemistry.composition),
            add: case.chemistry.cet_add,
        },
        thickness_mm: case.member.thickness_mm,
        hydrogen_ml: case.hydrogen_ml,
        net_heat_kj_per_mm: case.net_heat_kj_per_mm,
        high_restraint: case.high_restraint(),
    }
}

/// The method's word on a member's heat-affected zone.
#[must_use]
pub fn on(case: &Case<'_>) -> Evidence {
    case.evidence(held(case.row(Method::MethodB), &asked_of(case)))
}

/// The answer for a job whose figures were read, with its inputs put at the ends of the range.
#[must_use]
pub fn held(row: &MethodRow, asked: &MethodB<'_>) -> Outcome {
    worked(row, asked, Ends::Held)
}
