//! What is told of a part and can't be true together: a hardness or a yield that its condition can't
//! have.
//!
//! Until it is settled the part counts as hardened, with a temper that nobody knows: that is the safe
//! side. What a tempering curve says of a stated temper stands in `plan/temper.rs`.

use super::family::Family;
use super::job::Member;
use super::treatment::Ask;
use crate::reference::{ConditionKind, Element, FigureKind, GradeCondition};

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

/// Does what is measured of a part, its hardness or its yield, say that it is hardened, although
/// that is not stated?
#[must_use]
pub(super) fn hardened_by_measure(member: &Member) -> bool {
    hardened_by_hardness(member) || impossible_yield(member)
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

/// Hardness below which a part of a family was never hardened and tempered, HV (common practice, no
/// source: tempered at 700 °C such steels keep more, annealed they have about this). The second
/// figure is for less carbon than [`LEAN_CARBON`].
fn softest_hv(kin: Family) -> Option<(f64, f64)> {
    match kin {
        Family::Hardenable => Some((205.0, 180.0)),
        Family::PlainCarbon => Some((150.0, 140.0)),
        Family::QuenchedTempered => Some((170.0, 170.0)),
        _ => None,
    }
}

/// Carbon under which a tempered steel is softer, %.
const LEAN_CARBON: f64 = 0.35;

/// Is the part too soft for one that is stated hardened and tempered?
#[must_use]
pub(super) fn too_soft(member: &Member, kin: Family, carbon: f64) -> bool {
    let Some((softest_hv, lean_hv)) = softest_hv(kin) else { return false };
    let least_hv = if carbon < LEAN_CARBON { lean_hv } else { softest_hv };
    member.condition.kind == ConditionKind::HardenedTempered
        && member.hardness_hv.is_some_and(|hardness_hv| hardness_hv < least_hv)
}

/// The yield is at most this share of the tensile strength where a part is not hardened (common
/// practice, no source: hot-rolled and normalised steel has 0.55 to 0.8).
const YIELD_OF_TENSILE: f64 = 0.85;
/// A bar or a plate has at most so many times the least tensile strength that is demanded of it.
const OVER_DEMANDED: f64 = 1.3;
/// The same of the least yield.
const OVER_LEAST_YIELD: f64 = 1.3;
/// The most yield of an annealed steel without a row, MPa; of any other that is not hardened, with
/// carbon that hardens and without (common practice, no source: normalised 4340 has 862, and no plain
/// hot-rolled plate has 700).
const NO_ROW_MPA: [f64; 3] = [600.0, 950.0, 700.0];
/// Carbon from which a steel hardens fully, %.
const HARDENS_FROM_CARBON: f64 = 0.25;

/// Is the stated yield more than the stated condition gives?
#[must_use]
pub(super) fn impossible_yield(member: &Member) -> bool {
    member
        .yield_mpa
        .is_some_and(|stated_mpa| most_yield_mpa(member).is_some_and(|most_mpa| stated_mpa > most_mpa))
}

/// The most yield that a part in its stated condition can have, MPa; `None` where it may be hardened
/// or cold drawn to any strength.
fn most_yield_mpa(member: &Member) -> Option<f64> {
    let strong = |kind| {
        matches!(
            kind,
            ConditionKind::HardenedTempered
                | ConditionKind::CaseHardened
                | ConditionKind::InductionHardened
                | ConditionKind::ColdWorked
        )
    };
    let stated = member.condition.kind;
    let rows = member.steel.grade().map_or(&[][..], |grade| grade.conditions.as_slice());
    let unknown = stated == ConditionKind::Unknown;
    // A grade that comes hardened may be so, and a certificate alone says nothing of the state.
    if strong(stated) || (unknown && (rows.is_empty() || rows.iter().any(|row| strong(row.kind)))) {
        return None;
    }
    let by_rows =
        rows.iter().filter(|row| unknown || row.kind == stated).filter_map(most_of_row).reduce(f64::max);
    by_rows.or_else(|| {
        let [annealed, hardening, soft] = NO_ROW_MPA;
        let carbon = match &member.steel {
            super::job::Steel::Certificate { composition, .. }
            | super::job::Steel::Unmarked { composition, .. } => composition.get(Element::C),
            super::job::Steel::Grade(grade) => grade.max_of(Element::C).unwrap_or(0.0),
        };
        Some(match stated {
            ConditionKind::Annealed => annealed,
            // Rolled to any strength that its maker likes.
            ConditionKind::Thermomechanical => return None,
            _ if carbon > HARDENS_FROM_CARBON => hardening,
            _ => soft,
        })
    })
}

fn most_of_row(row: &GradeCondition) -> Option<f64> {
    let least = row.yield_mpa.map(|mpa| mpa * OVER_LEAST_YIELD);
    let over = if row.figures == FigureKind::Typical { 1.0 } else { OVER_DEMANDED };
    let tensile_mpa = row.tensile_max_mpa.or(row.tensile_min_mpa.map(|mpa| mpa * over));
    let of_tensile = tensile_mpa.map(|mpa| mpa * YIELD_OF_TENSILE);
    [least, of_tensile].into_iter().flatten().reduce(f64::max)
}

/// What is asked of a part whose own facts contradict each other.
#[must_use]
pub(super) fn asks(member: &Member, kin: Family, carbon: f64) -> Vec<Ask> {
    [(impossible_yield(member), Ask::YieldAgainstCondition), (too_soft(member, kin, carbon), Ask::TooSoft)]
        .into_iter()
        .filter_map(|(wrong, ask)| wrong.then_some(ask))
        .collect()
}
