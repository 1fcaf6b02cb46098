//! What a plan's weld takes: filler, runs, arc energy, current and order, by the functions that the
//! questions of the Bench ask.
//!
//! It stands beside the plan and changes none of its figures, so that a plan without it is as quick as ever.

mod amount;
mod base;
mod filler;
mod layers;
mod laying;
mod settings;

pub use base::{BaseStrength, StrengthFrom};
pub use filler::{Chosen, ChosenFiller, Fillers};
pub use layers::{Laid, LayerNote, Layers, LayersOf, NoLayers, POSITION, PlannedBead};
pub use laying::{Laying, Ring, faces_in_turn, tack_c};
pub use settings::{RunEnergy, Settings, energy_outcomes};

use super::weld::fillet::{Fillet, FilletQuery, FilletSize, fillet_size};
use super::weld::groove::Groove;
use super::weld::hydrogen_need::HydrogenNeed;
use super::weld::matching::{WeldKind, WeldLoad};
use super::weld::plate::AsStrong;
use super::weld::section::{Bead, beads};
use crate::engine::family::Family;
use crate::engine::job::{Job, Process};
use crate::engine::plan::{Plan, Verdict};
use crate::engine::{EngineError, Outcome};
use crate::reference::{Position, Reference};

/// What is told of the runs of one process beside what the plan counts with.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RunTold {
    /// Id of the filler.
    pub filler: Option<String>,
    /// Number of runs.
    pub passes: Option<usize>,
    /// Current, A.
    pub amps: Option<f64>,
    /// Arc voltage, V.
    pub volts: Option<f64>,
    /// Is the heat input told?
    pub energy: bool,
    /// The travel speed, where it is told, mm/s.
    pub travel_mm_per_s: Option<f64>,
}

/// What is told of the weld beside what the plan counts with.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WeldTold {
    /// The runs of each process.
    pub runs: Vec<RunTold>,
    /// How a full groove is loaded.
    pub load: WeldLoad,
    /// Where a fillet is welded.
    pub position: Option<Position>,
    /// The groove of a butt weld, at its thickness.
    pub groove: Option<Groove>,
    /// Length of a weld along a line, on one side, mm.
    pub length_mm: Option<f64>,
}

/// The fillet that is as strong as its part.
#[derive(Debug, Clone, PartialEq)]
pub struct AsPart {
    /// As strong as what.
    pub part: AsStrong,
    /// Its leg.
    pub leg: Outcome,
    /// Is the called-out leg that long?
    pub enough: bool,
}

/// A bead of the section.
#[derive(Debug, Clone, PartialEq)]
pub struct SectionBead {
    /// Its number in the order of work, from 1.
    pub number: usize,
    /// The process that lays it.
    pub process: usize,
    /// Its area with its share of the convexity, mm².
    pub area_mm2: f64,
    /// Where it lies, with a flat face.
    pub bead: Bead,
}

/// What one process of the job takes.
#[derive(Debug, Clone, PartialEq)]
pub struct RunOfJob<'a> {
    /// The process.
    pub process: Process,
    /// The most hydrogen that the plan counts with for it, ml in 100 g.
    pub hydrogen_ml: f64,
    /// Its fillers.
    pub fillers: Fillers<'a>,
    /// Its current.
    pub settings: Settings,
    /// Its arc energy.
    pub energy: RunEnergy,
    /// Filler and arc time for one part, where runs and length are known.
    pub amount: Vec<Outcome>,
}

/// What the weld of a job takes.
#[derive(Debug, Clone, PartialEq)]
pub struct JobWeld<'a> {
    /// The weld as the matching rules know it.
    pub kind: WeldKind,
    /// How it is loaded.
    pub load: WeldLoad,
    /// Where a fillet is welded, where that is told.
    pub position: Option<Position>,
    /// Strength of the weaker part.
    pub base: Option<BaseStrength>,
    /// The most hydrogen that the joint bears.
    pub need: HydrogenNeed,
    /// Is a part of cast iron, manganese steel or stainless steel, for which no filler is offered here?
    pub other_metal: bool,
    /// Each process.
    pub runs: Vec<RunOfJob<'a>>,
    /// The least sizes of a fillet; none where no leg is told or there is no fillet.
    pub size: Option<FilletSize>,
    /// The runs.
    pub layers: Result<Layers, NoLayers>,
    /// The order.
    pub laying: Result<Laying, EngineError>,
    /// Temperature of the tacks, °C.
    pub tack_c: Option<(f64, f64)>,
}

