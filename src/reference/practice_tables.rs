//! Tables of `data/practice.ron` that stand beside the practice figures: tempers, thin tube,
//! thermomechanical steel, bolts.

use serde::{Deserialize, Serialize};

use super::{ArcKind, Basis, Printed, Row};

/// A point of a curve of hardness by temper.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TemperPoint {
    /// Tempering temperature, °C.
    pub temper_c: f64,
    /// Hardness after it, HV.
    pub hv: f64,
}

/// Hardness by temper of one grade, quenched through.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TemperCurve {
    /// The grade.
    pub grade: String,
    /// Points from cold to hot; straight between them.
    pub points: Vec<TemperPoint>,
    /// What the points rest on.
    pub basis: Basis,
}

impl Row for TemperCurve {
    fn id(&self) -> &str {
        &self.grade
    }
}

/// Straight between two points.
fn between(from: (f64, f64), to: (f64, f64), at: f64) -> f64 {
    let share = (at - from.0) / (to.0 - from.0);
    share.mul_add(to.1 - from.1, from.1)
}

impl TemperCurve {
    /// The hardness after a temper, HV; `None` outside the points.
    #[must_use]
    pub fn hardness_hv(&self, temper_c: f64) -> Option<f64> {
        self.points.windows(2).find_map(|pair| {
            let inside = (pair[0].temper_c..=pair[1].temper_c).contains(&temper_c);
            let point = |one: TemperPoint| (one.temper_c, one.hv);
            inside.then(|| between(point(pair[0]), point(pair[1]), temper_c))
        })
    }

    /// A hardness that shows that the part was tempered at this temperature or hotter, HV. Colder
    /// than the first point, the first point shows it as well; hotter than the last, nothing does.
    #[must_use]
    pub fn hardness_that_shows(&self, temper_c: f64) -> Option<f64> {
        let first = self.points.first()?;
        if temper_c <= first.temper_c { Some(first.hv) } else { self.hardness_hv(temper_c) }
    }

    /// The temper that leaves a hardness, °C; `None` outside the points.
    #[must_use]
    pub fn temper_c(&self, hv: f64) -> Option<f64> {
        self.points.windows(2).find_map(|pair| {
            let inside = (pair[1].hv..=pair[0].hv).contains(&hv);
            let point = |one: TemperPoint| (one.hv, one.temper_c);
            inside.then(|| between(point(pair[0]), point(pair[1]), hv))
        })
    }
}

/// The row of electrode makers for thin chromium-molybdenum tube.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ThinTube {
    /// Carbon at most, %.
    pub c_max: f64,
    /// The grade whose maxima the `ceq-s49` equivalent is compared with.
    pub ceq_grade: String,
    /// Molybdenum at most, %.
    pub mo_max: f64,
    /// Nickel at most, %.
    pub ni_max: f64,
    /// Vanadium at most, %.
    pub v_max: f64,
    /// Boron below this, %.
    pub b_below: f64,
    /// Thickness up to and including this, mm.
    pub up_to_mm: f64,
    /// The processes that it holds for.
    pub arcs: Vec<ArcKind>,
    /// Hydrogen at most, ml in 100 g.
    pub hydrogen_max_ml: f64,
    /// The tube is no colder than this, as printed: no preheat.
    pub minimum: Printed,
    /// What the row rests on.
    pub basis: Basis,
    /// What other texts print for it.
    pub others_low: Printed,
    /// The upper end of that.
    pub others_high: Printed,
    /// What those rest on.
    pub others_basis: Basis,
}

/// The limits of thermomechanically rolled steel of high strength.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Thermomechanical {
    /// From this yield strength on, MPa.
    pub yield_from_mpa: f64,
    /// The most between runs, °C.
    pub interpass_c: f64,
    /// What that rests on.
    pub interpass_basis: Basis,
    /// The rolling that makes it strong is lost above this, °C.
    pub ceiling_c: f64,
    /// What that rests on.
    pub ceiling_basis: Basis,
}

/// A property class of bolts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BoltClass {
    /// The class, with the steel where the temper depends on it.
    pub class: String,
    /// The lowest temper that the standard allows, °C.
    pub temper_min_c: f64,
    /// What it rests on.
    pub basis: Basis,
}

impl Row for BoltClass {
    fn id(&self) -> &str {
        &self.class
    }
}
