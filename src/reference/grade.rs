//! A steel grade as `data/grades.ron` holds it.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{
    Basis, Composition, ConditionKind, DocumentedWindow, Element, GradeCondition, GradeNumber,
    PrintedTransformation, Row, Temper, ThickerLimits, row_at,
};
use crate::units::Printed;

/// The limits of one element in a grade, in weight percent.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Limits {
    /// Lowest allowed, where stated.
    pub min: Option<f64>,
    /// Highest allowed, where stated.
    pub max: Option<f64>,
}

/// How the grade is treated, where that does not follow from its analysis.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum GradeFamily {
    /// The analysis decides.
    ByAnalysis,
    /// Tool steel: a sheet of its own.
    ToolSteel,
    /// Creep-resisting chromium-molybdenum or carbon-molybdenum steel.
    CreepResisting,
    /// Austenitic stainless steel.
    StainlessAustenitic,
    /// Ferritic stainless steel.
    StainlessFerritic,
    /// Martensitic stainless steel.
    StainlessMartensitic,
    /// Duplex stainless steel: ferrite and austenite in about equal parts.
    StainlessDuplex,
    /// Austenitic manganese steel.
    AusteniticManganese,
    /// Grey iron.
    GreyIron,
    /// Ductile (spheroidal graphite) iron.
    DuctileIron,
    /// Must not be fusion welded: leaded.
    DoNotWeldLead,
    /// Must not be fusion welded: resulphurised.
    DoNotWeldSulphur,
    /// High-speed steel: not welded.
    DoNotWeldHighSpeed,
}

/// The carbon equivalent (IIW) that the standard caps for the grade.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CevCap {
    /// Highest CE (IIW).
    pub value: f64,
    /// The greatest thickness that it holds for, mm.
    pub up_to_mm: Option<f64>,
    /// What it rests on.
    pub basis: Basis,
}

/// Preheat category of AWS D1.1 for a listed grade. Category A is category B's
/// steels with a process that is not low in hydrogen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum D11Category {
    /// Listed as B with a low-hydrogen process, A otherwise.
    B,
    /// Category C.
    C,
    /// Category D.
    D,
}

/// A row of a table by thickness.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ThicknessRow {
    /// Holds up to and including this thickness, mm; `None` is the open last row.
    pub up_to_mm: Option<f64>,
    /// The printed temperature.
    pub at: Printed,
}

/// A table by thickness with its basis.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ThicknessTable {
    /// Rows from thin to thick.
    pub rows: Vec<ThicknessRow>,
    /// What they rest on.
    pub basis: Basis,
}

/// How closely a published preheat belongs to the grade that it is shown for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum PublishedFit {
    /// The source names the grade.
    GradeNamed,
    /// A row of the source covers the grade's carbon range.
    CarbonRow,
    /// A published rule; that the grade belongs to its group is our assignment.
    GroupAssigned,
    /// The nearest row of the source, applied to this grade.
    Analogy,
    /// Beyond the last row of the source.
    Extrapolated,
    /// From memory.
    Memory,
    /// From memory and doubtful: look it up.
    MemoryDoubtful,
}

/// A published preheat for the grade; shown beside the plan, never silently part of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PublishedPreheat {
    /// Lower end, °C.
    pub low_c: Option<f64>,
    /// Upper end, °C.
    pub high_c: Option<f64>,
    /// The Fluent message `grade-heat-…` for what is more than the two figures.
    #[serde(default)]
    pub wording: Option<String>,
    /// Does it come from the old SAE chart by steel group (no hydrogen, no thickness)?
    #[serde(default)]
    pub sae_chart: bool,
    /// Is it the grade's own sheet (rail, cast steel), which replaces a practice figure and
    /// doesn't stand beside it?
    #[serde(default)]
    pub replaces_practice: bool,
    /// How closely it belongs to the grade.
    pub fit: PublishedFit,
    /// What it rests on.
    pub basis: Basis,
}

