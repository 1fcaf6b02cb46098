//! What is a hardness on another scale, and which tensile strength goes with it?

use super::error::Domain;
use super::{EngineError, Outcome, Unit};
use crate::reference::{Method, Methods};

/// A hardness scale, or the tensile strength that goes with it.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantNames, strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Scale {
    /// Rockwell C.
    Hrc,
    /// Vickers.
    Hv,
    /// Brinell, 3000 kgf.
    Hb,
    /// Tensile strength, MPa.
    Mpa,
}

impl Scale {
    /// All scales.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    const fn symbol(self) -> &'static str {
        match self {
            Self::Hrc => "HRC",
            Self::Hv => "HV",
            Self::Hb => "HB",
            Self::Mpa => "Rm",
        }
    }

    const fn answer(self) -> &'static str {
        match self {
            Self::Hrc => "hardness-hrc",
            Self::Hv => "hardness-hv",
            Self::Hb => "hardness-hb",
            Self::Mpa => "tensile-strength",
        }
    }

    const fn unit(self) -> Unit {
        match self {
            Self::Hv => Unit::Vickers,
            Self::Mpa => Unit::Megapascal,
            Self::Hrc => Unit::RockwellC,
            Self::Hb => Unit::Brinell,
        }
    }

    const fn of(self, row: &Row) -> f64 {
        match self {
            Self::Hrc => row.0,
            Self::Hv => row.1,
            Self::Hb => row.2,
            Self::Mpa => row.3,
        }
    }
}

/// HRC, HV, HB, MPa; NaN where the table has no entry.
type Row = (f64, f64, f64, f64);

const NONE: f64 = f64::NAN;

/// ASTM E140 / SAE J417 for carbon and low-alloy steel, soft to hard. Brinell above 58 HRC
/// is by a tungsten carbide ball. Rows without HRC are the table below 20 HRC.
const E140: [Row; 43] = [
    (NONE, 189.0, 179.0, 608.0),
    (NONE, 197.0, 187.0, 637.0),
    (NONE, 208.0, 197.0, 667.0),
    (NONE, 218.0, 207.0, 696.0),
    (NONE, 228.0, 217.0, 745.0),
    (20.0, 238.0, 226.0, 758.0),
    (NONE, 241.0, 229.0, 775.0),
    (22.0, 248.0, 237.0, 793.0),
    (24.0, 260.0, 247.0, 820.0),
    (26.0, 272.0, 258.0, 862.0),
    (28.0, 286.0, 271.0, 903.0),
    (30.0, 302.0, 286.0, 951.0),
    (32.0, 318.0, 301.0, 1007.0),
    (34.0, 336.0, 319.0, 1048.0),
    (36.0, 354.0, 336.0, 1110.0),
    (38.0, 372.0, 353.0, 1179.0),
    (40.0, 392.0, 371.0, 1255.0),
    (42.0, 412.0, 390.0, 1338.0),
    (44.0, 434.0, 409.0, 1434.0),
    (45.0, 446.0, 421.0, 1482.0),
    (46.0, 458.0, 432.0, 1524.0),
    (47.0, 471.0, 443.0, 1579.0),
    (48.0, 484.0, 455.0, 1641.0),
    (49.0, 498.0, 469.0, 1696.0),
    (50.0, 513.0, 481.0, 1758.0),
    (51.0, 528.0, 496.0, 1820.0),
    (52.0, 544.0, 512.0, 1882.0),
    (53.0, 560.0, 525.0, 1951.0),
    (54.0, 577.0, 543.0, 2013.0),
    (55.0, 595.0, 560.0, 2075.0),
    (56.0, 613.0, 577.0, 2158.0),
    (57.0, 633.0, 595.0, 2241.0),
    (58.0, 653.0, 615.0, 2330.0),
    (59.0, 674.0, 634.0, 2420.0),
    (60.0, 697.0, 654.0, NONE),
    (61.0, 720.0, 670.0, NONE),
    (62.0, 746.0, 688.0, NONE),
    (63.0, 772.0, 705.0, NONE),
    (64.0, 800.0, 722.0, NONE),
    (65.0, 832.0, 739.0, NONE),
    (66.0, 865.0, NONE, NONE),
    (67.0, 900.0, NONE, NONE),
    (68.0, 940.0, NONE, NONE),
];

