//! What does EN 1011-2 Method B ask for at the ends of its range, on a member's
//! heat-affected zone?
//!
//! Method B is monotone in each input, so an input beyond its limit is put *at* the limit
//! (each element, CET, thickness, hydrogen, heat input). Where that lowers the figure the
//! answer reads "at least"; the raw figure is kept beside it and never governs. High
//! restraint adds 25 K (a steelmaker's handbook).

use super::case::held;
use super::{Case, method_b::method_b_c};
use crate::engine::RangeCheck;
use crate::engine::carbon_equivalent::cet;
use crate::engine::plan::{Evidence, Says};
use crate::reference::{Composition, Element, Method, Restraint};
/// High restraint adds this to Method B, K (a steelmaker's handbook).
pub const HIGH_RESTRAINT_K: f64 = 25.0;
/// Under this, °C, the method asks for no preheat; its figure is then not a temperature.
pub const NO_PREHEAT_BELOW_C: f64 = 20.0;

/// What Method B is asked with once the analysis is settled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MethodBQuery {
    /// CET as the steel has it, %.
    pub cet: f64,
    /// CET with each element put at its limit, %.
    pub held_cet: f64,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Diffusible hydrogen, ml/100 g.
    pub hydrogen_ml: f64,
    /// Net heat input, kJ/mm.
    pub net_heat_kj_per_mm: f64,
    /// High restraint?
    pub high_restraint: bool,
}

/// Method B with every input put at its limit, beside the raw figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    /// Inputs at their limits, restraint added, °C.
    pub value_c: f64,
    /// Inputs as they are, restraint added, °C.
    pub raw_c: f64,
    /// Inputs beside their limits.
    pub range: Vec<RangeCheck>,
}

/// Method B at the ends of its range.
#[must_use]
pub fn at_range_ends(method: &Method, query: &MethodBQuery) -> Held {
    let mut range = Vec::with_capacity(18);
    let cet = held(method, "CET", query.held_cet, &mut range);
    if let Some(check) = range.last_mut() {
        check.value = query.cet;
    }
    // What was reckoned with, for whoever adds the parts up.
    range.push(RangeCheck { symbol: "CET held", value: cet, low: None, high: None });
    let thickness_mm = held(method, "d", query.thickness_mm, &mut range);
    let hydrogen_ml = held(method, "HD", query.hydrogen_ml, &mut range);
    let net_heat = held(method, "Q", query.net_heat_kj_per_mm, &mut range);
    let restraint_k = if query.high_restraint { HIGH_RESTRAINT_K } else { 0.0 };
    Held {
        value_c: method_b_c(cet, thickness_mm, hydrogen_ml, net_heat) + restraint_k,
        raw_c: method_b_c(query.cet, query.thickness_mm, query.hydrogen_ml, query.net_heat_kj_per_mm)
            + restraint_k,
        range,
    }
}

/// A composition with each element put at the method's limits.
#[must_use]
pub fn held_composition(
    method: &Method,
    composition: &Composition,
    range: &mut Vec<RangeCheck>,
) -> Composition {
    let mut made = *composition;
    for element in LIMITED {
        made.set(element, held(method, element.symbol(), composition.get(element), range));
    }
    made
}

/// Elements that the method limits.
const LIMITED: [Element; 11] = [
    Element::C,
    Element::Si,
    Element::Mn,
    Element::Cr,
    Element::Cu,
    Element::Mo,
    Element::Nb,
    Element::Ni,
    Element::Ti,
    Element::V,
    Element::B,
];

/// The method's word on a member's heat-affected zone.
#[must_use]
pub fn on(case: &Case<'_>) -> Evidence {
    let method = case.method("method-b");
    let mut elements = Vec::with_capacity(LIMITED.len());
    let composition = held_composition(method, &case.chemistry.composition, &mut elements);
    let found = at_range_ends(
        method,
        &MethodBQuery {
            cet: case.chemistry.cet(),
            held_cet: cet(&composition) + case.chemistry.cet_add,
            thickness_mm: case.member.thickness_mm,
            hydrogen_ml: case.hydrogen_ml,
            net_heat_kj_per_mm: case.net_heat_kj_per_mm,
            high_restraint: case.job.restraint == Restraint::High,
        },
    );
    let mut evidence = case.evidence("method-b", says(found.value_c), method.basis.clone());
    fill(&mut evidence, found, elements);
    evidence
}

/// Does a figure of the method ask for preheat at all?
#[must_use]
pub fn says(value_c: f64) -> Says {
    if value_c < NO_PREHEAT_BELOW_C { Says::Clears } else { Says::Figure(value_c) }
}

/// Puts what Method B found into a piece of evidence.
pub fn fill(evidence: &mut Evidence, found: Held, elements: Vec<RangeCheck>) {
    evidence.range = found.range;
    evidence.range.extend(elements);
    let outside = evidence.range.iter().any(|check| !check.inside());
    evidence.raw_c = outside.then_some(found.raw_c);
    evidence.at_limit = outside && found.raw_c > found.value_c + 1e-9;
}
