//! How many runs fill the called-out leg or the groove, which process lays them, and how much is in each?

use super::{RunTold, WeldTold};
use crate::engine::job::{Job, Joint, Run};
use crate::engine::weld::fillet::Fillet;
use crate::engine::weld::groove::{Groove, GrooveShape, groove_area};
use crate::engine::weld::runs::{RunOf, RunsQuery, cap_mm2, fillet_runs, rows_of_beads};
use crate::engine::{EngineError, Outcome};
use crate::reference::{Position, Reference};

/// Where none is told: the position in which most fillets are made, with the smallest runs of the usual.
pub const POSITION: Position = Position::Horizontal;

/// Why there are no runs.
#[derive(Debug, Clone, PartialEq)]
pub enum NoLayers {
    /// No leg is told.
    NoLeg,
    /// It is no fillet, and no groove of it is told.
    Groove,
    /// A cavity, a build-up or a bar: the Bench counts its weld metal.
    NotCounted,
    /// The table has no such process.
    Process(usize),
    /// A leg or an energy that no weld has.
    Outside(EngineError),
}

/// What is said of the runs.
#[derive(Debug, Clone, Copy, PartialEq, strum::IntoStaticStr)]
#[strum(prefix = "runs-", serialize_all = "kebab-case")]
pub enum LayerNote {
    /// So many runs of a process leave less in each than its heat input: this much net, kJ/mm.
    Colder {
        /// The process.
        process: usize,
        /// Net, kJ/mm.
        net_kj_per_mm: f64,
        /// Is the number told, so that fewer would do?
        told: bool,
    },
    /// So few runs don't fill the leg: at least so many do.
    TooFew {
        /// The process.
        process: usize,
        /// At least.
        needed: usize,
    },
    /// A root face, or square edges, that no arc melts through.
    NotMelted,
    /// The first process fills the leg alone.
    FirstFills,
    /// A run counts no larger than one can be.
    Capped,
    /// The first run is so small that the steel hardens most.
    SmallFirst,
    /// On steel that hardens the toes of the last row are laid before its middle.
    ToesFirst,
}

/// What the runs fill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Laid {
    /// A fillet.
    Fillet(Fillet),
    /// A groove.
    Groove(Groove),
}

impl LayerNote {
    /// Stable id.
    #[must_use]
    pub fn id(&self) -> &'static str {
        self.into()
    }
}

/// The runs of one process.
#[derive(Debug, Clone, PartialEq)]
pub struct LayersOf {
    /// How many.
    pub count: usize,
    /// As few and as many as it may be.
    pub span: (usize, usize),
    /// Is the number told?
    pub told: bool,
    /// Area of each, mm².
    pub each_mm2: f64,
}

impl LayersOf {
    /// How many, as a figure to reckon with.
    #[must_use]
    pub fn runs(&self) -> f64 {
        real(self.count)
    }

    /// Area of all of them, mm².
    #[must_use]
    pub fn area_mm2(&self) -> f64 {
        real(self.count) * self.each_mm2
    }
}

/// One bead of the planned section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlannedBead {
    /// The process.
    pub process: usize,
    /// Area, mm².
    pub area_mm2: f64,
}

/// The runs of a fillet or a groove.
#[derive(Debug, Clone, PartialEq)]
pub struct Layers {
    /// What they fill.
    pub laid: Laid,
    /// Area of the whole, mm².
    pub need_mm2: f64,
    /// The runs of each process, in the order of the job.
    pub of: Vec<LayersOf>,
    /// Every bead in the order in which it is made. Their areas are the whole.
    pub beads: Vec<PlannedBead>,
    /// What is said of them.
    pub notes: Vec<LayerNote>,
    /// The answers of `fillet-runs`, where one process lays all.
    pub outcomes: Vec<Outcome>,
}

