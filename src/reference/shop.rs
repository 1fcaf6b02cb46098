//! Small tables of the shop: fuel gas, electrodes in open air, slow cooling. `data/fuels.ron`,
//! `data/electrode_exposure.ron`, `data/slow_cooling.ron`.

use serde::{Deserialize, Serialize};

use super::{Basis, FactorRange, Row};

/// A fuel gas.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fuel {
    /// Stable id.
    pub id: String,
    /// Net heating value, MJ/m³.
    pub net_mj_per_m3: f64,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for Fuel {
    fn id(&self) -> &str {
        &self.id
    }
}

/// A class of heating tips by its fuel flow, ft³/h.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tip {
    /// Stable id.
    pub id: String,
    /// With acetylene.
    pub acetylene_ft3_per_h: FactorRange,
    /// With propane and propylene.
    pub propane_ft3_per_h: FactorRange,
}

impl Row for Tip {
    fn id(&self) -> &str {
        &self.id
    }
}

/// The share of a flame's heat that stays in the part.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Efficiency {
    /// As low as it is.
    pub low: f64,
    /// The likely one.
    pub likely: f64,
    /// As high as it is.
    pub high: f64,
}

/// What may be drawn from an acetylene cylinder in an hour: its content over these.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AcetyleneDraw {
    /// Now and then.
    pub intermittent: f64,
    /// On and on.
    pub continuous: f64,
    /// By the older rule.
    pub older: f64,
    /// A draw of so many minutes goes on and on.
    pub continuous_from_min: f64,
    /// Content of a usual large cylinder, m³.
    pub usual_m3: f64,
    /// What that rests on.
    pub usual_basis: Basis,
    /// What the first two rest on.
    pub basis: Basis,
    /// What the older one rests on.
    pub older_basis: Basis,
}

/// `data/fuels.ron`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "each figure is told in the file, and each basis stands beside its figures")]
pub struct Fuels {
    pub fuels: Vec<Fuel>,
    pub tips: Vec<Tip>,
    pub tips_basis: Basis,
    pub efficiency: Efficiency,
    pub efficiency_basis: Basis,
    pub draw: AcetyleneDraw,
}

impl Fuels {
    /// The fuel of an id.
    #[must_use]
    pub fn fuel(&self, id: &str) -> Option<&Fuel> {
        self.fuels.iter().find(|fuel| fuel.id == id)
    }

    /// The tips of an id.
    #[must_use]
    pub fn tip(&self, id: &str) -> Option<&Tip> {
        self.tips.iter().find(|tip| tip.id == id)
    }
}

/// Electrodes of one strength in open air.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ElectrodeClass {
    /// Stable id.
    pub id: String,
    /// Hours without a test.
    pub hours: f64,
    /// Hours, where the maker has tested for them.
    pub tested_hours: f64,
    /// Hours with the suffix R, where those are longer.
    pub moisture_resistant_hours: Option<f64>,
}

impl Row for ElectrodeClass {
    fn id(&self) -> &str {
        &self.id
    }
}

/// `data/electrode_exposure.ron`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "each figure is told in the file, and each basis stands beside its figures")]
pub struct ElectrodeExposure {
    pub classes: Vec<ElectrodeClass>,
    pub classes_basis: Basis,
    pub moisture_resistant_basis: Basis,
    pub oven_c: f64,
    pub oven_hours: f64,
    pub rebakes_most: u32,
    pub handling_basis: Basis,
}

/// How a part of one family cools after welding.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SlowCooling {
    /// Id of the family.
    pub id: String,
    /// No faster than this, K/h; without it the part cools in still air.
    pub at_most_k_per_h: Option<f64>,
    /// No slower is asked for, K/h.
    pub least_k_per_h: Option<f64>,
    /// Down to this, °C.
    pub until_c: Option<f64>,
    /// Does slow cooling harm it?
    #[serde(default)]
    pub no_blanket: bool,
    /// It cools to this first, °C, and turns, before it is heat-treated.
    pub first_to_c: Option<f64>,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for SlowCooling {
    fn id(&self) -> &str {
        &self.id
    }
}