impl JobWeld<'_> {
    /// Is the strength that a filler must match not known?
    #[must_use]
    pub fn strength_is_open(&self) -> bool {
        base::is_open(self.base, self.kind, self.load)
    }

    /// The section of the fillet: its beads from the root up, each with its number in the order of work.
    #[must_use]
    pub fn section(&self) -> Vec<SectionBead> {
        let Ok(layers) = &self.layers else { return Vec::new() };
        let Laid::Fillet(fillet) = layers.laid else { return Vec::new() };
        let areas: Vec<f64> = layers.beads.iter().map(|bead| bead.area_mm2).collect();
        let drawn = beads(fillet, &areas);
        let numbers = layers.numbers();
        let made = drawn.into_iter().zip(&layers.beads).zip(numbers);
        made.map(|((bead, planned), number)| SectionBead {
            number,
            process: planned.process,
            area_mm2: planned.area_mm2,
            bead,
        })
        .collect()
    }
}

/// The leg with which the least sizes are looked up where none is told, mm.
const ANY_LEG_MM: f64 = 10.0;

/// What the weld of a job takes; none where the plan has no answer to weld by, or its two routes for iron
/// have their own.
#[must_use]
pub fn weld_of_job<'a>(
    reference: &'a Reference,
    job: &'a Job,
    told: &WeldTold,
    plan: &'a Plan,
) -> Option<JobWeld<'a>> {
    if !plan.verdict.answers() || plan.verdict == Verdict::TwoRoutes || job.runs.is_empty() {
        return None;
    }
    let base = base::weaker(job);
    let asked = filler::Asked {
        reference,
        job,
        plan,
        base,
        need: filler::need(reference, job, plan),
        kind: filler::kind(job.joint, told.groove.is_some()),
        load: told.load,
    };
    let layers = layers::layers(reference, job, told, hardens(plan));
    let nothing = RunTold::default();
    let runs = job.runs.iter().enumerate().map(|(nth, run)| {
        let told = told.runs.get(nth).unwrap_or(&nothing);
        let fillers = asked.of_run(run, told);
        let settings = settings::settings(reference, job, plan, (run, told, &fillers));
        let energy = settings::energy(reference, run, told, &settings);
        let amount = Vec::new();
        RunOfJob { process: run.process, hydrogen_ml: run.hydrogen_ml, fillers, settings, energy, amount }
    });
    let mut runs: Vec<RunOfJob<'a>> = runs.collect();
    let passes = layers.as_ref().ok().map(|layers| layers.beads.len());
    let laying = laying::laying(job, passes, told.length_mm);
    if let (Ok(layers), Ok(laying)) = (&layers, &laying) {
        let length_mm = laying.length_mm(told.length_mm, layers.leg_mm());
        for (nth, (run, of)) in runs.iter_mut().zip(&layers.of).enumerate() {
            let travel = told.runs.get(nth).and_then(|told| told.travel_mm_per_s);
            let asked = (run.process, &run.settings, travel);
            run.amount = length_mm.map_or_else(Vec::new, |mm| amount::amount_of(reference, asked, of, mm));
        }
    }
    Some(JobWeld {
        kind: asked.kind,
        load: told.load,
        position: told.position,
        base,
        need: asked.need,
        other_metal: asked.other_metal(),
        runs,
        size: size(reference, job),
        layers,
        laying,
        tack_c: tack_c(plan),
    })
}

/// Does a part harden beside the weld, so that its toes are better tempered by a last bead?
fn hardens(plan: &Plan) -> bool {
    plan.members.iter().any(|note| note.family != Family::Structural)
}

fn size(reference: &Reference, job: &Job) -> Option<FilletSize> {
    let thickness = || job.members.iter().map(|member| member.thickness_mm);
    let asked = FilletQuery {
        fillet: Fillet::equal(job.leg_mm().unwrap_or(ANY_LEG_MM)),
        convexity_mm: None,
        thinner_mm: thickness().reduce(f64::min),
        thicker_mm: thickness().reduce(f64::max),
        low_hydrogen: job.runs.iter().all(|run| reference.low_hydrogen(run.process.id())),
        cyclic: false,
    };
    fillet_size(&reference.welding.runs, &asked).ok().filter(|_| job.joint.has_fillet())
}
