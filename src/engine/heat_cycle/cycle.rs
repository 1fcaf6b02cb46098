//! The whole cycle, run once.

use super::after::{Cooled, Needed};
use super::heating::Heated;
use super::hydrogen::{LANES, Lanes};
use super::power::power_that_would_do;
use super::query::{HeatCycle, Source};
use super::record::{Field, Moment, thinned};
use super::refusal::Refusal;
use super::run::{Run, Setup, Watch};
use super::welding::PassHistory;
use crate::engine::measuring::wait_after_flame_min;
use crate::reference::Reference;

/// A picture has no more moments.
const MOST_MOMENTS: usize = 300;

/// How the part took the heat, before any arc.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Preheat {
    /// The first heating.
    pub heated: Heated,
    /// From source off until a reading on any face is honest: no cell differs by more than 10 K
    /// from the mean of what lies through the thickness with it, s.
    pub even_s: f64,
    /// From the end of that wait, without an arc, until the coldest required place falls below
    /// the minimum, min.
    pub weld_by_min: f64,
    /// What ISO 13916 waits after a flame, min (from memory): the longer of the two is advised.
    pub iso_wait_min: f64,
    /// Mass of the part, kg.
    pub mass_kg: f64,
    /// Heated area, m².
    pub heated_m2: f64,
}

impl Preheat {
    /// From source off until the minimum is lost, min.
    #[must_use]
    pub fn lasts_min(&self) -> f64 {
        self.even_s / 60.0 + self.weld_by_min
    }

    /// The wait that is advised, min.
    #[must_use]
    pub fn wait_min(&self) -> f64 {
        (self.even_s / 60.0).max(self.iso_wait_min)
    }

    /// What is left to weld in after the advised wait, min; none where it is longer.
    #[must_use]
    pub fn left_after_wait_min(&self) -> f64 {
        (self.lasts_min() - self.wait_min()).max(0.0)
    }
}

/// How well the books of a cycle close.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closure {
    /// What the part holds less what came in and went out, as a share of what came in.
    pub energy: f64,
    /// The same of hydrogen, the worst of all diffusivities.
    pub hydrogen: f64,
}

impl Closure {
    /// So little may be lost to rounding.
    const ROUNDING: f64 = 1e-9;

    /// Do the books close? What is no number does not.
    ///
    /// # Errors
    /// [`Refusal::NotClosed`].
    pub fn check(self) -> Result<(), Refusal> {
        let closes = self.energy <= Self::ROUNDING && self.hydrogen <= Self::ROUNDING;
        closes.then_some(()).ok_or(Refusal::NotClosed { energy: self.energy, hydrogen: self.hydrogen })
    }
}

/// A whole cycle.
#[derive(Debug, Clone, PartialEq)]
pub struct Cycle {
    /// From the first flame to the first arc.
    pub preheat: Preheat,
    /// Pass by pass.
    pub passes: Vec<PassHistory>,
    /// The end of the last pause, min from the first flame.
    pub end_of_weld_min: f64,
    /// Largest hydrogen of weld and heat-affected zone then, ml/100 g: slow, middle and fast
    /// diffusivity, and the slow one of steel with traps.
    pub peak_end_of_weld_ml: Lanes,
    /// The planned hold and its cooling.
    pub planned: Cooled,
    /// Other holds.
    pub beside: Vec<Cooled>,
    /// Hours of the hold that bring the hydrogen down to the shares that were asked.
    pub needed: Vec<Needed>,
    /// Energy of all heatings, J.
    pub energy_j: f64,
    /// Minutes of all heatings.
    pub flame_min: f64,
    /// Hottest skin of all heatings, °C.
    pub hottest_skin_c: f64,
    /// Was hydrogen reckoned? Without a pass that brings some its figures are all nothing, and say
    /// nothing.
    pub hydrogen_counted: bool,
    /// The curves, where they were asked for.
    pub moments: Vec<Moment>,
    /// The fields, where they were asked for.
    pub fields: Vec<Field>,
    /// How well the books close.
    pub closure: Closure,
    /// Cells of the section.
    pub cells: usize,
}

/// Heats the part and looks how long one may weld; no pass is laid.
///
/// # Errors
/// What [`Refusal`] says.
pub fn preheat(reference: &Reference, query: &HeatCycle, watch: &mut Watch<'_>) -> Result<Preheat, Refusal> {
    plain_preheat(reference, query, watch).map_err(|refusal| with_power(reference, query, refusal))
}

