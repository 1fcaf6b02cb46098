//! What does a run leave at this current and speed?

use super::fillet::leg_of_area_mm;
use crate::engine::error::Domain;
use crate::engine::heat_input::{arc_energy_kj_per_mm, net_kj_per_mm};
use crate::engine::{EngineError, Outcome, Step, Unit};
use crate::reference::{Method, RunProcess, WeldCurrent, WeldRuns};

pub(super) const CURRENT: Domain = Domain::new("amps", 3.0, 1500.0);
const RATE: Domain = Domain::new("deposit-rate", 0.05, 30.0);
const SPEED: Domain = Domain::new("travel-speed", 0.1, 50.0);
const AREA: Domain = Domain::new("bead-area", 1.0, 300.0);

/// Area of a run, mm²: `A = R / (3600 ρ v)`, R in kg/h, v in mm/s.
///
/// # Errors
/// A rate or a speed that no arc has.
pub fn area_mm2(runs: &WeldRuns, kg_per_h: f64, mm_per_s: f64) -> Result<f64, EngineError> {
    Ok(RATE.check(kg_per_h)? / (3600.0 * runs.density_kg_per_mm3 * SPEED.check(mm_per_s)?))
}

/// Rate of a wire, kg/h, by its feed.
#[must_use]
pub fn wire_kg_per_h(runs: &WeldRuns, diameter_mm: f64, feed_mm_per_s: f64, share: f64) -> f64 {
    let area = std::f64::consts::FRAC_PI_4 * diameter_mm * diameter_mm;
    area * feed_mm_per_s * runs.density_kg_per_mm3 * 3600.0 * share
}

/// One of the two that are free: the other follows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Free {
    /// Travel speed, mm/s.
    Speed(f64),
    /// Area of the run, mm².
    Area(f64),
}

/// What is asked of a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DepositQuery<'a> {
    /// Sizes.
    pub runs: &'a WeldRuns,
    /// Currents.
    pub current: &'a WeldCurrent,
    /// The process.
    pub process: &'a RunProcess,
    /// Current, A.
    pub amps: f64,
    /// Volts, where they are read.
    pub volts: Option<f64>,
    /// Rate of deposit, where it is known, kg/h.
    pub rate_kg_per_h: Option<f64>,
    /// Speed or area.
    pub free: Free,
    /// Length of the run, mm.
    pub length_mm: Option<f64>,
    /// Thermal efficiency.
    pub efficiency: f64,
}

/// Volts that an arc has at a current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Volts {
    /// The test load of its standard, V.
    pub line_v: f64,
    /// The estimate, V.
    pub estimate_v: f64,
}

/// Volts of a process that are not read: its load line, less 3 V for TIG.
///
/// # Errors
/// A process that has no line; a current that no arc has.
pub fn estimated_volts(current: &WeldCurrent, process: &str, amps: f64) -> Result<Volts, EngineError> {
    let line = current.load_line(process).ok_or(EngineError::NoAnswer { reason: "table-has-no-row" })?;
    let amps = CURRENT.check(amps)?.min(current.constant_from_a);
    let line_v = line.base_v + line.per_amp_v * amps;
    Ok(Volts { line_v, estimate_v: line_v - line.less_v.unwrap_or(0.0) })
}

/// A run.
#[derive(Debug, Clone, PartialEq)]
pub struct Deposited {
    /// Rate, area, leg, speed, energies, time.
    pub outcomes: Vec<Outcome>,
    /// Are the volts an estimate?
    pub estimated: bool,
}

