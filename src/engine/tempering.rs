//! Which heat treatments after welding do the same, and how long does one take?

use super::error::Domain;
use super::{Checked, EngineError, Outcome, Step, Unit};
use crate::reference::{Basis, Method, WeldTreatment};

const KELVIN: f64 = 273.15;
const INCH_MM: f64 = 25.4;

/// One cycle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TemperCycle {
    /// Temperature, °C.
    pub at_c: f64,
    /// Hours.
    pub hours: f64,
}

/// Hollomon and Jaffe's parameter: `P = T (C + log10 t)/1000`, T in K, t in h, C 20.
#[must_use]
pub fn parameter(data: &WeldTreatment, cycle: TemperCycle) -> f64 {
    (cycle.at_c + KELVIN) * (data.constant + cycle.hours.log10()) / 1000.0
}

/// Hours at a temperature that have a parameter.
#[must_use]
pub fn hours_at(data: &WeldTreatment, parameter: f64, at_c: f64) -> f64 {
    10.0_f64.powf(1000.0 * parameter / (at_c + KELVIN) - data.constant)
}

/// Temperature, °C, that has a parameter in some hours.
#[must_use]
pub fn temperature_for(data: &WeldTreatment, parameter: f64, hours: f64) -> f64 {
    1000.0 * parameter / (data.constant + hours.log10()) - KELVIN
}

/// Hours at the temperature that a straight ramp to it adds: `T/(46.05 r)`, T in K, r in K/h.
#[must_use]
pub fn ramp_hours(data: &WeldTreatment, at_c: f64, k_per_h: f64) -> f64 {
    (at_c + KELVIN) / (data.constant * std::f64::consts::LN_10 * k_per_h)
}

/// Several cycles as one at the hottest of them.
#[must_use]
pub fn together(data: &WeldTreatment, cycles: &[TemperCycle]) -> Option<TemperCycle> {
    let hottest = cycles.iter().map(|cycle| cycle.at_c).reduce(f64::max)?;
    let hours = cycles.iter().map(|cycle| hours_at(data, parameter(data, *cycle), hottest)).sum();
    Some(TemperCycle { at_c: hottest, hours })
}

/// What is asked of cycles.
#[derive(Debug, Clone, PartialEq)]
pub struct TemperQuery {
    /// The cycles.
    pub cycles: Vec<TemperCycle>,
    /// Another temperature, °C.
    pub other_c: Option<f64>,
    /// Other hours.
    pub other_h: Option<f64>,
    /// Rate of heating and of cooling, K/h.
    pub rate_k_per_h: Option<f64>,
}

/// The parameter of all cycles, the hours at another temperature and the temperature of other hours that do
/// the same, and what a ramp adds.
///
/// Source: EN 13445-4 for the parameter with the constant 20. It compares tempering only, between 450 and
/// 750 °C and within a factor of 100 in time (from memory); it says nothing of hydrogen or hardness.
///
/// # Errors
/// A temperature outside 100 to 900 °C, hours outside 0.01 to 1000; a rate that no furnace has.
pub fn tempering(data: &WeldTreatment, asked: &TemperQuery) -> Result<Vec<Outcome>, EngineError> {
    let hot = Domain::new("treat-temperature", 100.0, 900.0);
    let long = Domain::new("treat-hours", 0.01, 1000.0);
    for cycle in &asked.cycles {
        hot.check(cycle.at_c)?;
        long.check(cycle.hours)?;
    }
    let all = together(data, &asked.cycles).ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })?;
    let found = parameter(data, all);
    let range = |symbol, at_c| Checked::between(symbol, at_c, Unit::Celsius, data.from_c, data.to_c);
    let cold = asked.cycles.iter().map(|cycle| cycle.at_c).reduce(f64::min).unwrap_or(all.at_c);
    let made = |name, value, unit| Outcome::new(Method::Tempering, value, unit).named(name);
    let mut outcomes = vec![
        made("temper-parameter", found, Unit::One)
            .from_inputs(vec![range("T", all.at_c), range("coldest", cold)])
            .worked(vec![
                Step::new("hottest", all.at_c, Unit::Celsius),
                Step::new("hours at the hottest", all.hours, Unit::Hour),
            ]),
    ];
    if let Some(other) = asked.other_c {
        let other = Domain::new("other-temperature", 100.0, 900.0).check(other)?;
        let hours = hours_at(data, found, other);
        if !(1e-4..=1e6).contains(&hours) {
            return Err(EngineError::NoAnswer { reason: "temper-too-far" });
        }
        let times = hours / all.hours;
        let times = Checked::between("times", times, Unit::One, 1.0 / data.times, data.times);
        outcomes.push(made("temper-hours", hours, Unit::Hour).from_inputs(vec![
            range("T", all.at_c),
            range("other", other),
            times,
        ]));
    }
    if let Some(hours) = asked.other_h {
        let hours = long.check(hours)?;
        let at_c = temperature_for(data, found, hours);
        outcomes.push(
            made("temper-temperature", at_c, Unit::Celsius)
                .from_inputs(vec![range("T", all.at_c), range("other", at_c)]),
        );
    }
    if let Some(rate) = asked.rate_k_per_h {
        let rate = Domain::new("ramp-rate", 1.0, 2000.0).check(rate)?;
        outcomes.push(made("temper-ramp", ramp_hours(data, all.at_c, rate), Unit::Hour));
    }
    Ok(outcomes)
}

