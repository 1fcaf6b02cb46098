//! How much does a metal grow when it is heated, and shrink when it is frozen?

use crate::engine::solve::turning_point;
use crate::engine::thermal::{COUNTED_FROM_C, carbon_steel, stainless_steel};
use crate::reference::{HotLaw, MeanExpansion, Metal};

/// A metal without shrinkage of its own is drawn on as far as a cold yard, °C.
const YARD_C: f64 = -40.0;

/// Which end of what tables have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum End {
    /// It grows the least.
    Least,
    /// It grows the most.
    Most,
}

/// Growth from 20 °C, a length per length; negative below. `None` beyond the metal's figures.
///
/// Steel: the elongation of EN 1993-1-2. Other metals: their mean expansion `a (T - 20)`. Below
/// 20 °C along straight lines through the metal's shrinkage, which is less than it shrinks: what is
/// promised of a frozen pin is kept. The most that it may shrink is its growth drawn on, which falls off
/// in truth.
#[must_use]
pub fn growth(metal: &Metal, at_c: f64, end: End) -> Option<f64> {
    if at_c.is_nan() || at_c > metal.up_to_c {
        return None;
    }
    let hot = || match &metal.hot {
        HotLaw::Ec3CarbonSteel => carbon_steel::elongation(at_c),
        HotLaw::Ec3Stainless => stainless_steel::elongation(at_c),
        HotLaw::Means(means) => mean_per_k(means, at_c, end) * (at_c - COUNTED_FROM_C),
    };
    if at_c < COUNTED_FROM_C && !metal.cold.is_empty() {
        let sure = shrinkage(metal, at_c)?;
        return Some(if end == End::Least { sure } else { sure.min(hot()) });
    }
    (at_c >= YARD_C).then(hot)
}

/// Mean expansion between two temperatures, 1/K.
#[must_use]
pub fn mean_expansion_per_k(metal: &Metal, from_c: f64, to_c: f64, end: End) -> Option<f64> {
    Some((growth(metal, to_c, end)? - growth(metal, from_c, end)?) / (to_c - from_c))
}

fn mean_per_k(means: &[MeanExpansion], at_c: f64, end: End) -> f64 {
    let of = |mean: &MeanExpansion| 1e-6 * if end == End::Least { mean.low } else { mean.high };
    let after = means.iter().position(|mean| at_c <= mean.up_to_c).unwrap_or(means.len());
    // Below the first figure its line is drawn on.
    let second = after.clamp(1, means.len().saturating_sub(1).max(1));
    match (means.get(second - 1), means.get(second)) {
        (Some(first), Some(next)) => {
            let share = (at_c - first.up_to_c) / (next.up_to_c - first.up_to_c);
            share.mul_add(of(next) - of(first), of(first))
        }
        (Some(only), None) => of(only),
        (None, _) => 0.0,
    }
}

fn shrinkage(metal: &Metal, at_c: f64) -> Option<f64> {
    let mut before = (COUNTED_FROM_C, 0.0);
    for point in &metal.cold {
        let here = (point.at_c, -1e-3 * point.per_mille);
        if at_c >= here.0 {
            let share = (at_c - before.0) / (here.0 - before.0);
            return Some(share.mul_add(here.1 - before.1, before.1));
        }
        before = here;
    }
    None
}

/// The temperature at which a metal has grown so much, °C; `None` where its figures end before.
#[must_use]
pub fn temperature_for(metal: &Metal, wanted: f64, end: End) -> Option<f64> {
    let coldest = metal.cold.last().map_or(YARD_C, |point| point.at_c);
    let grown = |at_c| growth(metal, at_c, end).unwrap_or(f64::INFINITY);
    if !(grown(coldest)..=grown(metal.up_to_c)).contains(&wanted) {
        return None;
    }
    Some(turning_point(coldest, metal.up_to_c, |at_c| grown(at_c) < wanted))
}
