//! Cases with known answers, run by the very steps of a cycle: blocks, a flame of fixed power,
//! one charged weld at one temperature.

use std::ops::ControlFlow;

use super::body::Body;
use super::clock::{AT_ONCE_S, Stride};
use super::hydrogen::{Diffusivities, Hydrogen, Lanes, Shelf};
use super::properties::Properties;
use super::query::HeatCycle;
use super::recipe::Matter;
use super::record::Phase;
use super::refusal::Refusal;
use super::run::{Run, Setup};
use super::section::{Section, Side};
use super::sites::{place, read};
use super::step::{Bench, Heat, Meets};
use crate::reference::Reference;

/// What a block is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Metal {
    /// Carbon steel by EN 1993-1-2.
    Steel,
    /// A metal that does not change: W/(m K), J/(kg K), kg/m³.
    Constant {
        /// W/(m K).
        conductivity: f64,
        /// J/(kg K).
        specific_heat: f64,
        /// kg/m³.
        density: f64,
    },
}

/// What one side of a block meets.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Outside {
    /// Heat transfer without radiation, W/(m² K).
    pub transfer_w_per_m2_k: f64,
    /// Emissivity.
    pub emissivity: f64,
    /// Temperature around, °C.
    pub around_c: f64,
    /// Flux, W/m².
    pub flux_w_per_m2: f64,
}

/// A block by its lines, m; `sides` are left, right, down, up.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// Lines across, or radii.
    pub xs: Vec<f64>,
    /// Lines upwards.
    pub ys: Vec<f64>,
    /// Is it round about x = 0?
    pub round: bool,
    /// What it is made of.
    pub metal: Metal,
    /// What each side meets.
    pub sides: [Outside; 4],
}

/// Equal cells from nothing to a length.
#[must_use]
pub fn equal_lines(length: f64, cells: usize) -> Vec<f64> {
    (0..=cells).map(|line| length * line as f64 / cells as f64).collect()
}

const fn which(side: Side) -> usize {
    match side {
        Side::Left => 0,
        Side::Right => 1,
        Side::Down => 2,
        Side::Up => 3,
    }
}

/// A block after its time.
#[derive(Debug, Clone, PartialEq)]
pub struct BlockAfter {
    section: Vec<(f64, f64)>,
    columns: usize,
    volume: Vec<f64>,
    /// °C, row by row.
    pub at_c: Vec<f64>,
    /// Heat stored beyond the start less heat that came in, as a share of what was exchanged.
    pub closure: f64,
}

impl BlockAfter {
    /// Mean, °C.
    #[must_use]
    pub fn mean_c(&self) -> f64 {
        let whole: f64 = self.volume.iter().sum();
        self.at_c.iter().zip(&self.volume).map(|(at_c, volume)| at_c * volume).sum::<f64>() / whole
    }

    /// At a place of the lowest row: straight between the middles of its cells and beyond them.
    #[must_use]
    pub fn at(&self, x: f64) -> f64 {
        let row = &self.section[..self.columns];
        let after = row.partition_point(|middle| middle.0 < x).clamp(1, self.columns - 1);
        let share = (x - row[after - 1].0) / (row[after].0 - row[after - 1].0);
        self.at_c[after - 1] + share * (self.at_c[after] - self.at_c[after - 1])
    }
}

/// A block that starts at one temperature, after steps of one length.
#[must_use]
pub fn block(block: &Block, start_c: f64, time_s: f64, steps: usize) -> BlockAfter {
    let section = Section::block(block.xs.clone(), block.ys.clone(), block.round);
    let own;
    let properties = match block.metal {
        Metal::Steel => Properties::steel(),
        Metal::Constant { conductivity, specific_heat, density } => {
            own = Properties::constant(conductivity, specific_heat, density);
            &own
        }
    };
    let body = Body::new(&section, properties, [1.0; 3], 0.0);
    let meets: Vec<Meets> = section
        .open
        .iter()
        .map(|open| {
            let outside = block.sides[which(open.side)];
            Meets {
                transfer: outside.transfer_w_per_m2_k,
                emissivity: outside.emissivity,
                around_c: outside.around_c,
                flux: outside.flux_w_per_m2,
                pad: false,
            }
        })
        .collect();
    let mut heat = Heat::even(&body, start_c);
    let mut bench = Bench::for_body(&body);
    let before = heat.stored(&body);
    for _ in 0..steps {
        heat.step(&body, &meets, None, time_s / steps as f64, &mut bench);
    }
    let off = heat.stored(&body) - before - heat.books.kept();
    BlockAfter {
        section: section.cells.iter().map(|cell| (cell.x, cell.y)).collect(),
        columns: section.xs.len() - 1,
        closure: off.abs() / (heat.books.flame.abs() + heat.books.lost.abs()).max(1.0),
        volume: body.volume,
        at_c: heat.at_c,
    }
}

