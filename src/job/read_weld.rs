//! Processes with hydrogen and heat input, and the weld metal, as typed.

use super::Field;
use super::field_problem::{DefaultValue, Fault};
use super::read_job::Reader;
use super::steel::find_filler;
use super::typed::{self, TypedProcess};
use crate::engine::carbon_equivalent::cet;
use crate::engine::heat_input::{ArcRun, Travel, heat_input};
use crate::engine::job::{Joint, Process, Run, WeldMetal};
use crate::reference::DepositKind;
use crate::units::{self, Hydrogen, Problem, TimeUnit, limits};

/// Net heat input where none is stated, kJ/mm: that of a medium run, and the point at
/// which Method B neither adds nor takes away.
const NET_HEAT_KJ_PER_MM: f64 = 1.0;

/// The runs of a job: one per process.
pub(super) fn runs(reader: &mut Reader<'_>) -> Option<Vec<Run>> {
    let processes = reader.required(Field::Process, typed::process_list)?;
    let hydrogens =
        list(reader, Field::Hydrogen, processes.len(), |text| units::hydrogen(text, limits::HYDROGEN_ML));
    let mut known = Vec::new();
    for (at, (text, process)) in processes.iter().enumerate() {
        known.push(covering(reader, text, *process, hydrogens.as_ref().map(|all| &all[at])));
    }
    let heats = heats(reader, &known);
    let known: Vec<Process> = known.into_iter().collect::<Option<_>>()?;
    if reader.has(Field::Hydrogen) && hydrogens.is_none() {
        return None;
    }
    if let Some((process, least_ml)) = hydrogens.as_ref().and_then(|all| too_little(reader, &known, all)) {
        reader.fault(Field::Hydrogen, Fault::LittleHydrogen { process, least_ml });
        return None;
    }
    let heats = heats?;
    let mut runs = Vec::new();
    for (at, process) in known.into_iter().enumerate() {
        let hydrogen_ml = hydrogen_ml(reader, process, hydrogens.as_ref().map(|all| all[at]));
        runs.push(Run { process, hydrogen_ml, net_heat_kj_per_mm: heats[at] });
    }
    Some(runs)
}

fn covering(
    reader: &mut Reader<'_>,
    text: &str,
    process: TypedProcess,
    hydrogen: Option<&Hydrogen>,
) -> Option<Process> {
    match process.with_hydrogen(text, hydrogen) {
        Ok(process) => Some(process),
        Err(problem) => {
            reader.fault(Field::Process, Fault::Typed(problem));
            None
        }
    }
}

/// One value for all processes, or one for each, joined by `+`.
fn list<T: Clone>(
    reader: &mut Reader<'_>,
    field: Field,
    processes: usize,
    parse: impl Fn(&str) -> Result<T, Problem>,
) -> Option<Vec<T>> {
    let all: Vec<T> = reader.read(field, |text| text.split('+').map(&parse).collect())?;
    match all.as_slice() {
        [one] => Some(vec![one.clone(); processes]),
        all if all.len() == processes => Some(all.to_vec()),
        all => {
            reader.fault(field, Fault::Count { typed: all.len(), processes });
            None
        }
    }
}

/// The first process that never gives as little hydrogen as is typed for it, and the least
/// that it gives, ml/100 g. A plan on that figure would be too cold.
fn too_little(reader: &Reader<'_>, processes: &[Process], hydrogens: &[Hydrogen]) -> Option<(Process, f64)> {
    let mut pairs = processes.iter().zip(hydrogens);
    pairs.find_map(|(&process, hydrogen)| {
        let least_ml = reader.reference.process(process.id())?.hydrogen_least_ml();
        (hydrogen.ml < least_ml).then_some((process, least_ml))
    })
}

fn hydrogen_ml(reader: &mut Reader<'_>, process: Process, typed: Option<Hydrogen>) -> f64 {
    // A process that the dataset does not have counts as the worst that is typed at all.
    let typical = reader.reference.process(process.id()).map_or(60.0, |row| row.hydrogen_high_ml);
    match typed {
        None => {
            reader.default(Field::Hydrogen, DefaultValue::Hydrogen { process, ml: typical });
            typical
        }
        Some(Hydrogen { ml, open: true, .. }) => {
            let ml = ml.max(typical);
            reader.default(Field::Hydrogen, DefaultValue::OpenHydrogen { process, ml });
            ml
        }
        Some(Hydrogen { ml, .. }) => ml,
    }
}

