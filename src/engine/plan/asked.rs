//! Which facts would change a limit, and what is said where no window is left?

use super::figures::Figures;
use super::temper_curve;
use super::upper::LEAST_WINDOW_K;
use crate::engine::family::Family;
use crate::engine::part::Part;
use crate::engine::treatment::Ask;
use crate::reference::{Basis, Printed, Reference};

/// A fact that would change a limit, asked for above the figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Asked {
    /// The member.
    pub member: usize,
    /// The fact.
    pub ask: Ask,
}

/// What a document prints for a grade as its own window: for its own procedure.
#[derive(Debug, Clone, PartialEq)]
pub struct Documented {
    /// The member.
    pub member: usize,
    /// Least preheat.
    pub least: Printed,
    /// Its upper end, where it is printed as a span by thickness: the thicker, the more.
    pub least_high: Option<Printed>,
    /// Most interpass.
    pub most: Printed,
    /// The document.
    pub basis: Basis,
}

/// The least bad way where a quenched and tempered steel leaves no window, °C.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeastBad {
    /// From, °C.
    pub low_c: f64,
    /// As hot as the limit allows, °C.
    pub high_c: f64,
}

/// The facts that are asked above the figure, those of the steel first.
pub(super) fn asks(reference: &Reference, parts: &[Part<'_>], ask_temper: &[usize]) -> Vec<Asked> {
    let mut found: Vec<Asked> = Vec::new();
    for (member, part) in parts.iter().enumerate() {
        let temper = ask_temper.contains(&member).then_some(Ask::Temper);
        let against = temper_curve::contradiction(reference, part);
        for ask in against.into_iter().chain(part.asks.iter().copied()).chain(temper) {
            if !found.contains(&Asked { member, ask }) {
                found.push(Asked { member, ask });
            }
        }
    }
    found
}

/// What a grade's standard or sheet prints as its own pair.
pub(super) fn documented(parts: &[Part<'_>]) -> Option<Documented> {
    parts.iter().enumerate().find_map(|(member, part)| {
        let pair = part.member.steel.grade()?.own_pair(part.member.thickness_mm)?;
        Some(Documented {
            member,
            least: pair.minimum,
            least_high: pair.minimum_high,
            most: pair.maximum,
            basis: pair.minimum_basis.weaker(pair.maximum_basis).clone(),
        })
    })
}

/// As hot as the limit allows, where one of the parts is quenched and tempered.
pub(super) fn least_bad(parts: &[Part<'_>], figures: &Figures) -> Option<LeastBad> {
    let strong = |part: &Part<'_>| part.readings().any(|reading| reading.family == Family::QuenchedTempered);
    let high_c = figures.upper.interpass.exact_c;
    let low_c = (high_c - LEAST_WINDOW_K).min(figures.exact_c.unwrap_or(high_c));
    parts.iter().any(strong).then_some(LeastBad { low_c, high_c })
}
