//! The steps up to the last run.

use super::{Deed, Edge, Note, Scene, Step, StepFigure};
use crate::engine::job::{Joint, Process};
use crate::engine::measuring::{HeatedBy, PartToMeasure, distance_mm, measuring_place};
use crate::engine::plan::Action;
use crate::engine::plan::side::{CoolingTime, QT_SPAN_S};
use crate::reference::{Basis, Method};

/// What is done at the cold part.
pub(super) fn before(scene: &Scene<'_>) -> Vec<Step> {
    let mut steps = vec![Step::new(Deed::MakeSafe, [Note::SafetyNotes])];
    let mut when = |yes: bool, step: Step| {
        if yes {
            steps.push(step);
        }
    };
    when(scene.has(Action::TrialPiece), Step::new(Deed::TrialPiece, [Note::TryEachStep]));
    let dry = scene.has(Action::DryFirst);
    let mut dried = Step::new(Deed::CleanAndDry, [Note::DirtyJoint, Note::FlameWater]);
    if let Some(least) = scene.plan.dry_from.filter(|_| !scene.preheated()) {
        let printed = scene.plan.governing().filter(|_| least.printed.is_some());
        let basis = printed.map_or(&Basis::Practice, |item| item.outcome.basis(&scene.reference.methods));
        dried = dried.with(StepFigure::Least(least), basis);
    }
    when(dry, dried);
    when(!dry, Step::new(Deed::Clean, [Note::DirtyJoint]));
    super::repair::repair(scene).into_iter().for_each(|step| when(true, step));
    let (case, layer) = (scene.has(Action::RemoveCase), scene.has(Action::RemoveHardSkin));
    let mut ground = Step::new(Deed::GrindLayer, []);
    ground.notes.extend(case.then_some(Note::CarbonCase));
    ground.notes.extend(layer.then_some(Note::HardLayer));
    when(case || layer, ground);
    when(scene.has(Action::CutEdges), Step::new(Deed::CutEdges, [Note::HardEdge, Note::BeforeCutting]));
    let arc = scene.job.runs.iter().any(|run| run.process != Process::OxyFuel);
    when(
        arc && (scene.hardens() || scene.turns()),
        Step::new(Deed::ClampReturn, [Note::LooseClamp, Note::CurrentPath]),
    );
    when(scene.has(Action::DryElectrodes), Step::new(Deed::DryConsumables, [Note::DampConsumables]));
    steps.extend(buttering(scene));
    steps
}

/// The buttering that takes its part out of the last joint.
fn buttering(scene: &Scene<'_>) -> Option<Step> {
    let (member, layer) =
        scene.plan.members.iter().enumerate().find_map(|(index, note)| Some((index, note.layer?)))?;
    let mut step = if layer.exact_c > 0.0 {
        let range = StepFigure::Range(Edge::own(layer.exact_c), Edge::own(layer.most_c));
        Step::new(Deed::Butter, [Note::ThickButtering, Note::LikeAWeld]).with(range, &Basis::Practice)
    } else {
        Step::new(Deed::ButterCold, [Note::ThickButtering])
    };
    step.notes.extend(scene.parts[member].hardens().then_some(Note::TemperLayer));
    step.member = Some(member);
    Some(step)
}

