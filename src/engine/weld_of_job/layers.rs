//! How many runs fill the called-out leg, which process lays them, and how much is in each?

use super::RunTold;
use crate::engine::job::{Job, Run};
use crate::engine::weld::fillet::Fillet;
use crate::engine::weld::runs::{RunOf, RunsQuery, cap_mm2, fillet_runs, rows_of_beads};
use crate::engine::{EngineError, Outcome};
use crate::reference::{Position, Reference};

/// A position is not asked: the one in which most fillets are made, with the smallest runs of the usual.
pub const POSITION: Position = Position::Horizontal;

/// Why there are no runs.
#[derive(Debug, Clone, PartialEq)]
pub enum NoLayers {
    /// No leg is told.
    NoLeg,
    /// It is no fillet: its groove is not told.
    Groove,
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
    /// The first process fills the leg alone.
    FirstFills,
    /// A run counts no larger than one can be.
    Capped,
    /// The first run is so small that the steel hardens most.
    SmallFirst,
    /// On steel that hardens the toes of the last row are laid before its middle.
    ToesFirst,
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

/// One bead of the planned section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlannedBead {
    /// The process.
    pub process: usize,
    /// Area, mm².
    pub area_mm2: f64,
}

/// The runs of a fillet.
#[derive(Debug, Clone, PartialEq)]
pub struct Layers {
    /// The fillet.
    pub fillet: Fillet,
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

/// Has the last row a middle, of the same process as its toes?
fn middles(beads: &[PlannedBead]) -> bool {
    let row = rows_of_beads(beads.len()).last().copied().unwrap_or_default();
    let last = &beads[beads.len() - row..];
    row > 2 && last.iter().all(|bead| bead.process == last[0].process)
}

/// Less than this share of what its heat input leaves is another run than the plan counts with.
const SAME_SHARE: f64 = 0.75;

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of runs, at most 78")]
fn whole(count: f64) -> usize {
    count.clamp(1.0, 78.0) as usize
}

#[allow(clippy::cast_precision_loss, reason = "a small count of runs")]
const fn real(count: usize) -> f64 {
    count as f64
}

/// A process, as its runs are counted.
struct Lays<'a> {
    query: RunsQuery<'a>,
    cap_mm2: f64,
    /// By its energy, and no larger than one can be.
    each_mm2: f64,
    run: &'a Run,
    told: Option<usize>,
}

fn lays<'a>(
    reference: &'a Reference,
    job: &'a Job,
    fillet: Fillet,
    told: &[RunTold],
) -> Result<Vec<Lays<'a>>, NoLayers> {
    let runs = &reference.welding.runs;
    let each = |(nth, run): (usize, &'a Run)| {
        let process = runs.process(run.process.id()).ok_or(NoLayers::Process(nth))?;
        let efficiency = reference.efficiency(run.process.id());
        let energy_kj_per_mm = Some(run.net_heat_kj_per_mm / efficiency);
        let query = RunsQuery {
            fillet,
            run: RunOf { runs, process, energy_kj_per_mm, per_energy_mm2: None },
            position: POSITION,
            efficiency,
            thickness_mm: Some(job.thickest_mm()),
        };
        let cap = cap_mm2(&query).map_err(NoLayers::Outside)?;
        let each_mm2 = query.run.area_mm2().map_err(NoLayers::Outside)?.min(cap);
        let told = told.get(nth).and_then(|told| told.passes);
        Ok(Lays { query, cap_mm2: cap, each_mm2, run, told })
    };
    job.runs.iter().enumerate().map(each).collect()
}

