//! After the last pass: the hold, the cooling, and what hydrogen is left.

#![allow(clippy::needless_range_loop, reason = "several arrays are walked side by side")]

use super::clock::{AT_ONCE_S, Approach, Stride};
use super::hydrogen::{LANES, Lanes};
use super::query::{Surface, Surfaces};
use super::recipe::Matter;
use super::record::{Phase, Record};
use super::refusal::Refusal;
use super::run::{Run, State};
use super::step::Meets;

/// Every cooling is timed at these, °C.
pub(super) const MARKS_C: [f64; 4] = [200.0, 150.0, 100.0, 50.0];
/// Below it steps may be twice as long, °C.
const SLOW_BELOW_C: f64 = 110.0;
/// A hold that has not brought it down by then never does in a shop, h.
const LONGEST_HOLD_H: f64 = 24.0;

/// The part as it falls past a temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// °C, hottest of weld and heat-affected zone.
    pub at_c: f64,
    /// Minutes of the cooling.
    pub minutes: f64,
    /// Largest hydrogen of weld and heat-affected zone, ml/100 g: slow, middle and fast
    /// diffusivity, and the slow one of steel with traps.
    pub peak_ml: Lanes,
}

/// Where the largest hydrogen lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Deepest {
    /// ml/100 g.
    pub ml: f64,
    /// In what.
    pub matter: Matter,
    /// From the nearest open face, mm.
    pub depth_mm: f64,
}

/// A hold and the cooling after it.
#[derive(Debug, Clone, PartialEq)]
pub struct Cooled {
    /// Hours held; 0 for none.
    pub hours: f64,
    /// Largest hydrogen of weld and heat-affected zone at the end of the hold.
    pub peak_after_hold_ml: Lanes,
    /// The temperatures that it falls past, from hot to cold.
    pub marks: Vec<Mark>,
    /// Cooling rates, K/min: over 20 K about a temperature, °C.
    pub rates: Vec<(f64, f64)>,
    /// The largest of all cells by the slow diffusivity, cold: after a long hold it lies in
    /// unhardened metal and is up to half as large again as the peak of the weld's zone.
    pub deepest: Deepest,
    /// Share of all hydrogen that has left the part, cold.
    pub left_part: Lanes,
    /// Heat that the pads gave, J.
    pub pads_j: f64,
    /// Minutes of the cooling, and the hottest of weld and heat-affected zone then, °C.
    fallen: Vec<(f64, f64)>,
}

impl Cooled {
    /// What it was as it fell past a temperature.
    #[must_use]
    pub fn mark(&self, at_c: f64) -> Option<&Mark> {
        self.marks.iter().find(|mark| (mark.at_c - at_c).abs() < 1e-9)
    }

    /// Minutes of the cooling until hottest of weld and heat-affected zone are at a temperature,
    /// straight between steps; 0 where it begins no hotter, `None` where it ends hotter.
    #[must_use]
    pub fn passes_min(&self, at_c: f64) -> Option<f64> {
        let Some(last) = self.fallen.iter().rposition(|(_, hottest_c)| *hottest_c > at_c) else {
            return Some(0.0);
        };
        when(&self.fallen[last..], at_c)
    }
}

/// Hours of a hold after which a share of the hydrogen is left; `None` where 24 h don't do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Needed {
    /// The share.
    pub share: f64,
    /// Hours: slow, middle and fast diffusivity, and the slow one of steel with traps.
    pub hours: [Option<f64>; LANES],
}

/// All that follows welding.
pub(super) struct After {
    pub(super) planned: Cooled,
    pub(super) beside: Vec<Cooled>,
    pub(super) needed: Vec<Needed>,
    /// Moments and fields of the planned one, from the first flame.
    pub(super) record: Record,
}

/// A part that has been held so long.
struct Held {
    state: State,
    hours: f64,
    record: Record,
}

