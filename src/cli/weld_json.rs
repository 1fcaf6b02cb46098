//! What the weld of a plan takes, as JSON.

use serde::Serialize;

use super::outcome_json::OutcomeJson;
use crate::engine::Outcome;
use crate::engine::plan::Plan;
use crate::engine::weld::order::{Deed, Face};
use crate::engine::weld_of_job::{
    Chosen, ChosenFiller, JobWeld, Laid, Layers, LayersOf, Laying, NoLayers, RunOfJob, SectionBead,
    energy_outcomes, weld_of_job,
};
use crate::job::ReadJob;
use crate::reference::{Filler, Methods, Reference};

/// The whole.
#[derive(Debug, Serialize)]
pub(super) struct WeldJson {
    kind: &'static str,
    load: &'static str,
    position: Option<&'static str>,
    base_strength_mpa: Option<f64>,
    base_strength_from: Option<&'static str>,
    hydrogen_most_ml: f64,
    asks: Vec<&'static str>,
    runs: Vec<RunJson>,
    size: Vec<OutcomeJson>,
    layers: Option<LayersJson>,
    order: Option<OrderJson>,
}

/// One process.
#[derive(Debug, Serialize)]
struct RunJson {
    process: &'static str,
    filler: Option<ChosenJson>,
    offered: Vec<FillerJson>,
    hydrogen_most_ml: f64,
    heat_input_told: bool,
    energy: Vec<OutcomeJson>,
    settings: Vec<OutcomeJson>,
    amount: Vec<OutcomeJson>,
    notes: Vec<&'static str>,
}

#[derive(Debug, Serialize)]
struct FillerJson {
    id: String,
    classification: String,
    tensile_min_mpa: Option<f64>,
}

/// The chosen filler, with what is said of it.
#[derive(Debug, Serialize)]
struct ChosenJson {
    #[serde(flatten)]
    filler: FillerJson,
    verdict: &'static str,
    weaker: bool,
    as_strong_as_part: Option<AsPartJson>,
}

#[derive(Debug, Serialize)]
struct AsPartJson {
    part: &'static str,
    leg: OutcomeJson,
    enough: bool,
}

/// The runs of the fillet.
#[derive(Debug, Serialize)]
struct LayersJson {
    leg_mm: Option<f64>,
    groove: Option<&'static str>,
    area_mm2: f64,
    counts: Vec<CountJson>,
    beads: Vec<BeadJson>,
    notes: Vec<&'static str>,
    answers: Vec<OutcomeJson>,
}

#[derive(Debug, Serialize)]
struct CountJson {
    count: usize,
    low: usize,
    high: usize,
    told: bool,
    each_mm2: f64,
}

/// One bead: its corners from the corner of the joint, x along the part that runs on.
#[derive(Debug, Serialize)]
struct BeadJson {
    number: usize,
    process: &'static str,
    row: usize,
    area_mm2: f64,
    corners_mm: Vec<(f64, f64)>,
}

/// Tacks and runs.
#[derive(Debug, Serialize)]
struct OrderJson {
    lies: &'static str,
    diameter_mm: Option<f64>,
    both_faces: bool,
    shrunk: bool,
    tack_length_mm: Option<f64>,
    tack_runs: Option<u8>,
    tack_at_deg: Vec<f64>,
    tack_low_c: Option<f64>,
    tack_high_c: Option<f64>,
    segments: Vec<usize>,
    step_mm: Option<f64>,
    deeds: Vec<DeedJson>,
}

/// One deed of a ring.
#[derive(Debug, Default, Serialize)]
struct DeedJson {
    deed: &'static str,
    face: Option<&'static str>,
    run: Option<usize>,
    segment: Option<usize>,
    from_deg: Option<f64>,
    to_deg: Option<f64>,
}

/// Makes it; none where the plan has none.
pub(super) fn weld_json(reference: &Reference, read: &ReadJob, plan: &Plan) -> Option<WeldJson> {
    let weld = weld_of_job(reference, &read.job, &read.told, plan)?;
    let methods = &reference.methods;
    Some(WeldJson {
        kind: weld.kind.id(),
        load: weld.load.id(),
        position: weld.position.map(|position| position.id()),
        base_strength_mpa: weld.base.map(|base| base.tensile_mpa),
        base_strength_from: weld.base.map(|base| base.from.id()),
        hydrogen_most_ml: weld.need.most_ml,
        asks: asks(&weld),
        runs: weld.runs.iter().map(|run| run_json(run, methods)).collect(),
        size: outcomes(weld.size.iter().flat_map(|size| &size.outcomes), methods),
        layers: weld.layers.as_ref().ok().map(|layers| layers_json(&weld, layers, methods)),
        order: weld.laying.as_ref().ok().map(|laying| order_json(&weld, laying)),
    })
}

fn outcomes<'a>(outcomes: impl IntoIterator<Item = &'a Outcome>, methods: &Methods) -> Vec<OutcomeJson> {
    outcomes.into_iter().map(|outcome| OutcomeJson::of(outcome, methods)).collect()
}