/// Post-weld heat treatment for the grade.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pwht {
    /// Lower end, °C.
    pub low_c: Option<f64>,
    /// Upper end, °C.
    pub high_c: Option<f64>,
    /// The Fluent message `grade-heat-…` for what is more than the two figures.
    #[serde(default)]
    pub wording: Option<String>,
    /// What it rests on.
    pub basis: Basis,
}

/// One grade: a row of `data/grades.ron`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Grade {
    /// Stable id, unique.
    pub id: String,
    /// Full designation as its standard writes it.
    pub designation: String,
    /// Cross-references: other designations and numbers, the first ones closest.
    #[serde(default)]
    pub also: Vec<String>,
    /// Designations of similar grades: near, but not the same.
    #[serde(default)]
    pub near: Vec<String>,
    /// Product standards that the grade is bought to.
    #[serde(default)]
    pub standards: Vec<String>,
    /// The group that it is browsed under: the Fluent message `group-GROUP`.
    pub group: String,
    /// Product forms as the source gives them: Fluent messages `grade-form-FORM`.
    pub forms: Vec<String>,
    /// Own treatment, where the analysis does not decide.
    pub family: GradeFamily,
    /// Specified limits by element, weight percent.
    pub composition: BTreeMap<Element, Limits>,
    /// What the composition rests on.
    pub composition_basis: Basis,
    /// Further sources in which the composition, or a part of it, was seen.
    #[serde(default)]
    pub composition_seen: Vec<String>,
    /// Elements whose limits are from memory although the rest is published.
    #[serde(default)]
    pub composition_memory: Vec<Element>,
    /// Elements whose limits are what is usual, not what the standard demands.
    #[serde(default)]
    pub composition_usual: Vec<Element>,
    /// Other limits for thicker material, from thin to thick.
    #[serde(default)]
    pub composition_thicker: Vec<ThickerLimits>,
    /// The conditions that the grade comes in, the usual one first.
    pub conditions: Vec<GradeCondition>,
    /// Cap on the carbon equivalent, where the standard states one; the lowest, for thin material.
    #[serde(default)]
    pub cev_cap: Option<CevCap>,
    /// Caps for thicker material, from thin to thick.
    #[serde(default)]
    pub cev_cap_thicker: Vec<CevCap>,
    /// Preheat category of AWS D1.1, where the grade is listed.
    #[serde(default)]
    pub d11_category: Option<D11Category>,
    /// For category D, which asks for at most 8 ml in 100 g: the category above that.
    #[serde(default)]
    pub d11_above_h8: Option<D11Category>,
    /// What the category rests on.
    #[serde(default)]
    pub d11_basis: Option<Basis>,
    /// The grade's own minimum preheat by thickness (A514/A517).
    #[serde(default)]
    pub preheat_rows: Option<ThicknessTable>,
    /// The grade's own maximum interpass by thickness.
    #[serde(default)]
    pub interpass_rows: Option<ThicknessTable>,
    /// The minimum of the grade's own document beside its maximum between runs, where it isn't
    /// among `preheat_rows`.
    #[serde(default)]
    pub documented_window: Option<DocumentedWindow>,
    /// Its material number in ASME Section IX, where it has one.
    #[serde(default)]
    pub p_number: Option<GradeNumber>,
    /// Its usual temper is a low one, which a weld's heat spoils (wear plate, spring, bearing):
    /// what says so.
    #[serde(default)]
    pub low_temper: Option<Basis>,
    /// Transformation temperatures that a source prints for it.
    #[serde(default)]
    pub transformation: Option<PrintedTransformation>,
    /// The sheet of its family in `data/own_sheets.ron`: a group or a sheet.
    #[serde(default)]
    pub own_sheet: Option<String>,
    /// A named data sheet's preheat with no thickness or hydrogen (42CrMo4: 300 °C).
    #[serde(default)]
    pub data_sheet: Option<PublishedPreheat>,
    /// The preheat on a maker's card of the grade, which knows neither thickness nor hydrogen, where
    /// it isn't held as `data_sheet`: it governs nothing.
    #[serde(default)]
    pub maker_sheet: Option<PublishedPreheat>,
    /// Published preheat to show beside the plan.
    #[serde(default)]
    pub published_preheat: Option<PublishedPreheat>,
    /// Post-weld heat treatment.
    #[serde(default)]
    pub pwht: Option<Pwht>,
    /// Weldability class A (freely) to E (avoid); our grouping.
    pub weldability: char,
    /// Fluent messages with notes on this grade.
    #[serde(default)]
    pub notes: Vec<String>,
}

