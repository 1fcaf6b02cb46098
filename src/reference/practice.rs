//! Practice figures that hardenable steels are preheated by: `data/practice.ron`.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{Basis, BoltClass, Element, Printed, Row, TemperCurve, Thermomechanical, ThicknessRow, ThinTube};

/// May a row govern a plan?
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum RowUse {
    /// It may govern where it covers the steel.
    MayGovern,
    /// It is shown and never governs.
    ShownOnly,
}

/// A wider cover that one row is stretched to.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stretch {
    /// Carbon at most, %.
    pub c_max: f64,
    /// Equivalent of the `ceq-s49` form at most, %.
    pub ceq_max: f64,
}

/// A published case in which a steel cracked although it was preheated.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CrackedCase {
    /// The preheats at which it cracked, °C.
    pub at_c: Vec<f64>,
    /// Where the case is told.
    pub basis: Basis,
}

/// The handbook's rows for one grade, by thickness, with low-hydrogen consumables.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LowHydrogenRow {
    /// Stable id in kebab-case.
    pub id: String,
    /// The grade whose maxima say what the row covers.
    pub grade: String,
    /// Rows from thin to thick; the last one is open.
    pub rows: Vec<ThicknessRow>,
    /// Above this thickness, mm, the open row reads "at least".
    pub at_least_above_mm: f64,
    /// May it govern?
    pub row_use: RowUse,
    /// Elements that the row covers beyond the maxima of its grade, %.
    #[serde(default)]
    pub cover_max: BTreeMap<Element, f64>,
    /// A wider cover, where the row is stretched.
    pub stretch: Option<Stretch>,
    /// A published case in which the row's grade cracked.
    #[serde(default)]
    pub cracked: Option<CrackedCase>,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for LowHydrogenRow {
    fn id(&self) -> &str {
        &self.id
    }
}

/// The handbook table.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LowHydrogen {
    /// The hydrogen that the figures are taken to hold for, ml in 100 g.
    pub hydrogen_ml: f64,
    /// What that hydrogen rests on.
    pub hydrogen_basis: Basis,
    /// The rows.
    pub rows: Vec<LowHydrogenRow>,
}

/// How an element counts when a practice row is asked whether it covers a steel.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CoverElement {
    /// The maximum to take where the grade states none, %.
    pub unstated_max: Option<f64>,
    /// Product tolerance on top of a maximum, %.
    pub tolerance: f64,
}

/// The rule of cover: a row covers a steel whose elements are each at or under the
/// maxima of the row's grade.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cover {
    /// The elements that are compared.
    pub elements: BTreeMap<Element, CoverElement>,
    /// What the rule rests on.
    pub basis: Basis,
}

/// One step of a staircase: up to and including `up_to`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Band {
    /// Equivalent up to and including this; `None` is the open last step.
    pub up_to: Option<f64>,
    /// Preheat, °C.
    pub preheat_c: f64,
    /// Is the step ours, beyond the last printed one?
    #[serde(default)]
    pub ours: bool,
}

/// Preheat by a staircase of an equivalent.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bands {
    /// The steps from low to high.
    pub steps: Vec<Band>,
    /// What they rest on.
    pub basis: Basis,
}

/// One range of the Dearden-O'Neill rule.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpanBand {
    /// Equivalent above this.
    pub above: f64,
    /// Up to and including this; `None` is open.
    pub up_to: Option<f64>,
    /// Lower end; `None` means that the rule asks for none.
    pub low: Option<Printed>,
    /// Upper end.
    pub high: Option<Printed>,
}

/// Preheat spans by an equivalent.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpanBands {
    /// The bands from low to high.
    pub bands: Vec<SpanBand>,
    /// What they rest on.
    pub basis: Basis,
}

impl SpanBands {
    /// The band of an equivalent. A border belongs to the band that prints a figure.
    ///
    /// # Panics
    /// Never with a dataset that was checked: the last band is open.
    #[must_use]
    pub fn at(&self, equivalent: f64) -> &SpanBand {
        let holds = |band: &&SpanBand| {
            band.up_to.is_none_or(|up_to| equivalent < up_to || (equivalent <= up_to && band.low.is_some()))
        };
        self.bands.iter().find(holds).expect("the last band is open")
    }
}

/// A point of the carbon line.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CarbonPoint {
    /// Carbon, %.
    pub c: f64,
    /// Preheat, °C.
    pub preheat_c: f64,
}

