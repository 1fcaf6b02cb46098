//! How long must a torch heat a part, and how much gas does a batch take?

use super::error::{Domain, TEMPERATURE};
use super::lumped::{Around, Body, MASS, SIZE, Shape, seconds_between};
use super::thermal::carbon_steel;
use super::{EngineError, Outcome, Step, Unit};
use crate::reference::{Basis, FactorRange, Fuel, HeatCycleData, LosingSurface, Method};

/// Fuel flow, m³/h.
pub(super) const FLOW: Domain = Domain::new("fuel-flow", 0.01, 100.0);

/// A part, a flame, and how many parts there are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flame<'a> {
    /// Mass of the part, kg.
    pub mass_kg: f64,
    /// Its thickness, mm, by which it loses heat as a square plate; `None` counts no losses.
    pub thickness_mm: Option<f64>,
    /// Temperature before, °C.
    pub from_c: f64,
    /// Temperature wanted all through, °C.
    pub to_c: f64,
    /// Temperature of the shop, °C.
    pub shop_c: f64,
    /// Fuel.
    pub fuel: &'a Fuel,
    /// Flow of fuel, m³/h, from the least to the most.
    pub flow_m3_per_h: FactorRange,
    /// What the flow rests on, where nobody typed it.
    pub flow_basis: Option<&'a Basis>,
    /// Share of the heat that stays in the part, from the least to the most.
    pub efficiency: FactorRange,
    /// What the share rests on, where nobody typed it.
    pub efficiency_basis: Option<&'a Basis>,
    /// The likely share.
    pub likely: f64,
    /// How many parts.
    pub parts: f64,
    /// Content of a cylinder, m³.
    pub cylinder_m3: Option<f64>,
}

/// Minutes of flame, energy, power, fuel for one part and for all, cylinders.
#[derive(Debug, Clone, PartialEq)]
pub struct Heated {
    /// The answers, the minutes first.
    pub outcomes: Vec<Outcome>,
    /// Does the weakest flame never get there, or far too late?
    pub weakest_fails: bool,
}

