//! What would bring the joint where a flame does not: more gas, and the minutes with it.

use std::ops::ControlFlow;

use super::cycle::{Preheat, plain_preheat};
use super::flames::{FlameShare, Flames, HeatedBy};
use super::power::power_that_would_do;
use super::refusal::Refusal;
use crate::engine::acetylene::cylinders_at_once;
use crate::reference::Reference;

/// A larger flow, and the minutes until the joint is ready with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlowLever {
    /// m³/h.
    pub flow_m3_per_h: f64,
    /// Under the strongest flame of that flow, min.
    pub quick_min: f64,
    /// Under the weakest, min.
    pub slow_min: f64,
    /// Usual large cylinders of acetylene that must be coupled for it, where one can't give so much.
    pub cylinders: Option<usize>,
}

/// Flows are told in such steps, m³/h: what a regulator can be set to.
const STEP_M3_PER_H: f64 = 0.05;
/// So much more than the least that would do: written flows are rounded.
const MARGIN: f64 = 1.03;

/// The least flow with which even the weakest flame gets there, and twice that; nothing where the
/// source is held back by its ceiling, or where no flow does.
#[must_use]
pub fn flow_levers(reference: &Reference, flames: &Flames, refusal: &Refusal) -> Vec<FlowLever> {
    let (Refusal::MinimumNotReached { held_back: false, .. }
    | Refusal::ReserveNotReached { held_back: false, .. }) = refusal
    else {
        return Vec::new();
    };
    let HeatedBy::Torch { fuel: id, share, .. } = &flames.heat else { return Vec::new() };
    let Some(fuel) = reference.fuels.fuel(id) else { return Vec::new() };
    let [low, _, high] = match *share {
        FlameShare::Known(share) => [share; 3],
        FlameShare::NotKnown | FlameShare::FirstPart { .. } => {
            let share = reference.fuels.efficiency;
            [share.low, share.likely, share.high]
        }
    };
    let Some(power_w) = power_that_would_do(reference, &flames.with(low)) else { return Vec::new() };
    let watts_each = fuel.net_mj_per_m3 / 3.6 * 1e3;
    let least = (MARGIN * power_w / low / watts_each / STEP_M3_PER_H).ceil() * STEP_M3_PER_H;
    let minutes = |flow_m3_per_h: f64, stays: f64| {
        let fuel_w = flow_m3_per_h * watts_each;
        let heat = HeatedBy::Torch { fuel: id.clone(), fuel_w, share: FlameShare::NotKnown };
        let larger = Flames { heat, ..flames.clone() };
        let found = plain_preheat(reference, &larger.with(stays), &mut |_, _| ControlFlow::Continue(()));
        found.ok().map(|found: Preheat| found.heated.minutes)
    };
    let lever = |flow_m3_per_h: f64| {
        Some(FlowLever {
            flow_m3_per_h,
            quick_min: minutes(flow_m3_per_h, high)?,
            slow_min: minutes(flow_m3_per_h, low)?,
            cylinders: cylinders_at_once(&reference.fuels.draw, id, flow_m3_per_h),
        })
    };
    [least, 2.0 * least].into_iter().filter_map(lever).collect()
}
