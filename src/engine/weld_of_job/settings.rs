//! At which current is each process run, and what does its heat input take for granted?

use super::RunTold;
use super::filler::Fillers;
use super::layers::POSITION;
use crate::engine::crack::run_shape::downslope_s;
use crate::engine::heat_input::arc_energy_kj_per_mm;
use crate::engine::job::{Job, Process, Run};
use crate::engine::plan::Plan;
use crate::engine::weld::deposit::estimated_volts;
use crate::engine::weld::electrode::{Transfer, electrode_current, wire_current};
use crate::engine::weld::tig::{TigBy, tig_settings};
use crate::engine::weld::torch_class::torch_class;
use crate::engine::{Outcome, Unit};
use crate::reference::{DepositKind, Method, Reference};

/// Share of the busiest ten minutes in which the arc burns, %: that of the Bench's question.
const DUTY_PERCENT: f64 = 60.0;
/// A part is no cold one from here, °C.
const HOT_C: f64 = 100.0;

/// Arc energy of the runs of one process.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunEnergy {
    /// Net heat input that the plan counts with, kJ/mm.
    pub net_kj_per_mm: f64,
    /// Arc energy that it takes, kJ/mm.
    pub arc_kj_per_mm: f64,
    /// Is it told?
    pub told: bool,
    /// Travel speed with that energy over the current's range, mm/s: slow and fast; none where no current
    /// is known or the speed itself is told.
    pub travel_mm_per_s: Option<(f64, f64)>,
}

/// The current of one process and what goes with it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Settings {
    /// Current, tungsten, cup, gas, rod; the ranges of electrodes or wires, each with its row.
    pub outcomes: Vec<Outcome>,
    /// Ids of what is said with them.
    pub notes: Vec<&'static str>,
    /// Range of the current, A.
    pub amps: Option<(f64, f64)>,
    /// Seconds in which the current goes down at a crater.
    pub downslope: Option<Outcome>,
}

fn span(outcomes: &[Outcome], name: &str) -> Option<(f64, f64)> {
    let outcome = outcomes.iter().find(|outcome| outcome.name == name)?;
    outcome.low.zip(outcome.high)
}

