//! The steps of cast iron: cold or hot, never blended.

use super::before::measure;
use super::{Branch, Deed, Edge, Note, Scene, Step, StepFigure};
use crate::reference::{IronRoute, IronRouteKind};

/// The ways that the job leaves open, each from the flame to the inspection.
pub(super) fn ways(scene: &Scene<'_>) -> Vec<(Branch, Vec<Step>)> {
    let open = scene.plan.routes.iter();
    open.map(|route| match route.kind {
        IronRouteKind::Cold => (Branch::IronCold, cold(scene, route)),
        IronRouteKind::Hot => (Branch::IronHot, hot(scene, route)),
        IronRouteKind::SemiHot => (Branch::IronHot, semi_hot(scene, route)),
    })
    .collect()
}

fn heat(deed: Deed, route: &IronRoute) -> Step {
    let range = StepFigure::Range(Edge::own(route.preheat_low_c), Edge::own(route.preheat_high_c));
    Step::new(deed, []).with(range, &route.basis)
}

fn run(scene: &Scene<'_>, deed: Deed, route: &IronRoute) -> Step {
    let mut step = Step::new(deed, []);
    step.notes.extend(scene.for_buttering());
    match route.interpass_c {
        Some(most_c) if deed == Deed::WeldThrough => {
            step.with(StepFigure::Range(Edge::own(route.preheat_low_c), Edge::own(most_c)), &route.basis)
        }
        Some(most_c) => step.with(StepFigure::Most(Edge::own(most_c)), &route.basis),
        None => step,
    }
}

/// How a short bead is made.
pub(super) fn bead_notes(scene: &Scene<'_>) -> Vec<Note> {
    let cold = scene.plan.routes.iter().find(|route| route.kind == IronRouteKind::Cold);
    let length = cold.and_then(|route| route.bead_mm).map(|mm| Note::BeadLength { mm });
    length.into_iter().chain([Note::PeenBeads, Note::IronCracks]).collect()
}

fn cold(scene: &Scene<'_>, route: &IronRoute) -> Vec<Step> {
    let mut beads = run(scene, Deed::WeldBeads, route);
    beads.notes.extend(bead_notes(scene));
    vec![
        heat(Deed::WarmIron, route),
        measure(scene),
        beads,
        Step::new(Deed::CoolSlowly, [Note::NoWater]),
        Step::new(Deed::InspectCold, []),
    ]
}

/// Warmer than the cold way, and cooled as slowly as the hot one; no rate is known for it.
fn semi_hot(scene: &Scene<'_>, route: &IronRoute) -> Vec<Step> {
    // Its own preheat ends above what practice allows between runs: no step is hotter than that.
    let most_c = scene.plan.interpass.as_ref().map_or(f64::INFINITY, |most| most.exact_c);
    let kept = IronRoute { preheat_high_c: route.preheat_high_c.min(most_c), ..route.clone() };
    let mut whole = heat(Deed::HeatIron, &kept);
    whole.notes.push(Note::WholePart);
    let mut through = Step::new(Deed::WeldThrough, [Note::WithoutStop]);
    through.notes.splice(0..0, scene.for_buttering());
    if let (Some(minimum), Some(most)) = (&scene.plan.minimum, &scene.plan.interpass) {
        through = through.with(StepFigure::Range(Edge::of(minimum), Edge::of(most)), &most.basis);
    }
    let cool = Step::new(Deed::CoolSlowly, [Note::NoWater, Note::StaysHot]);
    vec![whole, measure(scene), through, cool, Step::new(Deed::InspectCold, [])]
}

fn hot(scene: &Scene<'_>, route: &IronRoute) -> Vec<Step> {
    let mut whole = heat(Deed::HeatIron, route);
    whole.notes.push(Note::WholePart);
    let mut through = run(scene, Deed::WeldThrough, route);
    through.notes.push(Note::WithoutStop);
    let mut cool = Step::new(Deed::CoolByRate, [Note::NoWater, Note::StaysHot]);
    cool.notes.splice(0..0, route.cooling_k_per_h.map(|k_per_h| Note::CoolingRate { k_per_h }));
    cool.basis = route.basis.clone();
    vec![whole, measure(scene), through, cool, Step::new(Deed::InspectCold, [])]
}
