//! A condition in which a grade is supplied or used, as `data/grades.ron` holds it.

use serde::{Deserialize, Serialize};

use super::Basis;

/// The most carbon of a steel that is carburised, weight percent: with more the core hardens as
/// the case does (common practice; the carburising grades of SAE and EN end at 0.25).
pub const CARBURISED_C_MAX: f64 = 0.35;

/// The heat treatment state that a part is in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum ConditionKind {
    /// As rolled, hot finished or as forged.
    AsRolled,
    /// Annealed or spheroidised.
    Annealed,
    /// Normalised.
    Normalised,
    /// Normalised and tempered.
    NormalisedTempered,
    /// Hardened (quenched) and tempered.
    HardenedTempered,
    /// Thermomechanically rolled.
    Thermomechanical,
    /// Cold drawn or cold formed.
    ColdWorked,
    /// Case-hardened: carburised, hardened, tempered at a low temperature.
    CaseHardened,
    /// Induction- or flame-hardened skin.
    InductionHardened,
    /// As cast.
    AsCast,
    /// Not known.
    Unknown,
}

/// What a tempering range of a grade row stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum TemperKind {
    /// What is usual for the grade.
    Typical,
    /// The lowest that the standard allows.
    Minimum,
    /// The low temper of a hardened case; it is not a temper of the core.
    Case,
}

/// A tempering range.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Temper {
    /// Lower end, °C.
    pub low_c: f64,
    /// Upper end, °C; `None` when only a minimum is stated.
    pub high_c: Option<f64>,
    /// What the range stands for.
    pub kind: TemperKind,
}

/// What the strengths and the hardness of a condition stand for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum FigureKind {
    /// What the standard or the sheet demands.
    #[default]
    Demanded,
    /// What is typical of the grade: a part may have less, and no standard says otherwise.
    Typical,
}

/// One condition in which a grade is supplied or used.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GradeCondition {
    /// The heat treatment state.
    pub kind: ConditionKind,
    /// Tempering range, where there is one and it is known.
    #[serde(default)]
    pub temper: Option<Temper>,
    /// The greatest thickness that the strengths hold for, mm.
    #[serde(default)]
    pub up_to_mm: Option<f64>,
    /// What the strengths and the hardness stand for.
    #[serde(default)]
    pub figures: FigureKind,
    /// Yield strength, MPa; `None` is "not known".
    #[serde(default)]
    pub yield_mpa: Option<f64>,
    /// Lowest tensile strength, MPa.
    #[serde(default)]
    pub tensile_min_mpa: Option<f64>,
    /// Highest tensile strength, MPa.
    #[serde(default)]
    pub tensile_max_mpa: Option<f64>,
    /// Hardness, where it is known.
    #[serde(default)]
    pub hardness: Option<GradeHardness>,
    /// What else there is to say of the condition: a Fluent message `grade-state-…`.
    #[serde(default)]
    pub state: Option<String>,
    /// What the figures rest on.
    pub basis: Basis,
    /// What the temper rests on, where that is not what the strengths rest on.
    #[serde(default)]
    pub temper_basis: Option<Basis>,
}

impl GradeCondition {
    /// What the temper rests on.
    #[must_use]
    pub fn temper_rests_on(&self) -> &Basis {
        self.temper_basis.as_ref().unwrap_or(&self.basis)
    }
}

/// A scale of hardness that a grade row is written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "UPPERCASE")]
pub enum HardnessScale {
    /// Brinell.
    Hb,
    /// Rockwell C.
    Hrc,
    /// Rockwell B.
    Hrb,
}

impl HardnessScale {
    /// The symbol, the same in every language.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Hb => "HB",
            Self::Hrc => "HRC",
            Self::Hrb => "HRB",
        }
    }
}

/// Hardness as a source states it: one figure, or one end or both of a range.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GradeHardness {
    /// One figure.
    #[serde(default)]
    pub at: Option<f64>,
    /// Lower end.
    #[serde(default)]
    pub low: Option<f64>,
    /// Upper end.
    #[serde(default)]
    pub high: Option<f64>,
    /// The scale of all three.
    pub scale: HardnessScale,
}
