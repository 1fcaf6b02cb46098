//! What temperature does an IR gun really mean, and what will it show at the target?

use super::error::Domain;
use super::solve::turning_point;
use super::thermal::{STEFAN_BOLTZMANN, ZERO_C_IN_K};
use super::tint::Span;
use super::{EngineError, Outcome, Step, Unit};
use crate::reference::Method;

/// Second radiation constant, µm K, CODATA 2018.
const C2_UM_K: f64 = 14_387.768_775;
/// The band of the gun, µm.
const BAND_UM: (f64, f64) = (8.0, 14.0);
/// Hottest steel that a reading is solved for, °C.
const HOTTEST_C: f64 = 1600.0;

const READING: Domain = Domain::new("reading", -100.0, HOTTEST_C);
const EMISSIVITY: Domain = Domain::new("ε", 0.01, 1.0);
const SURROUNDINGS: Domain = Domain::new("surroundings", -60.0, 500.0);
const TRUE: Domain = Domain::new("T", -60.0, HOTTEST_C);

/// A range wider than the two-sigma band of a temper colour tells less than a look does, K.
pub const USEFUL_WIDTH_K: f64 = 80.0;
/// Largest upward correction that may turn "below" into "reached" by itself, K.
pub const CORRECTION_MAX_K: f64 = 30.0;

/// Share of black-body radiation from wavelength 0 to the one given.
///
/// `F = 15/π⁴ Σ e^{-nx}/n (x³ + 3x²/n + 6x/n² + 6/n³)`, `x = c2/(λT)`.
/// Source: Planck's law; the series stands in heat-transfer handbooks.
#[must_use]
pub fn black_body_fraction(wavelength_kelvin_um: f64) -> f64 {
    if wavelength_kelvin_um <= 0.0 {
        return 0.0;
    }
    let x = C2_UM_K / wavelength_kelvin_um;
    let mut sum = 0.0;
    for term in 1..=200 {
        let n = f64::from(term);
        let part = (-n * x).exp() / n * (x.powi(3) + 3.0 * x * x / n + 6.0 * x / (n * n) + 6.0 / n.powi(3));
        sum += part;
        if part < 1e-17 {
            break;
        }
    }
    sum * 15.0 / std::f64::consts::PI.powi(4)
}

/// Radiance of a black body between 8 and 14 µm, W/(m² sr).
#[must_use]
pub fn band_radiance(celsius: f64) -> f64 {
    let kelvin = celsius + ZERO_C_IN_K;
    if kelvin <= 0.0 {
        return 0.0;
    }
    let share = black_body_fraction(BAND_UM.1 * kelvin) - black_body_fraction(BAND_UM.0 * kelvin);
    share * STEFAN_BOLTZMANN * kelvin.powi(4) / std::f64::consts::PI
}

/// Temperature of a black body of a band radiance, °C.
fn celsius_of(radiance: f64) -> Option<f64> {
    let reached = radiance > 0.0 && radiance <= band_radiance(HOTTEST_C);
    // Radiance rises with temperature.
    reached.then(|| turning_point(-ZERO_C_IN_K, HOTTEST_C, |celsius| band_radiance(celsius) < radiance))
}

/// What the gun is set to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GunSetting {
    /// Emissivity.
    pub emissivity: f64,
    /// Temperature of the surroundings that it assumes, °C.
    pub surroundings_c: f64,
}

impl GunSetting {
    /// The fixed setting of most guns.
    pub const USUAL: Self = Self { emissivity: 0.95, surroundings_c: 20.0 };

    fn check(&self) -> Result<(), EngineError> {
        EMISSIVITY.check(self.emissivity)?;
        SURROUNDINGS.check(self.surroundings_c).map(|_| ())
    }
}

/// The spot as it really is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Emissivity between 8 and 14 µm.
    pub emissivity: f64,
    /// Temperature of what it reflects, °C.
    pub surroundings_c: f64,
}

