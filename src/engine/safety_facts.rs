//! What the job tells for the sake of safety. Nothing of it changes a figure of the plan; what is
//! not told is `None`, and is asked for by [`Fact`].

use crate::reference::{Assembly, Cavity, Cleaner, Coating, Grinder, HeatSource, Inspection, WorkPlace};

/// What was told. `None` is "not told", which is not "no".
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct SafetyFacts {
    /// What heats the parts.
    pub heat_source: Option<HeatSource>,
    /// How many gas cylinders are coupled or in use.
    pub cylinders: Option<u32>,
    /// What is on the metal.
    pub coating: Option<Coating>,
    /// A closed space.
    pub cavity: Option<Cavity>,
    /// What the part was cleaned with.
    pub cleaner: Option<Cleaner>,
    /// How the parts are held or fitted.
    pub assembly: Option<Assembly>,
    /// Where the work is done.
    pub place: Option<WorkPlace>,
    /// Does the person work alone?
    pub alone: Option<bool>,
    /// Is a copper alloy in or near the heat?
    pub copper_alloy: Option<bool>,
    /// Is rubber or PTFE in or near the heat?
    pub seals: Option<bool>,
    /// Is a battery, electronics or fuel on the machine?
    pub battery: Option<bool>,
    /// What is ground with.
    pub grinder: Option<Grinder>,
    /// Does the grinder or its extractor also take light metal?
    pub light_metal: Option<bool>,
    /// Is the part lifted with tackle?
    pub lifted: Option<bool>,
    /// Does heat or slow cooling go on when nobody is there?
    pub overnight: Option<bool>,
    /// How the weld is inspected.
    pub inspection: Option<Inspection>,
}

/// A fact that a job can be asked for because a caution hangs on it.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, strum::IntoStaticStr, strum::VariantArray,
)]
#[strum(prefix = "not-told-", serialize_all = "kebab-case")]
pub enum Fact {
    /// What is on the metal.
    Coating,
    /// A closed space.
    Cavity,
    /// What the part was cleaned with.
    Cleaner,
    /// Where the work is done.
    Place,
    /// What heats the parts.
    HeatSource,
    /// How the parts are held or fitted.
    Assembly,
    /// Rubber or PTFE in or near the heat.
    Seals,
    /// A copper alloy in or near the heat.
    CopperAlloy,
}

impl Fact {
    /// The Fluent message that names it within a list.
    #[must_use]
    pub fn key(self) -> &'static str {
        self.into()
    }

    /// The id of the job's field.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.key().strip_prefix("not-told-").unwrap_or_default()
    }
}
