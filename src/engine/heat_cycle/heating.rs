//! From the flame to an even part: how long it burns, how hot the skin gets, how long it evens
//! out, how long one may weld then.

use super::clock::{AT_ONCE_S, Approach, Stride};
use super::query::{Source, Surface};
use super::record::{Phase, Record};
use super::refusal::Refusal;
use super::run::{Run, Setup};
use super::step::Meets;

/// The source is throttled over this many K under its cap: ours, for a flame that backs off.
const THROTTLE_K: f64 = 20.0;
/// No step of the flame goes past its events by less than this, s.
const SHORTEST_IN_FLAME_S: f64 = 0.2;
/// Under a throttled source no step is longer, s.
const LONGEST_THROTTLED_S: f64 = 1.0;
/// No step of the wait is longer, s.
const LONGEST_EVENING_S: f64 = 5.0;
/// Even is what differs from the mean of its station by no more, K: ours, so that one face says nearly
/// what the other has.
const EVEN_K: f64 = 10.0;
/// A skin under more flux can't be said, W/m²: ours. Between face and first cell it then falls by
/// more than the ceiling leaves.
pub(super) const MOST_FLUX: f64 = 450e3;

/// One heating.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heated {
    /// How long the source was on, min.
    pub minutes: f64,
    /// When the coldest required place had the minimum, min from the start of this heating.
    pub minimum_min: f64,
    /// Hottest heated skin while it was on, °C.
    pub hottest_skin_c: f64,
    /// Energy from the source into the part, J.
    pub energy_j: f64,
    /// From when on the ceiling, not the source, set the pace, min.
    pub throttled_min: Option<f64>,
    /// Hottest required place less the coldest when it went off, K.
    pub difference_k: f64,
}

impl Setup<'_> {
    /// Flux of the source at full power, W/m².
    pub(super) fn flux(&self) -> f64 {
        match self.query.source {
            Source::Torch { power_w } | Source::Pads { power_w, .. } => {
                power_w / (self.sites.heated_area * self.heated_length)
            }
            Source::Oven { .. } => 0.0,
        }
    }

    /// The same where the skin can be said.
    pub(super) fn full_flux(&self) -> Result<f64, Refusal> {
        let flux = self.flux();
        if flux > MOST_FLUX {
            return Err(Refusal::FluxTooHigh { flux_kw_per_m2: flux / 1e3, most_kw_per_m2: MOST_FLUX / 1e3 });
        }
        Ok(flux)
    }
}

impl Run<'_, '_> {
    /// Heats until the coldest required place has the minimum and the reserve, or says why not.
    pub(super) fn heat_up(&mut self) -> Result<Heated, Refusal> {
        match self.setup.query.source {
            Source::Oven { at_c } => self.heat_in_oven(at_c),
            Source::Torch { .. } | Source::Pads { .. } => self.heat_by_flux(),
        }
    }

    pub(super) fn set_flux(&mut self, flux: f64) {
        for &face in &self.setup.sites.heated {
            self.meets[face].flux = flux;
        }
    }

    fn heat_by_flux(&mut self) -> Result<Heated, Refusal> {
        let (query, pace) = (self.setup.query, self.setup.pace);
        let (full, cap_c, goal_c) = (self.setup.full_flux()?, query.cap_c(), query.goal_c());
        let longest_s = self.setup.longest_flame_s;
        let (begun, energy) = (self.state.time, self.state.heat.books.flame);
        let mut stride = Stride::new(AT_ONCE_S, pace.change_k);
        let mut approach = Approach::default();
        let mut skin_c = f64::NEG_INFINITY;
        let (mut minimum_min, mut throttled_min, mut held_back) = (None, None, false);
        // The throttle looks at the flux of the step before.
        self.set_flux(full);
        loop {
            let (elapsed, coldest_c) = (self.state.time - begun, self.coldest_c());
            if coldest_c >= query.minimum_c {
                minimum_min.get_or_insert(elapsed / 60.0);
            }
            if coldest_c >= goal_c {
                break;
            }
            if elapsed >= longest_s - 1e-9 {
                self.set_flux(0.0);
                let minutes = elapsed / 60.0;
                return Err(match minimum_min {
                    Some(minimum_min) => {
                        Refusal::ReserveNotReached { coldest_c, minutes, minimum_min, held_back }
                    }
                    None => Refusal::MinimumNotReached { coldest_c, minutes, power_w: None, held_back },
                });
            }
            approach.saw(self.state.time, coldest_c);
            let share =
                cap_c.map_or(1.0, |cap_c| ((cap_c - self.hottest_skin_c()) / THROTTLE_K).clamp(0.0, 1.0));
            held_back = share < 1.0;
            if held_back {
                throttled_min.get_or_insert(elapsed / 60.0);
            }
            self.set_flux(share * full);
            let cap_s = if held_back { pace.flame_s.min(LONGEST_THROTTLED_S) } else { pace.flame_s };
            let target_c = if coldest_c < query.minimum_c { query.minimum_c } else { goal_c };
            let whole = stride.next(cap_s);
            let dt = whole.min(approach.until(target_c, SHORTEST_IN_FLAME_S)).min(longest_s - elapsed);
            let change = self.advance(dt, Phase::Heating, share)?;
            skin_c = skin_c.max(self.hottest_skin_c());
            if dt >= whole {
                stride.adapt(change, cap_s);
            }
        }
        self.set_flux(0.0);
        let minutes = (self.state.time - begun) / 60.0;
        Ok(Heated {
            minutes,
            minimum_min: minimum_min.unwrap_or(minutes),
            hottest_skin_c: skin_c.max(self.hottest_skin_c()),
            energy_j: (self.state.heat.books.flame - energy) * self.setup.heated_length,
            throttled_min,
            difference_k: self.difference_k(),
        })
    }

