//! One step of heat: backward Euler, along x and then along y.
//!
//! The order of the two never changes: turned about, the field would jump at each step.

#![allow(clippy::needless_range_loop, reason = "several arrays are walked side by side")]

use super::body::{Body, Edge, Sweep};
use super::properties::Row;
use crate::engine::thermal::{STEFAN_BOLTZMANN, ZERO_C_IN_K};

/// What one open face meets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Meets {
    /// Heat transfer without radiation, W/(m² K).
    pub(super) transfer: f64,
    /// Emissivity.
    pub(super) emissivity: f64,
    /// Temperature around, °C.
    pub(super) around_c: f64,
    /// Flux of a flame, W/m².
    pub(super) flux: f64,
    /// Is it a pad, whose heat is booked apart?
    pub(super) pad: bool,
}

impl Meets {
    /// Nothing passes.
    pub(super) const CLOSED: Self =
        Self { transfer: 0.0, emissivity: 0.0, around_c: 20.0, flux: 0.0, pad: false };
}

/// Heat that passed the open faces, and that came from inside, J.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Books {
    /// From flames.
    pub(super) flame: f64,
    /// From arcs.
    pub(super) arc: f64,
    /// From pads.
    pub(super) pads: f64,
    /// Lost to what is around.
    pub(super) lost: f64,
}

impl Books {
    /// What should be in the part beyond what was.
    pub(super) fn kept(&self) -> f64 {
        self.flame + self.arc + self.pads - self.lost
    }
}

/// The heat of every cell.
#[derive(Debug, Clone)]
pub(super) struct Heat {
    /// J/kg from 20 °C.
    content: Vec<f64>,
    /// °C.
    pub(super) at_c: Vec<f64>,
    pub(super) books: Books,
}

/// Room for the figures of a step, made once.
#[derive(Debug, Clone)]
pub(super) struct Bench {
    rows: Vec<Row>,
    capacity: Vec<f64>,
    resistivity: Vec<f64>,
    found: Vec<f64>,
    along: Along,
    edges: Vec<f64>,
}

/// The three-banded system of one sweep.
#[derive(Debug, Clone)]
struct Along {
    between: Vec<f64>,
    own: Vec<f64>,
    right: Vec<f64>,
}

impl Bench {
    pub(super) fn for_body(body: &Body<'_>) -> Self {
        let cells = body.cells();
        let zeros = || vec![0.0; cells];
        Self {
            rows: vec![Row { below: 0, share: 0.0 }; cells],
            capacity: zeros(),
            resistivity: zeros(),
            found: zeros(),
            along: Along { between: vec![0.0; cells + 1], own: zeros(), right: zeros() },
            edges: vec![0.0; body.x.edges.len().max(body.y.edges.len())],
        }
    }
}

impl Heat {
    /// The same temperature everywhere.
    pub(super) fn even(body: &Body<'_>, at_c: f64) -> Self {
        let content = body.properties.heat_at(at_c);
        Self { content: vec![content; body.cells()], at_c: vec![at_c; body.cells()], books: Books::default() }
    }

    /// What it holds from 20 °C, J.
    pub(super) fn stored(&self, body: &Body<'_>) -> f64 {
        let density = body.properties.density;
        self.content.iter().zip(&body.volume).map(|(content, volume)| content * volume * density).sum()
    }

    /// One step; `meets` are the open faces, those along x first, `source` the heat of an arc
    /// in each cell, W. Returns the largest change, K.
    pub(super) fn step(
        &mut self,
        body: &Body<'_>,
        meets: &[Meets],
        source: Option<&[f64]>,
        dt: f64,
        bench: &mut Bench,
    ) -> f64 {
        let Bench { rows, capacity, resistivity, found, along, edges } = bench;
        let properties = body.properties;
        for cell in 0..body.cells() {
            let row = Row::of(self.at_c[cell]);
            rows[cell] = row;
            capacity[cell] = body.volume[cell] * properties.density * properties.specific_heat(row);
            resistivity[cell] = properties.resistivity(row) * body.slower[cell];
        }
        found.copy_from_slice(&self.at_c);
        let (along_x, along_y) = meets.split_at(body.x.edges.len());
        for (sweep, meets) in [(&body.x, along_x), (&body.y, along_y)] {
            along.begin(sweep, capacity, resistivity, found, dt);
            if let Some(source) = source {
                for (right, &cell) in along.right.iter_mut().zip(&sweep.order) {
                    // Half of it goes with each direction.
                    *right += 0.5 * dt * source[cell];
                }
            }
            for ((edge, meets), through) in sweep.edges.iter().zip(meets).zip(edges.iter_mut()) {
                let passes = dt * conductance(edge, meets, self.at_c[edge.cell], resistivity[edge.cell]);
                *through = passes;
                along.own[edge.place] += passes;
                along.right[edge.place] += passes * meets.around_c + dt * meets.flux * edge.area;
            }
            along.solve(sweep, found);
            for ((edge, meets), passes) in sweep.edges.iter().zip(meets).zip(edges.iter()) {
                let gained = passes * (meets.around_c - found[edge.cell]);
                self.books.flame += dt * meets.flux * edge.area;
                if meets.pad {
                    self.books.pads += gained;
                } else {
                    self.books.lost -= gained;
                }
            }
        }
        if let Some(source) = source {
            self.books.arc += dt * source.iter().sum::<f64>();
        }
        let mut change = 0.0_f64;
        for cell in 0..body.cells() {
            let was = self.at_c[cell];
            let row = rows[cell];
            self.content[cell] += properties.specific_heat(row) * (found[cell] - was);
            self.at_c[cell] = properties.temperature(self.content[cell], row.below);
            change = change.max((self.at_c[cell] - was).abs());
        }
        change
    }
}

/// Through an open face, W/K.
#[inline]
fn conductance(edge: &Edge, meets: &Meets, at_c: f64, resistivity: f64) -> f64 {
    let (own, around) = (at_c + ZERO_C_IN_K, meets.around_c + ZERO_C_IN_K);
    let radiant = meets.emissivity * STEFAN_BOLTZMANN * (own + around) * (own * own + around * around);
    let transfer = meets.transfer + radiant;
    edge.area * transfer / (1.0 + transfer * edge.depth * resistivity)
}

impl Along {
    #[inline]
    fn begin(&mut self, sweep: &Sweep, capacity: &[f64], resistivity: &[f64], from: &[f64], dt: f64) {
        let mut before = 0;
        for (place, (&cell, face)) in sweep.order.iter().zip(&sweep.faces).enumerate() {
            self.own[place] = capacity[cell];
            self.right[place] = capacity[cell] * from[cell];
            self.between[place] = if face.area > 0.0 {
                let resistance =
                    face.before * resistivity[before] + face.after * resistivity[cell] + face.resistance;
                dt * face.area / resistance
            } else {
                0.0
            };
            before = cell;
        }
    }

    /// Gauss without pivots, in one go over all lines: nothing couples one to the next.
    #[inline]
    fn solve(&mut self, sweep: &Sweep, found: &mut [f64]) {
        let cells = sweep.order.len();
        let (mut upper, mut right) = (0.0, 0.0);
        for place in 0..cells {
            let (low, high) = (self.between[place], self.between[place + 1]);
            let pivot = 1.0 / (self.own[place] + low + high - low * upper);
            upper = high * pivot;
            right = (self.right[place] + low * right) * pivot;
            self.own[place] = upper;
            self.right[place] = right;
        }
        let mut after = 0.0;
        for place in (0..cells).rev() {
            after = self.right[place] + self.own[place] * after;
            found[sweep.order[place]] = after;
        }
    }
}
