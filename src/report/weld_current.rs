//! The current of each process and its arc energy, in words.

use super::Pen;
use super::beside::ToDoLine;
use super::figure::{BasisMark, basis_mark, range};
use super::weld::line;
use crate::engine::job::Process;
use crate::engine::weld_of_job::RunOfJob;
use crate::reference::{Basis, Position};
use crate::units::Both;

/// A rounded current, A.
const AMPS_STEP: f64 = 5.0;
/// A rounded travel speed, mm/min.
const TRAVEL_STEP: f64 = 5.0;
/// A current, to what a machine is set to.
fn amps(pen: &Pen<'_>, low: f64, high: f64) -> String {
    let shown = |amps: f64| pen.show.with_unit((amps / AMPS_STEP).round() * AMPS_STEP, 0, "A");
    if low.total_cmp(&high).is_eq() {
        pen.show.with_unit(high, 0, "A")
    } else {
        range(pen, &shown(low), &shown(high))
    }
}

pub(super) fn current_line(
    pen: &Pen<'_>,
    (run, position): (&RunOfJob<'_>, Option<Position>),
    label: String,
    nth: usize,
) -> ToDoLine {
    let set = &run.settings;
    let outcome = |name: &str| set.outcomes.iter().find(|one| one.name == name);
    let mut said = Vec::new();
    for row in set.outcomes.iter().filter(|one| matches!(one.name, "electrode-range" | "wire-spray-amps")) {
        let (Some(id), Some((low, high))) = (&row.row, row.low.zip(row.high)) else { continue };
        let kind = if row.name == "electrode-range" { "electrode" } else { "wire" };
        let rod = pen.words.get(&format!("option-{kind}-{id}"));
        said.push(pen.words.with("weld-current-row", &[("rod", &rod), ("amps", &amps(pen, low, high))]));
    }
    let size = |name: &str| outcome(name).and_then(|one| one.value).map(|mm| pen.show.size(mm).main);
    let between = |name: &str, unit: &str| {
        let (low, high) = outcome(name).and_then(|one| one.low.zip(one.high))?;
        let shown = |value: f64| {
            if unit.is_empty() { pen.show.number(value, 0) } else { pen.show.with_unit(value, 0, unit) }
        };
        Some(range(pen, &shown(low), &shown(high)))
    };
    if let (Some(tungsten), Some(rod)) = (size("tig-tungsten"), size("tig-rod")) {
        said.push(pen.words.with("weld-tungsten", &[("tungsten", &tungsten), ("rod", &rod)]));
    }
    if let (Some(cup), Some(argon)) = (between("tig-cup", ""), between("tig-argon", "l/min")) {
        said.push(pen.words.with("weld-cup", &[("cup", &cup), ("argon", &argon)]));
    }
    let own = |id: &str| if id.starts_with("current-") { format!("weld-{id}") } else { format!("note-{id}") };
    let uphill = matches!(position, Some(Position::VerticalUp | Position::Overhead));
    let spray = set.outcomes.iter().any(|one| one.name == "wire-spray-amps");
    said.extend((uphill && spray).then(|| pen.words.get("weld-no-spray-here")));
    said.extend((uphill && run.process == Process::Saw).then(|| pen.words.get("weld-no-flux-here")));
    let short = |id: &&&str| !(uphill && **id == "wire-short-cold");
    said.extend(set.notes.iter().filter(short).map(|id| pen.words.get(&own(id))));
    let value = match (set.amps, set.outcomes.first().map(|one| one.name)) {
        (Some((low, high)), _) => amps(pen, low, high),
        (None, Some("wire-spray-amps")) => pen.words.get("weld-current-spray"),
        (None, Some("electrode-range")) => pen.words.get("weld-current-by-size"),
        (None, _) => pen.words.get("weld-current-open"),
    };
    let mut basis: Option<&Basis> = None;
    for one in &set.outcomes {
        let own = one.basis(&pen.reference.methods);
        basis = Some(basis.map_or(own, |before| before.weaker(own)));
    }
    let basis = basis.map_or_else(BasisMark::default, |basis| basis_mark(pen, basis));
    line(pen, format!("current-{nth}"), label, value, &said, basis)
}

pub(super) fn energy_line(pen: &Pen<'_>, run: &RunOfJob<'_>, label: String, nth: usize) -> ToDoLine {
    let energy = &run.energy;
    let net = pen.show.heat(energy.net_kj_per_mm).main;
    let key = if energy.told { "weld-energy-told" } else { "weld-energy-assumed" };
    let mut said = vec![pen.words.with(key, &[("net", &net)])];
    if let Some((slow, fast)) = energy.travel_mm_per_s {
        let step = |mm_per_s: f64| (mm_per_s * 60.0 / TRAVEL_STEP).round() * TRAVEL_STEP;
        let shown = |mm_per_s: f64| -> Both { pen.show.travel(step(mm_per_s)) };
        let travel = range(pen, &shown(slow).main, &shown(fast).main);
        said.push(pen.words.with("weld-energy-travel", &[("travel", &travel)]));
    }
    let value = pen.show.heat(energy.arc_kj_per_mm).main;
    let basis = basis_mark(pen, efficiency_basis(pen, run.process));
    line(pen, format!("energy-{nth}"), label, value, &said, basis)
}

fn efficiency_basis<'a>(pen: &Pen<'a>, process: Process) -> &'a Basis {
    pen.reference.process(process.id()).map_or(&Basis::Practice, |row| &row.efficiency_basis)
}