/// Minutes of flame with the quickest and with the slowest flame, and what they take.
///
/// `t = m [h(T) - h(T0)] / P`, `P = eta V Hu / 3.6` kW; V the flow in m³/h, Hu the net heating value in
/// MJ/m³. With a thickness the part loses heat on the way: `m c dT/dt = P - A loss(T)`. Source: heat
/// content by EN 1993-1-2 3.4.1.2; heating values of a handbook's table.
///
/// # Errors
/// `torch-too-weak` where not even the strongest flame gets there, `torch-too-small` where that takes
/// longer than anybody holds a flame on a part; `torch-not-hotter` where the part is
/// as hot already; a figure that is not a number or that no part has.
pub fn torch_heating(losses: &HeatCycleData, asked: &Flame<'_>) -> Result<Heated, EngineError> {
    let air = losses.still_air();
    MASS.check(asked.mass_kg)?;
    asked.thickness_mm.map(|thickness_mm| SIZE.check(thickness_mm)).transpose()?;
    for at_c in [asked.from_c, asked.to_c, asked.shop_c] {
        TEMPERATURE.check(at_c)?;
    }
    for flow in [asked.flow_m3_per_h.low, asked.flow_m3_per_h.high] {
        FLOW.check(flow)?;
    }
    for share in [asked.efficiency.low, asked.likely, asked.efficiency.high] {
        Domain::new("efficiency", 0.01, 1.0).check(share)?;
    }
    Domain::new("parts", 1.0, 10_000.0).check(asked.parts)?;
    asked.cylinder_m3.map(|content| Domain::new("cylinder", 0.01, 1000.0).check(content)).transpose()?;
    if asked.to_c <= asked.from_c {
        return Err(EngineError::NoAnswer { reason: "torch-not-hotter" });
    }
    let energy_mj = asked.mass_kg
        * (carbon_steel::heat_content(asked.to_c) - carbon_steel::heat_content(asked.from_c))
        / 1e6;
    let power_kw = |share: f64, flow: f64| share * flow * asked.fuel.net_mj_per_m3 / 3.6;
    let minutes = |share: f64, flow: f64| minutes(air, asked, power_kw(share, flow), energy_mj);
    let (flow, share) = (asked.flow_m3_per_h, asked.efficiency);
    let quick = minutes(share.high, flow.high).ok_or(EngineError::NoAnswer { reason: "torch-too-weak" })?;
    let in_time = |minutes: &f64| *minutes <= losses.longest_flame_min;
    if !in_time(&quick) {
        return Err(EngineError::NoAnswer { reason: "torch-too-small" });
    }
    let slow = minutes(share.low, flow.low).filter(in_time);
    let likely = minutes(asked.likely, f64::midpoint(flow.low, flow.high)).filter(in_time);
    let assumed = [asked.efficiency_basis, asked.flow_basis].into_iter().flatten();
    let basis = assumed.fold(&asked.fuel.basis, |basis, assumed| basis.weaker(assumed));
    let basis = if asked.thickness_mm.is_some() { basis.weaker(&air.basis) } else { basis };
    let answer = |name, unit| Outcome::open(Method::TorchHeating, unit).named(name).resting_on(basis);
    let ranged = |name, unit, likely: Option<f64>, low: f64, high: Option<f64>| {
        let made = Outcome { value: likely.filter(|_| high.is_some()), ..answer(name, unit) };
        // Two ways to one figure may differ in its last digit.
        match high {
            Some(high) if high <= low * (1.0 + 1e-9) => made,
            _ => Outcome { low: Some(low), high, ..made },
        }
    };
    let power = (power_kw(share.low, flow.low), power_kw(share.high, flow.high));
    // A stronger flame loses less on the way, so that it burns less gas too.
    let burnt = |minutes: f64, flow: f64| minutes * flow / 60.0;
    let least = burnt(quick, flow.high);
    let most = slow.map(|slow| burnt(slow, flow.low));
    let usual = likely.map(|likely| burnt(likely, f64::midpoint(flow.low, flow.high)));
    let times = |factor: f64, name| {
        ranged(
            name,
            Unit::CubicMetre,
            usual.map(|one| one * factor),
            least * factor,
            most.map(|one| one * factor),
        )
    };
    let mut outcomes = vec![
        ranged("torch-minutes", Unit::Minute, likely, quick, slow).worked(vec![
            Step::new("least power", power.0, Unit::Kilowatt),
            Step::new("most power", power.1, Unit::Kilowatt),
        ]),
        Outcome::new(Method::TorchHeating, energy_mj, Unit::Megajoule)
            .named("torch-energy")
            .worked(vec![Step::new("m", asked.mass_kg, Unit::Kilogram)]),
        times(1.0, "torch-fuel"),
        times(asked.parts, "torch-fuel-batch"),
    ];
    if let Some(content) = asked.cylinder_m3 {
        let cylinders = |volume: f64| (volume / content - 1e-9).ceil().max(1.0);
        outcomes.push(ranged(
            "torch-cylinders",
            Unit::One,
            usual.map(|one| cylinders(one * asked.parts)),
            cylinders(least * asked.parts),
            most.map(|one| cylinders(one * asked.parts)),
        ));
    }
    Ok(Heated { outcomes, weakest_fails: slow.is_none() })
}

/// Minutes at a power, kW.
fn minutes(air: &LosingSurface, asked: &Flame<'_>, power_kw: f64, energy_mj: f64) -> Option<f64> {
    let Some(thickness_mm) = asked.thickness_mm else { return Some(1000.0 * energy_mj / power_kw / 60.0) };
    let body = Body::of(asked.mass_kg, Shape::Plate { thickness_mm });
    let around = Around::of(air, asked.shop_c);
    seconds_between(body, 1000.0 * power_kw, around, asked.from_c, asked.to_c).map(|seconds| seconds / 60.0)
}
