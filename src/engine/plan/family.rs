//! How is a steel treated? Family first: most mistakes are made by asking a formula
//! about a steel that it was never made for.

use super::Chemistry;
use super::types::Family;
use crate::engine::job::{Condition, Member};
use crate::reference::{ConditionKind, Element, GradeFamily, Reference};

/// Lead from which a certificate says "leaded", weight percent.
pub const LEAD_LIMIT: f64 = 0.15;
/// Sulphur from which a certificate says "resulphurised", weight percent.
pub const SULPHUR_LIMIT: f64 = 0.08;
/// Carbon above which a steel hardens fully, weight percent.
pub const HARDENING_CARBON: f64 = 0.25;
/// Yield from which a quenched and tempered steel counts as such, MPa.
pub const QT_YIELD_MPA: f64 = 460.0;

/// Why a steel must not be welded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Refusal {
    /// Leaded.
    Lead,
    /// Resulphurised.
    Sulphur,
}

/// Why a part must not be welded, where it must not.
#[must_use]
pub(super) fn refusal(member: &Member, chemistry: &Chemistry) -> Option<Refusal> {
    if !chemistry.grade_only {
        if chemistry.composition.get(Element::Pb) >= LEAD_LIMIT {
            return Some(Refusal::Lead);
        }
        if chemistry.composition.get(Element::S) >= SULPHUR_LIMIT {
            return Some(Refusal::Sulphur);
        }
    }
    match member.steel.grade()?.family {
        GradeFamily::DoNotWeldLead => Some(Refusal::Lead),
        GradeFamily::DoNotWeldSulphur => Some(Refusal::Sulphur),
        _ => None,
    }
}

/// The family of a part, from its middle composition, its grade and its condition.
#[must_use]
pub(super) fn family(member: &Member, chemistry: &Chemistry) -> Family {
    let own = member.steel.grade().map_or(GradeFamily::ByAnalysis, |grade| grade.family);
    let percent = |element| chemistry.nominal.get(element);
    if refusal(member, chemistry).is_some() {
        return Family::DoNotWeld;
    }
    if percent(Element::C) >= 2.0 || matches!(own, GradeFamily::GreyIron | GradeFamily::DuctileIron) {
        return Family::Iron;
    }
    let stainless = matches!(
        own,
        GradeFamily::StainlessAustenitic | GradeFamily::StainlessFerritic | GradeFamily::StainlessMartensitic
    );
    if own == GradeFamily::ToolSteel {
        return Family::Tool;
    }
    if stainless || percent(Element::Cr) >= 10.5 {
        return Family::Stainless;
    }
    if own == GradeFamily::CreepResisting
        || (creep_by_analysis(&percent) && !quenched_and_tempered(member, false))
    {
        return Family::Creep;
    }
    if percent(Element::Cr) > 3.0 || percent(Element::Mn) > 3.0 {
        return Family::HighAlloy;
    }
    if percent(Element::C) > HARDENING_CARBON {
        let alloy = percent(Element::Cr) + percent(Element::Mo) + percent(Element::Ni);
        return if alloy > 0.5 { Family::Hardenable } else { Family::PlainCarbon };
    }
    // A hardened plate of unknown strength is treated as a strong one: that is the safe side.
    if quenched_and_tempered(member, true) { Family::QuenchedTempered } else { Family::Structural }
}

fn creep_by_analysis(percent: &impl Fn(Element) -> f64) -> bool {
    percent(Element::C) <= 0.20 && (0.5..=3.0).contains(&percent(Element::Cr)) && percent(Element::Mo) >= 0.4
}

/// The condition that counts: as stated, and where it isn't known the only one that the
/// grade comes in, if there is only one.
fn counted_kind(member: &Member) -> ConditionKind {
    let stated = member.condition.kind;
    if stated != ConditionKind::Unknown {
        return stated;
    }
    let rows = member.steel.grade().map_or(&[][..], |grade| grade.conditions.as_slice());
    match rows.first() {
        Some(first) if rows.iter().all(|row| row.kind == first.kind) => first.kind,
        _ => stated,
    }
}

/// Is the part quenched and tempered with a yield of at least 460 MPa? A yield that isn't
/// known counts as `unknown` says.
fn quenched_and_tempered(member: &Member, unknown: bool) -> bool {
    counted_kind(member) == ConditionKind::HardenedTempered
        && yield_mpa(member).map_or(unknown, |yield_mpa| yield_mpa >= QT_YIELD_MPA)
}

/// The yield strength of a part: as stated, else the grade's for this condition and
/// thickness; `None` is "not known".
#[must_use]
pub(super) fn yield_mpa(member: &Member) -> Option<f64> {
    member.yield_mpa.or_else(|| grade_row(member).and_then(|row| row.yield_mpa))
}

/// The lowest tensile strength of a part by its grade, MPa.
#[must_use]
pub(super) fn tensile_mpa(member: &Member) -> Option<f64> {
    grade_row(member).and_then(|row| row.tensile_min_mpa)
}

/// The grade's row for this part's condition and thickness; where the thickness lies
/// beyond every row, the thickest one.
fn grade_row(member: &Member) -> Option<&crate::reference::GradeCondition> {
    let rows = &member.steel.grade()?.conditions;
    let same = |row: &&crate::reference::GradeCondition| row.kind == counted_kind(member);
    rows.iter()
        .filter(same)
        .find(|row| row.up_to_mm.is_none_or(|up_to_mm| member.thickness_mm <= up_to_mm))
        .or_else(|| rows.iter().rfind(same))
}

/// The lower end of the grade's tempering range for this condition with what it
/// stands for, where the part's own temper is not stated.
#[must_use]
pub(super) fn grade_temper(member: &Member) -> Option<crate::reference::Temper> {
    grade_row(member).and_then(|row| row.temper)
}

/// Is this a condition that a high temperature would spoil?
#[must_use]
pub(super) const fn is_tempered(condition: &Condition) -> bool {
    matches!(
        condition.kind,
        ConditionKind::HardenedTempered | ConditionKind::CaseHardened | ConditionKind::InductionHardened
    )
}

/// Does the dataset know this method? Kept here so that a test can ask for every id
/// that the plan uses.
#[must_use]
pub fn known_method(reference: &Reference, id: &str) -> bool {
    reference.methods.get(id).is_some()
}