/// The temperature of a spot whose emissivity and surroundings are known, °C.
///
/// `ε_set S(T_read) + (1 - ε_set) S(T_surr,set) = ε S(T) + (1 - ε) S(T_surr)`; S black-body
/// radiance from 8 to 14 µm. Valid for an opaque grey surface and a flat response.
/// Source: Planck's law.
///
/// # Errors
/// An input that is not a number or that can't be; `NoAnswer` `ir-no-solution` where the
/// spot would have to radiate less than nothing, or more than at 1600 °C, and
/// `ir-below-surroundings` where it would be colder than what it reflects.
pub fn true_temperature_c(reading_c: f64, gun: GunSetting, spot: Spot) -> Result<f64, EngineError> {
    READING.check(reading_c)?;
    gun.check()?;
    EMISSIVITY.check(spot.emissivity)?;
    SURROUNDINGS.check(spot.surroundings_c)?;
    let seen = gun.emissivity * band_radiance(reading_c)
        + (1.0 - gun.emissivity) * band_radiance(gun.surroundings_c);
    let own = (seen - (1.0 - spot.emissivity) * band_radiance(spot.surroundings_c)) / spot.emissivity;
    let celsius = celsius_of(own).ok_or(EngineError::NoAnswer { reason: "ir-no-solution" })?;
    // A thousandth of a kelvin: a spot at the temperature of its surroundings is a sound answer.
    if celsius < spot.surroundings_c - 1e-3 {
        return Err(EngineError::NoAnswer { reason: "ir-below-surroundings" });
    }
    Ok(celsius)
}

/// What the gun shows on a spot of known temperature, °C.
///
/// # Errors
/// An input that is not a number or that can't be; `ir-no-solution` where the gun, by its
/// setting, would have to show less than nothing.
pub fn reading_c(true_c: f64, gun: GunSetting, spot: Spot) -> Result<f64, EngineError> {
    TRUE.check(true_c)?;
    gun.check()?;
    EMISSIVITY.check(spot.emissivity)?;
    SURROUNDINGS.check(spot.surroundings_c)?;
    let seen = spot.emissivity * band_radiance(true_c)
        + (1.0 - spot.emissivity) * band_radiance(spot.surroundings_c);
    let shown = (seen - (1.0 - gun.emissivity) * band_radiance(gun.surroundings_c)) / gun.emissivity;
    celsius_of(shown).ok_or(EngineError::NoAnswer { reason: "ir-no-solution" })
}

/// A reading on a surface whose emissivity and surroundings are known as ranges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct IrReading {
    /// What the gun shows, °C.
    pub reading_c: f64,
    /// What it is set to.
    pub gun: GunSetting,
    /// Plausible emissivity of the surface.
    pub emissivity: Span,
    /// Plausible temperature of what it reflects, °C.
    pub surroundings_c: Span,
}

/// The range that a reading leaves.
#[derive(Debug, Clone, PartialEq)]
pub struct IrTrue {
    /// Coldest: highest emissivity, hottest surroundings, °C; `None` where what is seen
    /// may be reflection alone.
    pub low_c: Option<f64>,
    /// Hottest: lowest emissivity, coldest surroundings, °C; `None` above 1600 °C.
    pub high_c: Option<f64>,
    /// Is the range narrow enough to use on this surface?
    pub useful: bool,
    /// The same as an outcome without a single value.
    pub outcome: Outcome,
}

impl IrReading {
    const fn coldest(&self) -> Spot {
        Spot { emissivity: self.emissivity.high, surroundings_c: self.surroundings_c.high }
    }

    const fn hottest(&self) -> Spot {
        Spot { emissivity: self.emissivity.low, surroundings_c: self.surroundings_c.low }
    }

    /// Both ends of the range; an end that radiation can't give is `None`.
    fn ends(&self) -> Result<(Option<f64>, Option<f64>), EngineError> {
        for span in [self.emissivity, self.surroundings_c] {
            if span.low > span.high {
                return Err(EngineError::NoAnswer { reason: "span-swapped" });
            }
        }
        let coldest = true_temperature_c(self.reading_c, self.gun, self.coldest());
        let hottest = true_temperature_c(self.reading_c, self.gun, self.hottest());
        match (coldest, hottest) {
            // Where both ends are one, the last digit of the search is no range.
            (Ok(low), Ok(high)) => Ok((Some(low.min(high)), Some(high.max(low)))),
            (Err(EngineError::NoAnswer { .. }), Ok(high)) => Ok((None, Some(high))),
            // The cold end lies above its surroundings, so the hot end can only be past 1600 °C.
            (Ok(low), Err(EngineError::NoAnswer { .. })) => Ok((Some(low), None)),
            (_, Err(error)) | (Err(error), _) => Err(error),
        }
    }
}

