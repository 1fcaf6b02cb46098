//! How much hydrogen is in the weld, and how long does it take to leave?

use std::f64::consts::PI;

use super::error::{Domain, HYDROGEN, THICKNESS};
use super::source_ids::{COE_MORETON, EN_1011_2, published};
use super::{EngineError, Outcome, RangeCheck, Step, Unit};
use crate::reference::Basis;

/// Hydrogen scale of EN 1011-2, the highest content first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum HydrogenScale {
    /// Above 15 ml/100 g.
    A,
    /// Above 10, up to 15.
    B,
    /// Above 5, up to 10.
    C,
    /// Above 3, up to 5.
    D,
    /// Up to 3.
    E,
}

impl HydrogenScale {
    /// All letters, the highest content first.
    pub const ALL: [Self; 5] = [Self::A, Self::B, Self::C, Self::D, Self::E];

    /// The letter.
    #[must_use]
    pub const fn letter(self) -> &'static str {
        match self {
            Self::A => "A",
            Self::B => "B",
            Self::C => "C",
            Self::D => "D",
            Self::E => "E",
        }
    }

    /// Lower end (not included) and upper end (included) of the band, ml/100 g.
    #[must_use]
    pub const fn band_ml(self) -> (f64, Option<f64>) {
        match self {
            Self::A => (15.0, None),
            Self::B => (10.0, Some(15.0)),
            Self::C => (5.0, Some(10.0)),
            Self::D => (3.0, Some(5.0)),
            Self::E => (0.0, Some(3.0)),
        }
    }

    /// The band that contains a content. Band limits: EN 1011-2 Table C.1; letters from memory.
    #[must_use]
    pub fn of(hydrogen_ml: f64) -> Self {
        // The lowest band first, so that what is no number ends in the worst one.
        let fits = |scale: &Self| scale.band_ml().1.is_some_and(|high| hydrogen_ml <= high);
        Self::ALL.into_iter().rev().find(fits).unwrap_or(Self::A)
    }
}

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

/// Overall diffusion coefficients of hydrogen by Coe and Moreton: °C, cm²/s.
pub const COE_MORETON_ROWS: [(f64, f64); 9] = [
    (44.0, 5.2e-8),
    (60.0, 2.0e-7),
    (155.0, 4.9e-5),
    (210.0, 6.2e-5),
    (250.0, 6.2e-5),
    (310.0, 5.1e-5),
    (350.0, 5.1e-5),
    (395.0, 7.5e-5),
    (650.0, 9.9e-5),
];

/// Diffusion coefficient of the table, cm²/s: straight in log D over 1/T between rows,
/// `None` outside 44-650 °C.
#[must_use]
pub fn diffusion_measured_cm2_per_s(temperature_c: f64) -> Option<f64> {
    let inverse = |c: f64| 1.0 / (c + 273.15);
    COE_MORETON_ROWS.windows(2).find(|pair| (pair[0].0..=pair[1].0).contains(&temperature_c)).map(|pair| {
        let [(low_c, low), (high_c, high)] = [pair[0], pair[1]];
        let share = (inverse(temperature_c) - inverse(low_c)) / (inverse(high_c) - inverse(low_c));
        (low.ln() + share * (high.ln() - low.ln())).exp()
    })
}

/// Diffusion coefficient by a pair of Arrhenius equations, cm²/s, from memory:
/// `1.4e-3 exp(-13400/RT)` from 200 °C, `0.12 exp(-32700/RT)` below (J/mol).
#[must_use]
pub fn diffusion_arrhenius_cm2_per_s(temperature_c: f64) -> f64 {
    let (factor, energy) = if temperature_c >= 200.0 { (1.4e-3, 13_400.0) } else { (0.12, 32_700.0) };
    factor * (-energy / (8.314 * (temperature_c + 273.15))).exp()
}

