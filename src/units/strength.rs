//! Strength and mass.

use super::measure::{self, Row};
use super::{Accepts, Choice, LengthUnit, Problem, Within};

/// One ksi in MPa.
pub(super) const MPA_PER_KSI: f64 = 6.894_757_293_168_361;
/// One pound in kg.
pub(super) const KG_PER_LB: f64 = 0.453_592_37;
/// A pound of force, N.
pub(super) const N_PER_LBF: f64 = KG_PER_LB * 9.806_65;

/// One kgf/mm² in MPa.
const MPA_PER_KGF: f64 = 9.806_65;

const STRENGTHS: &[Row] = &[
    Row::plain("MPa", &["mpa", "n/mm2", "n/mm²"]),
    Row::scaled("ksi", &["ksi", "kpsi"], MPA_PER_KSI),
    Row::scaled("psi", &["psi"], MPA_PER_KSI / 1000.0),
    Row::scaled("kgf/mm²", &["kgf/mm2", "kgf/mm²", "kg/mm2", "kg/mm²"], MPA_PER_KGF),
];

/// Yield or tensile strength, MPa: `690 MPa`, `690 N/mm²`, `110 ksi`, `70 kgf/mm²`.
///
/// A bare number takes MPa or ksi, as shown.
///
/// # Errors
/// A [`Problem`] if it is no strength, or outside the limits.
pub fn strength(text: &str, shown: LengthUnit, within: Within) -> Result<f64, Problem> {
    let row = usize::from(shown == LengthUnit::Inch);
    measure::read(text, Accepts::Strength, STRENGTHS, row, within).map(|read| read.value)
}

/// The strength of a part, MPa, with its unit: a bare `100` is a mild steel in MPa and a strong one
/// in ksi or kgf/mm², so it is asked about.
///
/// # Errors
/// A [`Problem`] if it is no strength, has no unit (asked, with the choices), or is outside the
/// limits.
pub fn stated_strength(text: &str, within: Within) -> Result<f64, Problem> {
    const MEANS: [(usize, &str); 3] =
        [(0, "typed-means-mpa"), (1, "typed-means-ksi"), (3, "typed-means-kgf")];
    let read = measure::read(text, Accepts::Strength, STRENGTHS, 0, Within::new(f64::MIN, f64::MAX))?;
    if !read.bare {
        return measure::read(text, Accepts::Strength, STRENGTHS, 0, within).map(|read| read.value);
    }
    let choices: Vec<Choice> = MEANS
        .into_iter()
        .filter_map(|(row, means)| Some((STRENGTHS.get(row)?, means)))
        .filter(|(row, _)| within.holds(row.to_engine(read.value)))
        .map(|(row, means)| Choice { write: format!("{} {}", text.trim(), row.symbol), means })
        .collect();
    if choices.is_empty() {
        return measure::read(text, Accepts::Strength, STRENGTHS, 0, within).map(|read| read.value);
    }
    Err(Problem::Ambiguous { typed: text.to_owned(), choices })
}

/// Mass, kg: `12 kg`, `800 g`, `26 lb`.
///
/// A bare number takes kg or lb, as shown.
///
/// # Errors
/// A [`Problem`] if it is no mass, or outside the limits.
pub fn mass(text: &str, shown: LengthUnit, within: Within) -> Result<f64, Problem> {
    const ROWS: &[Row] = &[
        Row::plain("kg", &["kg", "kilo", "kilos"]),
        Row::scaled("lb", &["lb", "lbs", "pound", "pounds"], KG_PER_LB),
        Row::over("g", &["g"], 1000.0),
        Row::scaled("t", &["t"], 1000.0),
    ];
    let row = usize::from(shown == LengthUnit::Inch);
    measure::read(text, Accepts::Mass, ROWS, row, within).map(|read| read.value)
}
