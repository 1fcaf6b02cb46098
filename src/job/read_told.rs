//! What is told of the weld beside what its plan counts with: load, position, length, groove, and of each
//! run its filler, its number and the settings of its machine.

use super::field_problem::{DefaultValue, Fault};
use super::read_job::Reader;
use super::read_weld::ARC;
use super::steel::find_filler;
use super::typed;
use super::{Field, Of};
use crate::engine::job::{Joint, Member};
use crate::engine::weld::groove::{
    Groove, GrooveShape, USUAL_FACE_MM, USUAL_GAP_MM, USUAL_RADIUS_MM, USUAL_V_DEG,
};
use crate::engine::weld_of_job::{RunTold, WeldTold};
use crate::units::{self, Quantity, TimeUnit, limits};

/// What tells a groove.
const GROOVE: [Field; 4] = [Field::Groove, Field::GrooveAngle, Field::RootGap, Field::RootFace];
/// The usual angle, °: the whole one of a V or U, as drawings give it, that of the one edge of any other
/// (common practice).
const fn usual_angle_deg(shape: GrooveShape) -> f64 {
    match shape {
        GrooveShape::Square => 0.0,
        GrooveShape::V | GrooveShape::DoubleV => USUAL_V_DEG,
        GrooveShape::Bevel | GrooveShape::DoubleBevel => 45.0,
        GrooveShape::U => 20.0,
        GrooveShape::J => 20.0,
    }
}

/// Reads all of it.
pub(super) fn told(
    reader: &mut Reader<'_>,
    joint: Option<Joint>,
    members: Option<&[Member]>,
    weld_mm: Option<f64>,
) -> WeldTold {
    let length = reader.units.length;
    let load = reader.read(Field::Load, typed::told);
    let position = reader.read(Field::Position, typed::told);
    let length_mm = reader.read(Field::WeldLength, |text| units::run_length(text, length, limits::RUN_MM));
    let groove = groove(reader, joint, members, weld_mm);
    WeldTold { runs: runs(reader), load: load.unwrap_or_default(), position, groove, length_mm }
}

/// The groove of a butt weld. What is not told of it is the usual, which is said.
fn groove(
    reader: &mut Reader<'_>,
    joint: Option<Joint>,
    members: Option<&[Member]>,
    weld_mm: Option<f64>,
) -> Option<Groove> {
    let units = reader.units;
    let shape = reader.read(Field::Groove, typed::told::<GrooveShape>);
    let angle = reader.read(Field::GrooveAngle, |text| Quantity::Angle.read(text, units, limits::GROOVE_DEG));
    let mut mm = |field, within| {
        reader.read(field, |text| units::length(text, units.length, within)).map(|read| read.mm)
    };
    let gap = mm(Field::RootGap, limits::ROOT_GAP_MM);
    let face = mm(Field::RootFace, limits::ROOT_FACE_MM);
    let typed = GROOVE.into_iter().find(|field| reader.has(*field))?;
    if joint.is_some_and(|joint| !joint.may_have_groove()) {
        reader.default(typed, DefaultValue::GrooveNotUsed);
        return None;
    }
    if !reader.has(Field::Groove) {
        reader.fault(Field::Groove, Fault::Missing);
    }
    let shape = shape?;
    let mut or = |told: Option<f64>, field: Field, usual: DefaultValue, value: f64| {
        if told.is_none() && !reader.has(field) {
            reader.default(field, usual);
        }
        told.unwrap_or(value)
    };
    let usual_deg = usual_angle_deg(shape);
    let angle_deg = match shape {
        GrooveShape::Square => angle.unwrap_or(usual_deg),
        _ => or(angle, Field::GrooveAngle, DefaultValue::GrooveAngle(usual_deg), usual_deg),
    };
    let gap_mm = or(gap, Field::RootGap, DefaultValue::RootGap(USUAL_GAP_MM), USUAL_GAP_MM);
    let face_mm = or(face, Field::RootFace, DefaultValue::RootFace(USUAL_FACE_MM), USUAL_FACE_MM);
    let members = members?;
    // Of a tee the part that stands has the groove, and it is the second of the sketch.
    let tee = matches!(joint, Some(Joint::TFilletOneSide | Joint::TFilletBothSides));
    let standing = members.get(1).filter(|_| tee).map(|member| member.thickness_mm);
    let thinner = standing.or_else(|| members.iter().map(|member| member.thickness_mm).reduce(f64::min));
    Some(Groove {
        shape,
        // A depth that is told is that of the groove.
        thickness_mm: weld_mm.into_iter().chain(thinner).reduce(f64::min)?,
        // The engine takes that of each edge of a U.
        angle_deg: if shape == GrooveShape::U { angle_deg / 2.0 } else { angle_deg },
        second_angle_deg: angle_deg,
        face_mm,
        gap_mm,
        radius_mm: USUAL_RADIUS_MM,
        first_depth_mm: None,
    })
}

/// What is told of the runs of each process. The readers of the fields have said what is wrong with them.
fn runs(reader: &Reader<'_>) -> Vec<RunTold> {
    let run = |nth: usize| {
        let typed = |field: Field| reader.typed(field.nth(nth));
        let filler = typed(Field::Filler).and_then(|name| find_filler(name, reader.reference).ok());
        let passes = reader.quantity(Field::Passes.nth(nth), |text| units::count(text, limits::RUNS));
        let told_energy = [Field::HeatInput, Field::ArcEnergy].into_iter().chain(ARC);
        RunTold {
            filler: filler.map(|filler| filler.id.clone()),
            passes: passes.and_then(|passes| usize::try_from(passes).ok()),
            amps: reader.quantity(Field::Amps.nth(nth), |text| units::current(text, limits::CURRENT_A)),
            volts: reader.quantity(Field::Volts.nth(nth), |text| units::voltage(text, limits::VOLTAGE_V)),
            energy: told_energy.into_iter().any(|field| typed(field).is_some()),
            travel_mm_per_s: travel(reader, nth),
        }
    };
    (0..reader.count(Of::Run).max(1)).map(run).collect()
}

/// Travel speed as told, or as a timed run has it, mm/s.
fn travel(reader: &Reader<'_>, nth: usize) -> Option<f64> {
    let length = reader.units.length;
    let told = reader
        .quantity(Field::Travel.nth(nth), |text| units::travel(text, length, limits::TRAVEL_MM_PER_MIN))
        .map(|mm_per_min| mm_per_min / 60.0);
    told.or_else(|| {
        let time = reader.quantity(Field::ArcTime.nth(nth), |text| {
            units::duration(text, TimeUnit::Seconds, limits::ARC_TIME_S)
        })?;
        let run = reader
            .quantity(Field::RunLength.nth(nth), |text| units::run_length(text, length, limits::RUN_MM))?;
        Some(run / time)
    })
}
