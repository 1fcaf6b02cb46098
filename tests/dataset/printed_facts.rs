//! What a case of `tests/dataset/printed/` can say of the dataset.

use serde::Deserialize;
use strawblue::reference::{CodeEdition, ConditionKind, D11Category, Element, PNumber};

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Case {
    pub(super) name: String,
    pub(super) source: String,
    pub(super) fact: Fact,
}

/// A printed figure and where the dataset holds it.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) enum Fact {
    Strength {
        grade: String,
        condition: ConditionKind,
        mm: f64,
        #[serde(default)]
        yield_mpa: Option<f64>,
        #[serde(default)]
        tensile_min_mpa: Option<f64>,
        #[serde(default)]
        tensile_max_mpa: Option<f64>,
    },
    Brinell {
        grade: String,
        condition: ConditionKind,
        mm: f64,
        low: f64,
        #[serde(default)]
        high: Option<f64>,
    },
    BrinellAt {
        grade: String,
        condition: ConditionKind,
        is: f64,
    },
    /// Typical, not demanded, and within a hundredth.
    Usual {
        grade: String,
        condition: ConditionKind,
        yield_mpa: f64,
        tensile_mpa: f64,
    },
    Temper {
        grade: String,
        low_c: f64,
        high_c: f64,
    },
    SheetPreheat {
        grade: String,
        c: f64,
    },
    Transformation {
        grade: String,
        ms_c: f64,
        mf_c: f64,
        ac1_c: f64,
        ac3_c: f64,
    },
    MsPrinted {
        grade: String,
        ms_c: f64,
    },
    Limits {
        grade: String,
        mm: f64,
        element: Element,
        #[serde(default)]
        min: Option<f64>,
        max: f64,
    },
    D11 {
        grade: String,
        category: D11Category,
    },
    /// What is typed lists the grade before any that is only a slip away.
    Name {
        typed: String,
        grade: String,
    },
    /// What is typed is no name of the grade.
    NotName {
        typed: String,
        grade: String,
    },
    Code {
        edition: CodeEdition,
        number: PNumber,
        mm: f64,
        #[serde(default)]
        tensile: Option<f64>,
        #[serde(default)]
        c: Option<f64>,
        #[serde(default)]
        cr: Option<f64>,
        at_c: f64,
        at_f: f64,
    },
    Naval {
        row: String,
        #[serde(default)]
        at_f: Option<f64>,
        #[serde(default)]
        interpass_f: Option<f64>,
    },
    NavalGroup {
        group: String,
        raised: bool,
        at_f: f64,
        #[serde(default)]
        interpass_f: Option<f64>,
    },
    /// Printed in ksi or rounded to 10 MPa: within 16 MPa, and never above what is printed by more
    /// than the conversion.
    FillerStrength {
        filler: String,
        tensile_mpa: f64,
        #[serde(default)]
        yield_mpa: Option<f64>,
    },
    FillerLimits {
        filler: String,
        element: Element,
        min: f64,
        max: f64,
    },
    Bolt {
        class: String,
        c: f64,
    },
    Hydrogen {
        process: String,
        reaches_ml: f64,
    },
    Curve {
        grade: String,
        temper_c: f64,
        hv: f64,
        within: f64,
    },
    MsBand {
        c: f64,
        #[serde(default)]
        too_low_k: Option<f64>,
        #[serde(default)]
        too_high_k: Option<f64>,
        within: f64,
    },
    NoFormula {
        c: f64,
    },
    ThinTube {
        below_mm: f64,
        at_f: f64,
    },
}
