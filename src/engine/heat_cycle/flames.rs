//! A cycle under a flame of which not all is known: the weakest that it may be, the likely one and
//! the strongest.

use std::ops::ControlFlow;

use super::after::Cooled;
use super::cycle::{Cycle, Preheat, plain_preheat, plain_run};
use super::losses::{Losses, losses_by_readings};
use super::power::{Reading, efficiency_of_first_part};
use super::query::{HeatCycle, Source};
use super::record::Phase;
use super::refusal::Refusal;
use super::turns::{Turned, Turns};
use crate::engine::EngineError;
use crate::engine::acetylene::cylinders_at_once;
use crate::engine::two_readings::TwoReadings;
use crate::reference::{Fuels, Reference};

/// How much of the fuel's heat stays in the part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FlameShare {
    /// Nobody told: all that a flame may have.
    NotKnown,
    /// So much.
    Known(f64),
    /// As much as brought the first part to the minimum in so many minutes.
    FirstPart {
        /// min.
        minutes: f64,
    },
}

/// What heats the part, as it is told.
#[derive(Debug, Clone, PartialEq)]
pub enum HeatedBy {
    /// A torch that keeps moving over the zone.
    Torch {
        /// The row of the fuel.
        fuel: String,
        /// Net heat of the fuel, W.
        fuel_w: f64,
        /// What of it stays in the part.
        share: FlameShare,
    },
    /// Resistance mats or an induction coil on the zone.
    Mats {
        /// Power that goes into the part, W.
        power_w: f64,
        /// What their control is set to, °C.
        set_c: f64,
    },
    /// A furnace round the whole part.
    Furnace {
        /// °C.
        at_c: f64,
    },
}

impl HeatedBy {
    /// Its id in words.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        match self {
            Self::Torch { .. } => "torch",
            Self::Mats { .. } => "mats",
            Self::Furnace { .. } => "furnace",
        }
    }

    /// The flame: net heat of its fuel, W, and what of it stays in the part.
    #[must_use]
    pub const fn flame(&self) -> Option<(f64, FlameShare)> {
        match *self {
            Self::Torch { fuel_w, share, .. } => Some((fuel_w, share)),
            Self::Mats { .. } | Self::Furnace { .. } => None,
        }
    }

    /// Is it set hotter than the joint must get, and no furnace hotter than the joint may get?
    ///
    /// # Errors
    /// `heat-set-too-cold`, `heat-set-too-hot`.
    pub fn check(&self, cycle: &HeatCycle) -> Result<(), EngineError> {
        let (set_c, whole) = match *self {
            Self::Torch { .. } => return Ok(()),
            Self::Mats { set_c, .. } => (set_c, false),
            Self::Furnace { at_c } => (at_c, true),
        };
        if set_c <= cycle.minimum_c + cycle.reserve_k {
            return Err(EngineError::NoAnswer { reason: "heat-set-too-cold" });
        }
        if whole && cycle.ceiling_c.is_some_and(|ceiling_c| set_c > ceiling_c) {
            return Err(EngineError::NoAnswer { reason: "heat-set-too-hot" });
        }
        Ok(())
    }

    /// Is it known what goes into the part?
    #[must_use]
    pub fn is_known(&self) -> bool {
        self.flame().is_none_or(|(_, share)| share != FlameShare::NotKnown)
    }
}

/// A cycle and what heats it.
#[derive(Debug, Clone, PartialEq)]
pub struct Flames {
    /// The cycle; the power of its source is put in for each flame.
    pub cycle: HeatCycle,
    /// What heats.
    pub heat: HeatedBy,
    /// Does no part hold hydrogen back, as alloyed steel does?
    pub carbon_steel: bool,
    /// What must be said of what was given and what was not: ids of notes.
    pub notes: Vec<&'static str>,
    /// The hours of a post-heat that are looked at.
    pub hold_h: f64,
    /// Two readings on the joint and the minutes between them, which say what it loses.
    pub readings: Option<TwoReadings>,
    /// When its steel turns to martensite, where a plan says so.
    pub turns: Option<Turns>,
}

impl Flames {
    /// Does the flame draw more acetylene than one usual cylinder can give?
    #[must_use]
    pub fn draws_much(&self, fuels: &Fuels) -> bool {
        let HeatedBy::Torch { fuel: id, fuel_w, .. } = &self.heat else { return false };
        let flow = fuels.fuel(id).map(|fuel| fuel_w / (fuel.net_mj_per_m3 / 3.6 * 1e3));
        flow.is_some_and(|flow| cylinders_at_once(&fuels.draw, id, flow).is_some())
    }
}

