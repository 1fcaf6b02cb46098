//! Figures along an axis of temperatures.

use crate::log::{LimitCopy, PlanCopy};
use crate::report::Pen;
use crate::units::{TemperatureUnit, parts};

/// A limit as it was shown, in the unit of this card, and in the other one. Both were rounded to the safe
/// side, so a card in the other unit loosens nothing.
pub(super) fn shown<'a>(pen: &Pen<'_>, plan: &PlanCopy, limit: &'a LimitCopy) -> (&'a str, &'a str) {
    let same = pen.show.units.temperature == plan.units.temperature;
    if same || limit.second.is_empty() { (&limit.text, &limit.second) } else { (&limit.second, &limit.text) }
}

/// Round figures from one temperature to another, so many °C apart or twice as many °F, and before them
/// minimum and maximum, which come first where there is no room for both: °C, as written, is it a limit?
pub(super) fn degrees(
    pen: &Pen<'_>,
    plan: &PlanCopy,
    (from_c, to_c): (f64, f64),
    step: f64,
) -> Vec<(f64, String, bool)> {
    let unit = pen.show.units.temperature;
    let written = |at_c: f64| pen.show.number(unit.from_c(at_c), 0);
    let limits = [&plan.minimum, &plan.maximum].into_iter().flatten();
    let limits = limits.map(|limit| (limit.at_c, parts(shown(pen, plan, limit).0).0.to_owned(), true));
    let step = if unit == TemperatureUnit::F { 2.0 * step } else { step };
    let first = (unit.from_c(from_c) / step).ceil();
    let round = (0_u32..100).map(|nth| unit.to_c((first + f64::from(nth)) * step));
    let round = round.take_while(|at_c| *at_c <= to_c + 1e-6).map(|at_c| (at_c, written(at_c), false));
    limits.chain(round).collect()
}
