//! What a flame brings, and how far to spread it.

use super::cycle::{Preheat, preheat};
use super::query::{HeatCycle, Source};
use super::refusal::Refusal;
use super::run::Watch;
use crate::reference::Reference;

/// Net power of a fuel's flow into a part, W: `η V q`; flow in ft³/h, q in kW for 1 ft³/h.
#[must_use]
pub const fn power_w(flow_scfh: f64, kw_per_scfh: f64, efficiency: f64) -> f64 {
    flow_scfh * kw_per_scfh * efficiency * 1e3
}

/// The preheat at several powers, each by itself: an efficiency that nobody knows gives a range.
///
/// # Errors
/// What [`Refusal`] says of the power, one for each.
pub fn preheats(
    reference: &Reference,
    query: &HeatCycle,
    powers_w: &[f64],
    watch: &mut Watch<'_>,
) -> Vec<Result<Preheat, Refusal>> {
    let with = |&power_w: &f64| {
        let query = HeatCycle { source: Source::Torch { power_w }, ..query.clone() };
        preheat(reference, &query, watch)
    };
    powers_w.iter().map(with).collect()
}

/// How far the heat is spread, with the minutes that it then takes.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    /// Zone, mm, with what came of it.
    pub tried: Vec<(f64, Result<Preheat, Refusal>)>,
    /// The smallest zone within a tenth of the fastest.
    pub advised_mm: Option<f64>,
}

/// Tries zones of the required distance and 25, 50, 75 … mm, with the ceiling, to the minimum and
/// its reserve.
pub fn how_far_to_spread(reference: &Reference, query: &HeatCycle, watch: &mut Watch<'_>) -> Spread {
    let free = HeatCycle { passes: Vec::new(), ..query.clone() };
    let tried: Vec<(f64, Result<Preheat, Refusal>)> = [25.0, 50.0, 75.0]
        .into_iter()
        .map(|more_mm| {
            let zone_mm = free.required_mm + more_mm;
            (zone_mm, preheat(reference, &HeatCycle { zone_mm, ..free.clone() }, watch))
        })
        .collect();
    let minutes = |tried: &Result<Preheat, Refusal>| tried.as_ref().ok().map(|found| found.heated.minutes);
    let fastest = tried.iter().filter_map(|(_, found)| minutes(found)).fold(f64::INFINITY, f64::min);
    let near = |found: &Result<Preheat, Refusal>| minutes(found).is_some_and(|took| took <= 1.1 * fastest);
    let advised_mm = tried.iter().find(|(_, found)| near(found)).map(|(zone_mm, _)| *zone_mm);
    Spread { tried, advised_mm }
}
