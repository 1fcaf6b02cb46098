//! A part on its way through a cycle: its state, one step of it, and what is seen of it.

use std::ops::ControlFlow;

use super::body::Body;
use super::clock::{Approach, Stride};
use super::fineness::Pace;
use super::hydrogen::{Diffusivities, Hydrogen, LANES, Lanes, Shelf};
use super::properties::Properties;
use super::query::{HeatCycle, Surface, Surfaces};
use super::recipe::{Matter, Recipe};
use super::record::{Moment, Phase, Record};
use super::refusal::Refusal;
use super::section::{Section, Side};
use super::sites::{Sites, read, shares};
use super::step::{Bench, Heat, Meets};
use crate::reference::Reference;

/// More cells than any sound joint has.
const MOST_CELLS: usize = 4000;

/// Told after each step: the minute and what is going on. It may stop the cycle.
pub type Watch<'a> = dyn FnMut(f64, Phase) -> ControlFlow<()> + 'a;

/// What does not change on the way.
pub(super) struct Setup<'a> {
    pub(super) query: &'a HeatCycle,
    pub(super) section: Section,
    pub(super) sites: Sites,
    pub(super) body: Body<'static>,
    pub(super) diffusivities: Diffusivities,
    pub(super) pace: Pace,
    /// Cells of each pass with the share that it fills.
    pub(super) fills: Vec<Vec<(usize, f64)>>,
    /// Length of each pass, m.
    pub(super) lengths: Vec<f64>,
    pub(super) heated_length: f64,
    /// In an oven.
    pub(super) oven: Surface,
    /// Under a pad.
    pub(super) pad: Surface,
    /// No flame is held longer on a part, s.
    pub(super) longest_flame_s: f64,
    every: Vec<usize>,
}

impl<'a> Setup<'a> {
    pub(super) fn of(reference: &Reference, query: &'a HeatCycle) -> Result<Self, Refusal> {
        query.check()?;
        let (zone, required) = (query.zone_mm * 1e-3, query.required_mm * 1e-3);
        let recipe = Recipe::of(&query.shape, query.fineness, zone, required);
        let section = Section::of(&recipe, query.fineness);
        if section.cells.len() > MOST_CELLS {
            return Err(Refusal::TooManyCells { cells: section.cells.len(), most: MOST_CELLS });
        }
        let sites = Sites::of(&section, &recipe, zone, query.reached);
        let gap = query.gap_w_per_m2_k.map_or(0.0, |transfer| 1.0 / transfer);
        let welds = query.passes.iter().map(|pass| pass.weld + 1).max().unwrap_or(0);
        let count = |weld: usize| query.passes.iter().filter(|pass| pass.weld == weld).count();
        let by_weld: Vec<Vec<Vec<(usize, f64)>>> =
            (0..welds).map(|weld| shares(&section, recipe.filling, weld, count(weld))).collect();
        let mut laid = vec![0; welds];
        let fills = query.passes.iter().map(|pass| {
            laid[pass.weld] += 1;
            by_weld[pass.weld][laid[pass.weld] - 1].clone()
        });
        let fills: Vec<_> = fills.collect();
        if let Some(pass) = query.passes.iter().zip(&fills).find(|(_, cells)| cells.is_empty()) {
            let value = pass.0.weld as f64;
            let domain =
                crate::engine::error::Domain::new("weld", 0.0, recipe.fillets.len().max(1) as f64 - 1.0);
            domain.check(value)?;
        }
        Ok(Self {
            body: Body::new(&section, Properties::steel(), query.conductivity, gap),
            diffusivities: Diffusivities::of(reference),
            pace: query.fineness.pace(),
            lengths: query.passes.iter().map(|pass| recipe.pass_length(count(pass.weld))).collect(),
            heated_length: query.heated_length(),
            oven: Surface::of(reference.heat_cycle.oven()),
            pad: Surface::of(reference.heat_cycle.pad()),
            longest_flame_s: 60.0 * reference.heat_cycle.longest_flame_min,
            every: (0..section.cells.len()).collect(),
            query,
            section,
            sites,
            fills,
        })
    }