impl Layers {
    /// The leg of a fillet, mm; 0 for a groove.
    #[must_use]
    pub fn leg_mm(&self) -> f64 {
        match self.laid {
            Laid::Fillet(fillet) => fillet.first_mm,
            Laid::Groove(_) => 0.0,
        }
    }

    /// The number of each bead of the section in the order of work: row by row from the lower toe up, and
    /// in the last row of steel that hardens both toes before the middle.
    #[must_use]
    pub fn numbers(&self) -> Vec<usize> {
        let mut numbers: Vec<usize> = (1..=self.beads.len()).collect();
        if self.notes.contains(&LayerNote::ToesFirst) {
            let row = rows_of_beads(self.beads.len()).last().copied().unwrap_or_default();
            let first = self.beads.len() - row;
            let toe = first + row - 1;
            numbers[first + 1..toe].iter_mut().for_each(|number| *number += 1);
            numbers[toe] = first + 2;
        }
        numbers
    }
}

/// A root face up to so much melts through, and square edges up to so much from one side, mm (common practice).
const MELTED_MM: (f64, f64) = (3.0, 6.0);

/// Is more metal left at the root than an arc melts through?
fn not_melted(laid: Laid) -> bool {
    let Laid::Groove(groove) = laid else { return false };
    match groove.shape {
        GrooveShape::Square => groove.thickness_mm > MELTED_MM.1,
        _ => groove.face_mm > MELTED_MM.0,
    }
}

/// Has the last row a middle, of the same process as its toes?
fn middles(beads: &[PlannedBead]) -> bool {
    let row = rows_of_beads(beads.len()).last().copied().unwrap_or_default();
    let last = &beads[beads.len() - row..];
    row > 2 && last.iter().all(|bead| bead.process == last[0].process)
}

/// Less than this share of what its heat input leaves is another run than the plan counts with.
const SAME_SHARE: f64 = 0.75;

/// So many runs of a groove are counted at most.
const MOST: f64 = 400.0;
/// And so many of a fillet, as in its question.
const MOST_OF_FILLET: f64 = 78.0;

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of runs, at most 400")]
fn whole(count: f64) -> usize {
    count.clamp(1.0, MOST) as usize
}

#[allow(clippy::cast_precision_loss, reason = "a small count of runs")]
const fn real(count: usize) -> f64 {
    count as f64
}

/// A process, as its runs are counted.
struct Lays<'a> {
    of: RunOf<'a>,
    /// By its energy, and no larger than one can be.
    each_mm2: f64,
    /// Is a run as large as one can be?
    capped: bool,
    run: &'a Run,
    told: Option<usize>,
}

/// How many runs, as few and as many as it may be, and the answers of the question that counts them.
type Counted = (usize, (usize, usize), Vec<Outcome>);

/// What is to be filled, with the table's figures for it.
struct Filled<'a> {
    reference: &'a Reference,
    job: &'a Job,
    laid: Laid,
    position: Position,
}

impl<'a> Filled<'a> {
    /// The whole area that the runs are counted for, mm².
    fn need_mm2(&self) -> f64 {
        match self.laid {
            Laid::Fillet(fillet) => fillet.planned_mm2(&self.reference.welding.runs),
            Laid::Groove(groove) => groove.area_mm2() + groove.caps_mm2(),
        }
    }