/// From the flame to the last run.
pub(super) fn welding(scene: &Scene<'_>) -> Vec<Step> {
    let mut steps = Vec::new();
    let plan = scene.plan;
    if let (Some(minimum), Some(most)) = (&plan.minimum, &plan.interpass) {
        let range = StepFigure::Range(Edge::of(minimum), Edge::of(most));
        let zone_mm = plan.side.as_ref().map(|side| side.warm_zone.distance_mm);
        let mut heat = Step::new(Deed::Preheat, []).with(range, &minimum.basis);
        heat.notes.extend(zone_mm.map(|mm| Note::Zone { mm }));
        heat.notes.extend((minimum.by == Method::Demanded.id()).then_some(Note::ByDrawing));
        heat.notes.extend((scene.job.joint == Joint::BossThrough).then_some(Note::WholePlate));
        heat.notes.extend(scene.turns().then_some(Note::Bearings));
        heat.notes.extend((scene.heated_by() == HeatedBy::Flame).then_some(Note::MovingFlame));
        heat.notes.extend(scene.ceiling());
        steps.push(heat);
        steps.push(measure(scene));
        // A cavity holds its own shape.
        let tack = plan.side.as_ref().and_then(|side| side.tack).filter(|_| scene.job.joint != Joint::Repair);
        if let Some((low_c, high)) = tack {
            steps.push(
                Step::new(Deed::Tack, [Note::LongTacks, Note::CrackedTack])
                    .with(StepFigure::Range(Edge::own(low_c), high), &Basis::Practice),
            );
        }
    }
    steps.push(weld(scene));
    if let Some(minimum) = &plan.minimum {
        let mut stop = Step::new(Deed::Stop, []).with(StepFigure::Least(Edge::of(minimum)), &minimum.basis);
        // No post-heat drives hydrogen out of austenitic weld metal.
        if !scene.austenitic() {
            stop.notes.push(match (scene.turns_first(), super::after::post_heat(scene).is_some()) {
                (true, _) => Note::OrTurnFirst,
                (false, true) => Note::OrPostHeat,
                (false, false) => Note::OrCoolSlowly,
            });
        }
        stop.notes.extend([Note::ThirdFilled, Note::BeforeNextRun]);
        steps.push(stop);
    }
    steps
}

/// Where the probe goes: no part of the zone may be colder, and the zone is wider than that place.
pub(super) fn measure(scene: &Scene<'_>) -> Step {
    let thickest_mm = scene.job.thickest_mm();
    let (mm, at_least) = distance_mm(thickest_mm);
    let asked = PartToMeasure { thickest_mm, heated_by: scene.heated_by(), far_face_reached: false };
    let wait =
        measuring_place(asked).ok().and_then(|place| place.wait.value).filter(|wait_min| *wait_min > 0.0);
    let mut step = Step::new(Deed::Measure, [Note::FromWeld { mm, at_least }])
        .with(StepFigure::Away(mm), &scene.reference.methods.row(Method::MeasuringDistance).basis);
    let thick = scene.plan.side.as_ref().map(|side| side.warm_zone.coldest_member);
    let differ = scene.job.members.iter().any(|member| member.thickness_mm < thickest_mm);
    step.notes.extend(thick.filter(|_| differ).map(|member| Note::ThickPart { member }));
    step.notes.extend(wait.map(|wait_min| Note::FarFace { wait_min }));
    step
}

fn weld(scene: &Scene<'_>) -> Step {
    let plan = scene.plan;
    let mut step = Step::new(if scene.preheated() { Deed::Weld } else { Deed::WeldCold }, []);
    if let Some(most) = &plan.interpass {
        let high = Edge::of(most);
        let figure = match &plan.minimum {
            Some(minimum) => StepFigure::Range(Edge::of(minimum), high),
            None => StepFigure::Most(high),
        };
        step = step.with(figure, &most.basis);
    }
    step.notes.push(if scene.preheated() { Note::EachRun } else { Note::EachRunCold });
    if !scene.preheated() {
        step.notes.extend(scene.ceiling());
    }
    step.notes.extend(scene.for_buttering());
    let members = &scene.job.members;
    let first = |time: &&CoolingTime| !members[..time.member].contains(&members[time.member]);
    // What two equal parts share is said once.
    for time in plan.side.iter().flat_map(|side| &side.cooling).filter(first) {
        if let Some(heat) = time.heat_for_span_kj_per_mm {
            let member = time.member;
            let fast = time.fastest_s < QT_SPAN_S.0;
            step.notes.push(if fast { Note::CoolsFast { member, heat } } else { Note::CoolsSlow { member } });
        }
    }
    if scene.has(Action::ShortBeads) {
        step.notes.extend(super::iron::bead_notes(scene));
    }
    if scene.hardens() {
        step.notes.extend([Note::ArcStrikes, Note::Craters]);
    }
    step
}