/// The chart for plain carbon steel read as a line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CarbonLine {
    /// Points from low to high; flat outside them.
    pub points: Vec<CarbonPoint>,
    /// The hydrogen that the line is taken to hold for, ml in 100 g.
    pub hydrogen_ml: f64,
    /// What the points rest on.
    pub basis: Basis,
    /// What the hydrogen and the reading as a line rest on.
    pub reading_basis: Basis,
}

/// The shift of a practice figure for another hydrogen:
/// `factor · (HD^exponent − base^exponent)`, kept within the limits.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HydrogenShift {
    /// Factor, K.
    pub factor_k: f64,
    /// Exponent.
    pub exponent: f64,
    /// Lowest shift, K.
    pub min_k: f64,
    /// Highest shift, K.
    pub max_k: f64,
    /// What the form rests on; its use here is common practice.
    pub basis: Basis,
}

/// The credit of the carbon line for thin material:
/// `factor · [tanh(d/scale) − tanh(base/scale)]`, kept within the limits.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ThicknessCredit {
    /// Factor, K.
    pub factor_k: f64,
    /// Scale, mm.
    pub scale_mm: f64,
    /// The thickness without credit, mm.
    pub base_mm: f64,
    /// Lowest credit, K.
    pub min_k: f64,
    /// Highest credit, K.
    pub max_k: f64,
    /// What it rests on.
    pub basis: Basis,
}

/// A row of the old preheating chart by steel group: it knows neither hydrogen nor thickness.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SaeRow {
    /// Stable id in kebab-case.
    pub id: String,
    /// The steel or steel group as the chart names it.
    pub steel: String,
    /// Ids of grades that the row names.
    #[serde(default)]
    pub grades: Vec<String>,
    /// Carbon above this, %, where the row goes by carbon.
    pub c_above: Option<f64>,
    /// Carbon up to and including this, %.
    pub c_up_to: Option<f64>,
    /// Lower end as printed; `None` where only an upper end is.
    pub low: Option<Printed>,
    /// Upper end as printed.
    pub high: Printed,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for SaeRow {
    fn id(&self) -> &str {
        &self.id
    }
}

/// A published span for a kind of steel. Kept for reading: the plan doesn't show it yet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ShownSpan {
    /// Stable id in kebab-case.
    pub id: String,
    /// Carbon above this, %.
    pub c_above: Option<f64>,
    /// Carbon up to and including this, %.
    pub c_up_to: Option<f64>,
    /// Thicker than this, mm.
    pub above_mm: Option<f64>,
    /// Lower end as printed.
    pub low: Printed,
    /// Upper end as printed.
    pub high: Option<Printed>,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for ShownSpan {
    fn id(&self) -> &str {
        &self.id
    }
}

/// The whole file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Practice {
    /// Handbook rows by thickness, low-hydrogen.
    pub low_hydrogen: LowHydrogen,
    /// The rule of cover.
    pub cover: Cover,
    /// Staircase of the `ceq-s49` equivalent.
    pub ceq_bands: Bands,
    /// The carbon line.
    pub carbon_line: CarbonLine,
    /// The hydrogen shift.
    pub hydrogen_shift: HydrogenShift,
    /// The thickness credit.
    pub thickness_credit: ThicknessCredit,
    /// The Dearden-O'Neill bands.
    pub dearden_oneill: SpanBands,
    /// The old chart by steel group.
    pub sae_chart: Vec<SaeRow>,
    /// Other published spans.
    pub shown_spans: Vec<ShownSpan>,
    /// Thin chromium-molybdenum tube.
    pub thin_tube: ThinTube,
    /// Thermomechanically rolled steel.
    pub thermomechanical: Thermomechanical,
    /// Hardness by temper.
    pub temper_curves: Vec<TemperCurve>,
    /// The curve that stands for a grade without one of its own.
    pub temper_curve: String,
    /// Property classes of bolts.
    pub bolt_classes: Vec<BoltClass>,
}

impl Practice {
    /// The hardness by temper of a grade: its own curve, else the one that stands for all.
    #[must_use]
    pub fn temper_curve_of(&self, grade: Option<&str>) -> Option<&TemperCurve> {
        let of = |id: &str| self.temper_curves.iter().find(|curve| curve.grade == id);
        grade.and_then(of).or_else(|| of(&self.temper_curve))
    }
}