    fn query(&self, of: RunOf<'a>, run: &Run, fillet: Fillet) -> RunsQuery<'a> {
        RunsQuery {
            fillet,
            run: of,
            position: self.position,
            efficiency: self.reference.efficiency(run.process.id()),
            thickness_mm: Some(self.job.thickest_mm()),
        }
    }

    fn lays(&self, told: &[RunTold]) -> Result<Vec<Lays<'a>>, NoLayers> {
        let runs = &self.reference.welding.runs;
        let each = |(nth, run): (usize, &'a Run)| {
            let process = runs.process(run.process.id()).ok_or(NoLayers::Process(nth))?;
            let efficiency = self.reference.efficiency(run.process.id());
            let energy_kj_per_mm = Some(run.net_heat_kj_per_mm / efficiency);
            let of = RunOf { runs, process, energy_kj_per_mm, per_energy_mm2: None };
            let by_energy = of.area_mm2().map_err(NoLayers::Outside)?;
            // A groove carries its runs; a fillet's sag.
            let cap = match self.laid {
                Laid::Fillet(fillet) => cap_mm2(&self.query(of, run, fillet)).map_err(NoLayers::Outside)?,
                Laid::Groove(_) => f64::INFINITY,
            };
            let told = told.get(nth).and_then(|told| told.passes);
            Ok(Lays { of, each_mm2: by_energy.min(cap), capped: by_energy >= cap, run, told })
        };
        self.job.runs.iter().enumerate().map(each).collect()
    }

    /// The runs of one process that lays all: how many, as few and as many, and the answers of its question.
    fn alone(&self, lays: &Lays<'a>) -> Result<Counted, NoLayers> {
        match self.laid {
            Laid::Fillet(fillet) => {
                let found = fillet_runs(&self.query(lays.of, lays.run, fillet)).map_err(NoLayers::Outside)?;
                let count = whole(found.count);
                let ends = found.outcomes.first().and_then(|outcome| outcome.low.zip(outcome.high));
                let span = ends.map_or((count, count), |(low, high)| (whole(low), whole(high)));
                Ok((count, span, found.outcomes))
            }
            Laid::Groove(groove) => {
                let outcomes = groove_area(&groove, Some(lays.of)).map_err(NoLayers::Outside)?;
                let runs = outcomes.iter().find(|one| one.name == "groove-runs").and_then(|one| one.value);
                let count = self.counted(runs.unwrap_or(f64::INFINITY))?;
                Ok((count, (count, count), outcomes))
            }
        }
    }

    /// A count of runs, where nobody lays more.
    fn counted(&self, runs: f64) -> Result<usize, NoLayers> {
        let most = if matches!(self.laid, Laid::Fillet(_)) { MOST_OF_FILLET } else { MOST };
        let many = NoLayers::Outside(EngineError::NoAnswer { reason: "runs-too-many" });
        if runs <= most { Ok(whole(runs)) } else { Err(many) }
    }