/// What comes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Flamed {
    /// Under the weakest flame; `None` where that never gets there.
    pub weak: Option<Preheat>,
    /// Under the strongest.
    pub strong: Preheat,
    /// The whole cycle under the likely one.
    pub cycle: Cycle,
    /// Is the share known, so that the three are one?
    pub known: bool,
    /// What the joint loses by the readings on it; none where nothing was read.
    pub losses: Option<Losses>,
}

/// Why a plan has no heat cycle.
#[derive(Debug, Clone, PartialEq)]
pub enum NoCycle {
    /// It has no minimum that a part must be heated to.
    NothingToHeat,
    /// There is no plan: it is not begun, or something of it can't be read.
    NoPlan,
    /// The job states that nothing heats.
    NoSource,
    /// These inputs are not told, by their keys.
    Open(Vec<&'static str>),
    /// What is typed for it can't be read.
    Unread,
    /// There is no answer, with its figures.
    Refused(Refusal),
    /// There is no answer to what was given.
    NoAnswer(EngineError),
    /// Its reckoning came to an end without an answer.
    Lost,
}

impl Flames {
    /// The cycle under a flame of which such a share stays in the part; what else heats brings the same
    /// for any.
    #[must_use]
    pub fn with(&self, share: f64) -> HeatCycle {
        let source = match self.heat {
            HeatedBy::Torch { fuel_w, .. } => Source::Torch { power_w: fuel_w * share },
            HeatedBy::Mats { power_w, set_c } => Source::Pads { power_w, set_c },
            HeatedBy::Furnace { at_c } => Source::Oven { at_c },
        };
        HeatCycle { source, ..self.cycle.clone() }
    }

    /// The least, the likely and the most that stays in the part.
    ///
    /// # Errors
    /// What [`Refusal`] says of the first part.
    pub(super) fn shares(&self, reference: &Reference) -> Result<[f64; 3], Refusal> {
        match self.heat.flame() {
            None => Ok([1.0; 3]),
            Some((_, FlameShare::Known(share))) => Ok([share; 3]),
            Some((fuel_w, FlameShare::FirstPart { minutes })) => {
                let reading = Reading::Coldest(self.cycle.minimum_c);
                Ok([efficiency_of_first_part(reference, &self.cycle, fuel_w, minutes, reading)?; 3])
            }
            Some((_, FlameShare::NotKnown)) => {
                let share = reference.fuels.efficiency;
                Ok([share.low, share.likely, share.high])
            }
        }
    }

    /// What the joint loses by the readings on it.
    ///
    /// # Errors
    /// What [`losses_by_readings`] says.
    fn losses(
        &self,
        reference: &Reference,
        watch: &mut dyn FnMut(f64, Phase) -> ControlFlow<()>,
    ) -> Result<Option<Losses>, Refusal> {
        let Some(readings) = &self.readings else { return Ok(None) };
        let [_, likely, _] = self.shares(reference)?;
        // These minutes are none of the cycle's.
        let mut stop = |_, phase| watch(0.0, phase);
        losses_by_readings(reference, &self.with(likely), readings, &mut stop).map(Some)
    }

    /// Heats under all three, and goes through the whole cycle under the likely one. Where the joint was
    /// read twice, all of it loses what those readings say. The power that
    /// would do is not looked for.
    ///
    /// # Errors
    /// What [`Refusal`] says of the likely flame.
    pub fn run(
        &self,
        reference: &Reference,
        watch: &mut dyn FnMut(f64, Phase) -> ControlFlow<()>,
    ) -> Result<Flamed, Refusal> {
        let losses = self.losses(reference, watch)?;
        let losing = |losses: Losses| Self { cycle: self.cycle.losing(losses.times), ..self.clone() };
        let found = losses.map(losing).as_ref().unwrap_or(self).run_with_its_losses(reference, watch)?;
        Ok(Flamed { losses, ..found })
    }

