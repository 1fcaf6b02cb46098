//! Fillets, grooves and their runs: `data/weld_runs.ron`.

use serde::{Deserialize, Serialize};

use super::NamedBasis;
use crate::reference::{Basis, FactorRange, Row, Told};

const FILE: &str = "weld_runs.ron";

/// In which position a run is made.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantArray, strum::VariantNames,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Position {
    /// Flat, PA.
    Flat,
    /// Horizontal, PB.
    Horizontal,
    /// Vertical upwards, PF.
    VerticalUp,
    /// Overhead, PD.
    Overhead,
}

impl Told for Position {
    const TOPIC: &'static str = "option-position";

    fn key(self) -> &'static str {
        match self {
            Self::Flat => "option-position-flat",
            Self::Horizontal => "option-position-horizontal",
            Self::VerticalUp => "option-position-vertical-up",
            Self::Overhead => "option-position-overhead",
        }
    }
}

impl Position {
    /// All of them.
    pub const ALL: &'static [Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// A range with the usual figure inside it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UsualRange {
    /// As low as it is.
    pub low: f64,
    /// The usual one.
    pub usual: f64,
    /// As high as it is.
    pub high: f64,
}

/// Area of a run for its arc energy, mm² for each kJ/mm.
pub type PerEnergy = UsualRange;

/// Deposit by current, kg/h.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DepositRate {
    /// At no current.
    pub base_kg_per_h: f64,
    /// For each ampere.
    pub per_amp_kg_per_h: f64,
    /// No less than this.
    pub least_kg_per_h: Option<f64>,
    /// No more than this.
    pub most_kg_per_h: Option<f64>,
    /// Either way by this share.
    pub spread_share: f64,
}

impl DepositRate {
    /// At a current, kg/h.
    #[must_use]
    pub fn at(&self, amps: f64) -> f64 {
        let rate = self.base_kg_per_h + self.per_amp_kg_per_h * amps;
        let rate = self.least_kg_per_h.map_or(rate, |least| rate.max(least));
        self.most_kg_per_h.map_or(rate, |most| rate.min(most))
    }
}

/// Largest leg of one run by position, mm; none where the process is not used so.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "each field is the position of its name")]
pub struct LargestLeg {
    pub flat: Option<f64>,
    pub horizontal: Option<f64>,
    pub vertical_up: Option<f64>,
    pub overhead: Option<f64>,
}

impl LargestLeg {
    /// In a position, mm.
    #[must_use]
    pub const fn of(&self, position: Position) -> Option<f64> {
        match position {
            Position::Flat => self.flat,
            Position::Horizontal => self.horizontal,
            Position::VerticalUp => self.vertical_up,
            Position::Overhead => self.overhead,
        }
    }
}

/// What a run of one process leaves.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RunProcess {
    /// Id of the process.
    pub id: String,
    /// Deposit by current.
    pub rate: DepositRate,
    /// Area for each kJ/mm.
    pub per_energy_mm2: PerEnergy,
    /// Area of a usual run, where no energy is known.
    pub run_mm2: f64,
    /// Largest leg of one run.
    pub largest_leg_mm: LargestLeg,
    /// What that rests on.
    pub largest_leg_basis: Basis,
    /// Share of the filler that ends in the weld.
    pub deposited_share: f64,
    /// What that rests on.
    pub deposited_basis: Basis,
    /// Share of the time in which the arc burns.
    pub arc_share: UsualRange,
    /// Height of one slice of a groove.
    pub slice_mm: f64,
    /// Does it take a shielding gas?
    #[serde(default)]
    pub shielding: bool,
    /// What rate, area and share of time rest on.
    pub basis: Basis,
}

impl Row for RunProcess {
    fn id(&self) -> &str {
        &self.id
    }
}

/// The least leg up to a thickness.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeastLeg {
    /// Up to this; the last row has no end.
    pub up_to_mm: Option<f64>,
    /// The leg.
    pub leg_mm: f64,
}

/// The highest convexity up to a width of the face.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Convexity {
    /// Up to this; the last row has no end.
    pub up_to_mm: Option<f64>,
    /// The convexity.
    pub most_mm: f64,
}

/// `data/weld_runs.ron`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "each figure is told in the file, and each basis stands beside its figures")]
pub struct WeldRuns {
    pub processes: Vec<RunProcess>,
    pub convexity_share: f64,
    pub convexity_basis: Basis,
    pub short_share: f64,
    pub short_basis: Basis,
    pub least_legs: Vec<LeastLeg>,
    pub least_legs_basis: Basis,
    pub cyclic_leg_mm: f64,
    pub cyclic_basis: Basis,
    pub least_throat_mm: f64,
    pub least_throat_basis: Basis,
    pub throat_less_mm: f64,
    pub throat_most_share: f64,
    pub throat_basis: Basis,
    pub convexities: Vec<Convexity>,
    pub convexities_basis: Basis,
    pub small_first_kj_per_mm: f64,
    pub small_first_from_mm: f64,
    pub small_first_basis: Basis,
    pub density_kg_per_mm3: f64,
    pub recovery: f64,
    pub stub_mm: f64,
    pub recovery_basis: Basis,
    pub electrode_length_mm: f64,
    pub rod_length_mm: f64,
    pub gas_before_s: f64,
    pub gas_after_s: FactorRange,
    pub gas_basis: Basis,
    pub spare_share: f64,
    pub spare_basis: Basis,
}

impl WeldRuns {
    /// Every basis of the file.
    pub(super) fn bases(&self) -> Vec<NamedBasis<'_>> {
        let rows = self.processes.iter().flat_map(|row| {
            [&row.basis, &row.largest_leg_basis, &row.deposited_basis]
                .map(|basis| (FILE, row.id.as_str(), basis))
        });
        let whole = [
            &self.convexity_basis,
            &self.short_basis,
            &self.least_legs_basis,
            &self.cyclic_basis,
            &self.least_throat_basis,
            &self.throat_basis,
            &self.convexities_basis,
            &self.small_first_basis,
            &self.recovery_basis,
            &self.gas_basis,
            &self.spare_basis,
        ];
        rows.chain(whole.map(|basis| (FILE, "runs", basis))).collect()
    }

    /// The row of a process.
    #[must_use]
    pub fn process(&self, id: &str) -> Option<&RunProcess> {
        self.processes.iter().find(|row| row.id == id)
    }
}