impl Run<'_, '_> {
    /// Holds and cools, for the planned hours and for those beside them.
    pub(super) fn after_welding(&mut self) -> Result<After, Refusal> {
        let query = self.setup.query;
        let planned_h = query.post_heat.hours;
        let mut stops: Vec<f64> = query.post_heat.beside_h.clone();
        stops.push(planned_h);
        stops.sort_by(f64::total_cmp);
        stops.dedup_by(|one, other| (*one - *other).abs() < 1e-9);
        let pads_before = self.state.heat.books.pads;
        let (held, needed) = self.hold(&stops, planned_h)?;
        let (mut planned, mut beside, mut kept) = (None, Vec::new(), Record::closed());
        for held in held {
            let is_planned = (held.hours - planned_h).abs() < 1e-9;
            self.state = held.state;
            self.record = held.record;
            let cooled = self.cool(&query.cooling, held.hours, pads_before)?;
            if is_planned {
                kept = std::mem::replace(&mut self.record, Record::closed());
                planned = Some(cooled);
            } else {
                beside.push(cooled);
            }
        }
        let planned = planned.ok_or(Refusal::Stopped)?;
        Ok(After { planned, beside, needed, record: kept })
    }

    /// Pads on the zone: a state for each of the stops, and the hours that the shares need.
    fn hold(&mut self, stops: &[f64], planned_h: f64) -> Result<(Vec<Held>, Vec<Needed>), Refusal> {
        let query = self.setup.query;
        let pace = self.setup.pace;
        let surfaces = self.meets.clone();
        let begun = self.state.time;
        let mut needs = Needs::new(&query.post_heat.shares, query.hydrogen_ml());
        needs.saw(0.0, self.peak());
        let mut stride = Stride::new(AT_ONCE_S, pace.change_k);
        let mut held = Vec::new();
        let mut stops = stops.iter().copied().peekable();
        loop {
            let elapsed = self.state.time - begun;
            while let Some(hours) = stops.next_if(|hours| hours * 3600.0 <= elapsed + 1e-6) {
                let is_planned = (hours - planned_h).abs() < 1e-9;
                let record = if is_planned {
                    // What comes after the planned hold is no part of the picture.
                    std::mem::replace(&mut self.record, Record::closed())
                } else {
                    Record::closed()
                };
                held.push(Held { state: self.state.clone(), hours, record });
            }
            let next = stops.peek().map(|hours| hours * 3600.0 - elapsed);
            let looking = !needs.met() && elapsed < LONGEST_HOLD_H * 3600.0;
            if next.is_none() && !looking {
                break;
            }
            self.put_pads(&surfaces);
            let whole = stride.next(pace.hold_s);
            let dt = next.map_or(whole, |left| whole.min(left));
            let change = self.advance(dt, Phase::Hold, 0.0)?;
            if dt >= whole {
                stride.adapt(change, pace.hold_s);
            }
            needs.saw((self.state.time - begun) / 3600.0, self.peak());
        }
        self.meets = surfaces;
        Ok((held, needs.found()))
    }

    /// Every heated face that is colder than the hold has a pad; pads don't cool.
    fn put_pads(&mut self, surfaces: &[Meets]) {
        let at_c = self.setup.query.post_heat.at_c;
        let pad = Surface { around_c: Some(at_c), ..self.setup.pad };
        for &face in &self.setup.sites.heated {
            let cell = self.setup.section.open[face].cell;
            self.meets[face] = if self.state.heat.at_c[cell] < at_c {
                Meets { pad: true, ..self.setup.meet(&pad) }
            } else {
                surfaces[face]
            };
        }
    }

