//! Named checks of how a weld cracks: `data/weld_cracks.ron`.

use serde::{Deserialize, Serialize};

use super::NamedBasis;
use crate::reference::{Basis, FactorRange, Row};

const FILE: &str = "weld_cracks.ron";

/// Needed manganese over sulphur in a range of carbon.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MnS {
    /// From this carbon on, %; the first row has it, the others begin above it.
    pub over: f64,
    /// Up to this carbon, %.
    pub up_to: f64,
    /// The ratio.
    pub ratio: f64,
}

/// Highest hardness up to a hydrogen.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HydrogenHardness {
    /// Up to this, ml in 100 g; the last row has no end.
    pub up_to_ml: Option<f64>,
    /// Hardness, HV.
    pub most_hv: f64,
}

/// What a size adds to the strain through a plate.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StrainStep {
    /// Up to this, mm; the last row has no end.
    pub up_to_mm: Option<f64>,
    /// What it adds.
    pub z: f64,
}

/// What restraint adds.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "each field is the restraint of its name")]
pub struct RestraintStrain {
    pub low: f64,
    pub medium: f64,
    pub high: f64,
}

/// A shape of joint and what it adds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StrainShape {
    /// Stable id.
    pub id: String,
    /// What it adds.
    pub z: f64,
}

impl Row for StrainShape {
    fn id(&self) -> &str {
        &self.id
    }
}

/// The quality that a strain needs.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StrainClass {
    /// Up to this.
    pub up_to_z: f64,
    /// Z15, Z25, Z35; 0 is none.
    pub class: f64,
}

/// Preheat from a thickness on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CutStep {
    /// From this, mm.
    pub from_mm: f64,
    /// Does it begin above that?
    #[serde(default)]
    pub above: bool,
    /// Preheat, °C.
    pub at_c: f64,
}

/// Preheat before oxygen cutting up to a hardness.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WearPlate {
    /// Up to this, HB.
    pub up_to_hb: f64,
    /// By thickness.
    pub steps: Vec<CutStep>,
    /// No figure above this, mm.
    pub most_mm: Option<f64>,
}

/// Largest thickness that may be welded where it was bent cold; none where any may.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BentRow {
    /// From this radius over thickness on.
    pub from: f64,
    /// Static load, mm.
    pub static_mm: Option<f64>,
    /// Load that comes and goes, mm.
    pub fatigue_mm: Option<f64>,
    /// Fully killed with aluminium, mm.
    pub killed_mm: Option<f64>,
}

/// `data/weld_cracks.ron`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "each figure is told in the file, and each basis stands beside its figures")]
pub struct WeldCracks {
    pub least_carbon: f64,
    pub ucs_basis: Basis,
    pub ucs_fillet: f64,
    pub ucs_butt: f64,
    pub ucs_shallow: f64,
    pub ucs_shallow_to: f64,
    pub ucs_shallow_basis: Basis,
    pub s_plus_p_most: f64,
    pub base_s_most: f64,
    pub mn_s: Vec<MnS>,
    pub mn_s_basis: Basis,
    pub width_depth: FactorRange,
    pub width_depth_basis: Basis,
    pub downslope_amps_per_s: f64,
    pub downslope_s: FactorRange,
    pub downslope_basis: Basis,
    pub delta_g_basis: Basis,
    pub psr_basis: Basis,
    pub hydrogen: Vec<HydrogenHardness>,
    pub hydrogen_basis: Basis,
    pub high_restraint_less_hv: f64,
    pub estimate_off_hv: f64,
    pub estimate_basis: Basis,
    pub throat: Vec<StrainStep>,
    pub plate: Vec<StrainStep>,
    pub restraint_z: RestraintStrain,
    pub preheat_from_c: f64,
    pub preheat_less_z: f64,
    pub shapes: Vec<StrainShape>,
    pub classes: Vec<StrainClass>,
    pub lamellar_basis: Basis,
    pub wear_plate: Vec<WearPlate>,
    pub wear_plate_most_c: f64,
    pub wear_plate_basis: Basis,
    pub bent: Vec<BentRow>,
    pub bent_zone: f64,
    pub bent_basis: Basis,
    pub butter_most_carbon: f64,
    pub butter_basis: Basis,
}

impl WeldCracks {
    /// Every basis of the file.
    pub(super) fn bases(&self) -> Vec<NamedBasis<'_>> {
        [
            &self.ucs_basis,
            &self.ucs_shallow_basis,
            &self.mn_s_basis,
            &self.width_depth_basis,
            &self.downslope_basis,
            &self.delta_g_basis,
            &self.psr_basis,
            &self.hydrogen_basis,
            &self.estimate_basis,
            &self.lamellar_basis,
            &self.wear_plate_basis,
            &self.bent_basis,
            &self.butter_basis,
        ]
        .map(|basis| (FILE, "cracks", basis))
        .to_vec()
    }
}
