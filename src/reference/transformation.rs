//! How far the formulas for martensite start lie from what was measured:
//! `data/transformation.ron`.

use serde::{Deserialize, Serialize};

use super::Basis;

/// The scatter of a formula for one range of carbon. Nine measured steels in ten lie inside.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MsBand {
    /// Carbon up to and including this, %; `None` is the open last band.
    pub c_up_to: Option<f64>,
    /// May a formula be used at all? If not, only a printed Ms counts.
    pub usable: bool,
    /// What the formula gives on average, less what was measured, K.
    pub mean_k: f64,
    /// How far too low the formula may read, K.
    pub too_low_k: f64,
    /// How far too high the formula may read, K.
    pub too_high_k: f64,
}

/// The bands from low to high carbon.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MsScatter {
    /// The bands.
    pub bands: Vec<MsBand>,
    /// What they rest on.
    pub basis: Basis,
}

impl MsScatter {
    /// The band of a carbon content, %.
    #[must_use]
    pub fn band(&self, c: f64) -> Option<&MsBand> {
        self.bands.iter().find(|band| band.c_up_to.is_none_or(|up_to| c <= up_to))
    }
}

/// The whole file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Transformation {
    /// Scatter of Ms (Steven and Haynes).
    pub ms_scatter: MsScatter,
}
