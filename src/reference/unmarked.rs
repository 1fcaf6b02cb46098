//! A guided test of a steel without a mark: `data/unmarked.ron`.

use serde::{Deserialize, Serialize};

use super::{Basis, Composition, Row};

/// What an answer tells beside families and carbon.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum TestFlag {
    /// The surface is harder than a file.
    HardSkin,
    /// The surface was ground off, and the file bites there.
    SkinOff,
    /// A file bites easily.
    FiledEasily,
    /// The spark is that of a steel that hardens little.
    SoftSpark,
    /// Free-cutting steel looks like this.
    FreeCutting,
    /// Parts of this kind are often case-hardened.
    CasePossible,
    /// It is or was a spring.
    Spring,
    /// It hardened in air.
    Harder,
    /// A cut edge is no harder than the plate.
    EdgeSame,
    /// An air-cooled coupon is as soft as mild steel.
    AirSame,
    /// It is a rolled section.
    Section,
}

/// One answer of a step.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TestAnswer {
    /// Stable id.
    pub id: String,
    /// Letters of the families that can give it.
    pub families: String,
    /// Least carbon of a steel that gives it, %.
    pub low: Option<f64>,
    /// Most carbon of a steel that gives it, %.
    pub high: Option<f64>,
    /// What else it tells.
    #[serde(default)]
    pub flags: Vec<TestFlag>,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for TestAnswer {
    fn id(&self) -> &str {
        &self.id
    }
}

/// One step of the test.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TestStep {
    /// Stable id.
    pub id: String,
    /// Its answers.
    pub answers: Vec<TestAnswer>,
}

impl Row for TestStep {
    fn id(&self) -> &str {
        &self.id
    }
}

/// Hardness of martensite at a carbon.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MartensiteRow {
    /// Carbon, %.
    pub carbon: f64,
    /// All martensite, HRC.
    pub all_hrc: f64,
    /// Half martensite, HRC.
    pub half_hrc: f64,
}

/// Density of a family, kg/dm³.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FamilyDensity {
    /// Letter of the family.
    pub family: String,
    /// As low as it is.
    pub low: f64,
    /// As high as it is.
    pub high: f64,
}

/// What an unknown steel counts as.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TreatAs {
    /// No less carbon than this, %.
    pub least_carbon: f64,
    /// Everything but the carbon.
    pub composition: Composition,
}

/// `data/unmarked.ron`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "each figure is told in the file, and each basis stands beside its figures")]
pub struct Unmarked {
    pub steps: Vec<TestStep>,
    pub top_percent: f64,
    pub martensite: Vec<MartensiteRow>,
    pub martensite_basis: Basis,
    pub carbon_margin: f64,
    pub hardens_from_hrc: f64,
    pub coupon_least_top: f64,
    pub core_from_hrc: f64,
    pub density_margin: f64,
    pub densities: Vec<FamilyDensity>,
    pub densities_basis: Basis,
    pub lean: TreatAs,
    pub rich: TreatAs,
    pub lean_up_to: f64,
    pub treat_basis: Basis,
}

impl Unmarked {
    /// The answer of a step.
    #[must_use]
    pub fn answer(&self, step: &str, answer: &str) -> Option<&TestAnswer> {
        let step = self.steps.iter().find(|row| row.id == step)?;
        step.answers.iter().find(|row| row.id == answer)
    }
}
