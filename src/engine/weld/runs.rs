//! How many runs does a fillet take?

use super::fillet::{Fillet, leg_of_area_mm};
use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Step, Unit};
use crate::reference::{Method, Position, RunProcess, WeldRuns};

pub(super) const ENERGY: Domain = Domain::new("arc-energy", 0.05, 10.0);
const PER_ENERGY: Domain = Domain::new("area-per-energy", 1.0, 60.0);

/// What makes a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunOf<'a> {
    /// The table.
    pub runs: &'a WeldRuns,
    /// The process.
    pub process: &'a RunProcess,
    /// Arc energy, kJ/mm, where it is known.
    pub energy_kj_per_mm: Option<f64>,
    /// Area for each kJ/mm, mm², where that is known.
    pub per_energy_mm2: Option<f64>,
}

impl RunOf<'_> {
    /// Area of a run by its energy, or the usual one, mm².
    ///
    /// # Errors
    /// An energy that no arc has.
    pub fn area_mm2(&self) -> Result<f64, EngineError> {
        self.with(self.process.per_energy_mm2.usual)
    }

    fn with(&self, usual_mm2: f64) -> Result<f64, EngineError> {
        let per_energy = PER_ENERGY.check(self.per_energy_mm2.unwrap_or(usual_mm2))?;
        match self.energy_kj_per_mm {
            Some(energy) => Ok(per_energy * ENERGY.check(energy)?),
            None => Ok(self.process.run_mm2),
        }
    }

    /// Runs for an area, of which each leaves so much: `max(1, ceil(A/A1 - 0.10))`.
    #[must_use]
    pub fn count(&self, need_mm2: f64, each_mm2: f64) -> f64 {
        // A product of two rounded figures may pass the whole number by a hair.
        (need_mm2 / each_mm2 - self.runs.short_share - 1e-9).ceil().max(1.0)
    }
}

/// What is asked of the runs of a fillet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunsQuery<'a> {
    /// The fillet as called out.
    pub fillet: Fillet,
    /// What makes a run.
    pub run: RunOf<'a>,
    /// Where it is welded.
    pub position: Position,
    /// Thermal efficiency of the process.
    pub efficiency: f64,
    /// The thicker part, mm.
    pub thickness_mm: Option<f64>,
}

/// The largest area that one run may have in a position, mm².
///
/// # Errors
/// A position in which the process is not used.
pub fn cap_mm2(query: &RunsQuery<'_>) -> Result<f64, EngineError> {
    let leg = query.run.process.largest_leg_mm.of(query.position);
    let leg = leg.ok_or(EngineError::NoAnswer { reason: "runs-position" })?;
    Ok(Fillet::equal(leg).planned_mm2(query.run.runs))
}

/// The runs of a fillet.
#[derive(Debug, Clone, PartialEq)]
pub struct FilletRuns {
    /// How many, and what each leaves.
    pub outcomes: Vec<Outcome>,
    /// How many.
    pub count: f64,
    /// Is a run as large as one may be?
    pub capped: bool,
    /// Is the first run on a thick part so small that it hardens most?
    pub small_first: bool,
}

/// Rows of beads, the first at the root: each row has one more than the one below it.
#[must_use]
pub fn rows_of_beads(count: usize) -> Vec<usize> {
    let mut rows = Vec::new();
    let mut left = count;
    for row in 1.. {
        if left == 0 {
            break;
        }
        rows.push(row.min(left));
        left -= row.min(left);
    }
    rows
}

/// Symbols of the steps that tell the beads of each row.
const ROWS: [&str; 12] = [
    "row 1", "row 2", "row 3", "row 4", "row 5", "row 6", "row 7", "row 8", "row 9", "row 10", "row 11",
    "row 12",
];