impl Grade {
    /// The upper limit of an element, where one is stated.
    #[must_use]
    pub fn max_of(&self, element: Element) -> Option<f64> {
        self.composition.get(&element).and_then(|limits| limits.max)
    }

    /// The middle composition: the midpoint of a range; carbon and manganese with
    /// a maximum only at 0.8 of it, any other element at 0.5 of it.
    #[must_use]
    pub fn nominal(&self) -> Composition {
        middle_of(&self.composition)
    }

    /// The row of a condition at a thickness, mm: the first whose thickness reaches it.
    /// `None` beyond the last stated thickness, where the strengths are not known.
    #[must_use]
    pub fn condition_at(&self, kind: ConditionKind, thickness_mm: f64) -> Option<&GradeCondition> {
        self.conditions
            .iter()
            .filter(|condition| condition.kind == kind)
            .find(|condition| condition.up_to_mm.is_none_or(|up_to| thickness_mm <= up_to))
    }

    /// The kinds of condition, each once, the usual one first.
    #[must_use]
    pub fn condition_kinds(&self) -> Vec<ConditionKind> {
        let mut kinds = Vec::new();
        for condition in &self.conditions {
            if !kinds.contains(&condition.kind) {
                kinds.push(condition.kind);
            }
        }
        kinds
    }

    /// The tempering range of a condition, whatever the thickness.
    #[must_use]
    pub fn temper_of(&self, kind: ConditionKind) -> Option<Temper> {
        self.conditions
            .iter()
            .filter(|condition| condition.kind == kind)
            .find_map(|condition| condition.temper)
    }

    /// The cap on the carbon equivalent at a thickness, mm.
    #[must_use]
    pub fn cev_cap_at(&self, thickness_mm: f64) -> Option<&CevCap> {
        self.cev_cap
            .iter()
            .chain(&self.cev_cap_thicker)
            .find(|cap| cap.up_to_mm.is_none_or(|up_to| thickness_mm <= up_to))
    }
}

impl Row for Grade {
    fn id(&self) -> &str {
        &self.id
    }
}

/// The row of a thickness, of rows from thin to thick.
#[must_use]
pub fn thickness_row(rows: &[ThicknessRow], thickness_mm: f64) -> Option<&ThicknessRow> {
    row_at(rows, |row| row.up_to_mm, thickness_mm)
}

impl ThicknessTable {
    /// The printed temperature at a thickness, mm.
    #[must_use]
    pub fn at(&self, thickness_mm: f64) -> Option<Printed> {
        thickness_row(&self.rows, thickness_mm).map(|row| row.at)
    }
}

/// The middle of a set of limits, by the rule of [`Grade::nominal`].
#[must_use]
pub fn middle_of(limits: &BTreeMap<Element, Limits>) -> Composition {
    let mut made = Composition::default();
    for (&element, limits) in limits {
        let share = if matches!(element, Element::C | Element::Mn) { 0.8 } else { 0.5 };
        let percent = match (limits.min, limits.max) {
            (Some(min), Some(max)) => f64::midpoint(min, max),
            (None, Some(max)) => share * max,
            (Some(min), None) => min,
            (None, None) => 0.0,
        };
        made.set(element, percent);
    }
    made
}
