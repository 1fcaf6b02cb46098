//! Which analysis of a part do the methods work on?
//!
//! A certificate is taken as it stands. A grade without one is taken at its middle
//! composition; the root sum of squares of the weighted half ranges is added to the
//! equivalents only (spread over the elements it would make everyday plate a
//! hardenable steel). A grade whose standard caps the carbon equivalent is taken at
//! the cap for this thickness: carbon at its maximum, manganese, chromium, molybdenum,
//! vanadium, nickel and copper at their maxima times one factor. Thicker than the last
//! printed cap no cap holds (a middle that passes its cap is scaled to it): each equivalent is then the greater of the last cap's and
//! the middle composition's with its spread, so that it never falls with thickness.

use std::collections::BTreeMap;

use super::carbon_equivalent::{ce_iiw, ceq_s49, cet, pcm};
use super::job::Steel;
use crate::reference::{Composition, Element, Grade, Limits, middle_of};

/// What mills use of the alloying that a cap leaves room for (common practice, no source).
const USED_OF_CAP: f64 = 0.9;

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
    /// What a certificate of the grade would likely read: under a cap carbon at its middle
    /// and nine tenths of the alloying at the cap, else the middle composition.
    pub likely: Composition,
    /// Is the part known by grade only?
    pub grade_only: bool,
    /// How the cap on the grade's carbon equivalent counts.
    pub cap: Cap,
}

/// How the cap on a grade's carbon equivalent counts for a part that is known by grade only.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cap {
    /// The grade has none, or the part has a certificate.
    None,
    /// It holds for this thickness.
    Holds,
    /// The part is thicker than the last cap that is known.
    Beyond,
}

impl Chemistry {
    /// The analysis of a steel in a part of this thickness, mm.
    #[must_use]
    pub fn of(steel: &Steel, thickness_mm: f64) -> Self {
        match steel {
            Steel::Certificate { composition, .. } | Steel::Unmarked { composition, .. } => {
                Self::certified(*composition)
            }
            Steel::Grade(grade) => Self::of_grade(grade, thickness_mm),
        }
    }

    /// A certificate's analysis.
    #[must_use]
    pub const fn certified(composition: Composition) -> Self {
        Self {
            composition,
            nominal: composition,
            cet_add: 0.0,
            pcm_add: 0.0,
            ce_add: 0.0,
            likely: composition,
            grade_only: false,
            cap: Cap::None,
        }
    }

    fn of_grade(grade: &Grade, thickness_mm: f64) -> Self {
        let limits = grade.composition_at(thickness_mm);
        let nominal = middle_of(&limits);
        let spread = |equivalent: fn(&Composition) -> f64| half_range_sum(&limits, &nominal, equivalent);
        let by_middle = Self {
            composition: nominal,
            nominal,
            cet_add: spread(cet),
            pcm_add: spread(pcm),
            ce_add: spread(ce_iiw),
            likely: nominal,
            grade_only: true,
            cap: Cap::None,
        };
        if let Some(cap) = grade.cev_cap_at(thickness_mm) {
            return Self::under_cap(grade, nominal, cap.value);
        }
        match grade.cev_cap_thicker.last().or(grade.cev_cap.as_ref()) {
            Some(last) => Self::under_cap(grade, nominal, last.value).or_richer(&by_middle),
            None => by_middle,
        }
    }

    /// At a cap on CE (IIW).
    fn under_cap(grade: &Grade, nominal: Composition, cap: f64) -> Self {
        let nominal = middle_under_cap(nominal, cap);
        let composition = at_cap(grade, nominal, cap);
        Self {
            composition,
            nominal,
            cet_add: 0.0,
            pcm_add: 0.0,
            ce_add: 0.0,
            likely: likely_under_cap(composition, nominal),
            grade_only: true,
            cap: Cap::Holds,
        }
    }

    /// Beyond the last cap: each equivalent the greater of this one and the other's.
    fn or_richer(self, other: &Self) -> Self {
        Self {
            cet_add: (other.cet() - self.cet()).max(0.0),
            pcm_add: (other.pcm() - self.pcm()).max(0.0),
            ce_add: (other.ce() - self.ce()).max(0.0),
            likely: other.nominal,
            cap: Cap::Beyond,
            ..self
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
fn half_range_sum(
    limits: &BTreeMap<Element, Limits>,
    nominal: &Composition,
    equivalent: fn(&Composition) -> f64,
) -> f64 {
    let base = equivalent(nominal);
    limits
        .iter()
        .filter_map(|(&element, limits)| {
            let half = (limits.max? - nominal.get(element)).max(0.0);
            let weighted = equivalent(&nominal.with(element, nominal.get(element) + half)) - base;
            Some(weighted * weighted)
        })
        .sum::<f64>()
        .sqrt()
}

/// What a certificate would likely read where a cap on CE (IIW) holds.
fn likely_under_cap(at_cap: Composition, nominal: Composition) -> Composition {
    SCALED.into_iter().fold(at_cap.with(Element::C, nominal.get(Element::C)), |made, element| {
        made.with(element, at_cap.get(element) * USED_OF_CAP)
    })
}

/// The middle composition; one whose own CE (IIW) passes the cap is scaled to it.
fn middle_under_cap(nominal: Composition, cap: f64) -> Composition {
    let carbon = nominal.get(Element::C);
    let from_alloy = ce_iiw(&nominal) - carbon;
    if ce_iiw(&nominal) <= cap || from_alloy <= 0.0 {
        return nominal;
    }
    let factor = ((cap - carbon) / from_alloy).max(0.0);
    SCALED.into_iter().fold(nominal, |made, element| made.with(element, nominal.get(element) * factor))
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
