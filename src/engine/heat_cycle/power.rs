//! Which power brings a part where it must be: what the first part says of a flame, and the least
//! that would do.

use std::ops::ControlFlow;

use super::heating::MOST_FLUX;
use super::query::{HeatCycle, Source};
use super::refusal::Refusal;
use super::run::{Run, Setup};
use crate::engine::thermal::carbon_steel;
use crate::reference::Reference;

/// Efficiencies between which a flame's is looked for, and those that are believed (ours: the usual
/// 0.2 to 0.4 with room on both sides).
const LOOKED_FOR: (f64, f64) = (0.02, 0.95);
const BELIEVED: (f64, f64) = (0.05, 0.70);
/// Halvings of the efficiency.
const HALVINGS: u32 = 30;

/// What was read on the first part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reading {
    /// The coldest required place, °C.
    Coldest(f64),
    /// The hottest heated skin, where the crayon was read, °C.
    Skin(f64),
}

/// The efficiency that gives what the first part took: fuel's net power, minutes, and a reading.
///
/// # Errors
/// One outside what flames have, and what else [`Refusal`] says.
pub fn efficiency_of_first_part(
    reference: &Reference,
    query: &HeatCycle,
    fuel_w: f64,
    minutes: f64,
    reading: Reading,
) -> Result<f64, Refusal> {
    let free = HeatCycle { ceiling_c: None, passes: Vec::new(), ..query.clone() };
    let (mut low, mut high) = LOOKED_FOR;
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        let reached = reaches(reference, &free, fuel_w * middle, minutes, reading)?;
        if reached { high = middle } else { low = middle }
    }
    let efficiency = f64::midpoint(low, high);
    if !(BELIEVED.0..=BELIEVED.1).contains(&efficiency) {
        return Err(Refusal::Efficiency { efficiency, low: BELIEVED.0, high: BELIEVED.1 });
    }
    Ok(efficiency)
}

/// Is the reading there within the minutes?
fn reaches(
    reference: &Reference,
    query: &HeatCycle,
    power_w: f64,
    minutes: f64,
    reading: Reading,
) -> Result<bool, Refusal> {
    let query = HeatCycle { source: Source::Torch { power_w }, ..query.clone() };
    let setup = Setup::of(reference, &query)?;
    let mut watch = |_, _| ControlFlow::Continue(());
    let mut run = Run::cold(&setup, &mut watch);
    run.flame_reaches(setup.flux(), minutes * 60.0, |run| match reading {
        Reading::Coldest(at_c) => run.coldest_c() >= at_c,
        Reading::Skin(at_c) => run.hottest_skin_c() >= at_c,
    })
}

/// The least power that brings the coldest required place to the goal in two hours under the
/// ceiling, W: halved between what its mass needs without loss and 100 times that, or as much as
/// its skin may take. `None` where none does.
#[must_use]
pub fn power_that_would_do(reference: &Reference, query: &HeatCycle) -> Option<f64> {
    /// By the logarithm, to a thousandth.
    const POWER_HALVINGS: u32 = 12;
    let free = HeatCycle { passes: Vec::new(), ..query.clone() };
    let setup = Setup::of(reference, &free).ok()?;
    let goal_c = free.goal_c();
    let content = carbon_steel::heat_content(goal_c) - carbon_steel::heat_content(free.shop_c);
    let base = setup.mass() * content / setup.longest_flame_s;
    let most = MOST_FLUX * setup.sites.heated_area * setup.heated_length / base;
    let does = |times: f64| heats(reference, &free, base * times);
    let (mut low, mut high) = (0.0, 100.0_f64.min(most).ln());
    if !does(high.exp()) {
        return None;
    }
    for _ in 0..POWER_HALVINGS {
        let middle = f64::midpoint(low, high);
        if does(middle.exp()) { high = middle } else { low = middle }
    }
    Some(base * high.exp())
}

/// Does this power heat the part to its goal, held back by its ceiling or its control where they say
/// so?
fn heats(reference: &Reference, query: &HeatCycle, power_w: f64) -> bool {
    let source = match query.source {
        Source::Pads { set_c, .. } => Source::Pads { power_w, set_c },
        Source::Torch { .. } | Source::Oven { .. } => Source::Torch { power_w },
    };
    let query = HeatCycle { source, ..query.clone() };
    let mut watch = |_, _| ControlFlow::Continue(());
    Setup::of(reference, &query).is_ok_and(|setup| Run::cold(&setup, &mut watch).heat_up().is_ok())
}
