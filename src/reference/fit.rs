//! Interference fits and the metals that grow into them: `data/fits.ron`, `data/expansion.ron`.

use serde::{Deserialize, Serialize};

use super::{Basis, FactorRange, Row};

/// The shaft of an interference fit in an H7 hole.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, strum::EnumIter, strum::IntoStaticStr, strum::VariantArray,
)]
pub enum Fit {
    /// Locates; no torque is promised.
    #[strum(serialize = "h7-p6")]
    P6,
    /// Light.
    #[strum(serialize = "h7-r6")]
    R6,
    /// Medium.
    #[strum(serialize = "h7-s6")]
    S6,
    /// Heavy: only by shrinking.
    #[strum(serialize = "h7-u6")]
    U6,
}

impl Fit {
    /// All of them, the lightest first.
    pub const ALL: &'static [Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// The tolerances of one step of diameters, µm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FitStep {
    /// Over this diameter, mm.
    pub over_mm: f64,
    /// Up to and including this one, mm.
    pub up_to_mm: f64,
    /// Width of grade 6.
    pub it6_um: f64,
    /// Width of grade 7.
    pub it7_um: f64,
    /// Lower deviation of shaft p.
    pub p_um: f64,
    /// Lower deviation of shaft r.
    pub r_um: f64,
    /// Lower deviation of shaft s.
    pub s_um: f64,
    /// Lower deviation of shaft u.
    pub u_um: f64,
}

impl FitStep {
    /// Lower deviation of a shaft, µm.
    #[must_use]
    pub const fn lower_um(&self, fit: Fit) -> f64 {
        match fit {
            Fit::P6 => self.p_um,
            Fit::R6 => self.r_um,
            Fit::S6 => self.s_um,
            Fit::U6 => self.u_um,
        }
    }

    /// Interference of the loosest and of the tightest pair, µm: the shaft's lower deviation less
    /// IT7, and that deviation and IT6.
    #[must_use]
    pub const fn interference_um(&self, fit: Fit) -> FactorRange {
        let lower_um = self.lower_um(fit);
        FactorRange { low: lower_um - self.it7_um, high: lower_um + self.it6_um }
    }
}

/// Something that a pin is frozen in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Coolant {
    /// Stable id.
    pub id: String,
    /// How cold a pin gets in it, °C.
    pub at_c: f64,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for Coolant {
    fn id(&self) -> &str {
        &self.id
    }
}

/// `data/fits.ron`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "each figure is told in the file, and each basis stands beside its figures")]
pub struct Fits {
    pub steps: Vec<FitStep>,
    pub basis: Basis,
    pub room_um_per_mm: f64,
    pub room_basis: Basis,
    pub on_the_way_share: f64,
    pub on_the_way_share_basis: Basis,
    pub on_the_way_k: f64,
    pub on_the_way_k_basis: Basis,
    pub friction_dry: FactorRange,
    pub friction_oiled: FactorRange,
    pub friction_basis: Basis,
    pub smoothing_share: f64,
    pub smoothing_basis: Basis,
    pub gap_tight_w_per_m2_k: f64,
    pub gap_loose_w_per_m2_k: f64,
    pub gap_basis: Basis,
    pub coolants: Vec<Coolant>,
    pub nitrogen_volumes: f64,
    pub nitrogen_basis: Basis,
    pub carbon_dioxide_kg_per_m3: f64,
    pub carbon_dioxide_basis: Basis,
    pub oxygen_percent: f64,
    pub oxygen_least_percent: f64,
    pub oxygen_least_basis: Basis,
    pub carbon_dioxide_most_ppm: f64,
    pub carbon_dioxide_most_basis: Basis,
    pub carbon_dioxide_deadly_ppm: f64,
    pub carbon_dioxide_deadly_basis: Basis,
}

impl Fits {
    /// The step of a diameter.
    #[must_use]
    pub fn step(&self, diameter_mm: f64) -> Option<&FitStep> {
        self.steps.iter().find(|step| diameter_mm > step.over_mm && diameter_mm <= step.up_to_mm)
    }
}

/// A mean expansion from 20 °C to a temperature.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MeanExpansion {
    /// From 20 °C up to this, °C.
    pub up_to_c: f64,
    /// 1e-6 for each K, as low as tables have it.
    pub low: f64,
    /// As high as tables have it.
    pub high: f64,
}

/// How a metal grows.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum HotLaw {
    /// Carbon and low-alloy steel by EN 1993-1-2 clause 3.4.1.1.
    Ec3CarbonSteel,
    /// Stainless steel by EN 1993-1-2 Annex C.3.
    Ec3Stainless,
    /// Mean expansions, from the coolest to the hottest.
    Means(Vec<MeanExpansion>),
}

/// Shrinkage from 20 °C to a temperature below.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shrinkage {
    /// Temperature, °C.
    pub at_c: f64,
    /// Shrinkage, in thousandths.
    pub per_mille: f64,
}

/// A metal that is heated or frozen.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Metal {
    /// Stable id; its words are the Fluent message `option-hub-metal-ID`.
    pub id: String,
    /// How it grows.
    pub hot: HotLaw,
    /// The hottest that the figures are for, °C.
    pub up_to_c: f64,
    /// What they rest on.
    pub basis: Basis,
    /// How it shrinks, from the warmest to the coldest.
    #[serde(default)]
    pub cold: Vec<Shrinkage>,
    /// What that rests on.
    pub cold_basis: Option<Basis>,
    /// Heat that a m³ of it holds for each K, MJ; without it as carbon steel.
    pub heat_mj_per_m3_k: Option<f64>,
    /// What that rests on.
    pub heat_basis: Option<Basis>,
}

impl Row for Metal {
    fn id(&self) -> &str {
        &self.id
    }
}