    /// What each open face meets under some surfaces, without a flame.
    pub(super) fn meets(&self, surfaces: &Surfaces) -> Vec<Meets> {
        let (xs, first_x) = (&self.section.xs, self.section.xs[0]);
        let last_x = xs[xs.len() - 1];
        let of = |face: &super::section::Open| {
            let ends = (face.x - first_x).abs() < 1e-9 || (face.x - last_x).abs() < 1e-9;
            let member = match self.section.cells[face.cell].matter {
                Matter::First => surfaces.first,
                Matter::Second => surfaces.second,
                _ => None,
            };
            let looks = match face.side {
                Side::Up => surfaces.top,
                Side::Down => surfaces.bottom,
                _ => surfaces.ends.filter(|_| ends),
            };
            let surface = looks.or(member).unwrap_or(surfaces.all);
            self.meet(&surface)
        };
        self.section.open.iter().map(of).collect()
    }

    pub(super) fn meet(&self, surface: &Surface) -> Meets {
        Meets {
            transfer: surface.transfer_w_per_m2_k,
            emissivity: surface.emissivity,
            around_c: surface.around_c.unwrap_or(self.query.shop_c),
            ..Meets::CLOSED
        }
    }

    /// Mass of the part, kg.
    pub(super) fn mass(&self) -> f64 {
        self.body.volume.iter().sum::<f64>() * self.body.properties.density * self.heated_length
    }
}

/// A part on its way.
#[derive(Clone)]
pub(super) struct State {
    pub(super) heat: Heat,
    pub(super) hydrogen: Hydrogen,
    /// From the first flame, s.
    pub(super) time: f64,
}

/// The run of a cycle.
pub(super) struct Run<'s, 'w> {
    pub(super) setup: &'s Setup<'s>,
    pub(super) state: State,
    pub(super) meets: Vec<Meets>,
    /// Heat of the arc in each cell, W, while there is one.
    pub(super) arc: Option<Vec<f64>>,
    pub(super) record: Record,
    pub(super) watch: &'w mut Watch<'w>,
    bench: Bench,
    shelf: Shelf,
}

impl<'s, 'w> Run<'s, 'w> {
    /// Cold, before the first flame.
    pub(super) fn cold(setup: &'s Setup<'s>, watch: &'w mut Watch<'w>) -> Self {
        let laid_later = |cell: usize| setup.section.cells[cell].matter == Matter::Weld;
        let state = State {
            heat: Heat::even(&setup.body, setup.query.shop_c),
            hydrogen: Hydrogen::none(&setup.body, laid_later, setup.query.fusion_closed),
            time: 0.0,
        };
        Self {
            meets: setup.meets(&setup.query.surfaces),
            arc: None,
            record: Record::new(setup.query.keep),
            bench: Bench::for_body(&setup.body),
            shelf: Shelf::for_body(&setup.body),
            setup,
            state,
            watch,
        }
    }

    /// One step; returns the largest change, K.
    pub(super) fn advance(&mut self, dt: f64, phase: Phase, flame: f64) -> Result<f64, Refusal> {
        let body = &self.setup.body;
        let change = self.state.heat.step(body, &self.meets, self.arc.as_deref(), dt, &mut self.bench);
        if self.state.hydrogen.any() {
            let (at_c, table) = (&self.state.heat.at_c, &self.setup.diffusivities);
            self.state.hydrogen.step(body, table, at_c, dt, &mut self.shelf);
        }
        self.state.time += dt;
        if self.record.wants() {
            let moment = self.moment(phase, flame);
            self.record.saw(moment, &self.state);
        }
        match (self.watch)(self.state.time / 60.0, phase) {
            ControlFlow::Continue(()) => Ok(change),
            ControlFlow::Break(()) => Err(Refusal::Stopped),
        }
    }