/// ISO 18265 Table A.1 for unalloyed and low-alloy steel, from memory, soft to hard.
const ISO_18265: [Row; 20] = [
    (NONE, 100.0, 95.0, 320.0),
    (NONE, 120.0, 114.0, 385.0),
    (NONE, 140.0, 133.0, 450.0),
    (NONE, 160.0, 152.0, 510.0),
    (NONE, 180.0, 171.0, 575.0),
    (NONE, 200.0, 190.0, 640.0),
    (NONE, 220.0, 209.0, 705.0),
    (20.3, 240.0, 228.0, 770.0),
    (24.0, 260.0, 247.0, 835.0),
    (27.1, 280.0, 266.0, 900.0),
    (29.8, 300.0, 285.0, 965.0),
    (32.2, 320.0, 304.0, 1030.0),
    (35.5, 350.0, 333.0, 1125.0),
    (38.8, 380.0, 361.0, 1220.0),
    (40.8, 400.0, 380.0, 1290.0),
    (45.3, 450.0, 428.0, 1455.0),
    (49.1, 500.0, 475.0, 1630.0),
    (52.3, 550.0, 523.0, 1810.0),
    (55.2, 600.0, 570.0, 1995.0),
    (57.8, 650.0, 618.0, 2180.0),
];

/// Which conversion table.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantNames, strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum ConversionTable {
    /// ASTM E140 / SAE J417.
    AstmE140,
    /// ISO 18265 Table A.1.
    #[strum(serialize = "iso-18265")]
    Iso18265,
}

impl ConversionTable {
    /// Both tables.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    const fn rows(self) -> &'static [Row] {
        match self {
            Self::AstmE140 => &E140,
            Self::Iso18265 => &ISO_18265,
        }
    }

    const fn method(self) -> Method {
        match self {
            Self::AstmE140 => Method::AstmE140,
            Self::Iso18265 => Method::Iso18265,
        }
    }

    /// The span of a scale in this table.
    fn span(self, scale: Scale) -> (f64, f64) {
        self.rows()
            .iter()
            .map(|row| scale.of(row))
            .filter(|value| !value.is_nan())
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)))
    }

    /// A value on another scale, straight between the rows that hold both; `None` outside them.
    ///
    /// A printed row of ASTM E140:
    /// ```
    /// use strawblue::engine::hardness_conversion::{ConversionTable, Scale};
    /// assert_eq!(ConversionTable::AstmE140.convert(30.0, Scale::Hrc, Scale::Hv), Some(302.0));
    /// ```
    #[must_use]
    pub fn convert(self, value: f64, from: Scale, to: Scale) -> Option<f64> {
        let mut before: Option<(f64, f64)> = None;
        for row in self.rows() {
            let (x, y) = (from.of(row), to.of(row));
            if x.is_nan() || y.is_nan() {
                continue;
            }
            if let Some((x0, y0)) = before
                && (x0..=x).contains(&value)
            {
                return Some(y0 + (value - x0) / (x - x0) * (y - y0));
            }
            before = Some((x, y));
        }
        None
    }
}

/// A hardness on every other scale of the table: `hardness-hrc`, `hardness-hv`,
/// `hardness-hb`, `tensile-strength`; no value where the table has no entry. A strength has its
/// scatter beside it, and so has a hardness that was read from one.
///
/// Valid for carbon and low-alloy steel. Strength above about 50 HRC is indicative.
///
/// # Errors
/// A value that is not a number, negative, or outside the table: nothing is extrapolated.
pub fn hardness_conversion(
    methods: &Methods,
    value: f64,
    from: Scale,
    table: ConversionTable,
) -> Result<Vec<Outcome>, EngineError> {
    let (low, high) = table.span(from);
    Domain { symbol: from.symbol(), low, high }.check(value)?;
    Ok(Scale::ALL
        .iter()
        .copied()
        .filter(|to| *to != from)
        .map(|to| {
            let mut outcome = Outcome::open(table.method(), to.unit()).named(to.answer());
            outcome.value = table.convert(value, from, to);
            // From a strength the way back is as uncertain.
            let strength = to == Scale::Mpa || from == Scale::Mpa;
            let scatter = methods.row(table.method()).scatter.as_ref().filter(|_| strength);
            if let Some((scatter, value)) = scatter.zip(outcome.value) {
                let (low, high) = scatter.by.about(value);
                outcome = outcome.spread(low, high);
            }
            outcome
        })
        .collect())
}
