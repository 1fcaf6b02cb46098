//! Tables of AWS D1.1 that the plan reads: `data/d11.ron`.

use serde::{Deserialize, Serialize};

use super::{Basis, Restraint, ThicknessRow};

/// Susceptibility group of the hydrogen control method.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, strum::VariantArray,
)]
#[allow(missing_docs, reason = "letters of the groups")]
pub enum Group {
    A,
    B,
    C,
    D,
    E,
    F,
    G,
}

impl Group {
    /// All groups from the least susceptible.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The letter.
    #[must_use]
    pub const fn letter(self) -> char {
        match self {
            Self::A => 'A',
            Self::B => 'B',
            Self::C => 'C',
            Self::D => 'D',
            Self::E => 'E',
            Self::F => 'F',
            Self::G => 'G',
        }
    }
}

/// Hydrogen level of the annex: H1 is the lowest.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, strum::VariantArray,
)]
pub enum HydrogenLevel {
    /// Extra-low: up to 5 ml in 100 g.
    H1,
    /// Low: up to 10 ml in 100 g.
    H2,
    /// Not controlled: taken as 30 ml in 100 g.
    H3,
}

impl HydrogenLevel {
    /// All levels from the lowest hydrogen.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;
}

/// A printed cell.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cell {
    /// As printed, °F.
    pub f: f64,
    /// As printed, °C.
    pub c: f64,
    /// Printed with `<`: a lower temperature may also serve.
    #[serde(default)]
    pub or_lower: bool,
    /// Seen in print (the rest of the table is from memory).
    #[serde(default)]
    pub seen: bool,
}

/// One row of the annex table: a cell for each group from A to G.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AnnexRow {
    /// Restraint.
    pub restraint: Restraint,
    /// Up to and including this thickness, mm; `None` is the open last row.
    pub up_to_mm: Option<f64>,
    /// Cells from group A to group G.
    pub cells: [Cell; 7],
}

/// Minimum preheat and interpass by restraint, thickness and group.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AnnexTable {
    /// Rows by restraint, then from thin to thick.
    pub rows: Vec<AnnexRow>,
    /// What the table rests on.
    pub basis: Basis,
    /// What the cells marked as seen rest on.
    pub seen_basis: Basis,
}

impl AnnexTable {
    /// The cell for a restraint, a thickness in mm and a group.
    #[must_use]
    pub fn cell(&self, restraint: Restraint, thickness_mm: f64, group: Group) -> Option<&Cell> {
        self.rows
            .iter()
            .filter(|row| row.restraint == restraint)
            .find(|row| row.up_to_mm.is_none_or(|up_to| thickness_mm <= up_to))
            .map(|row| &row.cells[group as usize])
    }
}

/// The groups of one hydrogen level, a group for each Pcm column.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GroupRow {
    /// Hydrogen level.
    pub level: HydrogenLevel,
    /// Groups in the order of the columns.
    pub groups: Vec<Group>,
}

/// Group by Pcm and hydrogen level.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GroupTable {
    /// Pcm is *under* this in each column; at or above the last one the last column reads "at least".
    pub pcm_below: Vec<f64>,
    /// Rows by hydrogen level.
    pub rows: Vec<GroupRow>,
    /// What it rests on.
    pub basis: Basis,
}

/// A band of the susceptibility index.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SiBand {
    /// The group.
    pub group: Group,
    /// Index up to and including this; `None` is the open last band.
    pub up_to: Option<f64>,
}

/// Group by the susceptibility index `12·Pcm + log10(H)`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SiBands {
    /// Bands from A to G, without gaps.
    pub bands: Vec<SiBand>,
    /// Above this index the answer reads "at least".
    pub at_least_above: f64,
    /// What they rest on.
    pub basis: Basis,
}

/// What a hydrogen level stands for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LevelLimit {
    /// The level.
    pub level: HydrogenLevel,
    /// Hydrogen up to and including this, ml in 100 g; `None` is the open level.
    pub up_to_ml: Option<f64>,
    /// The hydrogen that the index takes for the level, ml in 100 g. Kept for reading: the plan
    /// takes the hydrogen of the job itself, and the table of groups takes the level.
    pub index_ml: f64,
    /// What it rests on.
    pub basis: Basis,
}

/// Prequalified minimum of one category.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CategoryRow {
    /// The letter, A to D.
    pub category: char,
    /// Rows from thin to thick.
    pub rows: Vec<ThicknessRow>,
    /// The most hydrogen that the category allows, ml in 100 g, where it states one.
    pub hydrogen_max_ml: Option<f64>,
    /// What it rests on.
    pub basis: Basis,
}

/// The warmed zone around the joint.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WarmZone {
    /// At least the thickness of the thickest part, and not under this, mm.
    pub min_mm: f64,
    /// What it rests on.
    pub basis: Basis,
}

/// What the code prequalifies: a procedure of which this is not so must be qualified by test.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Prequalified {
    /// Ids of the processes.
    pub processes: Vec<String>,
    /// Ids of the grades of category A, which any electrode may weld.
    pub any_electrode: Vec<String>,
    /// What it rests on.
    pub basis: Basis,
}

/// Warming of cold steel.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ColdStart {
    /// Below this steel temperature, °C …
    pub below_c: f64,
    /// … warm to this, °C.
    pub warm_to_c: f64,
    /// The same as printed, °F.
    pub warm_to_f: f64,
    /// What it rests on.
    pub basis: Basis,
}

/// The whole file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct D11 {
    /// The annex table.
    pub annex: AnnexTable,
    /// Group by Pcm.
    pub groups: GroupTable,
    /// Group by susceptibility index.
    pub si_bands: SiBands,
    /// Hydrogen levels.
    pub levels: Vec<LevelLimit>,
    /// The most diffusible hydrogen at which the low-hydrogen categories hold, ml in 100 g.
    pub low_hydrogen_ml: f64,
    /// What the code prequalifies.
    pub prequalified: Prequalified,
    /// Prequalified minima by category.
    pub categories: Vec<CategoryRow>,
    /// The warmed zone.
    pub warm_zone: WarmZone,
    /// Cold steel.
    pub cold_start: ColdStart,
}

impl D11 {
    /// The row of a category.
    #[must_use]
    pub fn category(&self, letter: char) -> Option<&CategoryRow> {
        self.categories.iter().find(|row| row.category == letter)
    }
}