    /// Steps of one phase up to an exact end, s from now.
    pub(super) fn spend(
        &mut self,
        mut stride: Stride,
        cap_s: f64,
        length_s: f64,
        phase: Phase,
    ) -> Result<(), Refusal> {
        let end = self.state.time + length_s;
        loop {
            let left = end - self.state.time;
            if left <= 1e-9 {
                return Ok(());
            }
            let whole = stride.next(cap_s);
            // A rest of nearly nothing would be a step of its own.
            let last = whole >= left - 1e-9;
            let change = self.advance(if last { left } else { whole }, phase, 0.0)?;
            if !last {
                stride.adapt(change, cap_s);
            }
        }
    }

    /// Steps of a wait until a figure is at its target or beyond, falling.
    pub(super) fn wait_for(
        &mut self,
        mut stride: Stride,
        cap_s: f64,
        target: f64,
        figure: fn(&Self) -> f64,
        phase: Phase,
    ) -> Result<(), Refusal> {
        /// Longer than any part takes, h.
        const LONGEST_H: f64 = 200.0;
        let began = self.state.time;
        let mut approach = Approach::default();
        loop {
            let now = figure(self);
            if now <= target {
                return Ok(());
            }
            if self.state.time - began > LONGEST_H * 3600.0 {
                return Err(Refusal::NeverCool { at_c: now, hours: LONGEST_H });
            }
            approach.saw(self.state.time, now);
            let whole = stride.next(cap_s);
            let dt = whole.min(approach.until(target, 1.0));
            let change = self.advance(dt, phase, 0.0)?;
            if dt >= whole {
                stride.adapt(change, cap_s);
            }
        }
    }

    /// Coldest place that must have the minimum, °C.
    pub(super) fn coldest_c(&self) -> f64 {
        let at_c = &self.state.heat.at_c;
        self.setup.sites.required.iter().fold(f64::INFINITY, |coldest, &cell| at_c[cell].min(coldest))
    }

    /// Hottest of weld and heat-affected zone, °C.
    pub(super) fn hottest_c(&self) -> f64 {
        let at_c = &self.state.heat.at_c;
        self.setup.sites.weld_zone.iter().fold(f64::NEG_INFINITY, |hottest, &cell| at_c[cell].max(hottest))
    }

    /// Hottest heated skin, °C: the cell, and the fall of the flame's heat from the face to it.
    pub(super) fn hottest_skin_c(&self) -> f64 {
        let body = &self.setup.body;
        self.setup.sites.heated.iter().fold(f64::NEG_INFINITY, |hottest, &face| {
            let open = &self.setup.section.open[face];
            let at_c = self.state.heat.at_c[open.cell];
            let row = super::properties::Row::of(at_c);
            let resistivity = body.properties.resistivity(row) * body.slower[open.cell];
            hottest.max(self.meets[face].flux.mul_add(open.depth * resistivity, at_c))
        })
    }

    /// The largest hydrogen of weld and heat-affected zone.
    pub(super) fn peak(&self) -> Lanes {
        self.state.hydrogen.peak(&self.setup.sites.weld_zone).0
    }

    /// The largest of all cells, with its places.
    pub(super) fn peak_anywhere(&self) -> (Lanes, [usize; LANES]) {
        self.state.hydrogen.peak(&self.setup.every)
    }

    fn moment(&self, phase: Phase, flame: f64) -> Moment {
        let (sites, at_c) = (&self.setup.sites, &self.state.heat.at_c);
        let volume = &self.setup.body.volume;
        let weight: f64 = sites.weld.iter().map(|&cell| volume[cell]).sum();
        let weld: f64 = sites.weld.iter().map(|&cell| volume[cell] * at_c[cell]).sum();
        Moment {
            minute: self.state.time / 60.0,
            phase,
            flame,
            weld_c: weld / weight,
            hottest_c: self.hottest_c(),
            coldest_c: self.coldest_c(),
            core_c: read(&sites.core, at_c),
            far_face_c: read(&sites.far_face, at_c),
            required_point_c: read(&sites.required_point, at_c),
            skin_c: (flame > 0.0).then(|| self.hottest_skin_c()),
            hydrogen_ml: self.state.hydrogen.any().then(|| self.peak()),
        }
    }
}
