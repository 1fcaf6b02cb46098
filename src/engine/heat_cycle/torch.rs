//! How far is a flame spread?

use super::cycle::{Preheat, preheat};
use super::query::HeatCycle;
use super::refusal::Refusal;
use super::run::Watch;
use crate::reference::Reference;

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
