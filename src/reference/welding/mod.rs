//! What a weld takes: its runs, its strength, its current, how it cracks and its heat treatment.
//! `data/weld_runs.ron`, `data/weld_strength.ron`, `data/weld_current.ron`, `data/weld_cracks.ron`,
//! `data/weld_treatment.ron`.

mod cracks;
mod current;
mod runs;
mod strength;
mod treatment;

pub use cracks::{
    BentRow, CutStep, HydrogenHardness, MnS, RestraintStrain, StrainClass, StrainShape, StrainStep,
    WearPlate, WeldCracks,
};
pub use current::{
    CoveredElectrode, HotLess, HotTorch, LoadLine, RodRow, TigRow, TorchClass, TungstenRow, WeldCurrent,
    WireRow,
};
pub use runs::{
    Convexity, DepositRate, LargestLeg, LeastLeg, PerEnergy, Position, RunProcess, UsualRange, WeldRuns,
};
pub use strength::{Correlation, HydrogenRows, WeldStrength};
pub use treatment::{LowerHours, TreatmentRate, WeldTreatment};

use super::Basis;

/// A basis with the file and the row that it stands in.
pub(super) type NamedBasis<'a> = (&'static str, &'a str, &'a Basis);

/// What a weld takes.
#[derive(Debug, Clone, PartialEq)]
pub struct Welding {
    /// Sizes and runs.
    pub runs: WeldRuns,
    /// Strength.
    pub strength: WeldStrength,
    /// Currents and torches.
    pub current: WeldCurrent,
    /// Named checks of cracks.
    pub cracks: WeldCracks,
    /// Heat treatment after welding.
    pub treatment: WeldTreatment,
}

impl Welding {
    /// Every basis of the five files.
    #[must_use]
    pub(in crate::reference) fn bases(&self) -> Vec<NamedBasis<'_>> {
        let mut all = self.runs.bases();
        all.extend(self.strength.bases());
        all.extend(self.current.bases());
        all.extend(self.cracks.bases());
        all.extend(self.treatment.bases());
        all
    }
}
