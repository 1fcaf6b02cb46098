//! Welding processes and hydrogen designators: `data/processes.ron`.

use serde::{Deserialize, Serialize};

use super::{Basis, Row};

/// The kinds of arc.
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
pub enum ArcKind {
    /// Gas tungsten arc.
    Gtaw,
    /// Plasma arc.
    Paw,
    /// Gas metal arc, solid or metal-cored wire.
    Gmaw,
    /// Flux-cored arc.
    Fcaw,
    /// Shielded metal arc: covered electrode.
    Smaw,
    /// Submerged arc.
    Saw,
    /// Oxy-fuel flame: no arc.
    OxyFuel,
}

impl ArcKind {
    /// All kinds.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// One process. Its name is the Fluent message `process-ID`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Process {
    /// Stable id in kebab-case.
    pub id: String,
    /// The kind of arc.
    pub arc: ArcKind,
    /// How people write it, beside its id: lower case, hyphens as spaces.
    #[serde(default)]
    pub said: Vec<String>,
    /// The arcs that a filler which it lays is made for.
    #[serde(default)]
    pub lays: Vec<ArcKind>,
    /// How the class of an electrode of this covering ends (`18` of E7018); empty if the process
    /// has no covering that decides the hydrogen.
    #[serde(default)]
    pub covering: Vec<String>,
    /// Thermal efficiency, from arc energy to heat input.
    pub efficiency: f64,
    /// What the efficiency rests on.
    pub efficiency_basis: Basis,
    /// Typical diffusible hydrogen, lower end, ml in 100 g.
    pub hydrogen_low_ml: f64,
    /// Typical diffusible hydrogen, upper end, ml in 100 g.
    pub hydrogen_high_ml: f64,
    /// What the hydrogen rests on.
    pub hydrogen_basis: Basis,
    /// Is it a low-hydrogen process when done as it should be?
    pub low_hydrogen: bool,
    /// Designators that its consumables usually bear (ids in `designators`).
    #[serde(default)]
    pub designators: Vec<String>,
}

impl Process {
    /// The least diffusible hydrogen that can be stated for it, ml in 100 g: less is that of
    /// another process, or a slip.
    ///
    /// A process that is not low in hydrogen gives its lower typical figure however it is
    /// kept. A low-hydrogen one may be better than typical; under half of its lower typical
    /// figure no maker's sheet goes (common practice, no source).
    #[must_use]
    pub fn hydrogen_least_ml(&self) -> f64 {
        if self.low_hydrogen { self.hydrogen_low_ml / 2.0 } else { self.hydrogen_low_ml }
    }
}

impl Row for Process {
    fn id(&self) -> &str {
        &self.id
    }
}

/// A hydrogen designator and the most that it stands for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Designator {
    /// Stable id in kebab-case: `aws-h4`, `iso-h5`, `scale-d`, `d11-h2` …
    pub id: String,
    /// As printed.
    pub text: String,
    /// The family of designators, so that a bare `H3` or `D` can be asked back.
    pub scale: HydrogenScale,
    /// More than this many ml in 100 g, where the class has a lower end.
    pub above_ml: Option<f64>,
    /// At most this many ml in 100 g; `None` is the open class.
    pub up_to_ml: Option<f64>,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for Designator {
    fn id(&self) -> &str {
        &self.id
    }
}

/// The families of hydrogen designators.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum HydrogenScale {
    /// AWS filler suffixes H2, H4, H8, H16: ml in 100 g at most.
    Aws,
    /// ISO filler symbols H5, H10, H15: ml in 100 g at most.
    Iso,
    /// The annex of AWS D1.1: H1 lowest, H3 worst.
    D11Annex,
    /// The letters of EN 1011-2: A highest, E lowest.
    Letter,
    /// The words of the IIW.
    IiwWord,
}

/// The whole file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ProcessFile {
    /// The processes.
    pub processes: Vec<Process>,
    /// The hydrogen designators.
    pub designators: Vec<Designator>,
}
