//! Hydrogen on its way through the same cells.

#![allow(clippy::needless_range_loop, reason = "several arrays are walked side by side")]

use super::body::{Body, Edge, Face, Sweep};
use super::properties::{Row, rows};
use crate::engine::post_heat::{Curve, diffusivity_cm2_per_s};
use crate::reference::Reference;

/// Diffusivities side by side: slow, middle, fast, and the slow one of steel with traps.
pub(super) const LANES: usize = 4;
/// One value for each diffusivity.
pub(super) type Lanes = [f64; LANES];

/// A value for each diffusivity. Written out, since a loop of four is not unrolled where the
/// program is built small.
#[inline(always)]
fn each(of: impl Fn(usize) -> f64) -> Lanes {
    const { assert!(LANES == 4) };
    [of(0), of(1), of(2), of(3)]
}

/// One over each, by two divisions in place of four: they are what a step waits for.
#[inline(always)]
fn inverses(of: Lanes) -> Lanes {
    let (one, other) = (1.0 / (of[0] * of[1]), 1.0 / (of[2] * of[3]));
    [of[1] * one, of[0] * one, of[3] * other, of[2] * other]
}

/// Diffusivities on the grid of temperatures, m²/s.
#[derive(Debug, Clone)]
pub(super) struct Diffusivities(Vec<Lanes>);

impl Diffusivities {
    pub(super) fn of(reference: &Reference) -> Self {
        const M2_PER_CM2: f64 = 1e-4;
        let at = |curve| rows(|at_c| diffusivity_cm2_per_s(reference, curve, at_c) * M2_PER_CM2);
        let (slow, fast) = (at(Curve::Slow), at(Curve::Fast));
        let times = reference.post_heat.trapping.times;
        let lanes = |(&slow, &fast): (&f64, &f64)| [slow, (slow * fast).sqrt(), fast, slow / times];
        Self(slow.iter().zip(&fast).map(lanes).collect())
    }

    #[inline]
    fn at(&self, at_c: f64) -> Lanes {
        let row = Row::of(at_c);
        let (low, high) = (self.0[row.below], self.0[row.below + 1]);
        each(|lane| low[lane] + row.share * (high[lane] - low[lane]))
    }
}

/// The hydrogen of every cell, ml/100 g, and the ways that are open to it.
#[derive(Debug, Clone)]
pub(super) struct Hydrogen {
    pub(super) content: Vec<Lanes>,
    /// What went in and what came out, ml/100 g times m³.
    pub(super) put_in: f64,
    pub(super) escaped: Lanes,
    /// Is the cell there yet? A weld cell is, once it is laid.
    pub(super) there: Vec<bool>,
    ways_x: Ways,
    ways_y: Ways,
    fusion_closed: bool,
}

/// The ways of one sweep: area of each inner face, and what each cell has open over its
/// depth, m.
#[derive(Debug, Clone)]
struct Ways {
    inner: Vec<f64>,
    open: Vec<f64>,
    /// Is an open face sealed?
    sealed: Vec<bool>,
}

/// Room for the figures of a step, made once.
#[derive(Debug, Clone)]
pub(super) struct Shelf {
    diffusivity: Vec<Lanes>,
    between: Vec<Lanes>,
    upper: Vec<Lanes>,
    right: Vec<Lanes>,
}

impl Shelf {
    pub(super) fn for_body(body: &Body<'_>) -> Self {
        let cells = body.cells();
        let zeros = || vec![[0.0; LANES]; cells];
        Self { diffusivity: zeros(), between: vec![[0.0; LANES]; cells + 1], upper: zeros(), right: zeros() }
    }
}

impl Hydrogen {
    /// None yet. `later` are the cells that are laid later; where `fusion_closed`, none passes
    /// from weld metal to a member, as where the zone beside it still is austenite.
    pub(super) fn none(body: &Body<'_>, later: impl Fn(usize) -> bool, fusion_closed: bool) -> Self {
        let cells = body.cells();
        let ways = |sweep: &Sweep| Ways {
            inner: vec![0.0; cells],
            open: vec![0.0; cells],
            sealed: vec![false; sweep.edges.len()],
        };
        let mut hydrogen = Self {
            content: vec![[0.0; LANES]; cells],
            put_in: 0.0,
            escaped: [0.0; LANES],
            there: (0..cells).map(|cell| !later(cell)).collect(),
            ways_x: ways(&body.x),
            ways_y: ways(&body.y),
            fusion_closed,
        };
        hydrogen.open_ways(body);
        hydrogen
    }

    /// Seals open faces, those along x first, as symmetry does.
    pub(super) fn seal(&mut self, body: &Body<'_>, sealed: &[bool]) {
        let (along_x, along_y) = sealed.split_at(body.x.edges.len());
        self.ways_x.sealed.copy_from_slice(along_x);
        self.ways_y.sealed.copy_from_slice(along_y);
        self.open_ways(body);
    }

    /// Is there any?
    pub(super) fn any(&self) -> bool {
        self.put_in > 0.0
    }

