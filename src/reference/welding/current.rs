//! Currents, tungsten, gas, rods and torches: `data/weld_current.ron`.

use serde::{Deserialize, Serialize};

use super::NamedBasis;
use crate::reference::{Basis, FactorRange, Row};

const FILE: &str = "weld_current.ron";

/// Current of TIG by thickness.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TigRow {
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Butt and corner, A.
    pub butt_a: FactorRange,
    /// Lap and fillet, A.
    pub fillet_a: FactorRange,
}

/// From this temperature of the part the current is so much less.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HotLess {
    /// From here, °C.
    pub from_c: f64,
    /// Share that goes.
    pub less_share: f64,
}

/// A tungsten and what goes with it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TungstenRow {
    /// Diameter, mm.
    pub diameter_mm: f64,
    /// Where it burns well, A.
    pub comfortable_a: FactorRange,
    /// As a composite of the trade prints it, A.
    pub composite_a: FactorRange,
    /// Number of the cup.
    pub cup: Option<FactorRange>,
    /// Argon, l/min.
    pub argon_l_per_min: Option<FactorRange>,
}

/// A TIG rod.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RodRow {
    /// Diameter, mm.
    pub diameter_mm: f64,
    /// Current, A.
    pub amps: FactorRange,
}

/// A class of TIG torches.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TorchClass {
    /// Stable id.
    pub id: String,
    /// Rated current, A.
    pub amps: f64,
    /// At this duty cycle, %.
    pub duty_percent: f64,
    /// Is it cooled with water?
    #[serde(default)]
    pub water: bool,
}

impl Row for TorchClass {
    fn id(&self) -> &str {
        &self.id
    }
}

/// Beside a part of this temperature a torch carries this share.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HotTorch {
    /// From here, °C.
    pub from_c: f64,
    /// Share.
    pub share: f64,
}

/// A covered electrode.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CoveredElectrode {
    /// Stable id.
    pub id: String,
    /// Diameter of its core, mm.
    pub diameter_mm: f64,
    /// Current, A.
    pub amps: FactorRange,
    /// Current upright, where printed, A.
    pub upright_a: Option<FactorRange>,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for CoveredElectrode {
    fn id(&self) -> &str {
        &self.id
    }
}

/// A solid wire.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WireRow {
    /// Stable id.
    pub id: String,
    /// Diameter, mm.
    pub diameter_mm: f64,
    /// Least current of a spray arc, A.
    pub spray_from_a: f64,
    /// Short arc, A.
    pub short_a: Option<FactorRange>,
    /// Short arc, V.
    pub short_v: Option<FactorRange>,
    /// Spray arc, A.
    pub spray_a: Option<FactorRange>,
    /// Spray arc, V.
    pub spray_v: Option<FactorRange>,
}

impl Row for WireRow {
    fn id(&self) -> &str {
        &self.id
    }
}

/// Volts of a process by current.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LoadLine {
    /// Id of the process.
    pub id: String,
    /// At no current, V.
    pub base_v: f64,
    /// For each ampere, V.
    pub per_amp_v: f64,
    /// An arc has so much less than the test load, V.
    pub less_v: Option<f64>,
}

impl Row for LoadLine {
    fn id(&self) -> &str {
        &self.id
    }
}

/// `data/weld_current.ron`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "each figure is told in the file, and each basis stands beside its figures")]
pub struct WeldCurrent {
    pub gtaw: Vec<TigRow>,
    pub gtaw_basis: Basis,
    pub gtaw_most_a: f64,
    pub hot_part: Vec<HotLess>,
    pub hot_part_basis: Basis,
    pub tungsten: Vec<TungstenRow>,
    pub tungsten_basis: Basis,
    pub cup_basis: Basis,
    pub taper_diameters: f64,
    pub taper_basis: Basis,
    pub rods: Vec<RodRow>,
    pub rods_basis: Basis,
    pub torches: Vec<TorchClass>,
    pub torches_basis: Basis,
    pub most_over_rated: f64,
    pub hot_torch: Vec<HotTorch>,
    pub hot_torch_basis: Basis,
    pub electrodes: Vec<CoveredElectrode>,
    pub start_share: f64,
    pub upright_less_share: f64,
    pub overhead_less_share: f64,
    pub start_basis: Basis,
    pub wires: Vec<WireRow>,
    pub wires_basis: Basis,
    pub spray_basis: Basis,
    pub load_lines: Vec<LoadLine>,
    pub load_lines_basis: Basis,
    pub constant_from_a: f64,
    pub volts_spread_share: f64,
    pub volts_spread_basis: Basis,
}

impl WeldCurrent {
    /// Every basis of the file.
    pub(super) fn bases(&self) -> Vec<NamedBasis<'_>> {
        let rows = self.electrodes.iter().map(|row| (FILE, row.id.as_str(), &row.basis));
        let whole = [
            &self.gtaw_basis,
            &self.hot_part_basis,
            &self.tungsten_basis,
            &self.cup_basis,
            &self.taper_basis,
            &self.rods_basis,
            &self.torches_basis,
            &self.hot_torch_basis,
            &self.start_basis,
            &self.wires_basis,
            &self.spray_basis,
            &self.load_lines_basis,
            &self.volts_spread_basis,
        ];
        rows.chain(whole.map(|basis| (FILE, "current", basis))).collect()
    }

    /// The load line of a process.
    #[must_use]
    pub fn load_line(&self, process: &str) -> Option<&LoadLine> {
        self.load_lines.iter().find(|row| row.id == process)
    }
}
