//! Processes with hydrogen and heat input, and the weld metal, as typed.

use super::field_problem::{DefaultValue, Fault};
use super::read_job::Reader;
use super::steel::find_filler;
use super::typed::{self, TypedProcess};
use super::{Field, Of, Slot};
use crate::engine::carbon_equivalent::cet;
use crate::engine::heat_input::{ArcRun, Travel, heat_input};
use crate::engine::job::{Joint, Process, Run, WeldMetal};
use crate::reference::{DepositKind, Filler};
use crate::units::{self, Hydrogen, Problem, TimeUnit, limits};

/// Net heat input where none is stated, kJ/mm: that of a medium run, and the point at
/// which Method B neither adds nor takes away.
const NET_HEAT_KJ_PER_MM: f64 = 1.0;

/// The runs of a job: those of each process.
pub(super) fn runs(reader: &mut Reader<'_>) -> Option<Vec<Run>> {
    let runs: Vec<Option<Run>> = (0..reader.count(Of::Run).max(1)).map(|nth| run(reader, nth)).collect();
    runs.into_iter().collect()
}

/// The runs of one process.
fn run(reader: &mut Reader<'_>, nth: usize) -> Option<Run> {
    let slot = Field::Process.nth(nth);
    let reference = reader.reference;
    if !reader.has(slot) {
        reader.fault(slot, Fault::Missing);
    }
    let process = one(reader, slot, |text| typed::process(text, reference));
    let hydrogen = one(reader, Field::Hydrogen.nth(nth), |text| units::hydrogen(text, limits::HYDROGEN_ML));
    let process = process.and_then(|process| covering(reader, slot, process, hydrogen.as_ref()));
    let heat = heat(reader, nth, process);
    let process = process?;
    let hydrogen_ml = hydrogen_ml(reader, Field::Hydrogen.nth(nth), process, hydrogen)?;
    Some(Run { process, hydrogen_ml, net_heat_kj_per_mm: heat? })
}

/// What a field of one run says. A list there is one that does not fit the processes.
fn one<T>(reader: &mut Reader<'_>, slot: Slot, parse: impl FnOnce(&str) -> Result<T, Problem>) -> Option<T> {
    let typed = reader.typed(slot)?.split('+').count();
    if typed > 1 {
        let processes = reader.count(Of::Run);
        reader.fault(slot, Fault::Count { typed, processes });
        return None;
    }
    reader.read(slot, parse)
}

fn covering(
    reader: &mut Reader<'_>,
    slot: Slot,
    process: TypedProcess,
    hydrogen: Option<&Hydrogen>,
) -> Option<Process> {
    match process.with_hydrogen(reader.typed(slot).unwrap_or_default(), hydrogen) {
        Ok(process) => Some(process),
        Err(problem) => {
            reader.fault(slot, Fault::Typed(problem));
            None
        }
    }
}

/// The hydrogen that counts, ml/100 g. A process that never gives as little as is typed for
/// it is refused: a plan on that figure would be too cold.
fn hydrogen_ml(
    reader: &mut Reader<'_>,
    slot: Slot,
    process: Process,
    typed: Option<Hydrogen>,
) -> Option<f64> {
    let row = reader.reference.process(process.id());
    // A process that the dataset does not have counts as the worst that is typed at all.
    let typical = row.map_or(60.0, |row| row.hydrogen_high_ml);
    match typed {
        None if reader.has(slot) => None,
        None => {
            reader.default(slot, DefaultValue::Hydrogen { process, ml: typical });
            Some(typical)
        }
        Some(Hydrogen { ml, open, .. }) => {
            let least_ml = row.map_or(0.0, |row| row.hydrogen_least_ml());
            if ml < least_ml {
                reader.fault(slot, Fault::LittleHydrogen { process, least_ml });
                return None;
            }
            if !open {
                return Some(ml);
            }
            let ml = ml.max(typical);
            reader.default(slot, DefaultValue::OpenHydrogen { process, ml });
            Some(ml)
        }
    }
}

/// Fields that state the heat input by what is read at the machine and at the run.
pub(super) const ARC: [Field; 5] =
    [Field::Volts, Field::Amps, Field::Travel, Field::ArcTime, Field::RunLength];