    fn run_with_its_losses(
        &self,
        reference: &Reference,
        watch: &mut dyn FnMut(f64, Phase) -> ControlFlow<()>,
    ) -> Result<Flamed, Refusal> {
        let [low, likely, high] = self.shares(reference)?;
        let cycle = plain_run(reference, &self.with(likely), &mut |minute, phase| watch(minute, phase))?;
        if self.heat.is_known() {
            let (weak, strong) = (Some(cycle.preheat), cycle.preheat);
            return Ok(Flamed { weak, strong, cycle, known: true, losses: None });
        }
        // The weakest flame may fail where the likely one does not.
        let weak = match plain_preheat(reference, &self.with(low), &mut |minute, phase| watch(minute, phase))
        {
            Err(Refusal::Stopped) => return Err(Refusal::Stopped),
            found => found.ok(),
        };
        let strong = plain_preheat(reference, &self.with(high), &mut |minute, phase| watch(minute, phase))?;
        Ok(Flamed { weak, strong, cycle, known: false, losses: None })
    }
}

impl Flamed {
    /// From flame off until the first run may start, min: the wait that is advised, and until weld
    /// and heat-affected zone are at the maximum interpass.
    #[must_use]
    pub fn wait_min(&self) -> f64 {
        self.most(Preheat::wait_min).max(self.interpass_wait_min())
    }

    /// From flame off until weld and heat-affected zone are at the maximum interpass, under the
    /// likely flame, min.
    #[must_use]
    pub fn interpass_wait_min(&self) -> f64 {
        let first = self.cycle.passes.first().map_or(0.0, |pass| pass.interpass_min);
        if first > 0.0 { self.cycle.preheat.even_s / 60.0 + first } else { 0.0 }
    }

    /// What is left to weld in after that wait, min: the least, the likely and the most. Nothing where
    /// the weakest flame never gets there.
    ///
    /// The wait for the maximum interpass is that of the likely flame for all three, since only its cycle
    /// is gone through. A stronger flame leaves the joint hotter, so its own wait may be longer and the
    /// most, which limits nothing, may be less.
    #[must_use]
    pub fn left_min(&self) -> [f64; 3] {
        let held = self.interpass_wait_min();
        let left = |found: &Preheat| (found.lasts_min() - found.wait_min().max(held)).max(0.0);
        let weak = self.weak.as_ref().map_or(0.0, left);
        let (likely, strong) = (left(&self.cycle.preheat), left(&self.strong));
        [weak.min(likely).min(strong), likely, weak.max(likely).max(strong)]
    }

    /// Minutes of the flame from the strongest to the weakest, to whole tenths outside; none where the
    /// weakest never gets there, since nobody can say how long it takes.
    #[must_use]
    pub fn flame_min(&self) -> Option<(f64, f64)> {
        let weak = self.weak.as_ref()?;
        let least = (10.0 * self.strong.heated.minutes).floor() / 10.0;
        Some((least.max(0.1), (10.0 * weak.heated.minutes).ceil() / 10.0))
    }

    /// The most of a figure over all flames.
    #[must_use]
    pub fn most(&self, of: impl Fn(&Preheat) -> f64) -> f64 {
        let all = [Some(&self.cycle.preheat), Some(&self.strong), self.weak.as_ref()];
        all.into_iter().flatten().map(of).fold(f64::NEG_INFINITY, f64::max)
    }

    /// Hottest surface of all flames, °C.
    #[must_use]
    pub fn hottest_surface_c(&self) -> f64 {
        self.most(|found| found.heated.hottest_skin_c).max(self.cycle.hottest_skin_c)
    }

    /// When the steel that transforms lowest turns in the planned cooling; nothing where no plan says.
    #[must_use]
    pub fn turned(&self, flames: &Flames) -> Vec<Turned> {
        let planned = &self.cycle.planned;
        flames.turns.map(|turns| turns.passed(planned).to_vec()).unwrap_or_default()
    }

    /// The cooling after so many hours of post-heat.
    #[must_use]
    pub fn held(&self, hours: f64) -> Option<&Cooled> {
        let all = [&self.cycle.planned].into_iter().chain(&self.cycle.beside);
        all.into_iter().find(|cooled| (cooled.hours - hours).abs() < 1e-9)
    }

    /// Hydrogen left at a temperature after so many hours of post-heat, ml/100 g: the least, the
    /// middle and the most. Alloyed steel may hold back more than the published band.
    #[must_use]
    pub fn hydrogen_ml(&self, flames: &Flames, hours: f64, at_c: f64) -> Option<[f64; 3]> {
        let [slow, middle, fast, trapped] = self.held(hours)?.mark(at_c)?.peak_ml;
        Some([fast, middle, if flames.carbon_steel { slow } else { trapped }])
    }
}