/// The runs of the job's fillet.
///
/// One process lays all, or each but the last lays the root in one run unless more are told, and the last
/// fills the rest. What is told is kept, and said where it does not fit the heat input.
///
/// # Errors
/// Why there are none.
pub(super) fn layers(
    reference: &Reference,
    job: &Job,
    told: &[RunTold],
    hardens: bool,
) -> Result<Layers, NoLayers> {
    if !job.joint.has_fillet() {
        return Err(NoLayers::Groove);
    }
    // To what can be typed, since the job keeps the throat.
    let leg = job.leg_mm().map(|leg| (leg * 1e6).round() / 1e6).ok_or(NoLayers::NoLeg)?;
    let fillet = Fillet::checked(leg, None).map_err(NoLayers::Outside)?;
    let lays = lays(reference, job, fillet, told)?;
    let Some((last, roots)) = lays.split_last() else { return Err(NoLayers::Process(0)) };
    let need_mm2 = fillet.planned_mm2(last.query.run.runs);
    let mut notes = Vec::new();
    let mut of: Vec<LayersOf> = Vec::new();
    for root in roots {
        let count = root.told.unwrap_or(1);
        let told = root.told.is_some();
        of.push(LayersOf { count, span: (count, count), told, each_mm2: root.each_mm2 });
    }
    let laid: f64 = of.iter().map(|one| real(one.count) * one.each_mm2).sum();
    let rest = need_mm2 - laid;
    let found = fillet_runs(&last.query).map_err(NoLayers::Outside)?;
    // A rest that is smaller than a count can tell is none.
    let filled = !roots.is_empty() && rest < last.query.run.runs.short_share * last.each_mm2;
    let counted = match (roots.is_empty(), filled) {
        (true, _) => whole(found.count),
        (false, true) => 0,
        (false, false) => whole(last.query.run.count(rest, last.each_mm2)),
    };
    let count = last.told.unwrap_or(counted);
    let span = match last.told {
        Some(told) => (told, told),
        None if roots.is_empty() => {
            let counts = found.outcomes.first();
            let ends = counts.and_then(|outcome| outcome.low.zip(outcome.high));
            ends.map_or((count, count), |(low, high)| (whole(low), whole(high)))
        }
        None => (count, count),
    };
    of.push(LayersOf { count, span, told: last.told.is_some(), each_mm2: last.each_mm2 });
    let total: usize = of.iter().map(|one| one.count).sum();
    if filled {
        notes.push(LayerNote::FirstFills);
    }
    share(&mut of, need_mm2, filled);
    for (process, (one, lays)) in of.iter().zip(&lays).enumerate() {
        if one.count == 0 {
            continue;
        }
        let full = lays.each_mm2;
        let needed = whole(lays.query.run.count(one.each_mm2 * real(one.count), full));
        if one.told && needed > one.count {
            notes.push(LayerNote::TooFew { process, needed });
        } else if one.each_mm2 < SAME_SHARE * full && (one.told || one.count > 1) {
            let net_kj_per_mm = lays.run.net_heat_kj_per_mm * one.each_mm2 / full;
            notes.push(LayerNote::Colder { process, net_kj_per_mm, told: one.told });
        }
    }
    let capped = lays.iter().zip(&of).any(|(lays, one)| one.count > 0 && lays.each_mm2 >= lays.cap_mm2);
    notes.extend((capped && total > 1).then_some(LayerNote::Capped));
    let first = lays.first().and_then(|first| fillet_runs(&first.query).ok());
    notes.extend(first.is_some_and(|first| first.small_first).then_some(LayerNote::SmallFirst));
    let beads = of.iter().enumerate().flat_map(|(process, one)| {
        std::iter::repeat_n(PlannedBead { process, area_mm2: one.each_mm2 }, one.count)
    });
    let beads: Vec<PlannedBead> = beads.collect();
    notes.extend((hardens && middles(&beads)).then_some(LayerNote::ToesFirst));
    let outcomes = if roots.is_empty() && last.told.is_none() { found.outcomes } else { Vec::new() };
    Ok(Layers { fillet, need_mm2, of, beads, notes, outcomes })
}

/// Shares the whole out among the beads: the first keep their own, the last take the rest evenly; where the
/// first alone fill it, all are equal.
fn share(of: &mut [LayersOf], need_mm2: f64, filled: bool) {
    let total: usize = of.iter().map(|one| one.count).sum();
    let Some((last, roots)) = of.split_last_mut() else { return };
    let laid: f64 = roots.iter().map(|one| real(one.count) * one.each_mm2).sum();
    if filled || last.count == 0 || laid >= need_mm2 {
        let each = need_mm2 / real(total.max(1));
        roots.iter_mut().chain([last]).for_each(|one| one.each_mm2 = each);
    } else {
        last.each_mm2 = (need_mm2 - laid) / real(last.count);
    }
}
