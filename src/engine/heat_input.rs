//! How much heat does a run put into each millimetre?

use super::error::Domain;
use super::{EngineError, Outcome, Step, Unit};
use crate::reference::Method;

/// kJ/in in one kJ/mm (exact).
pub const KJ_PER_IN: f64 = 25.4;

/// Arc energy: `E = U I / (1000 v)` kJ/mm; U in V, I in A, v the travel speed in mm/s.
///
/// Source: EN 1011-1.
#[must_use]
pub const fn arc_energy_kj_per_mm(volts: f64, amps: f64, travel_mm_per_s: f64) -> f64 {
    volts * amps / (1000.0 * travel_mm_per_s)
}

/// Arc energy of a measured run: `E = U I t / (1000 L)` kJ/mm; t the arc time in s, L
/// the length of the run in mm.
#[must_use]
pub const fn arc_energy_of_run_kj_per_mm(volts: f64, amps: f64, arc_time_s: f64, run_mm: f64) -> f64 {
    volts * amps * arc_time_s / (1000.0 * run_mm)
}

/// Net heat input: `Q = k E`; k the thermal efficiency of the process.
#[must_use]
pub const fn net_kj_per_mm(arc_energy_kj_per_mm: f64, efficiency: f64) -> f64 {
    efficiency * arc_energy_kj_per_mm
}

/// Arc energy in kJ/in, which the AWS and ASME codes call heat input: no efficiency in it.
#[must_use]
pub const fn kj_per_in(energy_kj_per_mm: f64) -> f64 {
    KJ_PER_IN * energy_kj_per_mm
}

/// How fast the run was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Travel {
    /// Travel speed, mm/s.
    SpeedMmPerS(f64),
    /// A run measured by watch and rule.
    Run {
        /// Arc time, s.
        arc_time_s: f64,
        /// Length of the run, mm.
        run_mm: f64,
    },
}

impl Travel {
    /// Travel speed, mm/s: of a timed run its length over its arc time.
    #[must_use]
    pub const fn mm_per_s(self) -> f64 {
        match self {
            Self::SpeedMmPerS(speed) => speed,
            Self::Run { arc_time_s, run_mm } => run_mm / arc_time_s,
        }
    }
}

/// A run of weld.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArcRun {
    /// Arc voltage, V.
    pub volts: f64,
    /// Current, A.
    pub amps: f64,
    /// Travel.
    pub travel: Travel,
    /// Thermal efficiency k: 1.0 submerged arc; 0.8 covered electrode, gas-shielded and
    /// self-shielded wire; 0.6 TIG and plasma (EN 1011-1 Table 1).
    pub efficiency: f64,
}

/// Arc energy and net heat input of a run: `arc-energy`, `net-heat-input`.
///
/// # Errors
/// An input that is not a number, negative, zero where it divides, or that no arc has.
pub fn heat_input(run: ArcRun) -> Result<[Outcome; 2], EngineError> {
    let volts = Domain::new("U", 1.0, 200.0).check(run.volts)?;
    let amps = Domain::new("I", 1.0, 5000.0).check(run.amps)?;
    let efficiency = Domain::new("k", 0.1, 1.0).check(run.efficiency)?;
    let (energy, speed) = match run.travel {
        Travel::SpeedMmPerS(speed) => {
            let speed = Domain::new("v", 0.05, 500.0).check(speed)?;
            (arc_energy_kj_per_mm(volts, amps, speed), speed)
        }
        Travel::Run { arc_time_s, run_mm } => {
            let time = Domain::new("t", 0.1, 1e5).check(arc_time_s)?;
            let length = Domain::new("L", 1.0, 1e6).check(run_mm)?;
            (arc_energy_of_run_kj_per_mm(volts, amps, time, length), run.travel.mm_per_s())
        }
    };
    let net = net_kj_per_mm(energy, efficiency);
    let steps = vec![
        Step::new("UI/1000", volts * amps / 1000.0, Unit::Kilowatt),
        Step::new("v", speed, Unit::MillimetrePerSecond),
        Step::new("E", kj_per_in(energy), Unit::KilojoulePerInch),
    ];
    let answer = |name, value| Outcome::new(Method::HeatInput, value, Unit::KilojoulePerMm).named(name);
    Ok([
        answer("arc-energy", energy).worked(steps),
        answer("net-heat-input", net).worked(vec![
            Step::new("E", energy, Unit::KilojoulePerMm),
            Step::new("k", efficiency, Unit::One),
        ]),
    ])
}
