//! How fast does hydrogen move in steel at a temperature?

use crate::engine::thermal::ZERO_C_IN_K;
use crate::reference::{Basis, DiffusivityPoint, Reference};

/// Which of the published diffusivities.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::VariantArray)]
pub enum Curve {
    /// The slow end, on which every time rests.
    Slow,
    /// The geometric mean of both ends.
    Middle,
    /// The fast end.
    Fast,
}

impl Curve {
    /// All curves, the slow one first.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;
}

/// Effective diffusivity of hydrogen in ferrite, bainite and martensite, cm²/s: straight in
/// `ln D` over `1/T` between the rows of `data/post_heat.ron`, the coldest slope drawn on
/// below them, constant above them.
///
/// It never falls as the temperature rises.
///
/// ```
/// use strawblue::engine::post_heat::{Curve, diffusivity_cm2_per_s};
/// let slow = diffusivity_cm2_per_s(strawblue::reference::embedded(), Curve::Slow, 300.0);
/// assert!((slow - 5.1e-5).abs() < 1e-9);
/// ```
#[must_use]
pub fn diffusivity_cm2_per_s(reference: &Reference, curve: Curve, temperature_c: f64) -> f64 {
    let curves = &reference.post_heat.diffusivity;
    match curve {
        Curve::Slow => on_line(&curves.slow, temperature_c),
        Curve::Fast => on_line(&curves.fast, temperature_c),
        Curve::Middle => (on_line(&curves.slow, temperature_c) * on_line(&curves.fast, temperature_c)).sqrt(),
    }
}

/// What the slow curve rests on at a temperature: the weaker basis of the rows beside it.
#[must_use]
pub fn slow_basis(reference: &Reference, temperature_c: f64) -> Basis {
    let points = &reference.post_heat.diffusivity.slow;
    let above = points.partition_point(|point| point.at_c < temperature_c);
    let high = &points[above.min(points.len() - 1)];
    let low = &points[above.saturating_sub(1)];
    // On a row, or past the last one, that row alone counts.
    if temperature_c >= high.at_c { high.basis.clone() } else { low.basis.weaker(&high.basis).clone() }
}

/// Diffusivity in austenite, cm²/s: `D = 2.01e-3 exp(-49 300 / RT)`, printed for 100-350 °C.
#[must_use]
pub fn austenite_cm2_per_s(reference: &Reference, temperature_c: f64) -> f64 {
    const GAS_J_PER_MOL_K: f64 = 8.314_462_618;
    let austenite = &reference.post_heat.austenite;
    let kelvin = temperature_c + ZERO_C_IN_K;
    austenite.factor_cm2_per_s * (-austenite.energy_j_per_mol / (GAS_J_PER_MOL_K * kelvin)).exp()
}

fn on_line(points: &[DiffusivityPoint], temperature_c: f64) -> f64 {
    let last = points.len() - 1;
    if temperature_c >= points[last].at_c {
        return points[last].cm2_per_s;
    }
    let above = points.partition_point(|point| point.at_c <= temperature_c).clamp(1, last);
    let (low, high) = (&points[above - 1], &points[above]);
    let inverse = |c: f64| 1.0 / (c + ZERO_C_IN_K);
    let share = (inverse(temperature_c) - inverse(low.at_c)) / (inverse(high.at_c) - inverse(low.at_c));
    (low.cm2_per_s.ln() + share * (high.cm2_per_s.ln() - low.cm2_per_s.ln())).exp()
}