/// Net heat input of a run, from the one way in which it is stated.
fn heat(reader: &mut Reader<'_>, nth: usize, process: Option<Process>) -> Option<f64> {
    let length = reader.units.length;
    let has = |field: Field| Some(field.nth(nth)).filter(|slot| reader.has(*slot));
    let by_arc = ARC.into_iter().find_map(has);
    let stated: Vec<Slot> =
        [has(Field::HeatInput), has(Field::ArcEnergy), by_arc].into_iter().flatten().collect();
    for other in stated.iter().skip(1) {
        reader.fault(*other, Fault::Conflict { with: stated[0] });
    }
    let net = one(reader, Field::HeatInput.nth(nth), |text| {
        units::net_heat(text, length, limits::NET_HEAT_KJ_PER_MM)
    });
    let arc = one(reader, Field::ArcEnergy.nth(nth), |text| {
        units::arc_energy(text, length, limits::ARC_ENERGY_KJ_PER_MM)
    });
    let volts = one(reader, Field::Volts.nth(nth), |text| units::voltage(text, limits::VOLTAGE_V));
    let amps = one(reader, Field::Amps.nth(nth), |text| units::current(text, limits::CURRENT_A));
    let Some(first) = stated.first() else {
        reader.default(Field::HeatInput.nth(nth), DefaultValue::NetHeat(NET_HEAT_KJ_PER_MM));
        return Some(NET_HEAT_KJ_PER_MM);
    };
    let travel = travel(reader, nth, ARC.contains(&first.field));
    match first.field {
        Field::HeatInput => net,
        Field::ArcEnergy => {
            let net = arc? * reader.reference.efficiency(process?.id());
            inside(reader, *first, net)
        }
        _ => {
            for slot in [Field::Volts.nth(nth), Field::Amps.nth(nth)] {
                if !reader.has(slot) {
                    reader.fault(slot, Fault::Missing);
                }
            }
            let efficiency = reader.reference.efficiency(process?.id());
            let run = ArcRun { volts: volts?, amps: amps?, travel: travel?, efficiency };
            // The readers of the fields keep them inside what the engine takes.
            let [_, net] = heat_input(run).ok()?;
            let by_speed = Field::Travel.nth(nth);
            let slot = if reader.has(by_speed) { by_speed } else { Field::RunLength.nth(nth) };
            inside(reader, slot, net.value?)
        }
    }
}

/// How fast the arc travels: as typed, or from a run that was timed and measured. Says what is
/// missing only where the heat input is stated so.
fn travel(reader: &mut Reader<'_>, nth: usize, wanted: bool) -> Option<Travel> {
    let length = reader.units.length;
    let [speed_slot, time_slot, length_slot] =
        [Field::Travel, Field::ArcTime, Field::RunLength].map(|field| field.nth(nth));
    let speed = one(reader, speed_slot, |text| units::travel(text, length, limits::TRAVEL_MM_PER_MIN));
    let time = one(reader, time_slot, |text| units::duration(text, TimeUnit::Seconds, limits::ARC_TIME_S));
    let run = one(reader, length_slot, |text| units::run_length(text, length, limits::RUN_MM));
    match (reader.has(speed_slot), [time_slot, length_slot].map(|slot| reader.has(slot))) {
        (true, [false, false]) => Some(Travel::SpeedMmPerS(speed? / 60.0)),
        (true, [time, _]) => {
            reader.fault(if time { time_slot } else { length_slot }, Fault::TravelTwice);
            None
        }
        (false, [true, true]) => {
            let run = Travel::Run { arc_time_s: time?, run_mm: run? };
            let mm_per_min = run.mm_per_s() * 60.0;
            if !limits::TRAVEL_MM_PER_MIN.holds(mm_per_min) {
                reader.fault(length_slot, Fault::TimedTravel { mm_per_min });
                return None;
            }
            reader.default(speed_slot, DefaultValue::TimedTravel(mm_per_min));
            Some(run)
        }
        (false, timed) => {
            let missing = match timed {
                [false, true] => time_slot,
                [true, false] => length_slot,
                _ => speed_slot,
            };
            if wanted {
                reader.fault(missing, Fault::Missing);
            }
            None
        }
    }
}

fn inside(reader: &mut Reader<'_>, slot: Slot, net_kj_per_mm: f64) -> Option<f64> {
    if limits::NET_HEAT_KJ_PER_MM.holds(net_kj_per_mm) {
        return Some(net_kj_per_mm);
    }
    reader.fault(slot, Fault::NetHeat { net_kj_per_mm });
    None
}

