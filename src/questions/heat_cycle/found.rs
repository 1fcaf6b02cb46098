//! What the heat cycle answers: the figures of the weakest, the likely and the strongest flame, and
//! what each rests on.

use super::COLD_C;
use crate::engine::heat_cycle::{FlameShare, Flamed, Flames, HeatedBy};
use crate::engine::{Outcome, Step, Unit};
use crate::reference::{Basis, Method, Reference};

/// What each answer rests on.
struct Bases<'a> {
    /// Flame and surface: the fuel, its share that stays in the part, the losses, the steel.
    flame: &'a Basis,
    /// Time to weld and cooling: the losses and the steel.
    losses: &'a Basis,
    /// The wait.
    wait: &'a Basis,
    /// Hydrogen: the diffusivity of the slow end, and traps where they count.
    hydrogen: &'a Basis,
}

impl<'a> Bases<'a> {
    fn of(reference: &'a Reference, flames: &Flames) -> Self {
        let carbon_steel = flames.carbon_steel;
        let data = &reference.heat_cycle;
        let steel = |basis: &'a Basis| if carbon_steel { basis } else { basis.weaker(&data.alloyed_basis) };
        let share = &reference.fuels.efficiency_basis;
        let flame = match &flames.heat {
            HeatedBy::Torch { fuel, share: stays, .. } => {
                let fuel = reference.fuels.fuel(fuel).map_or(share, |fuel| &fuel.basis);
                if *stays == FlameShare::NotKnown { share.weaker(fuel) } else { fuel }
            }
            // Their power or temperature is stated.
            HeatedBy::Mats { .. } => &data.still_air().basis,
            HeatedBy::Furnace { .. } => &data.oven().basis,
        };
        let slow = reference.post_heat.diffusivity.slow.iter().filter(|point| point.at_c >= COLD_C);
        let slow = slow.map(|point| &point.basis).reduce(|one, other| one.weaker(other));
        let slow = slow.unwrap_or(&data.still_air().basis);
        // By two readings the joint itself says what it loses.
        let lost = if flames.readings.is_some() {
            &reference.methods.row(Method::TwoReadings).basis
        } else {
            &data.still_air().basis
        };
        Self {
            flame: steel(flame.weaker(lost)),
            losses: steel(lost),
            wait: &reference.methods.row(Method::MeasuringWait).basis,
            hydrogen: if carbon_steel { slow } else { reference.post_heat.trapping.basis.weaker(slow) },
        }
    }
}

pub(super) fn outcomes(reference: &Reference, flames: &Flames, found: &Flamed) -> Vec<Outcome> {
    let bases = Bases::of(reference, flames);
    let figure =
        |name, value, unit, basis| Outcome::new(Method::HeatCycle, value, unit).named(name).resting_on(basis);
    let likely = &found.cycle.preheat;
    let minutes = figure("heat-minutes", likely.heated.minutes, Unit::Minute, bases.flame);
    let minutes = match (found.known, found.weak) {
        (true, _) => minutes,
        (false, Some(weak)) => minutes.spread(found.strong.heated.minutes, weak.heated.minutes),
        // How long the weakest one takes nobody can say.
        (false, None) => Outcome { value: None, low: Some(found.strong.heated.minutes), ..minutes },
    };
    // Where the evening out or the maximum sets the wait, it rests on the losses.
    let by_rule = found.wait_min() <= found.most(|preheat| preheat.iso_wait_min) + 1e-9;
    let wait = if by_rule { bases.wait } else { bases.losses };
    let [least_min, left_min, most_min] = found.left_min();
    // Of a range the end counts that it is safe to go by.
    let weld_by =
        figure("heat-weld-by", if found.known { left_min } else { least_min }, Unit::Minute, bases.losses);
    let weld_by = if found.known { weld_by } else { weld_by.spread(least_min, most_min) };
    let losses = found.losses.map(|losses| {
        let basis = &reference.heat_cycle.losses.basis;
        let times = figure("heat-losses", losses.times, Unit::One, bases.losses.weaker(basis));
        times.spread(losses.least, losses.most)
    });
    // Named wherever they count.
    let counted = |outcome: Outcome| match found.losses {
        Some(losses) => outcome.worked(vec![Step::new("losses", losses.times, Unit::One)]),
        None => outcome,
    };
    let cold = |hours| found.held(hours).and_then(|cooled| cooled.mark(COLD_C)).copied();
    let hydrogen = |name, hours| {
        let put_in_ml = flames.cycle.hydrogen_ml();
        let [least, middle, most] =
            found.hydrogen_ml(flames, hours, COLD_C)?.map(|peak_ml| 100.0 * peak_ml / put_in_ml);
        // A tenth of a percent is as much as it can say, and what is left is never none.
        let (up, down) = (|share: f64| (10.0 * share).ceil() / 10.0, (10.0 * least).floor() / 10.0);
        Some(figure(name, up(middle), Unit::Percent, bases.hydrogen).spread(down, up(most)))
    };
    let cooling = |found: crate::engine::heat_cycle::Mark| {
        figure("heat-cooling", found.minutes, Unit::Minute, bases.losses)
    };
    [
        Some(counted(minutes)),
        Some(figure("heat-wait", found.wait_min(), Unit::Minute, wait)),
        Some(counted(weld_by)),
        Some(figure("heat-surface", found.hottest_surface_c(), Unit::Celsius, bases.flame)),
        losses,
        cold(0.0).map(cooling).map(counted),
        hydrogen("heat-hydrogen-none", 0.0),
        hydrogen("heat-hydrogen-held", flames.hold_h),
    ]
    .into_iter()
    .flatten()
    .collect()
}