    /// Cools to 50 °C.
    fn cool(&mut self, surfaces: &Surfaces, hours: f64, pads_before: f64) -> Result<Cooled, Refusal> {
        let pads_j = (self.state.heat.books.pads - pads_before) * self.setup.heated_length;
        let peak_after_hold_ml = self.peak();
        self.meets = self.setup.meets(surfaces);
        let mut targets = MARKS_C.into_iter().peekable();
        let (begun, pace) = (self.state.time, self.setup.pace);
        let mut stride = Stride::new(AT_ONCE_S, pace.change_k);
        let mut approach = Approach::default();
        let (mut marks, mut fallen) = (Vec::new(), vec![(0.0, self.hottest_c())]);
        loop {
            let (hottest_c, elapsed) = (self.hottest_c(), self.state.time - begun);
            while let Some(at_c) = targets.next_if(|&at_c| hottest_c <= at_c) {
                marks.push(Mark { at_c, minutes: elapsed / 60.0, peak_ml: self.peak() });
            }
            let Some(&target) = targets.peek() else { break };
            if elapsed > 200.0 * 3600.0 {
                return Err(Refusal::NeverCool { at_c: hottest_c, hours: elapsed / 3600.0 });
            }
            approach.saw(self.state.time, hottest_c);
            let cap_s = if hottest_c < SLOW_BELOW_C { 2.0 * pace.cool_s } else { pace.cool_s };
            let whole = stride.next(cap_s);
            let dt = whole.min(approach.until(target, 1.0));
            let change = self.advance(dt, Phase::Cooling, 0.0)?;
            if dt >= whole {
                stride.adapt(change, cap_s);
            }
            fallen.push(((self.state.time - begun) / 60.0, self.hottest_c()));
        }
        let inside = self.state.hydrogen.inside(&self.setup.body);
        let put_in = self.state.hydrogen.put_in;
        let left = |lane: usize| if put_in > 0.0 { 1.0 - inside[lane] / put_in } else { 0.0 };
        Ok(Cooled {
            hours,
            peak_after_hold_ml,
            marks,
            rates: [300.0, 200.0, 100.0].into_iter().filter_map(|at_c| rate(&fallen, at_c)).collect(),
            deepest: self.deepest(),
            left_part: std::array::from_fn(left),
            pads_j,
            fallen,
        })
    }

    fn deepest(&self) -> Deepest {
        let (most, place) = self.peak_anywhere();
        let cell = &self.setup.section.cells[place[0]];
        let near =
            |depth: f64, face: &super::section::Open| depth.min((face.x - cell.x).hypot(face.y - cell.y));
        let depth = self.setup.section.open.iter().fold(f64::INFINITY, near);
        Deepest { ml: most[0], matter: cell.matter, depth_mm: depth * 1e3 }
    }
}

/// When a falling curve is at a temperature, straight between its points.
fn when(fallen: &[(f64, f64)], at_c: f64) -> Option<f64> {
    fallen.windows(2).find(|pair| pair[0].1 >= at_c && pair[1].1 <= at_c).map(|pair| {
        let share = (pair[0].1 - at_c) / (pair[0].1 - pair[1].1).max(1e-12);
        pair[0].0 + share * (pair[1].0 - pair[0].0)
    })
}

/// The rate at a temperature, with it: 20 K over the time from 10 K above to 10 K below.
fn rate(fallen: &[(f64, f64)], at_c: f64) -> Option<(f64, f64)> {
    let (from, to) = (when(fallen, at_c + 10.0)?, when(fallen, at_c - 10.0)?);
    (to > from).then(|| (at_c, 20.0 / (to - from)))
}

/// When the peak comes down to shares of what went in.
struct Needs {
    shares: Vec<f64>,
    hydrogen_ml: f64,
    hours: Vec<[Option<f64>; LANES]>,
    last: Option<(f64, Lanes)>,
}

impl Needs {
    fn new(shares: &[f64], hydrogen_ml: f64) -> Self {
        Self { shares: shares.to_vec(), hydrogen_ml, hours: vec![[None; LANES]; shares.len()], last: None }
    }

    fn saw(&mut self, at_h: f64, peak: Lanes) {
        for (share, hours) in self.shares.iter().zip(&mut self.hours) {
            let target = share * self.hydrogen_ml;
            for lane in 0..LANES {
                if hours[lane].is_none() && peak[lane] <= target {
                    // Straight between steps.
                    hours[lane] = Some(self.last.map_or(0.0, |(before_h, before)| {
                        let share = (before[lane] - target) / (before[lane] - peak[lane]).max(1e-300);
                        before_h + share * (at_h - before_h)
                    }));
                }
            }
        }
        self.last = Some((at_h, peak));
    }

    fn met(&self) -> bool {
        self.hours.iter().flatten().all(Option::is_some)
    }

    fn found(self) -> Vec<Needed> {
        self.shares.into_iter().zip(self.hours).map(|(share, hours)| Needed { share, hours }).collect()
    }
}