    /// Lays a pass: a share of each cell, with its hydrogen.
    pub(super) fn lay(&mut self, body: &Body<'_>, shares: &[(usize, f64)], hydrogen_ml: f64) {
        for &(cell, share) in shares {
            self.there[cell] = true;
            let more = hydrogen_ml * share;
            self.content[cell].iter_mut().for_each(|content| *content += more);
            self.put_in += more * body.volume[cell];
        }
        self.open_ways(body);
    }

    fn open_ways(&mut self, body: &Body<'_>) {
        self.ways_x.find(&body.x, &self.there, self.fusion_closed);
        self.ways_y.find(&body.y, &self.there, self.fusion_closed);
    }

    /// All that is in the part, ml/100 g times m³.
    pub(super) fn inside(&self, body: &Body<'_>) -> Lanes {
        let mut sum = [0.0; LANES];
        for (content, volume) in self.content.iter().zip(&body.volume) {
            for lane in 0..LANES {
                sum[lane] += content[lane] * volume;
            }
        }
        sum
    }

    /// The largest of these cells, with its place.
    pub(super) fn peak(&self, cells: &[usize]) -> (Lanes, [usize; LANES]) {
        let (mut most, mut place) = ([0.0; LANES], [0; LANES]);
        for &cell in cells {
            for lane in 0..LANES {
                if self.content[cell][lane] > most[lane] {
                    most[lane] = self.content[cell][lane];
                    place[lane] = cell;
                }
            }
        }
        (most, place)
    }

    /// One step at these temperatures.
    pub(super) fn step(
        &mut self,
        body: &Body<'_>,
        table: &Diffusivities,
        at_c: &[f64],
        dt: f64,
        shelf: &mut Shelf,
    ) {
        for (diffusivity, &at_c) in shelf.diffusivity.iter_mut().zip(at_c) {
            *diffusivity = table.at(at_c);
        }
        for (sweep, ways) in [(&body.x, &self.ways_x), (&body.y, &self.ways_y)] {
            shelf.sweep(body, sweep, ways, dt, &mut self.content, &mut self.escaped);
        }
    }
}

impl Ways {
    fn find(&mut self, sweep: &Sweep, there: &[bool], fusion_closed: bool) {
        self.open.fill(0.0);
        for (edge, &sealed) in sweep.edges.iter().zip(&self.sealed) {
            if there[edge.cell] && !sealed {
                self.open[edge.place] += way_out(edge);
            }
        }
        for (place, face) in sweep.faces.iter().enumerate() {
            self.inner[place] = 0.0;
            let Some(before) = place.checked_sub(1).filter(|_| face.area > 0.0) else { continue };
            match (there[sweep.order[before]], there[sweep.order[place]]) {
                (true, true) => self.inner[place] = inner_area(face, fusion_closed),
                // Metal that is not laid yet is air.
                (true, false) => self.open[before] += face.area / face.before,
                (false, true) => self.open[place] += face.area / face.after,
                (false, false) => {}
            }
        }
    }
}

fn way_out(edge: &Edge) -> f64 {
    edge.area / edge.depth
}

fn inner_area(face: &Face, fusion_closed: bool) -> f64 {
    if face.unfused || (face.fusion && fusion_closed) { 0.0 } else { face.area }
}

impl Shelf {
    #[inline]
    fn sweep(
        &mut self,
        body: &Body<'_>,
        sweep: &Sweep,
        ways: &Ways,
        dt: f64,
        content: &mut [Lanes],
        escaped: &mut Lanes,
    ) {
        let Self { diffusivity, between, upper, right } = self;
        let cells = sweep.order.len();
        let mut before = [0.0; LANES];
        for (place, (&cell, face)) in sweep.order.iter().zip(&sweep.faces).enumerate() {
            let own = diffusivity[cell];
            let area = dt * ways.inner[place];
            between[place] = if area > 0.0 {
                let over = inverses(each(|lane| face.before * own[lane] + face.after * before[lane]));
                each(|lane| area * before[lane] * own[lane] * over[lane])
            } else {
                [0.0; LANES]
            };
            before = own;
        }
        let (mut above, mut carried) = ([0.0; LANES], [0.0; LANES]);
        for place in 0..cells {
            let cell = sweep.order[place];
            let (low, high) = (between[place], between[place + 1]);
            let (volume, open) = (body.volume[cell], dt * ways.open[place]);
            let (was, own) = (content[cell], diffusivity[cell]);
            let pivot = inverses(each(|lane| {
                volume + open * own[lane] + low[lane] + high[lane] - low[lane] * above[lane]
            }));
            above = each(|lane| high[lane] * pivot[lane]);
            carried = each(|lane| (volume * was[lane] + low[lane] * carried[lane]) * pivot[lane]);
            upper[place] = above;
            right[place] = carried;
        }
        let mut after = [0.0; LANES];
        for place in (0..cells).rev() {
            let cell = sweep.order[place];
            let open = dt * ways.open[place];
            let (rest, factor, own) = (right[place], upper[place], diffusivity[cell]);
            after = each(|lane| rest[lane] + factor[lane] * after[lane]);
            if open > 0.0 {
                *escaped = each(|lane| escaped[lane] + open * own[lane] * after[lane]);
            }
            content[cell] = after;
        }
    }
}
