//! Which metals make a weld of ferritic filler brittle or rusting, so that another filler is needed?

use crate::engine::job::{Member, Steel};
use crate::reference::{Element, GradeFamily};

/// Chromium from which a steel is stainless, %.
const STAINLESS_CHROMIUM: f64 = 10.5;
/// Carbon from which a steel with so much chromium is a tool steel, %.
const TOOL_CARBON: f64 = 0.5;
/// Carbon from which a metal is cast iron, %.
const IRON_CARBON: f64 = 2.0;
/// Manganese and carbon of austenitic manganese steel, %, at least.
const MANGANESE_STEEL: (f64, f64) = (10.0, 0.7);

/// A metal that takes up too much carbon or manganese into a filler of steel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnfitMetal {
    /// Cast iron: the weld metal turns to hard martensite and carbides.
    Iron,
    /// Austenitic manganese steel: the mixed zone turns to martensite.
    Manganese,
}

/// The metal, where a filler of steel that hardens makes its weld brittle: cast iron gives it carbon, and
/// manganese steel gives it the manganese of a martensite (common practice, no source). A buttering
/// keeps the filler off the part.
#[must_use]
pub fn unfit_metal(member: &Member) -> Option<UnfitMetal> {
    if member.buttered {
        return None;
    }
    match (member.steel.grade().map(|grade| grade.family), &member.steel) {
        (Some(GradeFamily::GreyIron | GradeFamily::DuctileIron), _) => Some(UnfitMetal::Iron),
        (Some(GradeFamily::AusteniticManganese), _) => Some(UnfitMetal::Manganese),
        (_, Steel::Certificate { composition, .. } | Steel::Unmarked { composition, .. })
            if composition.get(Element::C) >= IRON_CARBON =>
        {
            Some(UnfitMetal::Iron)
        }
        (_, Steel::Certificate { composition, .. } | Steel::Unmarked { composition, .. })
            if composition.get(Element::Mn) >= MANGANESE_STEEL.0
                && composition.get(Element::C) >= MANGANESE_STEEL.1 =>
        {
            Some(UnfitMetal::Manganese)
        }
        _ => None,
    }
}

/// Is the part of stainless steel, on which a filler without chromium rusts and cracks?
#[must_use]
pub fn is_stainless(member: &Member) -> bool {
    match member.steel.grade().map(|grade| grade.family) {
        Some(family) => matches!(
            family,
            GradeFamily::StainlessAustenitic
                | GradeFamily::StainlessFerritic
                | GradeFamily::StainlessDuplex
                | GradeFamily::StainlessMartensitic
        ),
        None => {
            let Some(composition) = member.steel.analysis() else { return false };
            composition.get(Element::Cr) >= STAINLESS_CHROMIUM && composition.get(Element::C) < TOOL_CARBON
        }
    }
}
