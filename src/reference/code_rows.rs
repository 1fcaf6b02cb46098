//! Preheat rows of codes: pressure piping by the material number, and stainless steel of naval work
//! by its filler: `data/code_rows.ron`.

use serde::{Deserialize, Serialize};

use super::{Basis, Printed, Row};

/// Material number of ASME Section IX: metals that one welding procedure covers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[allow(missing_docs, reason = "the numbers themselves")]
pub enum PNumber {
    P1,
    P3,
    P4,
    P5A,
    P5B,
    P5C,
    P6,
    P7,
    P8,
    P9A,
    P9B,
    P10H,
    P10I,
    P11A,
    P11B,
    P15E,
}

impl PNumber {
    /// The number as it is written after `P-No.`.
    #[must_use]
    pub const fn number(self) -> &'static str {
        match self {
            Self::P1 => "1",
            Self::P3 => "3",
            Self::P4 => "4",
            Self::P5A => "5A",
            Self::P5B => "5B",
            Self::P5C => "5C",
            Self::P6 => "6",
            Self::P7 => "7",
            Self::P8 => "8",
            Self::P9A => "9A",
            Self::P9B => "9B",
            Self::P10H => "10H",
            Self::P10I => "10I",
            Self::P11A => "11A",
            Self::P11B => "11B",
            Self::P15E => "15E",
        }
    }
}

/// The material number of a grade.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GradeNumber {
    /// The number.
    pub number: PNumber,
    /// What it rests on.
    pub basis: Basis,
}

/// An edition of a code that rows are held of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum CodeEdition {
    /// ASME B31.3, 2014.
    B313Of2014,
    /// ASME B31.3, 2010.
    B313Of2010,
}

/// Does the code ask for a preheat, or only advise it?
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum CodeForce {
    /// It is required.
    Required,
    /// It is recommended.
    Recommended,
}

/// One row of the table. It holds where all its stated limits do.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CodeRow {
    /// Stable id in kebab-case.
    pub id: String,
    /// The edition.
    pub edition: CodeEdition,
    /// The material numbers that it speaks of; none is every number that no other row names.
    pub numbers: Vec<PNumber>,
    /// Thicker than this, mm.
    #[serde(default)]
    pub above_mm: Option<f64>,
    /// Up to and including this thickness, mm.
    #[serde(default)]
    pub up_to_mm: Option<f64>,
    /// Specified tensile strength above this, MPa.
    #[serde(default)]
    pub tensile_above_mpa: Option<f64>,
    /// Specified tensile strength up to and including this, MPa.
    #[serde(default)]
    pub tensile_up_to_mpa: Option<f64>,
    /// Carbon above this, %.
    #[serde(default)]
    pub c_above: Option<f64>,
    /// Carbon up to and including this, %.
    #[serde(default)]
    pub c_up_to: Option<f64>,
    /// Chromium above this, %.
    #[serde(default)]
    pub cr_above: Option<f64>,
    /// The least preheat, as printed.
    pub at: Printed,
    /// The most between runs, as printed.
    #[serde(default)]
    pub interpass: Option<Printed>,
    /// Required or recommended, where that was seen.
    #[serde(default)]
    pub force: Option<CodeForce>,
    /// Where it stands.
    pub basis: Basis,
}

impl Row for CodeRow {
    fn id(&self) -> &str {
        &self.id
    }
}

/// What the table is asked with. What isn't known counts as the harder case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CodeCase {
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Specified tensile strength, MPa.
    pub tensile_mpa: Option<f64>,
    /// Carbon, %.
    pub c: Option<f64>,
    /// Chromium, %.
    pub cr: Option<f64>,
}

impl CodeRow {
    /// Does the row hold for this case? An unknown figure meets every limit.
    #[must_use]
    pub fn holds(&self, case: &CodeCase) -> bool {
        let above = |limit: Option<f64>, have: Option<f64>| {
            limit.is_none_or(|limit| have.is_none_or(|have| have > limit))
        };
        let up_to = |limit: Option<f64>, have: Option<f64>| {
            limit.is_none_or(|limit| have.is_none_or(|have| have <= limit))
        };
        let thickness_mm = Some(case.thickness_mm);
        above(self.above_mm, thickness_mm)
            && up_to(self.up_to_mm, thickness_mm)
            && above(self.tensile_above_mpa, case.tensile_mpa)
            && up_to(self.tensile_up_to_mpa, case.tensile_mpa)
            && above(self.c_above, case.c)
            && up_to(self.c_up_to, case.c)
            && above(self.cr_above, case.cr)
    }

    /// Degrees Celsius of the least preheat.
    #[must_use]
    pub fn celsius(&self) -> f64 {
        self.at.c.or(self.at.f.map(|f| (f - 32.0) / 1.8)).unwrap_or(f64::NAN)
    }
}

/// What a row of the naval table asks of steel and filler.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum NavalCase {
    /// Whatever the filler.
    General,
    /// 410 welded with 13 % chromium, 4 % nickel.
    With410NiMo,
    /// The same, where the table's own note permits it.
    With410NiMoWherePermitted,
    /// The low-carbon steel, with the low-carbon filler or a gas-shielded process.
    LowCarbonWithLowCarbon410NiMo,
    /// With the low-carbon filler or a gas-shielded process.
    WithLowCarbon410NiMo,
}

/// A row of the naval table for stainless steel.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NavalRow {
    /// Stable id in kebab-case.
    pub id: String,
    /// What it asks of steel and filler.
    pub case: NavalCase,
    /// Thinner than this, mm.
    #[serde(default)]
    pub below_mm: Option<f64>,
    /// The least preheat, as printed, where one is.
    #[serde(default)]
    pub at: Option<Printed>,
    /// The most between runs, as printed.
    #[serde(default)]
    pub interpass: Option<Printed>,
    /// Where it stands.
    pub basis: Basis,
}

impl Row for NavalRow {
    fn id(&self) -> &str {
        &self.id
    }
}

/// The whole file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CodeRows {
    /// ASME B31.3, Table 330.1.1.
    pub piping: Vec<CodeRow>,
    /// NAVSEA S9074-AR-GIB-010/278, Table IV, rows that depend on the filler.
    pub naval: Vec<NavalRow>,
}

impl CodeRows {
    /// The rows of an edition that speak of a material number.
    pub fn of(&self, edition: CodeEdition, number: PNumber) -> impl Iterator<Item = &CodeRow> {
        let mine = move |row: &&CodeRow| row.edition == edition;
        let named = self.piping.iter().filter(mine).any(|row| row.numbers.contains(&number));
        self.piping
            .iter()
            .filter(mine)
            .filter(move |row| if named { row.numbers.contains(&number) } else { row.numbers.is_empty() })
    }

    /// The row that asks most among those that hold.
    #[must_use]
    pub fn hardest(&self, edition: CodeEdition, number: PNumber, case: &CodeCase) -> Option<&CodeRow> {
        self.of(edition, number)
            .filter(|row| row.holds(case))
            .max_by(|left, right| left.celsius().total_cmp(&right.celsius()))
    }
}