/// Fields that state the heat input by what is read at the machine and at the run.
const ARC: [Field; 5] = [Field::Volts, Field::Amps, Field::Travel, Field::ArcTime, Field::RunLength];

/// Net heat input of each process, from the one way in which it is stated.
fn heats(reader: &mut Reader<'_>, processes: &[Option<Process>]) -> Option<Vec<f64>> {
    let count = processes.len();
    let length = reader.units.length;
    let by_arc = ARC.into_iter().find(|field| reader.has(*field));
    let stated = [
        reader.has(Field::HeatInput).then_some(Field::HeatInput),
        reader.has(Field::ArcEnergy).then_some(Field::ArcEnergy),
        by_arc,
    ];
    let stated: Vec<Field> = stated.into_iter().flatten().collect();
    if let [first, more @ ..] = stated.as_slice() {
        for other in more {
            reader.fault(*other, Fault::Conflict { with: *first });
        }
    }
    let net = list(reader, Field::HeatInput, count, |text| {
        units::net_heat(text, length, limits::NET_HEAT_KJ_PER_MM)
    });
    let arc = list(reader, Field::ArcEnergy, count, |text| {
        units::arc_energy(text, length, limits::ARC_ENERGY_KJ_PER_MM)
    });
    let volts = list(reader, Field::Volts, count, |text| units::voltage(text, limits::VOLTAGE_V));
    let amps = list(reader, Field::Amps, count, |text| units::current(text, limits::CURRENT_A));
    let by_meters = stated.first().is_some_and(|first| ARC.contains(first));
    let travel = travel(reader, count, by_meters);
    let Some(first) = stated.first() else {
        reader.default(Field::HeatInput, DefaultValue::NetHeat(NET_HEAT_KJ_PER_MM));
        return Some(vec![NET_HEAT_KJ_PER_MM; count]);
    };
    match first {
        Field::HeatInput => net,
        Field::ArcEnergy => {
            let made = arc?.into_iter().zip(processes);
            let made: Option<Vec<f64>> =
                made.map(|(energy, process)| process.map(|process| energy * process.efficiency())).collect();
            inside(reader, Field::ArcEnergy, made?)
        }
        _ => {
            for field in [Field::Volts, Field::Amps] {
                if !reader.has(field) {
                    reader.fault(field, Fault::Missing);
                }
            }
            let (volts, amps, travel) = (volts?, amps?, travel?);
            let mut made = Vec::new();
            for (at, process) in processes.iter().enumerate() {
                let run = ArcRun {
                    volts: volts[at],
                    amps: amps[at],
                    travel: travel[at],
                    efficiency: (*process)?.efficiency(),
                };
                // The readers of the fields keep them inside what the engine takes.
                let [_, net] = heat_input(run).ok()?;
                made.push(net.value?);
            }
            let field = if reader.has(Field::Travel) { Field::Travel } else { Field::RunLength };
            inside(reader, field, made)
        }
    }
}