    /// Is the first run so small that the steel hardens most?
    fn small_first(&self, lays: &[Lays<'a>]) -> bool {
        let runs = &self.reference.welding.runs;
        lays.first().is_some_and(|first| {
            first.run.net_heat_kj_per_mm < runs.small_first_kj_per_mm
                && self.job.thickest_mm() >= runs.small_first_from_mm
        })
    }
}

/// What the runs of the job fill.
fn filled<'a>(reference: &'a Reference, job: &'a Job, told: &WeldTold) -> Result<Filled<'a>, NoLayers> {
    let groove = told.groove.filter(|_| job.joint.may_have_groove());
    let laid = if let Some(groove) = groove {
        groove_area(&groove, None).map_err(NoLayers::Outside)?;
        Laid::Groove(groove)
    } else if job.joint.has_fillet() {
        // To what can be typed, since the job keeps the throat.
        let leg = job.leg_mm().map(|leg| (leg * 1e6).round() / 1e6).ok_or(NoLayers::NoLeg)?;
        Laid::Fillet(Fillet::checked(leg, None).map_err(NoLayers::Outside)?)
    } else {
        return Err(if job.joint == Joint::Butt { NoLayers::Groove } else { NoLayers::NotCounted });
    };
    Ok(Filled { reference, job, laid, position: told.position.unwrap_or(POSITION) })
}

/// The runs of the job's fillet or groove.
///
/// One process lays all, or each but the last lays the root in one run unless more are told, and the last
/// fills the rest. What is told is kept, and said where it does not fit the heat input.
///
/// # Errors
/// Why there are none.
pub(super) fn layers(
    reference: &Reference,
    job: &Job,
    told: &WeldTold,
    hardens: bool,
) -> Result<Layers, NoLayers> {
    let filled = filled(reference, job, told)?;
    let lays = filled.lays(&told.runs)?;
    let Some((last, roots)) = lays.split_last() else { return Err(NoLayers::Process(0)) };
    let need_mm2 = filled.need_mm2();
    let mut notes = Vec::new();
    let mut of: Vec<LayersOf> = Vec::new();
    for root in roots {
        let count = root.told.unwrap_or(1);
        let told = root.told.is_some();
        of.push(LayersOf { count, span: (count, count), told, each_mm2: root.each_mm2 });
    }
    let laid: f64 = of.iter().map(LayersOf::area_mm2).sum();
    let rest = need_mm2 - laid;
    // A rest that is smaller than a count can tell is none.
    let first_fill = !roots.is_empty() && rest < last.of.runs.short_share * last.each_mm2;
    let (counted, span, outcomes) = match (roots.is_empty(), first_fill) {
        (true, _) => filled.alone(last)?,
        (false, true) => (0, (0, 0), Vec::new()),
        (false, false) => {
            let count = filled.counted(last.of.count(rest, last.each_mm2))?;
            (count, (count, count), Vec::new())
        }
    };
    let count = last.told.unwrap_or(counted);
    let span = last.told.map_or(span, |told| (told, told));
    of.push(LayersOf { count, span, told: last.told.is_some(), each_mm2: last.each_mm2 });
    let total: usize = of.iter().map(|one| one.count).sum();
    if first_fill {
        notes.push(LayerNote::FirstFills);
    }
    share(&mut of, need_mm2, first_fill);
    for (process, (one, lays)) in of.iter().zip(&lays).enumerate() {
        if one.count == 0 {
            continue;
        }
        let full = lays.each_mm2;
        let needed = whole(lays.of.count(one.area_mm2(), full));
        if one.told && needed > one.count {
            notes.push(LayerNote::TooFew { process, needed });
        } else if one.each_mm2 < SAME_SHARE * full && (one.told || one.count > 1) {
            let net_kj_per_mm = lays.run.net_heat_kj_per_mm * one.each_mm2 / full;
            notes.push(LayerNote::Colder { process, net_kj_per_mm, told: one.told });
        }
    }
    let capped = lays.iter().zip(&of).any(|(lays, one)| one.count > 0 && lays.capped);
    notes.extend((capped && total > 1).then_some(LayerNote::Capped));
    notes.extend(filled.small_first(&lays).then_some(LayerNote::SmallFirst));
    let beads = of.iter().enumerate().flat_map(|(process, one)| {
        std::iter::repeat_n(PlannedBead { process, area_mm2: one.each_mm2 }, one.count)
    });
    let beads: Vec<PlannedBead> = beads.collect();
    notes.extend(not_melted(filled.laid).then_some(LayerNote::NotMelted));
    let rows = matches!(filled.laid, Laid::Fillet(_)) && hardens && middles(&beads);
    notes.extend(rows.then_some(LayerNote::ToesFirst));
    let outcomes = if last.told.is_none() { outcomes } else { Vec::new() };
    Ok(Layers { laid: filled.laid, need_mm2, of, beads, notes, outcomes })
}

/// Shares the whole out among the beads: the first keep their own, the last take the rest evenly; where the
/// first alone fill it, all are equal.
fn share(of: &mut [LayersOf], need_mm2: f64, filled: bool) {
    let total: usize = of.iter().map(|one| one.count).sum();
    let Some((last, roots)) = of.split_last_mut() else { return };
    let laid: f64 = roots.iter().map(LayersOf::area_mm2).sum();
    if filled || last.count == 0 || laid >= need_mm2 {
        let each = need_mm2 / real(total.max(1));
        roots.iter_mut().chain([last]).for_each(|one| one.each_mm2 = each);
    } else {
        last.each_mm2 = (need_mm2 - laid) / real(last.count);
    }
}
