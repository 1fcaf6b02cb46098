//! What a step of the work is: its phase, its deed, its figure.

use strum::{EnumIter, IntoStaticStr};

use super::note::Note;
use crate::engine::plan::{Limit, minimum, upper};
use crate::reference::{Basis, Printed};

/// Where in the work a step stands; the order of the variants is the order of time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, EnumIter, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Phase {
    /// Make the place safe.
    MakeSafe,
    /// A trial piece, before the part itself.
    Trial,
    /// Clean and dry.
    Clean,
    /// What a repair finds goes.
    Repair,
    /// A hardened layer goes.
    HardLayer,
    /// Edges cut by flame or plasma.
    Edges,
    /// The return lead.
    Return,
    /// Electrodes and flux.
    Consumables,
    /// The buttering.
    Butter,
    /// Preheat.
    Heat,
    /// Measure it.
    Measure,
    /// Tack.
    Tack,
    /// Weld.
    Weld,
    /// If the work must stop.
    Stop,
    /// Post-heat.
    PostHeat,
    /// Cool.
    Cool,
    /// Heat treatment after welding.
    HeatTreat,
    /// Tempered once more after it.
    TemperAgain,
    /// The final inspection.
    Inspect,
}

impl Phase {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// The fact that parts two ways of going on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, EnumIter, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Branch {
    /// A furnace is at hand straight after welding.
    FurnaceAtHand,
    /// None is.
    NoFurnace,
    /// Iron, the cold method.
    IronCold,
    /// Iron, the hot method.
    IronHot,
}

impl Branch {
    /// Stable id; its words are the Fluent message `then-branch-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// What is done, within a phase in the order of the work; its words are the Fluent message `then-ID`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, EnumIter, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Deed {
    /// Make the place safe.
    MakeSafe,
    /// Weld a trial piece.
    TrialPiece,
    /// Clean the joint; a preheat dries it.
    Clean,
    /// Clean the joint and warm it until it is dry.
    CleanAndDry,
    /// Drive the oil out of the metal.
    DriveOilOut,
    /// Take a hardfacing off.
    TakeFacingOff,
    /// Take an old weld out.
    TakeWeldOut,
    /// Find both ends of a crack.
    TraceCrack,
    /// Gouge it out.
    GougeCrack,
    /// Turn a worn part down, so that enough weld stays.
    TurnDown,
    /// Grind a hardened layer off.
    GrindLayer,
    /// Grind thermal-cut edges.
    CutEdges,
    /// Butter a part hot.
    Butter,
    /// Butter a part that needs no preheat for it.
    ButterCold,
    /// Clamp the return lead where it can't burn the part.
    ClampReturn,
    /// Dry electrodes and flux.
    DryConsumables,
    /// Preheat the zone.
    Preheat,
    /// Iron, cold: warm the part a little.
    WarmIron,
    /// Iron, hot: heat the whole part.
    HeatIron,
    /// Measure.
    Measure,
    /// Tack.
    Tack,
    /// Weld inside the working range.
    Weld,
    /// Weld without preheat.
    WeldCold,
    /// Iron, cold: short beads.
    WeldBeads,
    /// Iron, hot: without a stop.
    WeldThrough,
    /// If the work must stop.
    Stop,
    /// Straight from the heat into a furnace.
    FurnaceFirst,
    /// Post-heat.
    PostHeat,
    /// Post-heat where the part was welded hotter than M90.
    PostHeatIfHot,
    /// Too cool for a post-heat: a longer wait at the minimum.
    LongerWait,
    /// Too cool even for that.
    NoPostHeat,
    /// Post-heat of a steel with a sheet of its own, for which no hours are known here.
    PostHeatBySheet,
    /// Cool slowly.
    CoolSlowly,
    /// Cool in still air.
    CoolStill,
    /// Iron, hot: cool no faster than a rate.
    CoolByRate,
    /// Cool part of the way, on the way to a furnace.
    CoolToTemper,
    /// Temper straight after.
    TemperNow,
    /// Heat-treat straight after, a steel that needs it.
    HeatTreatNow,
    /// Temper again, once the furnace has let it cool.
    TemperAgain,
    /// Heat-treat later.
    HeatTreatLater,
    /// Heat-treat only where a document asks it.
    HeatTreatIfAsked,
    /// No stress relief.
    NoStressRelief,
    /// No heat treatment that embrittles austenitic weld metal.
    NoHotTreatment,
    /// Inspect after a wait.
    Inspect,
    /// Inspect when it is cold.
    InspectCold,
}