/// Which temperatures can the steel have when a gun shows this figure?
///
/// [`true_temperature_c`] at both ends: highest emissivity with hottest surroundings, and
/// lowest with coldest. A range wider than 80 K is no use.
///
/// # Errors
/// As [`true_temperature_c`] at the hottest end; `span-swapped`.
pub fn ir_true_temperature(reading: &IrReading) -> Result<IrTrue, EngineError> {
    let (low_c, high_c) = reading.ends()?;
    let useful = low_c.zip(high_c).is_some_and(|(low, high)| high - low <= USEFUL_WIDTH_K);
    let mut outcome = Outcome::open(Method::InfraredPlanck, Unit::Celsius).named("ir-true-temperature");
    (outcome.low, outcome.high) = (low_c, high_c);
    outcome.steps = vec![
        Step { symbol: "T_read", value: reading.reading_c, unit: Unit::Celsius },
        Step { symbol: "ε_set", value: reading.gun.emissivity, unit: Unit::One },
        Step { symbol: "ε low", value: reading.emissivity.low, unit: Unit::One },
        Step { symbol: "ε high", value: reading.emissivity.high, unit: Unit::One },
        Step { symbol: "T_surr low", value: reading.surroundings_c.low, unit: Unit::Celsius },
        Step { symbol: "T_surr high", value: reading.surroundings_c.high, unit: Unit::Celsius },
    ];
    Ok(IrTrue { low_c, high_c, useful, outcome })
}

/// What will the gun show when the steel is at a temperature? A range over emissivity and
/// surroundings.
///
/// # Errors
/// As [`reading_c`]; `span-swapped`.
pub fn ir_expected_reading(
    true_c: f64,
    gun: GunSetting,
    emissivity: Span,
    surroundings_c: Span,
) -> Result<Outcome, EngineError> {
    if emissivity.low > emissivity.high || surroundings_c.low > surroundings_c.high {
        return Err(EngineError::NoAnswer { reason: "span-swapped" });
    }
    let mut shown = Vec::with_capacity(4);
    for emissivity in [emissivity.low, emissivity.high] {
        for surroundings_c in [surroundings_c.low, surroundings_c.high] {
            shown.push(reading_c(true_c, gun, Spot { emissivity, surroundings_c })?);
        }
    }
    let low_c = shown.iter().copied().fold(f64::INFINITY, f64::min);
    let high_c = shown.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    Ok(Outcome::open(Method::InfraredPlanck, Unit::Celsius)
        .named("ir-expected-reading")
        .spread(low_c, high_c)
        .worked(vec![Step::new("T", true_c, Unit::Celsius)]))
}

/// A limit that a reading is held against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum IrLimit {
    /// The steel must be at least this hot, °C.
    Minimum(f64),
    /// The steel must be at most this hot, °C.
    Maximum(f64),
}

/// What a reading shows about a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum IrVerdict {
    /// The limit is kept, whatever the surface and surroundings within their ranges.
    Kept,
    /// Kept only by a correction above 30 K: measure with a crayon or a probe, or on a
    /// dull black spot.
    AskAnother,
    /// May be kept or not: the reading can't tell.
    NotShown,
    /// Not kept, whatever the surface and surroundings within their ranges.
    Missed,
}

impl IrVerdict {
    /// Stable id; the words are the Fluent message `ir-verdict-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// A verdict with the figure that it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct IrJudgement {
    /// The verdict.
    pub verdict: IrVerdict,
    /// The end of the range that judges, °C: the cold end for a minimum, the hot end for
    /// a maximum.
    pub judged_c: Option<f64>,
    /// Correction at that end, K.
    pub correction_k: Option<f64>,
}

/// Does a reading show that a limit is kept? Always judged at the unfavourable end.
///
/// # Errors
/// As [`ir_true_temperature`]; a limit that no steel has.
pub fn judge(reading: &IrReading, limit: IrLimit) -> Result<IrJudgement, EngineError> {
    let (low_c, high_c) = reading.ends()?;
    let (verdict, judged_c) = match limit {
        IrLimit::Minimum(minimum_c) => {
            TRUE.check(minimum_c)?;
            let verdict = match low_c {
                Some(low) if low >= minimum_c => {
                    let by_correction =
                        reading.reading_c < minimum_c && low - reading.reading_c > CORRECTION_MAX_K;
                    if by_correction { IrVerdict::AskAnother } else { IrVerdict::Kept }
                }
                _ if high_c.is_some_and(|high| high < minimum_c) => IrVerdict::Missed,
                _ => IrVerdict::NotShown,
            };
            (verdict, low_c)
        }
        IrLimit::Maximum(maximum_c) => {
            TRUE.check(maximum_c)?;
            let verdict = match high_c {
                Some(high) if high <= maximum_c => IrVerdict::Kept,
                _ if low_c.is_some_and(|low| low > maximum_c) => IrVerdict::Missed,
                _ => IrVerdict::NotShown,
            };
            (verdict, high_c)
        }
    };
    Ok(IrJudgement { verdict, judged_c, correction_k: judged_c.map(|judged| judged - reading.reading_c) })
}
