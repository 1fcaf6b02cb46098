//! How long to wait before the final inspection: `data/inspection.ron`.

use serde::{Deserialize, Serialize};

use super::{Basis, Row};

/// A wait that a text asks for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WaitRule {
    /// Stable id in kebab-case.
    pub id: String,
    /// Hours to wait after the weld has gone cold.
    pub hours: f64,
    /// Weld size above this, mm.
    pub size_above_mm: Option<f64>,
    /// Weld size up to and including this, mm.
    pub size_up_to_mm: Option<f64>,
    /// Heat input above this, kJ/mm.
    pub heat_input_above: Option<f64>,
    /// Heat input up to and including this, kJ/mm.
    pub heat_input_up_to: Option<f64>,
    /// Thicker than this, mm: then the wait is longer, by an amount that the text leaves open.
    pub longer_above_mm: Option<f64>,
    /// Yield above this, MPa: then the wait is longer, by an amount that the text leaves open.
    pub longer_above_yield_mpa: Option<f64>,
    /// Does it hold only for quenched and tempered steel or high restraint?
    #[serde(default)]
    pub quenched_tempered: bool,
    /// Is the wait dropped after a hydrogen-reducing or stress-relief treatment?
    #[serde(default)]
    pub none_after_heat: bool,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for WaitRule {
    fn id(&self) -> &str {
        &self.id
    }
}
