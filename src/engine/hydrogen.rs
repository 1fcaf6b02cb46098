//! How much hydrogen is in the weld, and how long does it take to leave?

use std::f64::consts::PI;

use super::error::{Domain, HYDROGEN, THICKNESS};
use super::solve::turning_point;
use super::thermal::ZERO_C_IN_K;
use super::{Checked, EngineError, Outcome, Step, Unit};
use crate::reference::{Designator, Diffusion, DiffusionPoint, HydrogenScale, Method, Table};

/// Parts per million by mass of a content in ml/100 g: 2.016 g of hydrogen fill 22 414 ml.
///
/// ```
/// assert!((strawblue::engine::hydrogen::ppm(5.0) - 4.5).abs() < 0.01);
/// ```
#[must_use]
pub const fn ppm(hydrogen_ml: f64) -> f64 {
    hydrogen_ml * 2.016 / 22_414.0 * 1e4
}

/// Content by the glycerin method of JIS for one by ISO 3690: `0.79 HD - 1.73`, ml/100 g.
/// From memory; it falls below zero under 2.2 ml/100 g.
#[must_use]
pub const fn h_jis_ml(hydrogen_ml: f64) -> f64 {
    0.79 * hydrogen_ml - 1.73
}

/// Diffusion coefficient of Coe and Moreton's table, cm²/s: straight in log D over 1/T between
/// its points, `None` outside them. Source: `data/own_sheets.ron`.
#[must_use]
pub fn diffusion_measured_cm2_per_s(table: &Diffusion, temperature_c: f64) -> Option<f64> {
    let inverse = |c: f64| 1.0 / (c + ZERO_C_IN_K);
    // The points fall from hot to cold.
    let between = |pair: &&[DiffusionPoint]| (pair[1].at_c..=pair[0].at_c).contains(&temperature_c);
    table.points.windows(2).find(between).map(|pair| {
        let (low, high) = (pair[1], pair[0]);
        let share = (inverse(temperature_c) - inverse(low.at_c)) / (inverse(high.at_c) - inverse(low.at_c));
        (low.cm2_per_s.ln() + share * (high.cm2_per_s.ln() - low.cm2_per_s.ln())).exp()
    })
}

/// The temperatures between which the table holds, °C.
fn measured_span_c(table: &Diffusion) -> (f64, f64) {
    let at = |point: Option<&DiffusionPoint>| point.map_or(f64::NAN, |point| point.at_c);
    (at(table.points.last()), at(table.points.first()))
}

/// Diffusion coefficient by a pair of Arrhenius equations, cm²/s, from memory:
/// `1.4e-3 exp(-13400/RT)` from 200 °C, `0.12 exp(-32700/RT)` below (J/mol).
#[must_use]
pub fn diffusion_arrhenius_cm2_per_s(temperature_c: f64) -> f64 {
    let (factor, energy) = if temperature_c >= 200.0 { (1.4e-3, 13_400.0) } else { (0.12, 32_700.0) };
    factor * (-energy / (8.314 * (temperature_c + ZERO_C_IN_K))).exp()
}

/// The slower of the two above, so that a time errs on the long side, cm²/s.
#[must_use]
pub fn diffusion_slower_cm2_per_s(table: &Diffusion, temperature_c: f64) -> f64 {
    let arrhenius = diffusion_arrhenius_cm2_per_s(temperature_c);
    diffusion_measured_cm2_per_s(table, temperature_c).map_or(arrhenius, |measured| measured.min(arrhenius))
}

/// Terms of the slab series; below `SHORT` the next term no longer vanishes and the
/// short-time solution is exact to a double.
const TERMS: u32 = 60;
const SHORT: f64 = 0.002;

/// Mean share left in a slab open at both faces at `Fo = D t / L²`:
/// `(8/pi²) sum (2n+1)^-2 exp[-(2n+1)² pi² Fo]`.
#[must_use]
pub fn slab_mean_left(fourier: f64) -> f64 {
    if fourier <= SHORT {
        return 1.0 - 4.0 * (fourier.max(0.0) / PI).sqrt();
    }
    let sum: f64 = (0..TERMS)
        .map(|n| {
            let odd = f64::from(2 * n + 1).powi(2);
            (-odd * PI * PI * fourier).exp() / odd
        })
        .sum();
    8.0 / (PI * PI) * sum
}