/// How fast the arc travels with each process: as typed, or from a run that was timed and
/// measured. Says what is missing only where the heat input is stated so.
fn travel(reader: &mut Reader<'_>, count: usize, wanted: bool) -> Option<Vec<Travel>> {
    let length = reader.units.length;
    let speeds =
        list(reader, Field::Travel, count, |text| units::travel(text, length, limits::TRAVEL_MM_PER_MIN));
    let times = list(reader, Field::ArcTime, count, |text| {
        units::duration(text, TimeUnit::Seconds, limits::ARC_TIME_S)
    });
    let lengths =
        list(reader, Field::RunLength, count, |text| units::run_length(text, length, limits::RUN_MM));
    let timed = [Field::ArcTime, Field::RunLength].map(|field| reader.has(field));
    match (reader.has(Field::Travel), timed) {
        (true, [false, false]) => {
            return Some(speeds?.into_iter().map(|speed| Travel::SpeedMmPerS(speed / 60.0)).collect());
        }
        (true, [time, _]) => {
            let field = if time { Field::ArcTime } else { Field::RunLength };
            reader.fault(field, Fault::TravelTwice);
            return None;
        }
        (false, [true, true]) => {}
        (false, timed) => {
            let missing = match timed {
                [false, true] => Field::ArcTime,
                [true, false] => Field::RunLength,
                _ => Field::Travel,
            };
            if wanted {
                reader.fault(missing, Fault::Missing);
            }
            return None;
        }
    }
    let runs = times?.into_iter().zip(lengths?);
    let runs: Vec<Travel> = runs.map(|(arc_time_s, run_mm)| Travel::Run { arc_time_s, run_mm }).collect();
    let mut speeds: Vec<f64> = runs.iter().map(|run| run.mm_per_s() * 60.0).collect();
    if let Some(&mm_per_min) = speeds.iter().find(|speed| !limits::TRAVEL_MM_PER_MIN.holds(**speed)) {
        reader.fault(Field::RunLength, Fault::TimedTravel { mm_per_min });
        return None;
    }
    if speeds.iter().all(|speed| *speed == speeds[0]) {
        speeds.truncate(1);
    }
    reader.default(Field::Travel, DefaultValue::TimedTravel(speeds));
    Some(runs)
}

fn inside(reader: &mut Reader<'_>, field: Field, heats: Vec<f64>) -> Option<Vec<f64>> {
    match heats.iter().find(|heat| !limits::NET_HEAT_KJ_PER_MM.holds(**heat)) {
        None => Some(heats),
        Some(&net_kj_per_mm) => {
            reader.fault(field, Fault::NetHeat { net_kj_per_mm });
            None
        }
    }
}

/// What is known of the weld metal. What is typed comes before what the filler's class says.
///
/// A leg is that of a fillet: for a joint without one it is not read, which is said, since
/// the throat that follows from it would stand for a weld as deep as the part.
pub(super) fn weld_metal(reader: &mut Reader<'_>, joint: Option<Joint>, runs: &[Run]) -> WeldMetal {
    let length = reader.units.length;
    let cet_typed = reader.read(Field::WeldCet, |text| units::number(text, limits::CET));
    let tensile_typed =
        reader.read(Field::WeldStrength, |text| units::strength(text, length, limits::STRENGTH_MPA));
    let leg = if joint.is_none_or(Joint::has_fillet) {
        reader.read(Field::Leg, |text| units::length(text, length, limits::LEG_MM))
    } else {
        if reader.has(Field::Leg) {
            reader.default(Field::Leg, DefaultValue::LegNotUsed);
        }
        None
    };
    let count = reader.read(Field::Runs, |text| units::count(text, limits::RUNS));
    if !reader.has(Field::Runs) {
        reader.default(Field::Runs, DefaultValue::SeveralRuns);
    }
    let filler = match reader.typed(Field::Filler).map(|name| (name, find_filler(name, reader.reference))) {
        None => None,
        Some((_, Ok(filler))) => Some(filler),
        Some((name, Err(near))) => {
            reader.fault(Field::Filler, Fault::UnknownFiller { typed: name.to_owned(), near });
            None
        }
    };
    let ferritic = filler
        .filter(|filler| matches!(filler.deposit, DepositKind::Ferritic | DepositKind::Martensitic))
        .and_then(|filler| filler.nominal());
    let nickel = !runs.is_empty() && runs.iter().all(|run| run.process == Process::SmawNickel);
    WeldMetal {
        cet: cet_typed.or_else(|| ferritic.map(|composition| cet(&composition))),
        // A class caps strength seldom; where it does, the cap is the safe end.
        tensile_mpa: tensile_typed
            .or_else(|| filler.and_then(|filler| filler.tensile_max_mpa.or(filler.tensile_min_mpa))),
        several_runs: count.is_none_or(|count| count > 1),
        // Throat of an equal-legged fillet.
        thickness_mm: leg.map(|leg| leg.mm * std::f64::consts::FRAC_1_SQRT_2),
        austenitic: nickel || filler.is_some_and(|filler| filler.tolerates_hydrogen()),
    }
}
