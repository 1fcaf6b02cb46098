//! Which analysis of a part do the methods work on?
//!
//! A certificate is taken as it stands. A grade without one is taken at its middle
//! composition; the root sum of squares of the weighted half ranges is added to the
//! equivalents only (spread over the elements it would make everyday plate a
//! hardenable steel). A grade whose standard caps the carbon equivalent is taken at
//! that cap: carbon at its maximum, manganese, chromium, molybdenum, vanadium, nickel
//! and copper at their maxima times one factor.

use crate::engine::carbon_equivalent::{ce_iiw, ceq_s49, cet, pcm};
use crate::engine::job::Steel;
use crate::reference::{Composition, Element, Grade};

/// Elements that a cap on CE (IIW) scales.
const SCALED: [Element; 6] = [Element::Mn, Element::Cr, Element::Mo, Element::V, Element::Ni, Element::Cu];

/// The analysis of a part as the methods see it, weight percent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chemistry {
    /// What equivalents and methods work on.
    pub composition: Composition,
    /// The middle composition: decides family, cover and range limits.
    pub nominal: Composition,
    /// Added to CET for a grade without certificate, %.
    pub cet_add: f64,
    /// Added to Pcm, %.
    pub pcm_add: f64,
    /// Added to CE (IIW), %.
    pub ce_add: f64,
    /// Is the part known by grade only?
    pub grade_only: bool,
}

impl Chemistry {
    /// The analysis of a steel.
    #[must_use]
    pub fn of(steel: &Steel) -> Self {
        match steel {
            Steel::Certificate { composition, .. } => Self::certified(*composition),
            Steel::Grade(grade) => Self::of_grade(grade),
        }
    }

    /// A certificate's analysis.
    #[must_use]
    pub const fn certified(composition: Composition) -> Self {
        Self { composition, nominal: composition, cet_add: 0.0, pcm_add: 0.0, ce_add: 0.0, grade_only: false }
    }

    fn of_grade(grade: &Grade) -> Self {
        let nominal = grade.nominal();
        if let Some(cap) = &grade.cev_cap {
            return Self {
                composition: at_cap(grade, nominal, cap.value),
                nominal,
                cet_add: 0.0,
                pcm_add: 0.0,
                ce_add: 0.0,
                grade_only: true,
            };
        }
        let spread = |equivalent: fn(&Composition) -> f64| half_range_sum(grade, &nominal, equivalent);
        Self {
            composition: nominal,
            nominal,
            cet_add: spread(cet),
            pcm_add: spread(pcm),
            ce_add: spread(ce_iiw),
            grade_only: true,
        }
    }

    /// CE (IIW) with the grade's spread, %.
    #[must_use]
    pub fn ce(&self) -> f64 {
        ce_iiw(&self.composition) + self.ce_add
    }

    /// Pcm with the grade's spread, %.
    #[must_use]
    pub fn pcm(&self) -> f64 {
        pcm(&self.composition) + self.pcm_add
    }

    /// CET with the grade's spread, %.
    #[must_use]
    pub fn cet(&self) -> f64 {
        cet(&self.composition) + self.cet_add
    }

    /// The S49 equivalent of the middle composition, %.
    #[must_use]
    pub fn ceq_s49(&self) -> f64 {
        ceq_s49(&self.nominal)
    }
}

/// `√Σ (weight × half range)²` of a linear equivalent.
fn half_range_sum(grade: &Grade, nominal: &Composition, equivalent: fn(&Composition) -> f64) -> f64 {
    let base = equivalent(nominal);
    grade
        .composition
        .iter()
        .filter_map(|(&element, limits)| {
            let half = (limits.max? - nominal.get(element)).max(0.0);
            let weighted = equivalent(&nominal.with(element, nominal.get(element) + half)) - base;
            Some(weighted * weighted)
        })
        .sum::<f64>()
        .sqrt()
}

/// The composition that meets a cap on CE (IIW).
fn at_cap(grade: &Grade, nominal: Composition, cap: f64) -> Composition {
    let mut carbon_only = Composition::default();
    carbon_only.set(Element::C, grade.max_of(Element::C).unwrap_or_else(|| nominal.get(Element::C)));
    let mut maxima = carbon_only;
    for element in SCALED {
        maxima.set(element, grade.max_of(element).unwrap_or(0.0));
    }
    let from_alloy = ce_iiw(&maxima) - ce_iiw(&carbon_only);
    let room = (cap - ce_iiw(&carbon_only)).max(0.0);
    let factor = if from_alloy > 0.0 { (room / from_alloy).min(1.0) } else { 0.0 };
    let mut made = nominal.with(Element::C, carbon_only.get(Element::C));
    for element in SCALED {
        made.set(element, maxima.get(element) * factor);
    }
    made
}
