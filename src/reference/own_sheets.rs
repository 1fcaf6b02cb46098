//! Families that no carbon-equivalent method speaks for, each with its own figures:
//! `data/own_sheets.ron`.

use serde::{Deserialize, Serialize};

use super::{Basis, GradeFamily, Printed, Row};

/// The ways to weld cast iron; they are never blended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum IronRouteKind {
    /// Hand-warm, nickel filler, short beads.
    Cold,
    /// Between the two; needs care.
    SemiHot,
    /// Red-hot throughout.
    Hot,
}

/// One route for iron. Its words are the Fluent message `iron-ID`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IronRoute {
    /// Stable id in kebab-case.
    pub id: String,
    /// Which way.
    pub kind: IronRouteKind,
    /// Preheat, lower end, °C.
    pub preheat_low_c: f64,
    /// Preheat, upper end, °C.
    pub preheat_high_c: f64,
    /// Maximum interpass, °C.
    pub interpass_c: Option<f64>,
    /// Longest bead, mm.
    pub bead_mm: Option<f64>,
    /// Fastest cooling, K/h.
    pub cooling_k_per_h: Option<f64>,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for IronRoute {
    fn id(&self) -> &str {
        &self.id
    }
}

/// A published span for one kind of iron. Its words are the Fluent message `iron-ID`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IronSpan {
    /// Stable id in kebab-case.
    pub id: String,
    /// The iron that it speaks of: grey or ductile.
    pub iron: GradeFamily,
    /// Lower end, °C.
    pub low_c: f64,
    /// Upper end, °C; `None` means "and up".
    pub high_c: Option<f64>,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for IronSpan {
    fn id(&self) -> &str {
        &self.id
    }
}

/// A group of the naval table for carbon, creep-resisting and stainless steel. The
/// base figure holds unless one of the conditions raises it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SheetGroup {
    /// Stable id in kebab-case; its words are the Fluent message `sheet-ID`.
    pub id: String,
    /// Chromium above this, %, that puts a steel in the group.
    pub cr_above: Option<f64>,
    /// Chromium up to and including this, %.
    pub cr_up_to: Option<f64>,
    /// Base minimum, as printed.
    pub base: Printed,
    /// Raised minimum, as printed.
    pub raised: Option<Printed>,
    /// Raised where the specified tensile strength is above this, MPa.
    pub raised_above_tensile_mpa: Option<f64>,
    /// Raised above this thickness, mm.
    pub raised_above_mm: Option<f64>,
    /// Thickness raises it only where chromium is above this too, %.
    pub thickness_needs_cr_above: Option<f64>,
    /// Thickness raises it only where carbon is above this too, %.
    pub thickness_needs_c_above: Option<f64>,
    /// Maximum interpass, as printed.
    pub interpass: Option<Printed>,
    /// What it rests on.
    pub basis: Basis,
}

impl SheetGroup {
    /// The group's printed minimum for a steel of this tensile strength (MPa), thickness
    /// (mm) and analysis (%).
    #[must_use]
    pub fn minimum(&self, case: &SheetCase) -> Printed {
        let by_tensile = self
            .raised_above_tensile_mpa
            .is_some_and(|limit| case.tensile_mpa.is_none_or(|have| have > limit));
        let by_thickness = self.raised_above_mm.is_some_and(|limit| case.thickness_mm > limit)
            && self.thickness_needs_cr_above.is_none_or(|limit| case.cr > limit)
            && self.thickness_needs_c_above.is_none_or(|limit| case.c > limit);
        if by_tensile || by_thickness { self.raised.unwrap_or(self.base) } else { self.base }
    }
}

impl Row for SheetGroup {
    fn id(&self) -> &str {
        &self.id
    }
}

/// What a sheet is asked with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SheetCase {
    /// Specified tensile strength, MPa; unknown is treated as above every limit.
    pub tensile_mpa: Option<f64>,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Carbon, %.
    pub c: f64,
    /// Chromium, %.
    pub cr: f64,
}

/// A sheet of plain figures. Its words are the Fluent message `sheet-ID`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sheet {
    /// Stable id in kebab-case.
    pub id: String,
    /// Minimum preheat, °C; `None` means that none is asked.
    pub preheat_low_c: Option<f64>,
    /// Upper end of the preheat, °C.
    pub preheat_high_c: Option<f64>,
    /// Maximum interpass, °C.
    pub interpass_c: Option<f64>,
    /// Nowhere in the part above this, °C, at any time.
    #[serde(default)]
    pub ceiling_c: Option<f64>,
    /// Does the part stay under its own tempering temperature, whatever the figures say?
    #[serde(default)]
    pub below_own_temper: bool,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for Sheet {
    fn id(&self) -> &str {
        &self.id
    }
}

/// Highest hardness allowed in a procedure test, HV 10, by steel group of ISO/TR 15608. Kept for
/// reading: no answer is held against it yet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HardnessLimit {
    /// Steel group: `1`, `2`, `3` … `9.1`.
    pub group: String,
    /// As welded.
    pub as_welded_hv: Option<f64>,
    /// After heat treatment.
    pub heat_treated_hv: Option<f64>,
}

/// Hardness limits.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HardnessLimits {
    /// By steel group.
    pub rows: Vec<HardnessLimit>,
    /// What they rest on.
    pub basis: Basis,
}

/// Hydrogen diffusion at one temperature.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DiffusionPoint {
    /// Temperature, °C.
    pub at_c: f64,
    /// Overall diffusion coefficient, cm²/s.
    pub cm2_per_s: f64,
    /// Lattice diffusion coefficient, cm²/s, where measured. Kept for reading beside the overall one.
    pub lattice_cm2_per_s: Option<f64>,
}

/// Measured hydrogen diffusion.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Diffusion {
    /// Points from hot to cold.
    pub points: Vec<DiffusionPoint>,
    /// What they rest on.
    pub basis: Basis,
}

/// The whole file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnSheets {
    /// Routes for iron.
    pub iron: Vec<IronRoute>,
    /// Published spans for kinds of iron.
    pub iron_spans: Vec<IronSpan>,
    /// Groups of the naval table: carbon (S-1, S-2) and creep-resisting (S-3 to S-5).
    pub groups: Vec<SheetGroup>,
    /// Stainless, tool and 9 % chromium steels.
    pub sheets: Vec<Sheet>,
    /// Hardness limits.
    pub hardness: HardnessLimits,
    /// Hydrogen diffusion.
    pub diffusion: Diffusion,
}

impl OwnSheets {
    /// A group of the naval table.
    #[must_use]
    pub fn group(&self, id: &str) -> Option<&SheetGroup> {
        self.groups.iter().find(|group| group.id == id)
    }

    /// A sheet of plain figures.
    #[must_use]
    pub fn sheet(&self, id: &str) -> Option<&Sheet> {
        self.sheets.iter().find(|sheet| sheet.id == id)
    }

    /// Published spans for one kind of iron.
    pub fn spans_of(&self, iron: GradeFamily) -> impl Iterator<Item = &IronSpan> {
        self.iron_spans.iter().filter(move |span| span.iron == iron)
    }

    /// The route for iron of one kind.
    #[must_use]
    pub fn iron_route(&self, kind: IronRouteKind) -> Option<&IronRoute> {
        self.iron.iter().find(|route| route.kind == kind)
    }
}