/// The slower of the two above, so that a time errs on the long side, cm²/s.
#[must_use]
pub fn diffusion_slower_cm2_per_s(temperature_c: f64) -> f64 {
    let arrhenius = diffusion_arrhenius_cm2_per_s(temperature_c);
    diffusion_measured_cm2_per_s(temperature_c).map_or(arrhenius, |measured| measured.min(arrhenius))
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
    let (mut low, mut high) = (0.0, 2.0);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if share_left(middle) > left { low = middle } else { high = middle }
    }
    high
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
pub enum Diffusion {
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

impl Diffusion {
    /// The coefficient at a temperature, cm²/s, with its basis.
    ///
    /// # Errors
    /// A temperature outside 0-650 °C or outside the table, or a coefficient that no steel has.
    pub fn at(self, temperature_c: f64) -> Result<(f64, Basis), EngineError> {
        let t = HOT.check(temperature_c)?;
        let memory = || Basis::memory("Arrhenius pair for hydrogen in ferritic steel");
        let table = || published(COE_MORETON, "abstract, overall D");
        match self {
            Self::Slower => {
                let slower = diffusion_slower_cm2_per_s(t);
                let from_table = diffusion_measured_cm2_per_s(t).is_some_and(|measured| measured <= slower);
                Ok((slower, if from_table { table() } else { memory() }))
            }
            Self::Measured => diffusion_measured_cm2_per_s(t)
                .map(|d| (d, table()))
                .ok_or(EngineError::OutOfDomain { symbol: "T", value: t, low: 44.0, high: 650.0 }),
            Self::Arrhenius => Ok((diffusion_arrhenius_cm2_per_s(t), memory())),
            Self::Own(d) => Domain::new("D", 1e-12, 1e-2).check(d).map(|d| (d, Basis::Practice)),
        }
    }
}

/// The scale letter's band as a spread, and the content in ppm and by JIS:
/// `hydrogen-scale` (value: the content), `hydrogen-ppm`, `hydrogen-jis`.
///
/// # Errors
/// A content that is not a number, negative, or that no deposit has.
pub fn hydrogen_scale(hydrogen_ml: f64) -> Result<(HydrogenScale, [Outcome; 3]), EngineError> {
    HYDROGEN.check(hydrogen_ml)?;
    let scale = HydrogenScale::of(hydrogen_ml);
    let (low, high) = scale.band_ml();
    let mut banded = Outcome::new(
        "hydrogen-scale",
        hydrogen_ml,
        Unit::MlPer100g,
        published(EN_1011_2, "Table C.1, band limits"),
    );
    banded.low = Some(low);
    banded.high = high;
    let jis = h_jis_ml(hydrogen_ml);
    let mut by_jis =
        Outcome::new("hydrogen-jis", jis, Unit::MlPer100g, Basis::memory("glycerin against mercury method"));
    by_jis.value = (jis >= 0.0).then_some(jis);
    Ok((scale, [banded, Outcome::new("hydrogen-ppm", ppm(hydrogen_ml), Unit::Ppm, Basis::Practice), by_jis]))
}

/// A slab at heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slab {
    /// Thickness, both faces open, mm.
    pub thickness_mm: f64,
    /// Temperature, °C.
    pub temperature_c: f64,
    /// Whose diffusion coefficient.
    pub diffusion: Diffusion,
}

impl Slab {
    fn coefficient(self) -> Result<(f64, Basis, Vec<Step>), EngineError> {
        THICKNESS.check(self.thickness_mm)?;
        let (d, basis) = self.diffusion.at(self.temperature_c)?;
        // In mm²/h, since cm²/s leave no digit before the point.
        Ok((d, basis, vec![Step { symbol: "D (mm²/h)", value: d * 3.6e5, unit: Unit::One }]))
    }
}

/// Hours until a share of the hydrogen is left: `hydrogen-time-mean`, `hydrogen-time-middle`.
///
/// The slab series is exact; the coefficient is what it rests on.
///
/// # Errors
/// An input that is not a number, negative, or that no part has; a share outside 0.001-0.99.
pub fn removal_time(slab: Slab, left: f64) -> Result<[Outcome; 2], EngineError> {
    let (d, basis, steps) = slab.coefficient()?;
    Domain::new("f", 0.001, 0.99).check(left)?;
    let range =
        vec![RangeCheck { symbol: "T", value: slab.temperature_c, low: Some(44.0), high: Some(650.0) }];
    let made = |name, value| {
        Outcome::new(name, value, Unit::Hour, basis.clone()).checked(range.clone()).worked(steps.clone())
    };
    Ok([
        made("hydrogen-time-mean", mean_time_h(d, slab.thickness_mm, left)),
        made("hydrogen-time-middle", middle_time_h(d, slab.thickness_mm, left)),
    ])
}

/// Share of the hydrogen left after hours: `hydrogen-left-mean`, `hydrogen-left-middle`.
///
/// # Errors
/// An input that is not a number, negative, or that no part has.
pub fn share_left(slab: Slab, time_h: f64) -> Result<[Outcome; 2], EngineError> {
    let (d, basis, steps) = slab.coefficient()?;
    Domain::new("t", 0.0, 1e5).check(time_h)?;
    let range =
        vec![RangeCheck { symbol: "T", value: slab.temperature_c, low: Some(44.0), high: Some(650.0) }];
    let made = |name, value| {
        Outcome::new(name, value, Unit::One, basis.clone()).checked(range.clone()).worked(steps.clone())
    };
    Ok([
        made("hydrogen-left-mean", mean_left(d, slab.thickness_mm, time_h)),
        made("hydrogen-left-middle", middle_left(d, slab.thickness_mm, time_h)),
    ])
}