    /// Under a steady flux: is something there within a time? It is looked for at each step, and a
    /// cycle that never gets there ends at that time.
    pub(super) fn flame_reaches(
        &mut self,
        flux: f64,
        within_s: f64,
        there: impl Fn(&Self) -> bool,
    ) -> Result<bool, Refusal> {
        let pace = self.setup.pace;
        let mut stride = Stride::new(AT_ONCE_S, pace.change_k);
        self.set_flux(flux);
        loop {
            if there(self) {
                return Ok(true);
            }
            let left = within_s - self.state.time;
            if left <= 1e-9 {
                return Ok(false);
            }
            let dt = stride.next(pace.flame_s).min(left);
            let change = self.advance(dt, Phase::Heating, 1.0)?;
            stride.adapt(change, pace.flame_s);
        }
    }

    /// The whole part in an oven, until its coldest place has the minimum and the reserve.
    fn heat_in_oven(&mut self, oven_c: f64) -> Result<Heated, Refusal> {
        let query = self.setup.query;
        let oven = Surface { around_c: Some(oven_c), ..self.setup.oven };
        let outside = std::mem::take(&mut self.meets);
        self.meets = vec![Meets { pad: true, ..self.setup.meet(&oven) }; outside.len()];
        let (begun, energy) = (self.state.time, self.state.heat.books.pads);
        let mut minimum_min = 0.0;
        for (target_c, minimum) in [(query.minimum_c, true), (query.goal_c(), false)] {
            self.soak(target_c, oven_c)?;
            if minimum {
                minimum_min = (self.state.time - begun) / 60.0;
            }
        }
        let mut hottest_c = f64::NEG_INFINITY;
        for &at_c in &self.state.heat.at_c {
            hottest_c = hottest_c.max(at_c);
        }
        self.meets = outside;
        Ok(Heated {
            minutes: (self.state.time - begun) / 60.0,
            minimum_min,
            hottest_skin_c: hottest_c,
            energy_j: (self.state.heat.books.pads - energy) * self.setup.heated_length,
            throttled_min: None,
            difference_k: self.difference_k(),
        })
    }

    fn soak(&mut self, target_c: f64, oven_c: f64) -> Result<(), Refusal> {
        /// An oven that needs longer is too small or too cold, s.
        const LONGEST_S: f64 = 48.0 * 3600.0;
        let (begun, pace) = (self.state.time, self.setup.pace);
        let mut stride = Stride::new(AT_ONCE_S, pace.change_k);
        let mut approach = Approach::default();
        loop {
            let coldest_c = self.state.heat.at_c.iter().fold(f64::INFINITY, |low, &at_c| low.min(at_c));
            if coldest_c >= target_c {
                return Ok(());
            }
            let elapsed = self.state.time - begun;
            if elapsed > LONGEST_S || coldest_c > oven_c {
                let minutes = elapsed / 60.0;
                return Err(Refusal::MinimumNotReached {
                    coldest_c,
                    minutes,
                    power_w: None,
                    held_back: false,
                });
            }
            approach.saw(self.state.time, coldest_c);
            let whole = stride.next(pace.wait_s);
            let dt = whole.min(approach.until(target_c, 1.0));
            let change = self.advance(dt, Phase::Heating, 1.0)?;
            if dt >= whole {
                stride.adapt(change, pace.wait_s);
            }
        }
    }

    /// Waits until a reading on any face is honest; returns the seconds.
    pub(super) fn wait_even(&mut self) -> Result<f64, Refusal> {
        let (begun, pace) = (self.state.time, self.setup.pace);
        let mut stride = Stride::new(AT_ONCE_S, pace.change_k);
        let cap_s = pace.wait_s.min(LONGEST_EVENING_S);
        while !self.is_even() {
            let change = self.advance(stride.next(cap_s), Phase::Even, 0.0)?;
            stride.adapt(change, cap_s);
        }
        Ok(self.state.time - begun)
    }

    /// No cell of a station is farther than 10 K from the station's mean.
    fn is_even(&self) -> bool {
        let (volume, at_c) = (&self.setup.body.volume, &self.state.heat.at_c);
        self.setup.sites.stations.iter().all(|station| {
            let (sum, weight) = station.iter().fold((0.0, 0.0), |(sum, weight), &cell| {
                (sum + volume[cell] * at_c[cell], weight + volume[cell])
            });
            let mean_c = sum / weight;
            station.iter().all(|&cell| (at_c[cell] - mean_c).abs() <= EVEN_K)
        })
    }

    fn difference_k(&self) -> f64 {
        let at_c = &self.state.heat.at_c;
        let required = &self.setup.sites.required;
        required.iter().fold(f64::NEG_INFINITY, |high, &cell| high.max(at_c[cell])) - self.coldest_c()
    }

    /// Without an arc: minutes until the coldest required place falls below the minimum. Looks
    /// ahead on a copy.
    pub(super) fn weld_by_min(&mut self) -> Result<f64, Refusal> {
        let (kept, record) = (self.state.clone(), std::mem::replace(&mut self.record, Record::closed()));
        let stride = Stride::new(AT_ONCE_S, self.setup.pace.change_k);
        let waited = self.wait_for(
            stride,
            self.setup.pace.wait_s,
            // Below, not at.
            self.setup.query.minimum_c - 1e-9,
            Self::coldest_c,
            Phase::Even,
        );
        let minutes = (self.state.time - kept.time) / 60.0;
        self.state = kept;
        self.record = record;
        waited.map(|()| minutes)
    }
}
