//! What a weld carries: `data/weld_strength.ron`.

use serde::{Deserialize, Serialize};

use super::NamedBasis;
use crate::reference::{Basis, Row};

const FILE: &str = "weld_strength.ron";

/// The correlation factor of a steel.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Correlation {
    /// Stable id.
    pub id: String,
    /// The factor.
    pub factor: f64,
}

impl Row for Correlation {
    fn id(&self) -> &str {
        &self.id
    }
}

/// How little hydrogen the filler of a joint must bring, by what hardens beside it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "each figure is told in the file")]
pub struct HydrogenRows {
    pub lean_ce: f64,
    pub lean_carbon: f64,
    pub thin_below_mm: f64,
    pub thin_ml: f64,
    pub usual_ml: f64,
    pub rich_ce: f64,
    pub rich_carbon: f64,
    pub rich_ml: f64,
    pub hardest_carbon: f64,
    pub hardest_from_hv: f64,
    pub basis: Basis,
}

/// `data/weld_strength.ron`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "each figure is told in the file, and each basis stands beside its figures")]
pub struct WeldStrength {
    pub shear_share: f64,
    pub resistance: f64,
    pub resistance_basis: Basis,
    pub safety: f64,
    pub safety_basis: Basis,
    pub angle_share: f64,
    pub angle_power: f64,
    pub angle_basis: Basis,
    pub long_from: f64,
    pub long_to: f64,
    pub long_base: f64,
    pub long_slope: f64,
    pub long_legs: f64,
    pub least_legs_long: f64,
    pub long_basis: Basis,
    pub base_yield_share: f64,
    pub base_yield_resistance: f64,
    pub base_yield_safety: f64,
    pub base_basis: Basis,
    pub tension_resistance: f64,
    pub partial: f64,
    pub en_basis: Basis,
    pub least_length_mm: f64,
    pub least_length_throats: f64,
    pub length_basis: Basis,
    pub correlation: Vec<Correlation>,
    pub live_load_aisc: f64,
    pub live_load_en: f64,
    pub live_load_basis: Basis,
    pub steps_mpa: Vec<f64>,
    pub same_share: f64,
    pub same_basis: Basis,
    pub one_lower_mpa: f64,
    pub matching_basis: Basis,
    pub hydrogen: HydrogenRows,
}

impl WeldStrength {
    /// Every basis of the file.
    pub(super) fn bases(&self) -> Vec<NamedBasis<'_>> {
        [
            &self.resistance_basis,
            &self.safety_basis,
            &self.angle_basis,
            &self.long_basis,
            &self.base_basis,
            &self.en_basis,
            &self.length_basis,
            &self.live_load_basis,
            &self.same_basis,
            &self.matching_basis,
            &self.hydrogen.basis,
        ]
        .map(|basis| (FILE, "strength", basis))
        .to_vec()
    }

    /// The correlation factor of a steel.
    #[must_use]
    pub fn correlation_of(&self, id: &str) -> Option<f64> {
        self.correlation.iter().find(|row| row.id == id).map(|row| row.factor)
    }
}