fn asks(weld: &JobWeld<'_>) -> Vec<&'static str> {
    let size = match &weld.layers {
        Err(NoLayers::NoLeg) => Some("leg"),
        Err(NoLayers::Groove) => Some("groove"),
        Err(NoLayers::NotCounted) => None,
        Err(NoLayers::Process(_)) => Some("run-area"),
        Err(NoLayers::Outside(_)) | Ok(_) => None,
    };
    let diameter = matches!(weld.laying, Ok(Laying::NoDiameter)).then_some("diameter");
    let strength = (weld.strength_is_open() && !weld.other_metal).then_some("strength");
    size.into_iter().chain(diameter).chain(strength).collect()
}

fn filler_json(filler: &Filler) -> FillerJson {
    FillerJson {
        id: filler.id.clone(),
        classification: filler.classification.clone(),
        tensile_min_mpa: filler.tensile_min_mpa,
    }
}

fn chosen_json(chosen: &ChosenFiller<'_>, methods: &Methods) -> ChosenJson {
    ChosenJson {
        filler: filler_json(chosen.filler),
        verdict: match chosen.verdict {
            Chosen::Fits(verdict) => verdict.id(),
            Chosen::StrengthOpen => "strength-open",
            Chosen::Refused(why) => why.id(),
        },
        weaker: chosen.weaker,
        as_strong_as_part: chosen.as_part.as_ref().map(|part| AsPartJson {
            part: part.part.id(),
            leg: OutcomeJson::of(&part.leg, methods),
            enough: part.enough,
        }),
    }
}

fn run_json(run: &RunOfJob<'_>, methods: &Methods) -> RunJson {
    let set = &run.settings;
    RunJson {
        process: run.process.id(),
        filler: run.fillers.chosen.as_ref().map(|chosen| chosen_json(chosen, methods)),
        offered: run.fillers.offered.iter().map(|filler| filler_json(filler)).collect(),
        hydrogen_most_ml: run.fillers.hydrogen_ml,
        heat_input_told: run.energy.told,
        energy: outcomes(&energy_outcomes(&run.energy), methods),
        settings: outcomes(set.outcomes.iter().chain(&set.downslope), methods),
        amount: outcomes(&run.amount, methods),
        notes: set.notes.clone(),
    }
}

fn layers_json(weld: &JobWeld<'_>, layers: &Layers, methods: &Methods) -> LayersJson {
    let count = |of: &LayersOf| CountJson {
        count: of.count,
        low: of.span.0,
        high: of.span.1,
        told: of.told,
        each_mm2: of.each_mm2,
    };
    let bead = |drawn: SectionBead| BeadJson {
        number: drawn.number,
        process: weld.runs[drawn.process].process.id(),
        row: drawn.bead.row,
        area_mm2: drawn.area_mm2,
        corners_mm: drawn.bead.corners,
    };
    let (leg_mm, groove) = match layers.laid {
        Laid::Fillet(fillet) => (Some(fillet.first_mm), None),
        Laid::Groove(groove) => (None, Some(groove.shape.id())),
    };
    LayersJson {
        leg_mm,
        groove,
        area_mm2: layers.need_mm2,
        counts: layers.of.iter().map(count).collect(),
        beads: weld.section().into_iter().map(bead).collect(),
        notes: layers.notes.iter().map(|note| note.id()).collect(),
        answers: outcomes(&layers.outcomes, methods),
    }
}

fn order_json(weld: &JobWeld<'_>, laying: &Laying) -> OrderJson {
    let made = OrderJson {
        lies: "ring",
        diameter_mm: None,
        both_faces: false,
        shrunk: false,
        tack_length_mm: None,
        tack_runs: None,
        tack_at_deg: Vec::new(),
        tack_low_c: weld.tack_c.map(|(low_c, _)| low_c),
        tack_high_c: weld.tack_c.map(|(_, high_c)| high_c),
        segments: Vec::new(),
        step_mm: None,
        deeds: Vec::new(),
    };
    match laying {
        Laying::Ring(ring) => OrderJson {
            diameter_mm: Some(ring.diameter_mm),
            both_faces: ring.both,
            shrunk: ring.shrunk,
            tack_length_mm: Some(ring.tacks.length_mm),
            tack_runs: Some(ring.tacks.runs),
            tack_at_deg: ring.tacks.at.clone(),
            segments: ring.segments.iter().map(|segment| segment + 1).collect(),
            deeds: ring.deeds.iter().filter_map(deed_json).collect(),
            ..made
        },
        Laying::Line { tack: (length_mm, runs), step_mm, both, .. } => OrderJson {
            lies: "line",
            both_faces: *both,
            tack_length_mm: Some(*length_mm),
            tack_runs: Some(*runs),
            step_mm: Some(*step_mm),
            ..made
        },
        Laying::Along => OrderJson { lies: "along-shaft", ..made },
        Laying::Cavity => OrderJson { lies: "cavity", ..made },
        Laying::NoDiameter => OrderJson { both_faces: true, ..made },
    }
}

/// A deed of the weld itself; what comes before and after it stands in the plan's steps.
fn deed_json(deed: &Deed) -> Option<DeedJson> {
    let side = |face: Face| Some(if face == Face::A { "a" } else { "b" });
    let of = |deed: &'static str| DeedJson { deed, ..DeedJson::default() };
    Some(match *deed {
        Deed::Tack(at) => DeedJson { from_deg: Some(at), ..of("tack") },
        Deed::Feather => of("feather"),
        Deed::Turn(face) => DeedJson { face: side(face), ..of("turn") },
        Deed::Measure(face, run) => DeedJson { face: side(face), run: Some(run), ..of("measure") },
        Deed::Run { face, pass, segment, from, to } => DeedJson {
            deed: "run",
            face: side(face),
            run: Some(pass),
            segment: Some(segment + 1),
            from_deg: Some(from),
            to_deg: Some(to),
        },
        Deed::CleanLook(face, run) => DeedJson { face: side(face), run: Some(run), ..of("clean-look") },
        Deed::Preheat | Deed::PostHeat | Deed::Cover | Deed::Inspect => return None,
    })
}