/// Rate, area, leg and speed of a run, its energy, its time.
///
/// Source: rate by current from memory; volts that are not read as the load lines of IEC 60974; the sums
/// are computed. What the run leaves for each kJ/mm does not depend on its speed.
///
/// # Errors
/// A figure that no arc has.
pub fn deposit(asked: &DepositQuery<'_>) -> Result<Deposited, EngineError> {
    let (runs, process) = (asked.runs, asked.process);
    let amps = CURRENT.check(asked.amps)?;
    let rate = match asked.rate_kg_per_h {
        Some(own) => RATE.check(own)?,
        None => RATE.check(process.rate.at(amps))?,
    };
    let (speed, area) = match asked.free {
        Free::Speed(speed) => (SPEED.check(speed)?, area_mm2(runs, rate, speed)?),
        Free::Area(area) => {
            let area = AREA.check(area)?;
            (SPEED.check(area_mm2(runs, rate, 1.0)? / area)?, area)
        }
    };
    let estimate = estimated_volts(asked.current, &process.id, amps)?;
    let volts = match asked.volts {
        Some(own) => Domain::new("volts", 1.0, 200.0).check(own)?,
        None => estimate.estimate_v,
    };
    let energy = arc_energy_kj_per_mm(volts, amps, speed);
    let net = net_kj_per_mm(energy, Domain::new("k", 0.1, 1.0).check(asked.efficiency)?);
    let estimated = asked.volts.is_none();
    let rated = asked.rate_kg_per_h.is_none();
    // A rate by current is as wide as its table says, and so is what follows from it.
    let rate_share = if rated { process.rate.spread_share } else { 0.0 };
    let speed_share = if matches!(asked.free, Free::Area(_)) { rate_share } else { 0.0 };
    let area_share = if matches!(asked.free, Free::Speed(_)) { rate_share } else { 0.0 };
    let volts_share = if estimated { asked.current.volts_spread_share } else { 0.0 };
    let answer = |name, value, unit| Outcome::new(Method::RunDeposit, value, unit).named(name);
    // With its ends, and the mark of the weakest that it rests on.
    let spread = |made: Outcome, low: f64, high: f64, by_rate: bool, by_volts: bool| {
        let mut made = if low < high { made.spread(low, high) } else { made };
        if by_volts {
            made = made.resting_on(&asked.current.volts_spread_basis);
        }
        if by_rate { made.resting_on(&process.basis) } else { made }
    };
    let about = |name, value: f64, unit, share: f64| {
        let by_rate = share > 0.0;
        spread(answer(name, value, unit), value * (1.0 - share), value * (1.0 + share), by_rate, false)
    };
    let mut outcomes = vec![about("deposit-rate", rate, Unit::KilogramPerHour, rate_share)];
    let area_of = about("bead-area", area, Unit::SquareMillimetre, area_share);
    let leg = leg_of_area_mm(runs, area);
    let leg_of = answer("bead-leg", leg, Unit::Millimetre).resting_on(&runs.convexity_basis);
    let (thin, thick) = (leg * (1.0 - area_share).sqrt(), leg * (1.0 + area_share).sqrt());
    let leg_of = spread(leg_of, thin, thick, area_share > 0.0, false);
    let speed_of = about("bead-speed", speed, Unit::MillimetrePerSecond, speed_share);
    match asked.free {
        Free::Speed(_) => outcomes.extend([area_of, leg_of, speed_of]),
        Free::Area(_) => outcomes.extend([speed_of, area_of, leg_of]),
    }
    let volts_of = answer("bead-volts", volts, Unit::Volt);
    outcomes.push(if estimated {
        volts_of
            .resting_on(&asked.current.load_lines_basis)
            .spread(volts * (1.0 - volts_share), volts * (1.0 + volts_share))
            .worked(vec![Step::new("load line", estimate.line_v, Unit::Volt)])
    } else {
        volts_of
    });
    let energetic = |name, value: f64| {
        let low = value * (1.0 - volts_share) / (1.0 + speed_share);
        let high = value * (1.0 + volts_share) / (1.0 - speed_share);
        spread(answer(name, value, Unit::KilojoulePerMm), low, high, speed_share > 0.0, estimated)
    };
    outcomes.extend([energetic("bead-energy", energy), energetic("bead-net-heat", net)]);
    let per_energy = area / energy;
    let (least, most) = (
        per_energy * (1.0 - rate_share) / (1.0 + volts_share),
        per_energy * (1.0 + rate_share) / (1.0 - volts_share),
    );
    let per_energy = answer("bead-per-energy", per_energy, Unit::SquareMillimetre);
    outcomes.push(spread(per_energy, least, most, rated, estimated));
    if let Some(length) = asked.length_mm {
        let length = Domain::new("run-length", 1.0, 1e6).check(length)?;
        let seconds = length / speed;
        let time = answer("bead-time", seconds, Unit::Second);
        let (short, long) = (seconds / (1.0 + speed_share), seconds / (1.0 - speed_share));
        outcomes.push(spread(time, short, long, speed_share > 0.0, false));
        let mass = area * length * runs.density_kg_per_mm3;
        outcomes.push(about("bead-mass", mass, Unit::Kilogram, area_share));
    }
    Ok(Deposited { outcomes, estimated })
}