fn row_steps(count: f64) -> Vec<Step> {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of runs, at most 78")]
    let rows = rows_of_beads(count.clamp(1.0, 78.0) as usize);
    #[allow(clippy::cast_precision_loss, reason = "a few beads")]
    let step = |(symbol, beads): (&&'static str, usize)| Step::new(symbol, beads as f64, Unit::One);
    ROWS.iter().zip(rows).map(step).collect()
}

/// Runs of a fillet, and what each leaves.
///
/// Source: deposition by process from memory; caps of one run as the table names them; the count is
/// common practice.
///
/// # Errors
/// A leg or an energy that no weld has; a position in which the process is not used.
pub fn fillet_runs(query: &RunsQuery<'_>) -> Result<FilletRuns, EngineError> {
    let fillet = Fillet::checked(query.fillet.first_mm, Some(query.fillet.second_mm))?;
    let (run, process) = (query.run, query.run.process);
    let need = fillet.planned_mm2(run.runs);
    let cap = cap_mm2(query)?;
    let uncapped = run.area_mm2()?;
    let each = uncapped.min(cap);
    let count = run.count(need, each);
    if count > 78.0 {
        return Err(EngineError::NoAnswer { reason: "runs-too-many" });
    }
    let answer = |name, value, unit| {
        Outcome::new(Method::WeldRuns, value, unit).named(name).resting_on(&process.basis)
    };
    let mut counted = answer("runs-count", count, Unit::One).worked(row_steps(count));
    if run.energy_kj_per_mm.is_some() && run.per_energy_mm2.is_none() {
        let range = process.per_energy_mm2;
        let most = run.count(need, run.with(range.low)?.min(cap));
        let fewest = run.count(need, run.with(range.high)?.min(cap)).min(count);
        let most = most.max(count);
        if fewest < most {
            counted = counted.spread(fewest, most);
        }
    }
    let largest = query.run.process.largest_leg_mm.of(query.position).unwrap_or_default();
    let mut outcomes = vec![
        counted,
        answer("runs-area", need, Unit::SquareMillimetre).resting_on(&run.runs.convexity_basis),
        answer("runs-each", each, Unit::SquareMillimetre),
        answer("runs-first-leg", leg_of_area_mm(run.runs, each), Unit::Millimetre),
        answer("runs-largest-leg", largest, Unit::Millimetre).resting_on(&process.largest_leg_basis),
    ];
    if need <= cap {
        let per_energy = run.per_energy_mm2.unwrap_or(process.per_energy_mm2.usual);
        outcomes.push(answer("runs-energy-for-one", need / per_energy, Unit::KilojoulePerMm));
    }
    let net = run.energy_kj_per_mm.map(|energy| energy * query.efficiency);
    Ok(FilletRuns {
        outcomes,
        count,
        capped: uncapped > cap,
        small_first: net.is_some_and(|net| net < run.runs.small_first_kj_per_mm)
            && query.thickness_mm.is_some_and(|mm| mm >= run.runs.small_first_from_mm),
    })
}

/// A fillet of which some runs are made and measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasuredRuns<'a> {
    /// What was called out, and how it is made.
    pub query: RunsQuery<'a>,
    /// Legs as measured.
    pub measured: Fillet,
    /// Throat as measured, where the face is not flat, mm.
    pub throat_mm: Option<f64>,
    /// Runs that are made.
    pub done: f64,
}

/// What is left to do.
#[derive(Debug, Clone, PartialEq)]
pub struct RunsLeft {
    /// Runs to add, areas, the energy that was used.
    pub outcomes: Vec<Outcome>,
    /// Is nothing left?
    pub complete: bool,
    /// Is the weld metal more than 30 % off what was planned?
    pub not_as_planned: bool,
    /// Do the legs differ by more than a quarter?
    pub uneven: bool,
}

/// What to add after a first run was measured.
///
/// Done is the triangle of the legs, and two thirds of the face by what the throat differs. The rest is
/// divided by what one run has left so far (common practice).
///
/// # Errors
/// Legs, a throat or a count that no weld has.
pub fn runs_left(asked: &MeasuredRuns<'_>) -> Result<RunsLeft, EngineError> {
    let query = &asked.query;
    let run = query.run;
    let called = Fillet::checked(query.fillet.first_mm, Some(query.fillet.second_mm))?;
    let measured = Fillet {
        first_mm: Domain::new("measured-leg", 1.0, 60.0).check(asked.measured.first_mm)?,
        second_mm: Domain::new("measured-second-leg", 1.0, 60.0).check(asked.measured.second_mm)?,
    };
    let flat_throat = measured.throat_mm();
    let throat = match asked.throat_mm {
        Some(own) => Domain::new("measured-throat", 0.5 * flat_throat, 2.0 * flat_throat).check(own)?,
        None => flat_throat,
    };
    let made = Domain::new("runs-done", 1.0, 100.0).check(asked.done)?;
    let done = measured.area_mm2(throat - flat_throat);
    let need = called.planned_mm2(run.runs);
    let cap = cap_mm2(query)?;
    let each = (done / made).min(cap);
    let legs = measured.first_mm >= called.first_mm && measured.second_mm >= called.second_mm;
    let complete = legs && throat >= called.throat_mm();
    let rest = (need - done).max(0.0);
    let more = if complete { 0.0 } else { run.count(rest, each) };
    if more > 78.0 {
        return Err(EngineError::NoAnswer { reason: "runs-too-many" });
    }
    let answer = |name, value, unit| {
        Outcome::new(Method::WeldRuns, value, unit).named(name).resting_on(&run.runs.short_basis)
    };
    let mut outcomes = vec![
        answer("runs-more", more, Unit::One).worked(vec![
            Step::new("need", need, Unit::SquareMillimetre),
            Step::new("each", each, Unit::SquareMillimetre),
        ]),
        answer("runs-done-area", done, Unit::SquareMillimetre),
        answer("runs-rest-area", rest, Unit::SquareMillimetre),
    ];
    let per_energy = run.per_energy_mm2.unwrap_or(run.process.per_energy_mm2.usual);
    outcomes.push(
        answer("runs-energy-used", done / made / per_energy, Unit::KilojoulePerMm)
            .resting_on(&run.process.basis),
    );
    let planned = run.energy_kj_per_mm.map(|_| run.area_mm2()).transpose()?.map(|each| each.min(cap) * made);
    Ok(RunsLeft {
        outcomes,
        complete,
        not_as_planned: planned.is_some_and(|planned| (done / planned - 1.0).abs() > 0.3),
        uneven: measured.first_mm.max(measured.second_mm) > 1.25 * measured.shorter_mm(),
    })
}
