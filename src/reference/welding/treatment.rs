//! Heat treatment after welding: `data/weld_treatment.ron`.

use serde::{Deserialize, Serialize};

use super::NamedBasis;
use crate::reference::Basis;

const FILE: &str = "weld_treatment.ron";

/// Hours on an inch at so much less than the required temperature.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LowerHours {
    /// So much less, K.
    pub less_k: f64,
    /// Hours on each inch.
    pub h_per_inch: f64,
}

/// A rate that falls with thickness.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TreatmentRate {
    /// Over the thickness in mm, K/h.
    pub over_mm: f64,
    /// No slower is needed, K/h.
    pub least: f64,
    /// No faster is allowed, K/h.
    pub most: f64,
}

impl TreatmentRate {
    /// Fastest rate of a thickness, K/h.
    #[must_use]
    pub fn at(&self, thickness_mm: f64) -> f64 {
        (self.over_mm / thickness_mm).max(self.least).min(self.most)
    }
}

/// `data/weld_treatment.ron`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "each figure is told in the file, and each basis stands beside its figures")]
pub struct WeldTreatment {
    pub constant: f64,
    pub from_c: f64,
    pub to_c: f64,
    pub times: f64,
    pub parameter_basis: Basis,
    pub range_basis: Basis,
    pub below_temper_k: f64,
    pub below_temper_basis: Basis,
    pub navsea_h_per_inch: f64,
    pub navsea_least_h: f64,
    pub navsea_lower: Vec<LowerHours>,
    pub navsea_basis: Basis,
    pub asme_least_h: f64,
    pub asme_whole_inches: f64,
    pub asme_more_h_per_inch: f64,
    pub asme_basis: Basis,
    pub rate_from_c: f64,
    pub en_rate: TreatmentRate,
    pub asme_heating: TreatmentRate,
    pub asme_cooling: TreatmentRate,
    pub rates_basis: Basis,
    pub hardened_share: f64,
    pub hardened_basis: Basis,
}

impl WeldTreatment {
    /// Every basis of the file.
    pub(super) fn bases(&self) -> Vec<NamedBasis<'_>> {
        [
            &self.parameter_basis,
            &self.range_basis,
            &self.below_temper_basis,
            &self.navsea_basis,
            &self.asme_basis,
            &self.rates_basis,
            &self.hardened_basis,
        ]
        .map(|basis| (FILE, "treatment", basis))
        .to_vec()
    }
}