/// Share left in the middle of the slab: `(4/pi) sum (-1)^n/(2n+1) exp[-(2n+1)² pi² Fo]`.
#[must_use]
pub fn slab_middle_left(fourier: f64) -> f64 {
    if fourier <= SHORT {
        return 1.0;
    }
    let sum: f64 = (0..TERMS)
        .map(|n| {
            let odd = f64::from(2 * n + 1);
            let sign = if n % 2 == 0 { 1.0 } else { -1.0 };
            sign * (-odd * odd * PI * PI * fourier).exp() / odd
        })
        .sum();
    (4.0 / PI * sum).clamp(0.0, 1.0)
}

/// `Fo` at which a share is left, by halving between 0 and 2 (where 3e-9 is left).
fn fourier_for(left: f64, share_left: fn(f64) -> f64) -> f64 {
    turning_point(0.0, 2.0, |fourier| share_left(fourier) > left)
}

/// `Fo` of a slab after hours; D in cm²/s, thickness in mm.
fn fourier(diffusion_cm2_per_s: f64, thickness_mm: f64, time_h: f64) -> f64 {
    diffusion_cm2_per_s * 100.0 * time_h * 3600.0 / (thickness_mm * thickness_mm)
}

/// Hours of a slab at a `Fo`.
fn hours(diffusion_cm2_per_s: f64, thickness_mm: f64, fourier: f64) -> f64 {
    fourier * thickness_mm * thickness_mm / (diffusion_cm2_per_s * 100.0) / 3600.0
}

/// Hours until a mean share is left in a slab open at both faces.
#[must_use]
pub fn mean_time_h(diffusion_cm2_per_s: f64, thickness_mm: f64, left: f64) -> f64 {
    hours(diffusion_cm2_per_s, thickness_mm, fourier_for(left, slab_mean_left))
}

/// Hours until a share is left in the middle of the slab.
#[must_use]
pub fn middle_time_h(diffusion_cm2_per_s: f64, thickness_mm: f64, left: f64) -> f64 {
    hours(diffusion_cm2_per_s, thickness_mm, fourier_for(left, slab_middle_left))
}

/// Mean share left in the slab after hours.
#[must_use]
pub fn mean_left(diffusion_cm2_per_s: f64, thickness_mm: f64, time_h: f64) -> f64 {
    slab_mean_left(fourier(diffusion_cm2_per_s, thickness_mm, time_h))
}

/// Share left in the middle of the slab after hours.
#[must_use]
pub fn middle_left(diffusion_cm2_per_s: f64, thickness_mm: f64, time_h: f64) -> f64 {
    slab_middle_left(fourier(diffusion_cm2_per_s, thickness_mm, time_h))
}

/// Whose diffusion coefficient.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Coefficient {
    /// The slower of table and equations.
    Slower,
    /// Coe and Moreton's table; refused outside 44-650 °C.
    Measured,
    /// The Arrhenius pair.
    Arrhenius,
    /// The reader's own, cm²/s.
    Own(f64),
}

const HOT: Domain = Domain::new("T", 0.0, 650.0);

impl Coefficient {
    /// The coefficient at a temperature, cm²/s, with the method that it comes by.
    ///
    /// # Errors
    /// A temperature outside 0-650 °C or outside the table, or a coefficient that no steel has.
    pub fn at(self, table: &Diffusion, temperature_c: f64) -> Result<(f64, Method), EngineError> {
        let t = HOT.check(temperature_c)?;
        let measured = diffusion_measured_cm2_per_s(table, t);
        match self {
            Self::Slower => {
                let slower = diffusion_slower_cm2_per_s(table, t);
                let from_table = measured.is_some_and(|measured| measured <= slower);
                Ok((slower, if from_table { Method::HydrogenDiffusion } else { Method::HydrogenArrhenius }))
            }
            Self::Measured => {
                let (low, high) = measured_span_c(table);
                measured.map(|d| (d, Method::HydrogenDiffusion)).ok_or(EngineError::OutOfDomain {
                    symbol: "T",
                    value: t,
                    low,
                    high,
                })
            }
            Self::Arrhenius => Ok((diffusion_arrhenius_cm2_per_s(t), Method::HydrogenArrhenius)),
            Self::Own(d) => Domain::new("D", 1e-12, 1e-2).check(d).map(|d| (d, Method::HydrogenOwn)),
        }
    }
}

