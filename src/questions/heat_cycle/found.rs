//! What the heat cycle answers: the figures of the weakest, the likely and the strongest flame, and
//! what each rests on.

use super::COLD_C;
use crate::engine::heat_cycle::{Cooled, Cycle, Preheat};
use crate::engine::{Outcome, Unit};
use crate::reference::{Basis, Fuel, Method, Reference};

/// What each answer rests on.
pub(super) struct Bases<'a> {
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
    pub(super) fn of(
        reference: &'a Reference,
        fuel: &'a Fuel,
        share_known: bool,
        carbon_steel: bool,
    ) -> Self {
        let data = &reference.heat_cycle;
        let steel = |basis: &'a Basis| if carbon_steel { basis } else { basis.weaker(&data.alloyed_basis) };
        let share = (!share_known).then_some(&reference.fuels.efficiency_basis);
        let flame = share.map_or(&fuel.basis, |share| share.weaker(&fuel.basis));
        let slow = reference.post_heat.diffusivity.slow.iter().filter(|point| point.at_c >= COLD_C);
        let slow = slow.map(|point| &point.basis).reduce(|one, other| one.weaker(other));
        let slow = slow.unwrap_or(&data.still_air().basis);
        Self {
            flame: steel(flame.weaker(&data.still_air().basis)),
            losses: steel(&data.still_air().basis),
            wait: &reference.methods.row(Method::MeasuringWait).basis,
            hydrogen: if carbon_steel { slow } else { reference.post_heat.trapping.basis.weaker(slow) },
        }
    }
}

/// The part as the weakest, the likely and the strongest flame leave it.
pub(super) struct Ends {
    pub(super) weak: Option<Preheat>,
    pub(super) likely: Preheat,
    pub(super) strong: Preheat,
    pub(super) known: bool,
}

impl Ends {
    /// The least that is left to weld in, min: nothing where the weakest flame never gets there.
    pub(super) fn left_min(&self) -> f64 {
        self.all().fold(self.weak.map_or(0.0, |weak| weak.left_after_wait_min()), |least, found| {
            least.min(found.left_after_wait_min())
        })
    }

    fn all(&self) -> impl Iterator<Item = Preheat> {
        [Some(self.likely), Some(self.strong), self.weak].into_iter().flatten()
    }

    fn most(&self, of: impl Fn(&Preheat) -> f64) -> f64 {
        self.all().map(|found| of(&found)).fold(f64::NEG_INFINITY, f64::max)
    }
}

pub(super) fn outcomes(
    ends: &Ends,
    cycle: &Cycle,
    hydrogen_ml: f64,
    carbon_steel: bool,
    bases: &Bases<'_>,
) -> Vec<Outcome> {
    let figure =
        |name, value, unit, basis| Outcome::new(Method::HeatCycle, value, unit).named(name).resting_on(basis);
    let minutes = figure("heat-minutes", ends.likely.heated.minutes, Unit::Minute, bases.flame);
    let minutes = match (ends.known, ends.weak) {
        (true, _) => minutes,
        (false, Some(weak)) => minutes.spread(ends.strong.heated.minutes, weak.heated.minutes),
        // How long the weakest one takes nobody can say.
        (false, None) => Outcome { value: None, low: Some(ends.strong.heated.minutes), ..minutes },
    };
    let weld_by = figure("heat-weld-by", ends.likely.left_after_wait_min(), Unit::Minute, bases.losses);
    let weld_by = if ends.known {
        weld_by
    } else {
        weld_by.spread(ends.left_min(), ends.most(Preheat::left_after_wait_min))
    };
    let surface_c = ends.most(|found| found.heated.hottest_skin_c).max(cycle.hottest_skin_c);
    let cold = |cooled: &Cooled| cooled.mark(COLD_C).copied();
    let hydrogen = |name, cooled: Option<&Cooled>| {
        let found = cooled.and_then(cold)?;
        let [slow, middle, fast, trapped] = found.peak_ml.map(|peak_ml| 100.0 * peak_ml / hydrogen_ml);
        let most = if carbon_steel { slow } else { trapped };
        // A tenth of a percent is as much as it can say, and what is left is never none.
        let (up, down) = (|share: f64| (10.0 * share).ceil() / 10.0, (10.0 * fast).floor() / 10.0);
        Some(figure(name, up(middle), Unit::Percent, bases.hydrogen).spread(down, up(most)))
    };
    let cooling =
        cold(&cycle.planned).map(|found| figure("heat-cooling", found.minutes, Unit::Minute, bases.losses));
    [
        Some(minutes),
        Some(figure("heat-wait", ends.most(Preheat::wait_min), Unit::Minute, bases.wait)),
        Some(weld_by),
        Some(figure("heat-surface", surface_c, Unit::Celsius, bases.flame)),
        cooling,
        hydrogen("heat-hydrogen-none", Some(&cycle.planned)),
        hydrogen("heat-hydrogen-held", cycle.beside.first()),
    ]
    .into_iter()
    .flatten()
    .collect()
}