/// What is asked of a heat treatment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TreatmentQuery {
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// The lowest tempering temperature of the parts, where one is known, °C.
    pub tempered_c: Option<f64>,
    /// Temperature of the treatment, °C.
    pub at_c: Option<f64>,
    /// So much less than the required temperature, K.
    pub less_k: f64,
    /// Hardened alloy steel?
    pub hardened: bool,
}

/// Hours of the naval rule, h.
fn navsea_h(data: &WeldTreatment, thickness_mm: f64, less_k: f64) -> Option<f64> {
    let row = data.navsea_lower.iter().find(|row| less_k <= row.less_k);
    let per_inch = if less_k <= 0.0 { data.navsea_h_per_inch } else { row?.h_per_inch };
    let least = data.navsea_least_h * per_inch / data.navsea_h_per_inch;
    Some((per_inch * thickness_mm / INCH_MM).max(least))
}

/// Hours of ASME UCS-56 for P-No. 1, h.
fn asme_h(data: &WeldTreatment, thickness_mm: f64) -> f64 {
    let inches = thickness_mm / INCH_MM;
    let whole = inches.min(data.asme_whole_inches);
    let more = (inches - data.asme_whole_inches).max(0.0) * data.asme_more_h_per_inch;
    (whole + more).max(data.asme_least_h)
}

/// Hours by two codes, the ceiling of the treatment, and how fast it may heat and cool.
#[derive(Debug, Clone, PartialEq)]
pub struct Treatment {
    /// Hours, ceiling, rates.
    pub outcomes: Vec<Outcome>,
    /// Is the treatment above its ceiling?
    pub above: bool,
    /// Do the two codes differ by more than a tenth?
    pub codes_differ: bool,
}

/// Hours, ceiling and rates of a stress relief.
///
/// Source: NAVSEA for its hours and the ceiling, ASME UCS-56 for its hours; rates are from memory. Hardened
/// alloy steel goes at half of them (common practice).
///
/// # Errors
/// A thickness or a temperature that no part has; `temper-too-low` where the temperature is more than 111 K
/// below what is required.
pub fn treatment(data: &WeldTreatment, asked: &TreatmentQuery) -> Result<Treatment, EngineError> {
    let mm = Domain::new("thickness", 0.5, 2000.0).check(asked.thickness_mm)?;
    let less = Domain::new("less-than-required", 0.0, 500.0).check(asked.less_k)?;
    let made = |name, value, unit, basis: &Basis| {
        Outcome::new(Method::StressRelief, value, unit).named(name).resting_on(basis)
    };
    let navsea = navsea_h(data, mm, less).ok_or(EngineError::NoAnswer { reason: "temper-too-low" })?;
    let asme = asme_h(data, mm);
    let mut outcomes = vec![made("relief-hours-navsea", navsea, Unit::Hour, &data.navsea_basis)];
    if less <= 0.0 {
        outcomes.push(made("relief-hours-asme", asme, Unit::Hour, &data.asme_basis));
    }
    let mut above = false;
    if let Some(tempered) = asked.tempered_c {
        let tempered = Domain::new("tempered-at", 100.0, 800.0).check(tempered)?;
        let cap = tempered - data.below_temper_k;
        above = asked.at_c.is_some_and(|at_c| at_c > cap);
        outcomes.push(made("relief-ceiling", cap, Unit::Celsius, &data.below_temper_basis));
    }
    if let Some(at_c) = asked.at_c {
        Domain::new("treat-temperature", 100.0, 900.0).check(at_c)?;
    }
    let share = if asked.hardened { data.hardened_share } else { 1.0 };
    let basis =
        if asked.hardened { data.rates_basis.weaker(&data.hardened_basis) } else { &data.rates_basis };
    let rates = [
        ("relief-rate-en", data.en_rate),
        ("relief-heating-asme", data.asme_heating),
        ("relief-cooling-asme", data.asme_cooling),
    ];
    outcomes.extend(rates.map(|(name, rate)| made(name, share * rate.at(mm), Unit::KelvinPerHour, basis)));
    let codes_differ = less <= 0.0 && (navsea / asme - 1.0).abs() > 0.1;
    Ok(Treatment { outcomes, above, codes_differ })
}
