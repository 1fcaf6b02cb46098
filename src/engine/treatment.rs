//! How is a steel treated? Family first: most mistakes are made by asking a formula
//! about a steel that it was never made for.

use super::chemistry::Chemistry;
use super::family::Family;
use super::job::Member;
use crate::reference::{ConditionKind, Element, GradeFamily};

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
pub(in crate::engine) fn refusal(member: &Member, chemistry: &Chemistry) -> Option<Refusal> {
    if !chemistry.grade_only {
        if chemistry.composition.get(Element::Pb) >= LEAD_LIMIT {
            return Some(Refusal::Lead);
        }
        // Foundry iron carries this much sulphur, and is no resulphurised steel.
        if chemistry.composition.get(Element::S) >= SULPHUR_LIMIT && !is_iron(member, chemistry) {
            return Some(Refusal::Sulphur);
        }
    }
    match member.steel.grade()?.family {
        GradeFamily::DoNotWeldLead => Some(Refusal::Lead),
        GradeFamily::DoNotWeldSulphur => Some(Refusal::Sulphur),
        _ => None,
    }
}

/// Is it cast iron, by its carbon or by its grade?
fn is_iron(member: &Member, chemistry: &Chemistry) -> bool {
    let own = member.steel.grade().map(|grade| grade.family);
    chemistry.nominal.get(Element::C) >= 2.0
        || matches!(own, Some(GradeFamily::GreyIron | GradeFamily::DuctileIron))
}

/// The family of a part, from its middle composition, its grade and its condition.
#[must_use]
pub(in crate::engine) fn family(member: &Member, chemistry: &Chemistry) -> Family {
    let own = member.steel.grade().map_or(GradeFamily::ByAnalysis, |grade| grade.family);
    let percent = |element| chemistry.nominal.get(element);
    if refusal(member, chemistry).is_some() {
        return Family::DoNotWeld;
    }
    if is_iron(member, chemistry) {
        return Family::Iron;
    }
    if own == GradeFamily::ToolSteel {
        return Family::Tool;
    }
    if let Some(kind) = stainless(own, &percent) {
        return kind;
    }
    if own == GradeFamily::CreepResisting
        || (creep_by_analysis(&percent) && !quenched_and_tempered(member, false))
    {
        return Family::Creep;
    }
    if percent(Element::Mn) > 3.0 {
        return Family::Manganese;
    }
    if percent(Element::Cr) > 3.0 {
        return Family::HighAlloy;
    }
    if percent(Element::C) > HARDENING_CARBON {
        let alloy = percent(Element::Cr) + percent(Element::Mo) + percent(Element::Ni);
        return if alloy > 0.5 { Family::Hardenable } else { Family::PlainCarbon };
    }
    // A hardened plate of unknown strength is treated as a strong one: that is the safe side.
    if quenched_and_tempered(member, true) { Family::QuenchedTempered } else { Family::Structural }
}

/// Nickel from which a stainless steel that no grade names counts as austenitic, %.
const AUSTENITIC_NICKEL: f64 = 6.0;

/// The kind of stainless steel, by grade or by its chromium.
fn stainless(own: GradeFamily, percent: &impl Fn(Element) -> f64) -> Option<Family> {
    match own {
        GradeFamily::StainlessAustenitic => Some(Family::StainlessAustenitic),
        GradeFamily::StainlessFerritic => Some(Family::StainlessFerritic),
        GradeFamily::StainlessDuplex => Some(Family::StainlessDuplex),
        GradeFamily::StainlessMartensitic => Some(Family::StainlessMartensitic),
        _ if percent(Element::Cr) < 10.5 => None,
        GradeFamily::ByAnalysis if percent(Element::Ni) >= AUSTENITIC_NICKEL => {
            Some(Family::StainlessAustenitic)
        }
        _ => Some(Family::StainlessMartensitic),
    }
}

/// Creep-resisting by analysis: carbon up to 0.20 %, molybdenum from 0.4 %, chromium from
/// 0.5 % up to where stainless begins. The kinds with 5 and 9 % chromium belong to it: no
/// sheet for tool steel speaks for them.
fn creep_by_analysis(percent: &impl Fn(Element) -> f64) -> bool {
    percent(Element::C) <= 0.20 && percent(Element::Cr) >= 0.5 && percent(Element::Mo) >= 0.4
}

