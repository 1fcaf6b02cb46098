//! How much filler and how much arc time does one part take?

use super::layers::LayersOf;
use super::settings::Settings;
use crate::engine::job::Process;
use crate::engine::weld::amount::{AmountQuery, amount};
use crate::engine::{Outcome, Unit};
use crate::reference::{Method, Reference};

/// Filler and arc time of the runs of one process on one part, over a length of weld; nothing where the
/// process lays none or its table has no row.
pub(super) fn amount_of(
    reference: &Reference,
    (process, settings, travel_mm_per_s): (Process, &Settings, Option<f64>),
    of: &LayersOf,
    length_mm: f64,
) -> Vec<Outcome> {
    let runs = &reference.welding.runs;
    let Some(process) = runs.process(process.id()).filter(|_| of.count > 0) else { return Vec::new() };
    let asked = |amps: Option<f64>| {
        let asked = AmountQuery {
            runs,
            process,
            area_mm2: of.area_mm2(),
            length_mm,
            pieces: 1.0,
            rod: None,
            amps,
            runs_each: 1.0,
            flow_l_per_min: None,
        };
        amount(&asked).unwrap_or_default()
    };
    if let Some(travel) = travel_mm_per_s {
        // The speed that is told is surer than what a current deposits.
        let minutes = length_mm * of.runs() / travel / 60.0;
        let mut outcomes = asked(None);
        let time = Outcome::new(Method::WeldAmount, minutes, Unit::Minute).named("amount-arc-time");
        outcomes.push(time.spread(minutes, minutes));
        return outcomes;
    }
    let Some((low, high)) = settings.amps else { return asked(None) };
    let mut outcomes = asked(Some(f64::midpoint(low, high)));
    // At the low end of the current it takes longest.
    for (slow, fast) in asked(Some(low)).into_iter().zip(asked(Some(high))) {
        if let Some(found) = outcomes.iter_mut().find(|one| one.name == slow.name) {
            found.low = fast.low.or(found.low);
            found.high = slow.high.or(found.high);
        }
    }
    outcomes
}
