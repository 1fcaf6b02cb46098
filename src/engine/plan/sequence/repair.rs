//! What a repair finds is taken off before anything is welded on it.

use super::{Deed, Note, Scene, Step, StepFigure};
use crate::engine::family::Family;

/// The steps of a repair, between the clean joint and the weld.
pub(super) fn repair(scene: &Scene<'_>) -> Vec<Step> {
    let (told, data) = (scene.job.repair, &scene.reference.repair);
    let mut steps = Vec::new();
    if told.oil_soaked {
        let iron = scene.parts.iter().any(|part| part.family == Family::Iron);
        let oil = &data.oil;
        let mut step = Step::new(Deed::DriveOilOut, []);
        if iron {
            step.notes.push(Note::OilFromIron { at_c: oil.iron_c, minutes: oil.iron_min });
        } else {
            step.notes.push(Note::OilFromSteel);
            step.notes.extend(scene.ceiling());
        }
        step.notes.extend([Note::NoHotSolvent, Note::PorousRun]);
        steps.push(step);
    }
    if told.hardfacing {
        let depth = StepFigure::Away(data.hardfacing.below_mm);
        steps.push(Step::new(Deed::TakeFacingOff, [Note::FacingCracks]).with(depth, &data.hardfacing.basis));
    }
    if told.old_weld {
        let depth = StepFigure::Away(data.old_weld.below_mm);
        let notes = [Note::OldWeldTests, Note::OldWeldOver];
        steps.push(Step::new(Deed::TakeWeldOut, notes).with(depth, &data.old_weld.basis));
    }
    if told.crack {
        let crack = &data.crack;
        steps.push(Step::new(Deed::TraceCrack, [Note::CrackEnds, Note::CrackCause]));
        let notes = [Note::CrackGroove { radius_mm: crack.radius_mm }, Note::HotGouge];
        let beyond = StepFigure::Away(crack.beyond_mm);
        steps.push(Step::new(Deed::GougeCrack, notes).with(beyond, &crack.basis));
    }
    if told.build_up {
        let stays = StepFigure::Away(data.build_up.stays_mm);
        steps.push(Step::new(Deed::TurnDown, [Note::TwoLayers]).with(stays, &data.build_up.basis));
    }
    steps
}
