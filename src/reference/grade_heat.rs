//! What a grade's own standard or sheet says beside its limits: a window of its own, other
//! limits for thick material, transformation temperatures.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{Basis, Element, Grade, Limits, Printed};

/// Limits that replace those of the row above a thickness.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ThickerLimits {
    /// Above this thickness, mm.
    pub above_mm: f64,
    /// The elements that have other limits there; the others keep theirs.
    pub limits: BTreeMap<Element, Limits>,
    /// What they rest on.
    pub basis: Basis,
}

/// A row of a minimum that a standard or sheet prints as a span.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WindowRow {
    /// Holds up to and including this thickness, mm; `None` is the open last row.
    #[serde(default)]
    pub up_to_mm: Option<f64>,
    /// The least, or the lower end of it.
    pub low: Printed,
    /// The upper end of the least, where a span is printed for it.
    #[serde(default)]
    pub high: Option<Printed>,
}

/// The minimum of a grade's own document, where it governs no plan of this program: the document
/// prints it together with a maximum between runs, for a procedure of its own.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DocumentedWindow {
    /// Rows from thin to thick.
    pub rows: Vec<WindowRow>,
    /// What they rest on.
    pub basis: Basis,
}

/// Both ends that a grade's own document prints, at one thickness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OwnPair<'a> {
    /// The least, or the lower end of it.
    pub minimum: Printed,
    /// The upper end of the least, where a span is printed for it.
    pub minimum_high: Option<Printed>,
    /// What the least rests on.
    pub minimum_basis: &'a Basis,
    /// The most between runs.
    pub maximum: Printed,
    /// What the most rests on.
    pub maximum_basis: &'a Basis,
}

/// Transformation temperatures that a source prints for the grade, °C.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PrintedTransformation {
    /// Martensite start.
    pub ms_c: f64,
    /// Martensite finish, by the source's own convention.
    #[serde(default)]
    pub mf_c: Option<f64>,
    /// Lower critical temperature on heating.
    #[serde(default)]
    pub ac1_c: Option<f64>,
    /// Upper critical temperature on heating.
    #[serde(default)]
    pub ac3_c: Option<f64>,
    /// What they rest on.
    pub basis: Basis,
}

impl Grade {
    /// The limits at a thickness, mm.
    #[must_use]
    pub fn composition_at(&self, thickness_mm: f64) -> BTreeMap<Element, Limits> {
        let mut made = self.composition.clone();
        for thicker in self.composition_thicker.iter().filter(|one| thickness_mm > one.above_mm) {
            made.extend(thicker.limits.iter().map(|(&element, &limits)| (element, limits)));
        }
        made
    }

    /// Both ends of the heat that the grade's own standard or sheet prints, at a thickness, mm.
    /// `None` where it prints one end or none.
    #[must_use]
    pub fn own_pair(&self, thickness_mm: f64) -> Option<OwnPair<'_>> {
        let maximum = self.interpass_rows.as_ref()?;
        let most = maximum.at(thickness_mm)?;
        let pair = |minimum, minimum_high, minimum_basis| OwnPair {
            minimum,
            minimum_high,
            minimum_basis,
            maximum: most,
            maximum_basis: &maximum.basis,
        };
        if let Some(window) = &self.documented_window {
            let reaches = |row: &&WindowRow| row.up_to_mm.is_none_or(|up_to| thickness_mm <= up_to);
            return window.rows.iter().find(reaches).map(|row| pair(row.low, row.high, &window.basis));
        }
        let own = self.preheat_rows.as_ref()?;
        own.at(thickness_mm).map(|least| pair(least, None, &own.basis))
    }
}
