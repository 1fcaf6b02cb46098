//! A caution: a row of `data/cautions.ron`. Its words are the Fluent message
//! `caution-ID` with the attributes `trigger`, `why` and `do`.

use serde::{Deserialize, Serialize};

use super::{Assembly, Basis, Cavity, Cleaner, Coating, Grinder, HeatSource, Inspection, Row, WorkPlace};

/// Where the hand is: what the person is about to do.
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
    /// Look the part over before anything touches it.
    LookOver,
    /// Cut: saw, disc, flame or plasma.
    Cut,
    /// Grind, brush or chip.
    Grind,
    /// Clean, weld or heat coated or contaminated metal.
    CoatedMetal,
    /// Light a torch, heat with a flame.
    LightTorch,
    /// Heat with mats, a coil or a furnace, and let it cool.
    HeatOtherwise,
    /// Strike an arc.
    StrikeArc,
    /// Handle or fit hot or frozen metal.
    HandleHotOrFrozen,
    /// Work in a confined space, or on a closed vessel.
    ConfinedSpace,
    /// Test and inspect.
    Inspect,
}

impl Place {
    /// All places in the order in which they are shown.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The stable id; its words are the Fluent message `safety-place-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// How badly a person can be hurt: the signal words of ISO 3864-2 and ANSI Z535, the worst
/// first. What spoils the part alone is no caution: it belongs to the steps of the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Severity {
    /// Kills or maims where it is not avoided.
    Danger,
    /// Can kill or maim.
    Warning,
    /// Can injure.
    Caution,
}

/// When it does its harm, in the order in which it is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Harm {
    /// It has to be named and off the part before flame, arc or grinder touches it at all.
    BeforeWork,
    /// It kills or maims today.
    Today,
    /// It injures today.
    Injures,
    /// It kills or harms in years.
    Later,
}

/// What a row is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum Role {
    /// One of the five fixed lines that begin every briefing.
    Briefing,
    /// A caution.
    #[default]
    Caution,
    /// What to do when it has happened. Not counted among cautions.
    FirstAid,
}

/// What in a job brings a caution up. All of it can be answered from the job and its plan.
#[derive(
    Debug, Clone, Copy, PartialEq, Serialize, Deserialize, strum::IntoStaticStr, strum::VariantNames,
)]
pub enum Trigger {
    /// It is said what heats the parts.
    HeatSource(HeatSource),
    /// Acetylene or another gas from more than one cylinder.
    SeveralCylinders,
    /// A flame in a closed room or a confined space.
    FlameInClosedRoom,
    /// A flame in a confined space.
    FlameInConfinedSpace,
    /// An arc is used in a confined space.
    ArcInConfinedSpace,
    /// It is said what is on the metal.
    Coating(Coating),
    /// A part is stainless, or a filler leaves more than 3 % chromium.
    Stainless,
    /// A part has more than 3 % chromium.
    HighChromium,
    /// A part has more than 3 % manganese.
    HighManganese,
    /// A part is of steel with lead in it.
    LeadedSteel,
    /// It is said that a copper alloy is near the heat.
    CopperAlloy,
    /// It is said what the part was cleaned with.
    Cleaner(Cleaner),
    /// It is said that rubber or PTFE is near the heat.
    Seals,
    /// It is said what a cavity holds.
    Cavity(Cavity),
    /// A boss or pin through a plate shuts a space in, and nothing is said of cavities.
    CavityLikely,
    /// It is said how the parts are held or fitted.
    Assembly(Assembly),
    /// A part is of spring steel, and nothing is said of load.
    SpringLikely,
    /// It is said that there is a battery, electronics or fuel.
    Battery,
    /// It is said where the work is done.
    Place(WorkPlace),
    /// It is said that the person works alone.
    Alone,
    /// It is said what is ground with.
    Grinder(Grinder),
    /// The plan has something ground off, and nothing is said of a grinder.
    GrindingPlanned,
    /// It is said that the grinder takes light metal too.
    LightMetal,
    /// It is said that the part is lifted.
    Lifted,
    /// The same, and the plan's preheat is above 60 °C.
    LiftedHot,
    /// The plan's preheat is above this temperature, °C.
    PreheatAbove(f64),
    /// It is said that heat or slow cooling goes on when nobody is there.
    Overnight,
    /// The plan's post-heat goes on after hours, and nothing is said of the night.
    LongPostHeat,
    /// It is said how the weld is inspected.
    Inspection(Inspection),
}

/// One caution.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    /// Stable id: `c001` and on.
    pub id: String,
    /// Topic within the dataset: `grinding`, `torch` …
    pub topic: String,
    /// What the row is for.
    #[serde(default)]
    pub role: Role,
    /// Where it is listed; a line of the briefing and first aid are listed by themselves.
    #[serde(default)]
    pub places: Vec<Place>,
    /// How badly it can end.
    pub severity: Severity,
    /// When it does its harm.
    pub harm: Harm,
    /// Its place among rows of the same harm, written by hand.
    pub rank: u16,
    /// What brings it up as a thing that the job says.
    #[serde(default)]
    pub stated: Vec<Trigger>,
    /// What brings it up as a thing that such a job is likely to have.
    #[serde(default)]
    pub assumed: Vec<Trigger>,
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