/// Hardness above which a part is no annealed one, HV (about 30 HRC; common practice).
const ANNEALED_UP_TO_HV: f64 = 300.0;
/// Hardness above which a part in a state that nobody knows counts as hardened, HV (about
/// 35 HRC; common practice: the pearlite of a rail has up to 320).
const UNKNOWN_UP_TO_HV: f64 = 350.0;
/// Hardness above which a part is not as rolled, forged, cast, drawn or normalised, HV
/// (about 41 HRC; common practice: normalised 4340 has about 380).
const UNHARDENED_UP_TO_HV: f64 = 400.0;
/// Tempering temperature from which a low-alloy steel keeps less than [`TEMPERED_UP_TO_HV`], °C,
/// and what it loses above that, HV a degree (common practice: 4140 has about 425 HV at 480 °C
/// and 300 at 650; the line lies some 80 HV above it, for steels that hold their hardness).
const SOFTENS_FROM_C: f64 = 480.0;
/// Hardness that a low-alloy steel does not keep at [`SOFTENS_FROM_C`], HV (about 49 HRC).
const TEMPERED_UP_TO_HV: f64 = 500.0;
/// Loss of hardness with the temper, HV a degree.
const SOFTENS_HV_PER_K: f64 = 0.7;

/// The hardness that a low-alloy steel tempered so high does not keep, HV.
fn tempered_up_to_hv(temper_c: f64) -> Option<f64> {
    let above_k = temper_c - SOFTENS_FROM_C;
    (above_k >= 0.0).then_some(TEMPERED_UP_TO_HV - SOFTENS_HV_PER_K * above_k)
}

/// Is the part harder than its stated condition or temper allows, or than a part that is
/// not hardened where none is stated? A high-alloy tool steel keeps its hardness at a high
/// temper, so there the temper is not judged.
#[must_use]
pub(in crate::engine) fn too_hard(member: &Member, kin: Family) -> bool {
    let high_temper = kin.by_methods()
        && member.condition.kind == ConditionKind::HardenedTempered
        && member
            .condition
            .temper_c
            .and_then(tempered_up_to_hv)
            .zip(member.hardness_hv)
            .is_some_and(|(up_to_hv, hardness_hv)| hardness_hv > up_to_hv);
    high_temper || hardened_by_hardness(member)
}

/// Does the measured hardness say that the part is hardened, although that is not stated?
fn hardened_by_hardness(member: &Member) -> bool {
    let up_to_hv = match member.condition.kind {
        ConditionKind::Annealed => ANNEALED_UP_TO_HV,
        ConditionKind::Unknown => UNKNOWN_UP_TO_HV,
        ConditionKind::HardenedTempered | ConditionKind::CaseHardened | ConditionKind::InductionHardened => {
            return false;
        }
        _ => UNHARDENED_UP_TO_HV,
    };
    member.hardness_hv.is_some_and(|hardness_hv| hardness_hv > up_to_hv)
}

/// The condition that counts: as stated, and where it isn't known the only one that the
/// grade comes in, if there is only one. A part that is too hard for what is stated counts
/// as hardened, with a temper that nobody knows: that is the safe side.
pub(in crate::engine) fn counted_kind(member: &Member) -> ConditionKind {
    if hardened_by_hardness(member) {
        return ConditionKind::HardenedTempered;
    }
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
pub(in crate::engine) fn yield_mpa(member: &Member) -> Option<f64> {
    member.yield_mpa.or_else(|| grade_row(member).and_then(|row| row.yield_mpa))
}

/// The lowest tensile strength of a part by its grade, MPa.
#[must_use]
pub(in crate::engine) fn tensile_mpa(member: &Member) -> Option<f64> {
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
pub(in crate::engine) fn grade_temper(member: &Member) -> Option<crate::reference::Temper> {
    grade_row(member).and_then(|row| row.temper)
}

/// Is the part hardened and tempered, or has it a hardened skin, as far as is known?
#[must_use]
pub(in crate::engine) fn is_tempered(member: &Member) -> bool {
    is_hardened_kind(counted_kind(member))
}

/// Is this a condition that was tempered, so that a high temperature would spoil it?
#[must_use]
pub(in crate::engine) const fn has_temper(kind: ConditionKind) -> bool {
    is_hardened_kind(kind) || matches!(kind, ConditionKind::NormalisedTempered)
}

const fn is_hardened_kind(kind: ConditionKind) -> bool {
    matches!(
        kind,
        ConditionKind::HardenedTempered | ConditionKind::CaseHardened | ConditionKind::InductionHardened
    )
}