impl Deed {
    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// Where in the work it stands.
    #[must_use]
    pub const fn phase(self) -> Phase {
        match self {
            Self::MakeSafe => Phase::MakeSafe,
            Self::TrialPiece => Phase::Trial,
            Self::Clean | Self::CleanAndDry => Phase::Clean,
            Self::DriveOilOut
            | Self::TakeFacingOff
            | Self::TakeWeldOut
            | Self::TraceCrack
            | Self::GougeCrack
            | Self::TurnDown => Phase::Repair,
            Self::GrindLayer => Phase::HardLayer,
            Self::CutEdges => Phase::Edges,
            Self::Butter | Self::ButterCold => Phase::Butter,
            Self::ClampReturn => Phase::Return,
            Self::DryConsumables => Phase::Consumables,
            Self::Preheat | Self::WarmIron | Self::HeatIron => Phase::Heat,
            Self::Measure => Phase::Measure,
            Self::Tack => Phase::Tack,
            Self::Weld | Self::WeldCold | Self::WeldBeads | Self::WeldThrough => Phase::Weld,
            Self::Stop => Phase::Stop,
            Self::FurnaceFirst
            | Self::PostHeat
            | Self::PostHeatIfHot
            | Self::LongerWait
            | Self::NoPostHeat
            | Self::PostHeatBySheet => Phase::PostHeat,
            Self::CoolSlowly | Self::CoolStill | Self::CoolByRate | Self::CoolToTemper => Phase::Cool,
            Self::TemperNow
            | Self::HeatTreatNow
            | Self::HeatTreatLater
            | Self::HeatTreatIfAsked
            | Self::NoStressRelief
            | Self::NoHotTreatment => Phase::HeatTreat,
            Self::TemperAgain => Phase::TemperAgain,
            Self::Inspect | Self::InspectCold => Phase::Inspect,
        }
    }
}

/// An end of a range: exact, and as its source prints it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Exact, °C.
    pub exact_c: f64,
    /// As printed.
    pub printed: Option<Printed>,
}

impl Edge {
    /// A figure of our own.
    #[must_use]
    pub const fn own(exact_c: f64) -> Self {
        Self { exact_c, printed: None }
    }

    /// A limit of the plan.
    #[must_use]
    pub const fn of(limit: &Limit) -> Self {
        Self { exact_c: limit.exact_c, printed: limit.printed }
    }

    /// As shown in °C, as a minimum.
    #[must_use]
    pub fn least_c(&self) -> f64 {
        minimum::as_shown_c(self.exact_c, self.printed)
    }

    /// As shown in °C, as a maximum.
    #[must_use]
    pub fn most_c(&self) -> f64 {
        upper::as_shown_c(self.exact_c, self.printed)
    }
}

/// The one figure of a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StepFigure {
    /// At least.
    Least(Edge),
    /// At most.
    Most(Edge),
    /// From one to the other.
    Range(Edge, Edge),
    /// From one temperature to another as a source prints them, °C.
    Printed(f64, f64),
    /// A distance from the weld, mm.
    Away(f64),
    /// Hours, as they are shown.
    Hours(f64),
    /// No sooner than so many hours.
    After(f64),
}

/// One step.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What is done.
    pub deed: Deed,
    /// The part that it is done to, where it is one.
    pub member: Option<usize>,
    /// Its figure.
    pub figure: Option<StepFigure>,
    /// What is said with it, in order.
    pub notes: Vec<Note>,
    /// What the figure rests on.
    pub basis: Basis,
}

impl Step {
    /// A step that is common practice and has no figure.
    #[must_use]
    pub(super) fn new<const N: usize>(deed: Deed, notes: [Note; N]) -> Self {
        Self { deed, member: None, figure: None, notes: notes.to_vec(), basis: Basis::Practice }
    }

    /// The same with a figure.
    #[must_use]
    pub(super) fn with(mut self, figure: StepFigure, basis: &Basis) -> Self {
        self.figure = Some(figure);
        self.basis = basis.clone();
        self
    }

    /// Its phase.
    #[must_use]
    pub const fn phase(&self) -> Phase {
        self.deed.phase()
    }
}
