//! Joints as sketched: a row of `data/joints.ron`. Its name is the Fluent
//! message `joint-ID`.

use serde::{Deserialize, Serialize};

use super::{Basis, Row};

/// How freely the members can move while the weld shrinks.
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
    strum::VariantNames,
    strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Restraint {
    /// Free to move: common fillets and grooves.
    Low,
    /// Reduced freedom: members already attached to other work.
    Medium,
    /// Almost none: repairs in thick material, a pin welded on both faces.
    High,
}

impl Restraint {
    /// All restraints, the freest first.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// How many ways heat leaves the weld through each member: the combined
/// thickness is the sum of ways times thickness.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HeatWays {
    /// Ways through the first member (the plate that runs on).
    pub first: u8,
    /// Ways through the second member.
    pub second: u8,
}

impl HeatWays {
    /// Combined thickness, mm, from the thickness of each member, mm, averaged
    /// over 75 mm from the weld line.
    #[must_use]
    pub fn combined_mm(self, first_mm: f64, second_mm: f64) -> f64 {
        f64::from(self.first).mul_add(first_mm, f64::from(self.second) * second_mm)
    }
}

/// A range of a shape factor.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FactorRange {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

/// One joint.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Joint {
    /// Stable id in kebab-case.
    pub id: String,
    /// How many members it has.
    pub members: u8,
    /// Ways of the heat, for the combined thickness.
    pub ways: HeatWays,
    /// What the combined thickness rests on.
    pub ways_basis: Basis,
    /// Is the thickness of the second member a diameter?
    #[serde(default)]
    pub second_is_round: bool,
    /// Is the thickness of the first member a diameter?
    #[serde(default)]
    pub first_is_round: bool,
    /// Shape factor of two-dimensional heat flow.
    pub f2: FactorRange,
    /// Shape factor of three-dimensional heat flow.
    pub f3: FactorRange,
    /// What the shape factors rest on.
    pub factors_basis: Basis,
    /// The restraint to start from.
    pub restraint: Restraint,
    /// What the restraint rests on.
    pub restraint_basis: Basis,
    /// Fluent message on the restraint that the sketch has.
    pub note: String,
}

impl Row for Joint {
    fn id(&self) -> &str {
        &self.id
    }
}
