//! What a repair finds, and what it changes: `data/repair.ron`.

use serde::{Deserialize, Serialize};

use super::Basis;

/// A depth or a length with what it rests on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "each figure is told in the file, and its basis stands beside it")]
pub struct Below {
    pub below_mm: f64,
    pub basis: Basis,
}

/// How far a crack is followed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "as above")]
pub struct CrackRow {
    pub beyond_mm: f64,
    pub radius_mm: f64,
    pub basis: Basis,
}

/// Oil in the metal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "as above")]
pub struct OilRow {
    pub hydrogen_ml: f64,
    pub hydrogen_basis: Basis,
    pub iron_c: f64,
    pub iron_min: f64,
    pub iron_basis: Basis,
}

/// What is built up on a worn part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "as above")]
pub struct BuildUpRow {
    pub stays_mm: f64,
    pub basis: Basis,
}

/// `data/repair.ron`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "as above")]
pub struct RepairData {
    pub crack: CrackRow,
    pub oil: OilRow,
    pub old_weld: Below,
    pub hardfacing: Below,
    pub build_up: BuildUpRow,
}

impl RepairData {
    /// What its figures rest on, each with its row.
    pub(super) fn bases(&self) -> [(&'static str, &Basis); 6] {
        [
            ("crack", &self.crack.basis),
            ("oil", &self.oil.hydrogen_basis),
            ("oil", &self.oil.iron_basis),
            ("old-weld", &self.old_weld.basis),
            ("hardfacing", &self.hardfacing.basis),
            ("build-up", &self.build_up.basis),
        ]
    }
}