/// The same, where the power that would do is not looked for: that search takes longer than the
/// preheat.
///
/// # Errors
/// What [`Refusal`] says.
pub fn plain_preheat(
    reference: &Reference,
    query: &HeatCycle,
    watch: &mut Watch<'_>,
) -> Result<Preheat, Refusal> {
    let setup = Setup::of(reference, query)?;
    begin(&setup, &mut Run::cold(&setup, watch))
}

/// The same refusal with the power that would do.
fn with_power(reference: &Reference, query: &HeatCycle, refusal: Refusal) -> Refusal {
    match refusal {
        Refusal::MinimumNotReached { coldest_c, minutes, held_back: false, .. }
            if !matches!(query.source, Source::Oven { .. }) =>
        {
            let power_w = power_that_would_do(reference, query);
            Refusal::MinimumNotReached { coldest_c, minutes, power_w, held_back: false }
        }
        other => other,
    }
}

fn begin(setup: &Setup<'_>, run: &mut Run<'_, '_>) -> Result<Preheat, Refusal> {
    Ok(Preheat {
        heated: run.heat_up()?,
        even_s: run.wait_even()?,
        weld_by_min: run.weld_by_min()?,
        iso_wait_min: wait_after_flame_min(setup.query.shape.thickness_mm()),
        mass_kg: setup.mass(),
        heated_m2: setup.sites.heated_area * setup.heated_length,
    })
}

/// The whole cycle: heats, welds, holds and cools.
///
/// Conduction in one plane of the actual joint by finite volumes, backward Euler along x and
/// then along y; properties by EN 1993-1-2; hydrogen on the same cells with the diffusivity of
/// each cell's temperature. It answers for the average along the weld, from about a minute
/// after the arc and some 10 mm from it; it knows no t8/5, no hardness and no stress.
///
/// # Errors
/// What [`Refusal`] says.
pub fn run(reference: &Reference, query: &HeatCycle, watch: &mut Watch<'_>) -> Result<Cycle, Refusal> {
    run_or(reference, query, watch, |refusal| with_power(reference, query, refusal))
}

/// The same, where the power that would do is not looked for.
///
/// # Errors
/// What [`Refusal`] says.
pub fn plain_run(reference: &Reference, query: &HeatCycle, watch: &mut Watch<'_>) -> Result<Cycle, Refusal> {
    run_or(reference, query, watch, |refusal| refusal)
}

/// The whole cycle; a first heating that fails is refused as it says.
fn run_or(
    reference: &Reference,
    query: &HeatCycle,
    watch: &mut Watch<'_>,
    refused: impl FnOnce(Refusal) -> Refusal,
) -> Result<Cycle, Refusal> {
    let setup = Setup::of(reference, query)?;
    let mut run = Run::cold(&setup, watch);
    let cold_j = run.state.heat.stored(&setup.body);
    let preheat = begin(&setup, &mut run).map_err(refused)?;
    let passes = run.weld()?;
    let end_of_weld_min = run.state.time / 60.0;
    let peak_end_of_weld_ml = run.peak();
    let after = run.after_welding()?;
    let heatings = || passes.iter().filter_map(|pass| pass.reheat.as_ref()).chain([&preheat.heated]);
    let books = run.state.heat.books;
    let came_in = (books.flame + books.arc + books.pads).max(1.0);
    let off_j = run.state.heat.stored(&setup.body) - cold_j - books.kept();
    let (inside, hydrogen) = (run.state.hydrogen.inside(&setup.body), &run.state.hydrogen);
    let lost = |lane: usize| (inside[lane] + hydrogen.escaped[lane] - hydrogen.put_in).abs();
    let off_ml = (0..LANES).map(lost).fold(0.0, f64::max);
    let closure = Closure {
        energy: off_j.abs() / came_in,
        hydrogen: if hydrogen.put_in > 0.0 { off_ml / hydrogen.put_in } else { 0.0 },
    };
    closure.check()?;
    Ok(Cycle {
        energy_j: heatings().map(|heated| heated.energy_j).sum(),
        flame_min: heatings().map(|heated| heated.minutes).sum(),
        hottest_skin_c: heatings().map(|heated| heated.hottest_skin_c).fold(f64::NEG_INFINITY, f64::max),
        hydrogen_counted: run.state.hydrogen.any(),
        preheat,
        end_of_weld_min,
        peak_end_of_weld_ml,
        planned: after.planned,
        beside: after.beside,
        needed: after.needed,
        moments: thinned(&after.record.moments, MOST_MOMENTS),
        fields: after.record.fields,
        closure,
        cells: setup.section.cells.len(),
        passes,
    })
}