/// The current of one process.
pub(super) fn settings(
    reference: &Reference,
    job: &Job,
    plan: &Plan,
    (run, told, fillers): (&Run, &RunTold, &Fillers<'_>),
) -> Settings {
    // The hottest that a run begins at, since a hot part takes less current and a torch beside it too.
    let part_c = plan.interpass_c.unwrap_or(job.shop_c);
    match run.process {
        Process::Gtaw => tig(reference, job, told, part_c),
        Process::SmawBasic => covered(reference, told, fillers),
        Process::Gmaw => wire(reference, told),
        _ => Settings {
            notes: vec!["current-by-maker"],
            amps: told.amps.map(|a| (a, a)),
            ..Settings::default()
        },
    }
}

fn tig(reference: &Reference, job: &Job, told: &RunTold, part_c: f64) -> Settings {
    let current = &reference.welding.current;
    let thinner = job.members.iter().map(|member| member.thickness_mm).fold(f64::INFINITY, f64::min);
    let by = told
        .amps
        .map_or(TigBy::Thickness { mm: thinner, fillet: job.joint.has_fillet(), part_c }, TigBy::Current);
    let Ok(found) = tig_settings(current, by) else {
        return Settings { notes: vec!["current-outside"], ..Settings::default() };
    };
    let mut notes = Vec::new();
    notes.extend((found.thick && part_c < HOT_C).then_some("tig-thick"));
    notes.extend(found.no_tungsten.then_some("tig-no-tungsten"));
    notes.extend(found.rod_by_gap.then_some("tig-rod-gap"));
    let amps = told.amps.map(|amps| (amps, amps)).or_else(|| span(&found.outcomes, "tig-amps"));
    let torch = amps.and_then(|(_, high)| torch_class(current, high, DUTY_PERCENT, part_c).ok());
    notes.extend(torch.map(|(_, verdict)| verdict.id()));
    let downslope = amps.and_then(|(_, high)| downslope_s(&reference.welding.cracks, high).ok());
    Settings { outcomes: found.outcomes, notes, amps, downslope }
}

/// The electrodes of its kind, each with its range; the smallest and the largest are left to the Bench.
fn covered(reference: &Reference, told: &RunTold, fillers: &Fillers<'_>) -> Settings {
    let current = &reference.welding.current;
    let austenitic =
        fillers.chosen.as_ref().is_some_and(|chosen| chosen.filler.deposit == DepositKind::Austenitic);
    let kind = if austenitic { "stainless-" } else { "basic-" };
    let rows = current.electrodes.iter().filter(|row| row.id.starts_with(kind));
    let outcomes: Vec<Outcome> = rows
        .filter(|row| row.diameter_mm < 4.5)
        .filter_map(|row| {
            let found = electrode_current(current, row, POSITION).ok()?;
            found
                .into_iter()
                .find(|outcome| outcome.name == "electrode-range")
                .map(|outcome| outcome.of_row(row.id.as_str()))
        })
        .collect();
    let held = |amps: f64| {
        outcomes
            .iter()
            .filter_map(|row| row.low.zip(row.high))
            .any(|(low, high)| (low..=high).contains(&amps))
    };
    let mut notes = Vec::new();
    notes.extend(told.amps.is_some_and(|amps| !held(amps)).then_some("current-no-electrode"));
    notes.push("electrode-read-box");
    Settings { notes, amps: told.amps.map(|amps| (amps, amps)), outcomes, downslope: None }
}

/// The usual wires, each with its range in spray: on thick steel a short arc may lie without fusion.
fn wire(reference: &Reference, told: &RunTold) -> Settings {
    let current = &reference.welding.current;
    let mut outcomes = Vec::new();
    let mut spray = false;
    for row in current.wires.iter().filter(|row| row.spray_a.is_some()) {
        let Ok((found, transfer)) = wire_current(current, row, told.amps) else { continue };
        spray |= matches!(transfer, None | Some(Transfer::Spray | Transfer::Border));
        let ranges = found.into_iter().filter(|outcome| outcome.name == "wire-spray-amps");
        outcomes.extend(ranges.map(|outcome| outcome.of_row(row.id.as_str())));
    }
    let mut notes = vec!["wire-short-cold"];
    notes.extend((!spray).then_some("current-no-spray"));
    Settings { notes, amps: told.amps.map(|amps| (amps, amps)), outcomes, downslope: None }
}

/// The arc energy of one process.
pub(super) fn energy(reference: &Reference, run: &Run, told: &RunTold, set: &Settings) -> RunEnergy {
    let net_kj_per_mm = run.net_heat_kj_per_mm;
    let arc_kj_per_mm = net_kj_per_mm / reference.efficiency(run.process.id());
    let current = &reference.welding.current;
    let speed = |amps: f64| {
        let volts = match told.volts {
            Some(own) => own,
            None => estimated_volts(current, run.process.id(), amps).ok()?.estimate_v,
        };
        // Energy falls with speed, so that at one millimetre a second it is so many times too large.
        Some(arc_energy_kj_per_mm(volts, amps, 1.0) / arc_kj_per_mm)
    };
    let travel_mm_per_s = set
        .amps
        .filter(|_| told.travel_mm_per_s.is_none())
        .and_then(|(low, high)| speed(low).zip(speed(high)));
    RunEnergy { net_kj_per_mm, arc_kj_per_mm, told: told.energy, travel_mm_per_s }
}

/// The energies as outcomes, as `ask arc-energy` has them.
#[must_use]
pub fn energy_outcomes(energy: &RunEnergy) -> Vec<Outcome> {
    let made = |name, value, unit| Outcome::new(Method::HeatInput, value, unit).named(name);
    let mut outcomes = vec![
        made("arc-energy", energy.arc_kj_per_mm, Unit::KilojoulePerMm),
        made("net-heat-input", energy.net_kj_per_mm, Unit::KilojoulePerMm),
    ];
    outcomes.extend(energy.travel_mm_per_s.map(|(slow, fast)| {
        let open = Outcome::open(Method::HeatInput, Unit::MillimetrePerSecond).named("bead-speed");
        open.spread(slow, fast)
    }));
    outcomes
}
