//! What is said with a step: how it is done, what goes wrong, why.

use strum::IntoStaticStr;

use super::Edge;

/// What is said with a step: how it is done, what goes wrong, why; its words are the Fluent
/// message `then-note-ID`.
#[derive(Debug, Clone, Copy, PartialEq, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Note {
    /// The safety notes come first.
    SafetyNotes,
    /// The trial piece goes through all the steps.
    TryEachStep,
    /// What dirt brings.
    DirtyJoint,
    /// The water of a flame on cold steel.
    FlameWater,
    /// How oil leaves a casting.
    OilFromIron {
        /// At about this, °C.
        at_c: f64,
        /// For so long, min.
        minutes: f64,
    },
    /// How oil leaves steel.
    OilFromSteel,
    /// Solvents burn on warm metal.
    NoHotSolvent,
    /// A first run over oil is porous.
    PorousRun,
    /// Hardfacing is cracked by design.
    FacingCracks,
    /// What tells an old filler.
    OldWeldTests,
    /// Never over it.
    OldWeldOver,
    /// How the ends are found.
    CrackEnds,
    /// Why it cracked.
    CrackCause,
    /// The groove.
    CrackGroove {
        /// Its radius, mm.
        radius_mm: f64,
    },
    /// Gouged hot, as it is welded.
    HotGouge,
    /// Two layers stay.
    TwoLayers,
    /// A carburised case.
    CarbonCase,
    /// A hardened layer.
    HardLayer,
    /// A thermal-cut edge.
    HardEdge,
    /// Preheat before cutting again.
    BeforeCutting,
    /// How thick a buttering is.
    ThickButtering,
    /// A buttering is heated, measured and cooled like any weld.
    LikeAWeld,
    /// The layer on a steel that hardens is tempered.
    TemperLayer,
    /// The figures are those of the buttering.
    ForButtering,
    /// A loose return clamp.
    LooseClamp,
    /// No current through bearings and fits.
    CurrentPath,
    /// Damp consumables.
    DampConsumables,
    /// How wide the heated zone is.
    Zone {
        /// To each side of the weld, mm.
        mm: f64,
    },
    /// Not the bore of a plate alone.
    WholePlate,
    /// Bearings out.
    Bearings,
    /// A neutral flame that moves.
    MovingFlame,
    /// The ceiling.
    Ceiling(Edge),
    /// The ceiling while it is welded: the heat treatment after it goes higher.
    CeilingOfWelding(Edge),
    /// The drawing and not the steel sets the minimum.
    ByDrawing,
    /// The whole part, evenly.
    WholePart,
    /// Where the probe goes.
    FromWeld {
        /// From the edge of the weld, mm.
        mm: f64,
        /// At least?
        at_least: bool,
    },
    /// The thick part lags.
    ThickPart {
        /// The part.
        member: usize,
    },
    /// On the far face, or after a wait.
    FarFace {
        /// The wait, min.
        wait_min: f64,
    },
    /// Long tacks.
    LongTacks,
    /// A cracked tack goes.
    CrackedTack,
    /// Measured before each run.
    EachRun,
    /// The same where there is no minimum.
    EachRunCold,
    /// The arc starts in the joint.
    ArcStrikes,
    /// Craters are filled.
    Craters,
    /// Too fast a cooling.
    CoolsFast {
        /// The part.
        member: usize,
        /// The net heat input that mends it, kJ/mm.
        heat: f64,
    },
    /// Too slow a cooling.
    CoolsSlow {
        /// The part.
        member: usize,
    },
    /// The longest bead, mm.
    BeadLength {
        /// Length, mm.
        mm: f64,
    },
    /// Peen, wait, measure.
    PeenBeads,
    /// Iron can't stretch.
    IronCracks,
    /// No stop on the hot way.
    WithoutStop,
    /// A third filled before a stop.
    ThirdFilled,
    /// What if it can't be kept hot.
    OrPostHeat,
    /// The same where the plan has no post-heat.
    OrCoolSlowly,
    /// The same for steel that must turn first.
    OrTurnFirst,
    /// Before the next run.
    BeforeNextRun,
    /// What is held: the temperatures of a post-heat.
    HeldAt {
        /// Cold end.
        low: Edge,
        /// Hot end.
        high: Edge,
    },
    /// The minimum lies above M90.
    MinimumAboveM90,
    /// Hotter than M90 austenite is left.
    AboveM90,
    /// Nobody keeps a joint hot so long.
    NotPracticable,
    /// What rules of thumb hold, h.
    TradeHours {
        /// An hour an inch.
        field_h: f64,
        /// By the depth, lower end.
        low_h: f64,
        /// And upper end.
        high_h: f64,
    },
    /// The furnace takes the place of a hold.
    ReplacesHold,
    /// What was left of the austenite has turned hard after the furnace.
    TurnedAfter,
    /// The weld's size, which nobody told.
    SizeAssumed {
        /// Size, mm.
        mm: f64,
        /// Is it told by the leg of a fillet?
        fillet: bool,
    },
    /// The weld's size.
    SizeCounted {
        /// Size, mm.
        mm: f64,
    },
    /// An hour for the austenite.
    TurningHour,
    /// The other way: once below M90.
    BelowM90,
    /// Why no post-heat counts.
    TooCool,
    /// Austenitic weld metal keeps its hydrogen.
    KeepsHydrogen,
    /// No hours are known here.
    HoursBySheet,
    /// Cooled so far it turns.
    TurnFirst,
    /// First cool so far that it turns.
    TurnBefore,
    /// No water, no draught.
    NoWater,
    /// A covered part stays hot.
    StaysHot,
    /// How fast it may cool, K/h.
    CoolingRate {
        /// K/h.
        k_per_h: f64,
    },
    /// Supported and aligned.
    Supported,
    /// Never cold before it is tempered.
    NotCold,
    /// The same after the furnace that took the place of a hold.
    BackFromHere,
    /// Why it must be tempered: it was welded above Ms.
    AboveMs,
    /// Why it must be heat-treated: hard and full of hydrogen.
    HardUntilTreated,
    /// A code may spare thin carbon-molybdenum steel.
    CodeMayExempt,
    /// Straight from the preheat.
    FromPreheat,
    /// What it must not carry until then.
    NoLoad,
    /// What is printed for a part.
    PrintedTreatment {
        /// The part.
        member: usize,
    },
    /// The same, which passes the ceiling.
    OverCeiling {
        /// The part that it is printed for.
        member: usize,
        /// The part that loses strength above the ceiling.
        loser: usize,
        /// The ceiling.
        ceiling: Edge,
    },
    /// No heat treatment before the tempering temperature is known.
    TemperFirst,
    /// Stress relief takes strength.
    LosesStrength,
    /// Austenitic weld metal turns brittle.
    TurnsBrittle,
    /// Cracks come late.
    LateCracks,
}

impl Note {
    /// Stable id.
    #[must_use]
    pub fn id(&self) -> &'static str {
        self.into()
    }
}
