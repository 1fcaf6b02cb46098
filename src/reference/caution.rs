//! A caution: a row of `data/cautions.ron`. Its words are the Fluent message
//! `caution-ID` with the attributes `trigger`, `why` and `do`.

use serde::{Deserialize, Serialize};

use super::{ArcKind, Basis, Row};

/// What the person is about to do.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    Hash,
    PartialOrd,
    Ord,
    Serialize,
    Deserialize,
    strum::IntoStaticStr,
    strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Place {
    /// Grind, cut, brush or chip.
    Grind,
    /// Light a torch, heat with a flame.
    LightTorch,
    /// Strike an arc.
    StrikeArc,
    /// Handle hot or frozen metal.
    HandleHotOrFrozen,
    /// Weld, heat or clean coated or contaminated metal.
    CoatedMetal,
    /// Work in a tight place, or on a closed vessel.
    TightPlace,
}

impl Place {
    /// All places in the order in which they are shown.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The stable id; its words are the Fluent message `place-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// How badly it can end, the worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Severity {
    /// It can kill or maim, or lose the part for certain.
    Critical,
    /// Serious injury, or a cracked part.
    High,
    /// Lasting harm over time, or a spoiled weld.
    Medium,
    /// A nuisance.
    Low,
}

/// The step of the work that it belongs to, in the order of the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum WorkStep {
    /// Before anything is touched: place, cylinders, part.
    Prepare,
    /// Grinding, degreasing, stripping.
    Clean,
    /// Preheating.
    Heat,
    /// Shrink fit and assembly.
    Fit,
    /// Tacking.
    Tack,
    /// Welding.
    Weld,
    /// Post-heat and slow cooling.
    Cool,
    /// Inspection, and what to do after an accident.
    Check,
}

/// What in a job brings a caution up. All of it can be answered from the job.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Trigger {
    /// Every job.
    Always,
    /// The plan asks for a preheat.
    AnyPreheat,
    /// The plan's preheat is above this temperature, °C.
    PreheatAbove(f64),
    /// The heat comes from a flame.
    FlamePreheat,
    /// Any arc process.
    AnyArc,
    /// One kind of arc process.
    Process(ArcKind),
    /// Something is ground: joint preparation, case removal, repair, cleaning.
    GrindingFirst,
    /// A member is a hardenable steel (families H, P and Q).
    HardenableSteel,
    /// A member is hardened and tempered.
    TemperedPart,
    /// A member is leaded.
    LeadedSteel,
    /// A member is resulphurised.
    SulphurSteel,
    /// A member is stainless.
    Stainless,
    /// A member or the filler has more than 3 % chromium.
    HighChromium,
    /// A member or the filler has more than 3 % manganese.
    HighManganese,
    /// A member is cast iron.
    CastIron,
    /// The part may be plated, painted or oiled: used parts, unknown steel, repairs.
    CoatedPossible,
    /// A hardened case or skin has to come off.
    CaseHardenedRemoval,
    /// A boss, pin or tube through a plate: a blind hole or closed bore is likely.
    BossOrPinThrough,
    /// A shrink fit is part of the job.
    ShrinkFit,
    /// A pin is shrunk with dry ice or liquid nitrogen.
    FrozenPin,
    /// The plan asks for post-heat.
    PostHeat,
    /// The part cools slowly under a blanket, often overnight.
    OvernightSlowCool,
    /// Final inspection has to wait for delayed cracking.
    HydrogenDelay,
    /// Repair of a used part.
    Repair,
    /// The joint has flame-cut, plasma-cut or laser-cut edges.
    ThermalCutEdge,
    /// The shop or the steel is below 5 °C, or the air is very humid.
    ColdShop,
    /// The filler is austenitic.
    AusteniticFiller,
    /// The filler is a copper alloy or a brazing alloy.
    BrazeFiller,
    /// Work inside a tank, pit or other tight place.
    TightPlace,
    /// A person with an implant is near, or high frequency is used to start.
    HighFrequencyStart,
}

/// A trigger, and how directly it leads to the harm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Triggered {
    /// What in the job brings the caution up.
    pub when: Trigger,
    /// 3: the job does just this; 2: likely in such a job; 1: good to know.
    pub directness: u8,
}

/// One caution.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    /// Stable id: `c001` and on.
    pub id: String,
    /// Topic within the dataset: `grinding`, `torch`, `first-aid` …
    pub topic: String,
    /// Where it is listed.
    pub places: Vec<Place>,
    /// How badly it can end.
    pub severity: Severity,
    /// The step of the work.
    pub step: WorkStep,
    /// What in a job brings it up.
    pub triggers: Vec<Triggered>,
    /// What it rests on.
    pub basis: Basis,
    /// Is a part of it from memory, whatever the rest stands on? Its words (`.memory`) say which.
    #[serde(default)]
    pub memory_part: bool,
    /// Further sources.
    #[serde(default)]
    pub see: Vec<String>,
}

impl Caution {
    /// The Fluent message with its words.
    #[must_use]
    pub fn message(&self) -> String {
        format!("caution-{}", self.id)
    }
}

impl Row for Caution {
    fn id(&self) -> &str {
        &self.id
    }
}
