//! How much filler, gas and time does a weld take?

use super::deposit::CURRENT;
use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Step, Unit};
use crate::reference::{Method, RunProcess, WeldRuns};

/// A rod or an electrode.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rod {
    /// Diameter, mm.
    pub diameter_mm: f64,
    /// Length, mm.
    pub length_mm: f64,
    /// What is thrown away, mm.
    pub stub_mm: f64,
    /// What of its core's mass it leaves in the weld.
    pub share: f64,
}

impl Rod {
    /// What one leaves in the weld, kg: `π d²/4 (l - s) ρ share`.
    #[must_use]
    pub fn deposit_kg(&self, density_kg_per_mm3: f64) -> f64 {
        let area = std::f64::consts::FRAC_PI_4 * self.diameter_mm * self.diameter_mm;
        area * (self.length_mm - self.stub_mm) * density_kg_per_mm3 * self.share
    }

    /// Share of a whole rod that is left with a stub: `η0 (l - s)/l`.
    #[must_use]
    pub fn with_stub(whole: f64, length_mm: f64, stub_mm: f64) -> f64 {
        whole * (length_mm - stub_mm) / length_mm
    }
}

/// What is asked of the amount.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AmountQuery<'a> {
    /// The table.
    pub runs: &'a WeldRuns,
    /// The process.
    pub process: &'a RunProcess,
    /// Area of the weld, mm².
    pub area_mm2: f64,
    /// Length of the weld on one part, mm.
    pub length_mm: f64,
    /// Parts.
    pub pieces: f64,
    /// Rod or electrode, where the process has one.
    pub rod: Option<Rod>,
    /// Current, A.
    pub amps: Option<f64>,
    /// Runs on one part, of which each starts and ends the gas.
    pub runs_each: f64,
    /// Flow of shielding gas, l/min.
    pub flow_l_per_min: Option<f64>,
}

/// Filler, rods, time and gas.
///
/// Source: mass is area times length times density; what of the filler ends in the weld as the table
/// names it; the share of time in which the arc burns from memory.
///
/// # Errors
/// A figure that no weld has, a stub as long as its rod.
pub fn amount(asked: &AmountQuery<'_>) -> Result<Vec<Outcome>, EngineError> {
    let (runs, process) = (asked.runs, asked.process);
    let area = Domain::new("weld-area", 1.0, 20_000.0).check(asked.area_mm2)?;
    let length = Domain::new("weld-length", 1.0, 1e6).check(asked.length_mm)?;
    let pieces = Domain::new("pieces", 1.0, 100_000.0).check(asked.pieces)?;
    let kg = area * length * runs.density_kg_per_mm3;
    let answer = |name, value, unit| Outcome::new(Method::WeldAmount, value, unit).named(name);
    let mut outcomes = vec![
        answer("amount-weld", kg, Unit::Kilogram),
        answer("amount-filler", pieces * kg / process.deposited_share, Unit::Kilogram)
            .resting_on(&process.deposited_basis)
            .worked(vec![Step::new("deposited", process.deposited_share, Unit::One)]),
    ];
    if let Some(rod) = asked.rod {
        Domain::new("rod-diameter", 0.5, 10.0).check(rod.diameter_mm)?;
        Domain::new("rod-length", 50.0, 2000.0).check(rod.length_mm)?;
        Domain::new("stub", 0.0, 0.95 * rod.length_mm).check(rod.stub_mm)?;
        Domain::new("recovery", 0.5, 2.5).check(rod.share)?;
        let each_kg = rod.deposit_kg(runs.density_kg_per_mm3);
        let rods = |kg: f64| (kg / each_kg - 1e-9).ceil().max(1.0);
        let step = vec![Step::new("one rod", each_kg, Unit::Kilogram)];
        let of_part = rods(kg);
        let of_batch = rods(pieces * kg).min(pieces * of_part);
        let answer = |name, value| answer(name, value, Unit::One).resting_on(&runs.recovery_basis);
        outcomes.push(answer("amount-rods", of_part).worked(step));
        outcomes.push(answer("amount-rods-batch", of_batch));
        let spare = (of_batch * (1.0 + runs.spare_share) - 1e-9).ceil();
        outcomes.push(answer("amount-rods-spare", spare).resting_on(&runs.spare_basis));
    }
    let Some(amps) = asked.amps else { return Ok(outcomes) };
    let rate = process.rate.at(CURRENT.check(amps)?);
    let arc_s = 3600.0 * kg / rate;
    let spread = process.rate.spread_share;
    let timed = |name, minutes: f64| {
        answer(name, minutes, Unit::Minute)
            .resting_on(&process.basis)
            .spread(minutes / (1.0 + spread), minutes / (1.0 - spread))
    };
    let rate_step = vec![Step::new("rate", rate, Unit::KilogramPerHour)];
    outcomes.push(timed("amount-arc-time", arc_s / 60.0).worked(rate_step));
    let share = process.arc_share;
    let shop = arc_s / 60.0 / share.usual;
    outcomes
        .push(timed("amount-shop-time", shop).spread(arc_s / 60.0 / share.high, arc_s / 60.0 / share.low));
    if let (Some(flow), true) = (asked.flow_l_per_min, process.shielding) {
        let flow = Domain::new("shielding-flow", 1.0, 60.0).check(flow)?;
        let count = Domain::new("run-count", 1.0, 1000.0).check(asked.runs_each)?;
        let after = (amps / 10.0).clamp(runs.gas_after_s.low, runs.gas_after_s.high);
        let litres = flow * (arc_s + count * (runs.gas_before_s + after)) / 60.0;
        let step = vec![Step::new("after", after, Unit::Second)];
        outcomes.push(answer("amount-gas", litres, Unit::Litre).resting_on(&runs.gas_basis).worked(step));
    }
    Ok(outcomes)
}
