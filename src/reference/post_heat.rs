//! How hydrogen leaves a weld, and what the trade holds after welding: `data/post_heat.ron`.

use serde::{Deserialize, Serialize};

use super::{Basis, Row};

/// The diffusivity of hydrogen at one temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DiffusivityPoint {
    /// Temperature, °C.
    pub at_c: f64,
    /// Effective diffusivity in ferrite, bainite and martensite, cm²/s.
    pub cm2_per_s: f64,
    /// What it rests on.
    pub basis: Basis,
}

/// The two ends between which published diffusivities lie, each from cold to hot and never
/// slower where it is hotter.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DiffusivityCurves {
    /// The slow end.
    pub slow: Vec<DiffusivityPoint>,
    /// The fast end.
    pub fast: Vec<DiffusivityPoint>,
}

/// Steel that holds hydrogen in traps.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Trapping {
    /// So many times slower.
    pub times: f64,
    /// From this chromium on, %.
    pub chromium_percent: f64,
    /// From this vanadium on, %.
    pub vanadium_percent: f64,
    /// What it rests on.
    pub basis: Basis,
}

/// Hydrogen in austenite, and what a weld does that still holds some.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AusteniteHold {
    /// Factor of the Arrhenius equation, cm²/s.
    pub factor_cm2_per_s: f64,
    /// Energy of the Arrhenius equation, J/mol.
    pub energy_j_per_mol: f64,
    /// What the equation rests on.
    pub basis: Basis,
    /// Hours that a hardenable zone above M90 needs to turn, before a hold counts.
    pub turning_h: f64,
    /// What the hours rest on.
    pub turning_basis: Basis,
    /// The weld may fall once below M90 where that is at least this, °C.
    pub drop_from_c: f64,
    /// It never falls below this, °C.
    pub drop_floor_c: f64,
    /// The hold after the drop stays this much under M90, K.
    pub under_m90_k: f64,
    /// A span that a shop can keep, K.
    pub usable_k: f64,
    /// What the drop rests on.
    pub drop_basis: Basis,
}

/// The hours of a rule up to one size of weld.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SizeStep {
    /// Up to and including this size, mm.
    pub up_to_mm: f64,
    /// Hours.
    pub hours: f64,
}

/// How a rule states its time.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum RuleTime {
    /// The same for every weld.
    Fixed {
        /// Hours, lower end.
        low_h: f64,
        /// Hours, upper end.
        high_h: f64,
    },
    /// By the depth of weld.
    PerDepth {
        /// For each so many mm.
        each_mm: f64,
        /// Hours for each, lower end.
        low_h: f64,
        /// Hours for each, upper end.
        high_h: f64,
        /// Never less, h.
        at_least_h: f64,
    },
    /// By steps of weld size, from small to large.
    BySize(Vec<SizeStep>),
}

impl RuleTime {
    /// Does the rule know how large the weld is?
    #[must_use]
    pub const fn knows_size(&self) -> bool {
        !matches!(self, Self::Fixed { .. })
    }

    /// Hours for a weld of this size, lower and upper end, and whether the rule ends before
    /// it, so that they are "at least".
    #[must_use]
    pub fn hours(&self, size_mm: f64) -> (f64, f64, bool) {
        match self {
            Self::Fixed { low_h, high_h } => (*low_h, *high_h, false),
            Self::PerDepth { each_mm, low_h, high_h, at_least_h } => {
                let of = |hours: f64| (hours * size_mm / each_mm).max(*at_least_h);
                (of(*low_h), of(*high_h), false)
            }
            Self::BySize(steps) => {
                let step = steps.iter().find(|step| size_mm <= step.up_to_mm);
                let hours = step.or(steps.last()).map_or(0.0, |step| step.hours);
                (hours, hours, step.is_none())
            }
        }
    }
}

/// A rule for post-heat that a text or the trade gives. Its words are the Fluent message
/// `answer-ID`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PostHeatRule {
    /// Stable id in kebab-case: the name of its answer.
    pub id: String,
    /// At this temperature or more, °C; not stated where it holds the preheat.
    pub low_c: Option<f64>,
    /// At this temperature or less, °C.
    pub high_c: Option<f64>,
    /// Does it hold the preheat?
    #[serde(default)]
    pub at_preheat: bool,
    /// Its hours.
    pub time: RuleTime,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for PostHeatRule {
    fn id(&self) -> &str {
        &self.id
    }
}

/// The whole file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PostHeatData {
    /// Share of the hydrogen that may stay at the worst place.
    pub left: f64,
    /// A post-heat begins at this temperature, °C.
    pub from_c: f64,
    /// A longer wait in its place has hours from this temperature on, °C.
    pub wait_from_c: f64,
    /// The path out of a fillet is its throat and this, mm.
    pub fillet_more_mm: f64,
    /// How fast hydrogen moves.
    pub diffusivity: DiffusivityCurves,
    /// Steel that holds it.
    pub trapping: Trapping,
    /// Austenite.
    pub austenite: AusteniteHold,
    /// What texts and the trade hold.
    pub rules: Vec<PostHeatRule>,
}
