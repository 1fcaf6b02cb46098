//! What is asked of a post-heat, and what is answered.

use super::WeldPath;
use crate::reference::Basis;

/// The post-heat that is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PostHeatQuery {
    /// The weld.
    pub weld: WeldPath,
    /// Diffusible hydrogen that goes in, ml/100 g of deposit.
    pub hydrogen_ml: f64,
    /// Minimum preheat of the joint, °C: a hold is never below it, but after a drop under M90.
    pub minimum_c: f64,
    /// The lower of maximum interpass and ceiling, °C.
    pub most_c: f64,
    /// The lowest M90 of the members that harden, °C; `None` where none does.
    pub m90_c: Option<f64>,
    /// The most chromium of weld metal and hardenable members, %; `None` where it is not known.
    pub chromium_percent: Option<f64>,
    /// The same of vanadium.
    pub vanadium_percent: Option<f64>,
    /// Austenitic or nickel weld metal?
    pub austenitic_weld_metal: bool,
}

/// Hours in a span of temperature. They hold at its cold end, so anywhere in it.
#[derive(Debug, Clone, PartialEq)]
pub struct Hold {
    /// Hours.
    pub hours: f64,
    /// The span, °C: cold end.
    pub low_c: f64,
    /// The span, °C: hot end.
    pub high_c: f64,
    /// Of the hours, those in which austenite turns and no hydrogen is counted.
    pub turning_h: f64,
    /// What sets the hours.
    pub set_by: SetBy,
    /// What they rest on.
    pub basis: Basis,
}

impl Hold {
    /// The hours as they are shown: up to the next half, and from ten on to the next whole one.
    #[must_use]
    pub fn shown_h(&self) -> f64 {
        // A hair over a step is the step.
        let up = |step: f64| ((self.hours - 1e-9) / step).ceil() * step;
        if self.hours <= 10.0 { up(0.5) } else { up(1.0) }
    }
}

/// What sets the hours of a hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SetBy {
    /// The published practice for a weld of this size.
    Practice,
    /// The way out of the weld, with the slow diffusivity.
    Diffusion,
}

/// What is done after welding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Way {
    /// A post-heat.
    PostHeat,
    /// The part must stay cooler than any post-heat: a longer wait at its minimum.
    LongerWait,
    /// The weld metal holds its hydrogen: no post-heat drives it out.
    WeldMetalHolds,
}

/// A hold after one drop under M90, where the zone beside the weld has turned.
#[derive(Debug, Clone, PartialEq)]
pub struct BelowM90 {
    /// The hold.
    pub hold: Hold,
    /// Does the weld go below its minimum for it?
    pub drops: bool,
    /// By the other rule for martensite (Koistinen and Marburger) this share of the
    /// austenite may still be there at the hot end.
    pub austenite_left: f64,
    /// What the drop rests on.
    pub basis: Basis,
}

/// The hours of the closed form alone, at the cold end of the span.
#[derive(Debug, Clone, PartialEq)]
pub struct ByDiffusion {
    /// By the slow, the middle and the fast diffusivity.
    pub hours: [f64; 3],
    /// The slow diffusivity, cm²/s.
    pub slow_cm2_per_s: f64,
    /// The length that it counts with, mm.
    pub path_mm: f64,
    /// What the slow one rests on.
    pub basis: Basis,
}

/// A rule of a text or of the trade, with its hours for this weld.
#[derive(Debug, Clone, PartialEq)]
pub struct RuleHours {
    /// Id of its row.
    pub id: String,
    /// Hours, lower end.
    pub low_h: f64,
    /// Hours, upper end.
    pub high_h: f64,
    /// Does the rule end before a weld of this size?
    pub at_least: bool,
    /// What it rests on.
    pub basis: Basis,
}

/// What is done after welding: one figure, and the rest beside it.
#[derive(Debug, Clone, PartialEq)]
pub struct PostHeatAnswer {
    /// Post-heat, a longer wait, or neither.
    pub way: Way,
    /// The one figure. None for weld metal that holds its hydrogen, and for a wait that is
    /// too cold to count on.
    pub main: Option<Hold>,
    /// The other way: once below M90.
    pub below_m90: Option<BelowM90>,
    /// The same hold at the hot end of the span, where that is shorter.
    pub hot_end: Option<Hold>,
    /// The same hold where traps hold hydrogen: for steel with that much chromium or vanadium.
    pub trapped: Option<Hold>,
    /// The closed form alone.
    pub diffusion: Option<ByDiffusion>,
    /// What texts and the trade hold, for this weld; those that hold hotter than the part may be
    /// are left out.
    pub rules: Vec<RuleHours>,
    /// The most hydrogen that is left at the worst place after the hold, ml/100 g.
    pub left_ml: Option<f64>,
    /// Hours in which austenitic weld metal would lose as much.
    pub austenite_h: Option<f64>,
}
