//! What is asked of a heat cycle.

use super::fineness::Fineness;
use super::refusal::Refusal;
use super::shape::JointShape;
use super::sites::Reached;
use crate::engine::error::{Domain, HEAT, HYDROGEN};
use crate::reference::LosingSurface;

/// How a face loses heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// Heat transfer without radiation, W/(m² K).
    pub transfer_w_per_m2_k: f64,
    /// Emissivity.
    pub emissivity: f64,
    /// What is around, °C, where that is not the shop.
    pub around_c: Option<f64>,
}

impl Surface {
    /// A surface in the air of the shop.
    #[must_use]
    pub const fn new(transfer_w_per_m2_k: f64, emissivity: f64) -> Self {
        Self { transfer_w_per_m2_k, emissivity, around_c: None }
    }

    /// A surface of the dataset.
    #[must_use]
    pub const fn of(row: &LosingSurface) -> Self {
        Self::new(row.transfer_w_per_m2_k, row.emissivity)
    }

    /// The same that loses so many times as much.
    fn times(self, times: f64) -> Self {
        Self {
            transfer_w_per_m2_k: times * self.transfer_w_per_m2_k,
            emissivity: times * self.emissivity,
            ..self
        }
    }
}

/// The surfaces of a part: where several speak of a face, the later one counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surfaces {
    /// All faces.
    pub all: Surface,
    /// Faces of the first member.
    pub first: Option<Surface>,
    /// Faces of the second member.
    pub second: Option<Surface>,
    /// Faces that look up.
    pub top: Option<Surface>,
    /// Faces that look down.
    pub bottom: Option<Surface>,
    /// The outer ends of the section across the weld.
    pub ends: Option<Surface>,
}

impl Surfaces {
    /// One surface all over.
    #[must_use]
    pub const fn all(all: Surface) -> Self {
        Self { all, first: None, second: None, top: None, bottom: None, ends: None }
    }

    /// The same that lose so many times as much.
    pub(super) fn times(&self, times: f64) -> Self {
        let more = |surface: Option<Surface>| surface.map(|surface| surface.times(times));
        Self {
            all: self.all.times(times),
            first: more(self.first),
            second: more(self.second),
            top: more(self.top),
            bottom: more(self.bottom),
            ends: more(self.ends),
        }
    }
}

/// What heats the part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Source {
    /// A flame that keeps moving over the zone: the power that goes into the part, W.
    Torch {
        /// W.
        power_w: f64,
    },
    /// Pads or coils on the zone.
    Pads {
        /// W.
        power_w: f64,
        /// What their control is set to, °C.
        set_c: f64,
    },
    /// An oven round the whole part.
    Oven {
        /// °C.
        at_c: f64,
    },
}

/// One pass of one weld. The passes of a weld fill it in the order in which they stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pass {
    /// Which weld of the joint.
    pub weld: usize,
    /// Net heat, kJ/mm.
    pub net_kj_per_mm: f64,
    /// Net power of the arc, W.
    pub arc_net_w: f64,
    /// Diffusible hydrogen, ml/100 g of deposit.
    pub hydrogen_ml: f64,
}

/// A hold after welding, under pads on the heated zone.
#[derive(Debug, Clone, PartialEq)]
pub struct PostHeat {
    /// °C.
    pub at_c: f64,
    /// The hours that are planned; 0 is none.
    pub hours: f64,
    /// Further hours whose outcome is to stand beside it.
    pub beside_h: Vec<f64>,
    /// Shares of the hydrogen for which the hours are looked for.
    pub shares: Vec<f64>,
}

impl PostHeat {
    /// None: the part cools after the last pause.
    pub const NONE: Self = Self { at_c: 300.0, hours: 0.0, beside_h: Vec::new(), shares: Vec::new() };
}

/// What is kept of a cycle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Keep {
    /// Figures.
    #[default]
    Figures,
    /// The curves too.
    Curves,
    /// And the field of temperatures at moments, for the section.
    Fields,
}

/// The whole heat of a joint, from the first flame to cold.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatCycle {
    /// The joint.
    pub shape: JointShape,
    /// Length of a flat part along the weld, mm; `None`: it goes on past the heated zone.
    pub part_length_mm: Option<f64>,
    /// Factors on the conductivity of first member, second member and weld.
    pub conductivity: [f64; 3],
    /// Heat transfer between members that only touch, W/(m² K); `None`: shrunk or tight.
    pub gap_w_per_m2_k: Option<f64>,
    /// The shop, °C.
    pub shop_c: f64,
    /// Surfaces until the last pause, and in a hold beside its pads.
    pub surfaces: Surfaces,
    /// Surfaces of the cooling after it.
    pub cooling: Surfaces,
    /// What heats.
    pub source: Source,
    /// Faces that it reaches.
    pub reached: Reached,
    /// The heated zone: so far from a toe, mm.
    pub zone_mm: f64,
    /// The minimum must be there out to so far from a toe, mm.
    pub required_mm: f64,
    /// Minimum, °C.
    pub minimum_c: f64,
    /// Heated past the minimum by so much, K.
    pub reserve_k: f64,
    /// What no skin may pass, °C.
    pub ceiling_c: Option<f64>,
    /// Maximum interpass at weld and heat-affected zone, °C.
    pub interpass_c: Option<f64>,
    /// The passes in the order of welding.
    pub passes: Vec<Pass>,
    /// Between the end of an arc and whatever is next, s.
    pub pause_s: f64,
    /// What follows welding.
    pub post_heat: PostHeat,
    /// Does no hydrogen pass from the weld into its members? So it is where the zone beside it
    /// still is austenite.
    pub fusion_closed: bool,
    /// How fine.
    pub fineness: Fineness,
    /// What is kept.
    pub keep: Keep,
}

