//! How much filler and arc time one part takes, in words.

use super::Pen;
use super::beside::ToDoLine;
use super::figure::{basis_mark, range};
use crate::engine::Outcome;
use crate::engine::weld_of_job::RunOfJob;
use crate::reference::Basis;
use crate::units::LengthUnit;
use crate::words::List;

/// A line for the runs of one process; none where they or the length of the weld are not known.
pub(super) fn line_of(pen: &Pen<'_>, run: &RunOfJob<'_>, label: String, nth: usize) -> Option<ToDoLine> {
    let of = |name: &str| run.amount.iter().find(|one| one.name == name);
    let filler = of("amount-filler")?;
    let mut said = vec![pen.words.get("weld-amount.part")];
    if let Some((low, high)) = of("amount-arc-time").and_then(|time| time.low.zip(time.high)) {
        let minutes = |value: f64| pen.show.with_unit(value.ceil(), 0, "min");
        let time = range(pen, &minutes(low), &minutes(high));
        said.push(pen.words.with("weld-amount.time", &[("time", &time)]));
    }
    let bases = run.amount.iter().map(|one: &Outcome| one.basis(&pen.reference.methods));
    let basis = bases.reduce(|one, other| one.weaker(other)).unwrap_or(&Basis::Practice);
    Some(ToDoLine {
        id: format!("amount-{nth}"),
        label,
        value: pen.words.with("weld-amount.value", &[("mass", &mass(pen, filler.value?))]),
        note: pen.words.list(List::Sentences, &said),
        basis: basis_mark(pen, basis),
    })
}

/// Grams of a small weld, kilograms or pounds of a large one.
fn mass(pen: &Pen<'_>, kg: f64) -> String {
    let small = kg < 1.0 && pen.show.units.length == LengthUnit::Mm;
    if small { pen.show.with_unit((kg * 1000.0).ceil(), 0, "g") } else { pen.show.mass(kg).main }
}