/// What is known of the weld metal. What is typed comes before what the fillers' classes say.
///
/// A leg is that of a fillet: for a joint without one it is not read, which is said, since
/// the throat that follows from it would stand for a weld as deep as the part.
pub(super) fn weld_metal(reader: &mut Reader<'_>, joint: Option<Joint>, runs: &[Run]) -> WeldMetal {
    let length = reader.units.length;
    let cet_typed = reader.read(Field::WeldCet, |text| units::number(text, limits::CET));
    let tensile_typed =
        reader.read(Field::WeldStrength, |text| units::strength(text, length, limits::STRENGTH_MPA));
    let leg = if joint.is_none_or(Joint::has_fillet) {
        reader.read(Field::Leg, |text| units::leg(text, length, limits::LEG_MM))
    } else {
        if reader.has(Field::Leg) {
            reader.default(Field::Leg, DefaultValue::LegNotUsed);
        }
        None
    };
    let depth = depth(reader, joint);
    let fillers: Vec<Option<&Filler>> =
        (0..reader.count(Of::Run).max(1)).map(|nth| filler(reader, Field::Filler.nth(nth))).collect();
    let known = || fillers.iter().copied().flatten();
    let ferritic = known()
        .filter(|filler| matches!(filler.deposit, DepositKind::Ferritic | DepositKind::Martensitic))
        .filter_map(Filler::nominal);
    let hydrogen_stays = |(nth, filler): (usize, &Option<&Filler>)| {
        runs.get(nth).is_some_and(|run| run.process == Process::SmawNickel)
            || filler.is_some_and(Filler::tolerates_hydrogen)
    };
    let nickel = |nth: usize| runs.get(nth).is_some_and(|run| run.process == Process::SmawNickel);
    let for_iron = |(nth, filler): (usize, &Option<&Filler>)| {
        nickel(nth) && filler.is_none() || filler.is_some_and(Filler::suits_iron)
    };
    WeldMetal {
        // The deposit that hardens most, and the strongest: one of them governs.
        cet: cet_typed.or_else(|| ferritic.map(|composition| cet(&composition)).reduce(f64::max)),
        // A class caps strength seldom; where it does, the cap is the safe end.
        tensile_mpa: tensile_typed.or_else(|| {
            known().filter_map(|filler| filler.tensile_max_mpa.or(filler.tensile_min_mpa)).reduce(f64::max)
        }),
        least_tensile_mpa: tensile_typed
            .or_else(|| known().filter_map(|filler| filler.tensile_min_mpa).reduce(f64::max)),
        hydrogen_open: hydrogen_open(reader, runs),
        several_runs: several_runs(reader),
        // Throat of an equal-legged fillet.
        thickness_mm: leg.map(|leg| leg.mm * std::f64::consts::FRAC_1_SQRT_2).or(depth),
        for_iron: fillers.iter().enumerate().all(for_iron),
        austenitic: fillers.iter().enumerate().all(hydrogen_stays),
        chromium_fume: known().any(Filler::chromium_fume),
    }
}

/// The depth of a groove, of a repair or of metal built up, mm; a fillet is told by its leg.
fn depth(reader: &mut Reader<'_>, joint: Option<Joint>) -> Option<f64> {
    let length = reader.units.length;
    if joint.is_none_or(|joint| !joint.has_fillet()) {
        let read =
            reader.read(Field::WeldDepth, |text| units::length(text, length, limits::WELD_DEPTH_MM))?;
        return Some(read.mm);
    }
    if reader.has(Field::WeldDepth) {
        reader.default(Field::WeldDepth, DefaultValue::DepthNotUsed);
    }
    None
}

/// Is the hydrogen of a consumable taken as the usual, where it comes in several classes?
fn hydrogen_open(reader: &Reader<'_>, runs: &[Run]) -> bool {
    let classes =
        |run: &Run| reader.reference.process(run.process.id()).is_some_and(|row| row.designators.len() > 1);
    let told = |nth: usize| reader.has(Field::Hydrogen.nth(nth));
    runs.iter().enumerate().any(|(nth, run)| classes(run) && !told(nth))
}

/// Does the weld take two runs or more? Where it is not said for each process, it does.
fn several_runs(reader: &mut Reader<'_>) -> bool {
    let slots: Vec<Slot> = (0..reader.count(Of::Run).max(1)).map(|nth| Field::Passes.nth(nth)).collect();
    let stated: Vec<Option<u32>> =
        slots.iter().map(|slot| one(reader, *slot, |text| units::count(text, limits::RUNS))).collect();
    if let Some(open) = slots.iter().find(|slot| !reader.has(**slot)) {
        reader.default(*open, DefaultValue::SeveralRuns);
    }
    stated.into_iter().sum::<Option<u32>>().is_none_or(|sum| sum > 1)
}

/// The filler of a run.
fn filler<'a>(reader: &mut Reader<'a>, slot: Slot) -> Option<&'a Filler> {
    let name = reader.typed(slot)?;
    find_filler(name, reader.reference)
        .map_err(|near| reader.fault(slot, Fault::UnknownFiller { typed: name.to_owned(), near }))
        .ok()
}