/// The scale letter's band as a spread, and the content in ppm and by JIS:
/// `hydrogen-scale` (value: the content), `hydrogen-ppm`, `hydrogen-jis`.
///
/// # Errors
/// A content that is not a number, negative, or that no deposit has.
pub fn hydrogen_scale(
    designators: &Table<Designator>,
    hydrogen_ml: f64,
) -> Result<(&Designator, [Outcome; 3]), EngineError> {
    HYDROGEN.check(hydrogen_ml)?;
    let letters = designators.iter().filter(|row| row.scale == HydrogenScale::Letter);
    let letter = letters
        .filter(|row| row.above_ml.is_none_or(|above_ml| hydrogen_ml > above_ml))
        .find(|row| row.up_to_ml.is_none_or(|up_to_ml| hydrogen_ml <= up_to_ml))
        .ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })?;
    let answer = |method, value, unit| Outcome::new(method, value, unit);
    let mut banded = answer(Method::HydrogenScale, hydrogen_ml, Unit::MlPer100g).resting_on(&letter.basis);
    banded.low = Some(letter.above_ml.unwrap_or(0.0));
    banded.high = letter.up_to_ml;
    let jis = h_jis_ml(hydrogen_ml);
    let mut by_jis = answer(Method::HydrogenJis, jis, Unit::MlPer100g);
    by_jis.value = (jis >= 0.0).then_some(jis);
    Ok((letter, [banded, answer(Method::HydrogenPpm, ppm(hydrogen_ml), Unit::Ppm), by_jis]))
}

/// A slab at heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slab {
    /// Thickness, both faces open, mm.
    pub thickness_mm: f64,
    /// Temperature, °C.
    pub temperature_c: f64,
    /// Whose diffusion coefficient.
    pub coefficient: Coefficient,
}

impl Slab {
    /// The coefficient, cm²/s, and the method that it is of.
    fn coefficient(self, table: &Diffusion) -> Result<(f64, Method), EngineError> {
        THICKNESS.check(self.thickness_mm)?;
        self.coefficient.at(table, self.temperature_c)
    }

    /// The same answer with what it is worked out from.
    fn worked(self, table: &Diffusion, d: f64, answer: Outcome) -> Outcome {
        let (low, high) = measured_span_c(table);
        answer
            .from_inputs(vec![
                Checked::between("T", self.temperature_c, Unit::Celsius, low, high),
                Checked::free("d", self.thickness_mm, Unit::Millimetre),
            ])
            // In mm²/h, since cm²/s leave no digit before the point.
            .worked(vec![Step::new("D", d * 3.6e5, Unit::SquareMillimetrePerHour)])
    }
}

/// Hours until a share of the hydrogen is left: `hydrogen-time-mean`, `hydrogen-time-middle`.
///
/// The slab series is exact; the coefficient is what it rests on.
///
/// # Errors
/// An input that is not a number, negative, or that no part has; a share outside 0.001-0.99.
pub fn removal_time(table: &Diffusion, slab: Slab, left: f64) -> Result<[Outcome; 2], EngineError> {
    let (d, method) = slab.coefficient(table)?;
    Domain::new("f", 0.001, 0.99).check(left)?;
    let answer = |name, hours| slab.worked(table, d, Outcome::new(method, hours, Unit::Hour).named(name));
    Ok([
        answer("hydrogen-time-mean", mean_time_h(d, slab.thickness_mm, left)),
        answer("hydrogen-time-middle", middle_time_h(d, slab.thickness_mm, left)),
    ])
}

/// Share of the hydrogen left after hours: `hydrogen-left-mean`, `hydrogen-left-middle`.
///
/// # Errors
/// An input that is not a number, negative, or that no part has.
pub fn share_left(table: &Diffusion, slab: Slab, time_h: f64) -> Result<[Outcome; 2], EngineError> {
    let (d, method) = slab.coefficient(table)?;
    Domain::new("t", 0.0, 1e5).check(time_h)?;
    let answer = |name, share| slab.worked(table, d, Outcome::new(method, share, Unit::One).named(name));
    Ok([
        answer("hydrogen-left-mean", mean_left(d, slab.thickness_mm, time_h)),
        answer("hydrogen-left-middle", middle_left(d, slab.thickness_mm, time_h)),
    ])
}
