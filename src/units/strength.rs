//! Strength and mass.

use super::measure::{self, Row};
use super::{Accepts, LengthUnit, Problem, limits};

/// One ksi in MPa.
pub(super) const MPA_PER_KSI: f64 = 6.894_757_293_168_361;
/// One pound in kg.
pub(super) const KG_PER_LB: f64 = 0.453_592_37;

/// Yield or tensile strength, MPa: `690 MPa`, `690 N/mm²`, `110 ksi`.
///
/// A bare number takes MPa or ksi, as shown.
///
/// # Errors
/// A [`Problem`] if it is no strength, or outside the limits.
pub fn strength(text: &str, shown: LengthUnit) -> Result<f64, Problem> {
    const ROWS: &[Row] = &[
        Row::plain("MPa", &["mpa", "n/mm2", "n/mm²"]),
        Row::scaled("ksi", &["ksi", "kpsi"], MPA_PER_KSI),
        Row::scaled("psi", &["psi"], MPA_PER_KSI / 1000.0),
    ];
    let row = usize::from(shown == LengthUnit::Inch);
    measure::read(text, Accepts::Strength, ROWS, row, limits::STRENGTH_MPA).map(|read| read.value)
}

/// Mass, kg: `12 kg`, `800 g`, `26 lb`.
///
/// A bare number takes kg or lb, as shown.
///
/// # Errors
/// A [`Problem`] if it is no mass, or outside the limits.
pub fn mass(text: &str, shown: LengthUnit) -> Result<f64, Problem> {
    const ROWS: &[Row] = &[
        Row::plain("kg", &["kg", "kilo", "kilos"]),
        Row::scaled("lb", &["lb", "lbs", "pound", "pounds"], KG_PER_LB),
        Row::over("g", &["g"], 1000.0),
        Row::scaled("t", &["t"], 1000.0),
    ];
    let row = usize::from(shown == LengthUnit::Inch);
    measure::read(text, Accepts::Mass, ROWS, row, limits::MASS_KG).map(|read| read.value)
}