/// A block with hydrogen in it; `open` are left, right, down, up.
#[derive(Debug, Clone, PartialEq)]
pub struct Charged {
    /// Lines across, or radii, m.
    pub xs: Vec<f64>,
    /// Lines upwards, m.
    pub ys: Vec<f64>,
    /// Is it round about x = 0?
    pub round: bool,
    /// The sides through which it leaves.
    pub open: [bool; 4],
    /// Charged from x = 0 to here, m.
    pub charged_to: f64,
}

/// What is left of a content of 1: slow, middle and fast diffusivity, and the slow one of steel
/// with traps.
#[derive(Debug, Clone, PartialEq)]
pub struct Left {
    /// The largest.
    pub peak: Lanes,
    /// All that is inside as a share of what was.
    pub kept: Lanes,
    /// Cell by cell, row by row.
    pub content: Vec<Lanes>,
    /// What is inside and what left, less what was there, as a share of it.
    pub closure: f64,
}

fn left(body: &Body<'_>, hydrogen: Hydrogen) -> Left {
    let every: Vec<usize> = (0..body.cells()).collect();
    let inside = hydrogen.inside(body);
    let off = |lane: usize| (inside[lane] + hydrogen.escaped[lane] - hydrogen.put_in).abs();
    Left {
        peak: hydrogen.peak(&every).0,
        kept: inside.map(|inside| inside / hydrogen.put_in),
        closure: (0..inside.len()).map(off).fold(0.0, f64::max) / hydrogen.put_in,
        content: hydrogen.content,
    }
}

/// Hydrogen in a block whose temperature is the same everywhere: that of the middle of each step.
#[must_use]
pub fn hydrogen_block(
    reference: &Reference,
    block: &Charged,
    at_c: impl Fn(f64) -> f64,
    time_s: f64,
    steps: usize,
) -> Left {
    let section = Section::block(block.xs.clone(), block.ys.clone(), block.round);
    let body = Body::new(&section, Properties::steel(), [1.0; 3], 0.0);
    let table = Diffusivities::of(reference);
    let mut hydrogen = Hydrogen::none(&body, |_| false, false);
    let sealed: Vec<bool> = section.open.iter().map(|open| !block.open[which(open.side)]).collect();
    hydrogen.seal(&body, &sealed);
    let charged = section.cells.iter().enumerate().filter(|(_, cell)| cell.x < block.charged_to);
    hydrogen.lay(&body, &charged.map(|(cell, _)| (cell, 1.0)).collect::<Vec<_>>(), 1.0);
    let mut shelf = Shelf::for_body(&body);
    let dt = time_s / steps as f64;
    let mut temperatures = vec![0.0; body.cells()];
    for step in 0..steps {
        temperatures.fill(at_c((step as f64 + 0.5) * dt));
        hydrogen.step(&body, &table, &temperatures, dt, &mut shelf);
    }
    left(&body, hydrogen)
}

/// Temperatures at places of a joint (mm) after a time, under the full power of its torch for
/// `flame_s` and none after, °C.
///
/// # Errors
/// What [`Refusal`] says.
pub fn fixed_power(
    reference: &Reference,
    query: &HeatCycle,
    flame_s: f64,
    time_s: f64,
    places_mm: &[(f64, f64)],
) -> Result<Vec<f64>, Refusal> {
    let setup = Setup::of(reference, query)?;
    let mut watch = |_, _| ControlFlow::Continue(());
    let mut run = Run::cold(&setup, &mut watch);
    let stride = Stride::new(AT_ONCE_S, setup.pace.change_k);
    run.set_flux(setup.full_flux()?);
    run.spend(stride, setup.pace.flame_s, flame_s.min(time_s), Phase::Heating)?;
    run.set_flux(0.0);
    run.spend(stride, setup.pace.wait_s, (time_s - flame_s).max(0.0), Phase::Even)?;
    let at_c = &run.state.heat.at_c;
    let found = |&(x, y): &(f64, f64)| read(&place(&setup.section, (x * 1e-3, y * 1e-3)), at_c);
    Ok(places_mm.iter().map(found).collect())
}

/// One weld of a joint, all of it charged with 1, at one temperature.
///
/// # Errors
/// What [`Refusal`] says.
pub fn charged_weld(
    reference: &Reference,
    query: &HeatCycle,
    weld: usize,
    at_c: f64,
    time_s: f64,
) -> Result<Left, Refusal> {
    const STEP_S: f64 = 30.0;
    let setup = Setup::of(reference, query)?;
    let body = &setup.body;
    let mut hydrogen = Hydrogen::none(body, |_| false, query.fusion_closed);
    let charged = setup.section.cells.iter().enumerate();
    let charged = charged.filter(|(_, cell)| cell.matter == Matter::Weld && cell.weld == weld);
    hydrogen.lay(body, &charged.map(|(cell, _)| (cell, 1.0)).collect::<Vec<_>>(), 1.0);
    let temperatures = vec![at_c; body.cells()];
    let mut shelf = Shelf::for_body(body);
    let steps = (time_s / STEP_S).ceil().max(1.0);
    for _ in 0..steps as usize {
        hydrogen.step(body, &setup.diffusivities, &temperatures, time_s / steps, &mut shelf);
    }
    Ok(left(body, hydrogen))
}