/// A part's temperature, °C.
const PART: Domain = Domain::new("T", 0.0, 650.0);
/// The flame keeps so far under a ceiling, K: ours, since the skin is an average over the zone.
pub(super) const UNDER_CEILING_K: f64 = 25.0;

impl HeatCycle {
    /// The heated length of a flat part, m; 1 for round ones, whose section is whole.
    pub(super) fn heated_length(&self) -> f64 {
        self.shape.weld_length_mm().map_or(1.0, |weld_mm| {
            let zone_mm = weld_mm + 2.0 * self.zone_mm;
            self.part_length_mm.map_or(zone_mm, |part_mm| part_mm.max(weld_mm).min(zone_mm)) * 1e-3
        })
    }

    /// What the part is heated to, °C.
    pub(super) fn goal_c(&self) -> f64 {
        self.minimum_c + self.reserve_k
    }

    /// Where the source is throttled, °C.
    pub(super) fn cap_c(&self) -> Option<f64> {
        let ceiling_c = self.ceiling_c.map(|ceiling_c| ceiling_c - UNDER_CEILING_K);
        match self.source {
            Source::Pads { set_c, .. } => Some(ceiling_c.map_or(set_c, |ceiling_c| ceiling_c.min(set_c))),
            Source::Torch { .. } => ceiling_c,
            // No skin gets hotter than the oven.
            Source::Oven { .. } => None,
        }
    }

    /// The same cycle of a part that loses so many times as much.
    #[must_use]
    pub fn losing(&self, times: f64) -> Self {
        Self { surfaces: self.surfaces.times(times), cooling: self.cooling.times(times), ..self.clone() }
    }

    /// The greatest hydrogen of its passes, ml/100 g.
    #[must_use]
    pub fn hydrogen_ml(&self) -> f64 {
        self.passes.iter().map(|pass| pass.hydrogen_ml).fold(0.0, f64::max)
    }

    pub(super) fn check(&self) -> Result<(), Refusal> {
        self.shape.check()?;
        Domain::new("T0", -40.0, 40.0).check(self.shop_c)?;
        PART.check(self.minimum_c)?;
        Domain::new("reserve", 0.0, 200.0).check(self.reserve_k)?;
        Domain::new("A", 1.0, 300.0).check(self.required_mm)?;
        Domain::new("Z", self.required_mm, 1000.0).check(self.zone_mm)?;
        PART.check(self.post_heat.at_c)?;
        for &hours in self.post_heat.beside_h.iter().chain([&self.post_heat.hours]) {
            Domain::new("t", 0.0, 48.0).check(hours)?;
        }
        for &share in &self.post_heat.shares {
            Domain::new("share", 1e-4, 1.0).check(share)?;
        }
        Domain::new("pause", 0.0, 86_400.0).check(self.pause_s)?;
        for pass in &self.passes {
            HEAT.check(pass.net_kj_per_mm)?;
            HYDROGEN.check(pass.hydrogen_ml)?;
            Domain::new("P arc", 100.0, 100_000.0).check(pass.arc_net_w)?;
        }
        for &factor in &self.conductivity {
            Domain::new("factor", 0.1, 2.0).check(factor)?;
        }
        self.gap_w_per_m2_k.map(|gap| Domain::new("h gap", 1.0, 1e6).check(gap)).transpose()?;
        let power = |power_w: f64| Domain::new("P", 1.0, 1e6).check(power_w);
        match self.source {
            Source::Torch { power_w } => power(power_w)?,
            Source::Pads { power_w, set_c } => power(power_w).and(PART.check(set_c))?,
            Source::Oven { at_c } => PART.check(at_c)?,
        };
        let goal_c = self.goal_c();
        if let Some(cap_c) = self.cap_c().filter(|&cap_c| goal_c >= cap_c) {
            return Err(Refusal::GoalAboveCap { goal_c, cap_c });
        }
        if let Source::Oven { at_c } = self.source
            && goal_c >= at_c
        {
            return Err(Refusal::GoalAboveCap { goal_c, cap_c: at_c });
        }
        match self.interpass_c.filter(|&most_c| most_c <= self.minimum_c) {
            Some(most_c) => Err(Refusal::NoWindow { minimum_c: self.minimum_c, most_c }),
            None => Ok(()),
        }
    }
}
