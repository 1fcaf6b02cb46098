//! How is a steel treated? Family first: most mistakes are made by asking a formula
//! about a steel that it was never made for.

use strum::IntoStaticStr;

use super::certificate::outside_named_grade;
use super::chemistry::Chemistry;
use super::contradiction;
use super::family::Family;
use super::job::{Member, Steel};
use super::named::named;
use crate::reference::{ConditionKind, Element, GradeFamily};

/// Lead from which a certificate says "leaded", weight percent.
pub const LEAD_LIMIT: f64 = 0.15;
/// Sulphur from which a certificate says "resulphurised", weight percent.
pub const SULPHUR_LIMIT: f64 = 0.08;
/// Carbon above which a steel hardens fully, weight percent.
pub const HARDENING_CARBON: f64 = 0.25;
/// Yield from which a quenched and tempered steel counts as such, MPa.
pub const QT_YIELD_MPA: f64 = 460.0;

/// Hardness under which no steel has that yield, HV (ISO 18265: 480 MPa of tensile strength, from memory).
pub const QT_LEAST_HV: f64 = 150.0;

/// Why a steel must not be welded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Refusal {
    /// Leaded.
    Lead,
    /// Resulphurised.
    Sulphur,
    /// High-speed steel.
    HighSpeed,
}

/// Why a part must not be welded, where it must not.
#[must_use]
pub(in crate::engine) fn refusal(member: &Member, chemistry: &Chemistry) -> Option<Refusal> {
    if !chemistry.grade_only {
        if chemistry.composition.get(Element::Pb) >= LEAD_LIMIT {
            return Some(Refusal::Lead);
        }
        // Foundry iron carries this much sulphur, and is no resulphurised steel.
        let iron = is_iron(member, chemistry) || named_iron(member);
        if chemistry.composition.get(Element::S) >= SULPHUR_LIMIT && !iron {
            return Some(Refusal::Sulphur);
        }
    }
    match member.steel.grade()?.family {
        GradeFamily::DoNotWeldLead => Some(Refusal::Lead),
        GradeFamily::DoNotWeldSulphur => Some(Refusal::Sulphur),
        GradeFamily::DoNotWeldHighSpeed => Some(Refusal::HighSpeed),
        _ => None,
    }
}

/// Is it cast iron, by its carbon or by its grade? A certificate of a steel counts more than such a name.
fn is_iron(member: &Member, chemistry: &Chemistry) -> bool {
    let carbon = chemistry.nominal.get(Element::C);
    let steel = carbon > 0.0 && !chemistry.grade_only;
    carbon >= IRON_FROM || (named_iron(member) && !steel)
}

fn named_iron(member: &Member) -> bool {
    let own = member.steel.grade().map(|grade| grade.family);
    matches!(own, Some(GradeFamily::GreyIron | GradeFamily::DuctileIron))
}

/// A fact that would settle how a part is treated, asked for first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Ask {
    /// Which of the kinds of stainless steel is it?
    StainlessKind,
    /// Which tool steel is it?
    ToolGrade,
    /// Which grade is it: its analysis alone is covered by no method.
    Grade,
    /// What is its yield strength?
    Yield,
    /// In which condition is it?
    Condition,
    /// Is it a creep-resisting steel?
    Creep,
    /// How was it tempered?
    Temper,
    /// Its hardness and its stated temper can't both be true: which is wrong?
    HardnessAgainstTemper,
    /// It is too soft for a part that was hardened.
    TooSoft,
    /// Its stated temper does not leave the hardness that its grade has.
    TemperAgainstGrade,
    /// Its yield is more than its condition gives.
    YieldAgainstCondition,
    /// Its figures hold for low hydrogen only.
    LowHydrogen,
}

impl Ask {
    /// Stable id, as printed in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// What a part may be: the family that is weighed, another one that it may be as well, and the
/// facts that would settle it. In doubt both are weighed.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::engine) struct Kin {
    pub family: Family,
    pub also: Vec<Family>,
    pub asks: Vec<Ask>,
}

impl Kin {
    pub(super) const fn just(family: Family) -> Self {
        Self { family, also: Vec::new(), asks: Vec::new() }
    }

    pub(super) fn asking(family: Family, ask: Ask) -> Self {
        Self { family, also: Vec::new(), asks: vec![ask] }
    }
}

/// Carbon from which it is cast iron, %.
const IRON_FROM: f64 = 2.0;
/// Chromium from which a steel is stainless, %.
pub(super) const STAINLESS_CHROMIUM: f64 = 10.5;
/// Nickel at which Method B ends, %.
const METHODS_NICKEL_UP_TO: f64 = 2.5;
/// Yield from which a steel is no creep-resisting one, MPa (common practice).
const NO_CREEP_STEEL_FROM_MPA: f64 = 600.0;
/// Chromium or manganese above which no method for low-alloy steel speaks, %.
pub(in crate::engine) const LOW_ALLOY_UP_TO: f64 = 3.0;

/// What a part may be, from its middle composition, its grade and its condition.
#[must_use]
pub(in crate::engine) fn kin(member: &Member, chemistry: &Chemistry) -> Kin {
    let own = member.steel.grade().map_or(GradeFamily::ByAnalysis, |grade| grade.family);
    let percent = |element| chemistry.nominal.get(element);
    if refusal(member, chemistry).is_some() {
        return Kin::just(Family::DoNotWeld);
    }
    if is_iron(member, chemistry) {
        return Kin::just(Family::Iron);
    }
    if let Some(kin) = named(member, own, &percent) {
        return kin;
    }
    if let Some(kin) = high_alloy(&percent) {
        return kin;
    }
    let mut kin = low_alloy(member, &percent);
    if belies_its_grade(member) && !kin.asks.contains(&Ask::Condition) {
        kin.asks.push(Ask::Condition);
    }
    // A name that the certificate has left says nothing for it.
    let nameless = member.steel.grade().is_none() || has_left_its_name(member);
    // Nickel steels for the cold have rows by their grade; the methods end at less nickel.
    let nickel = nameless && percent(Element::Ni) > METHODS_NICKEL_UP_TO;
    if nickel && kin.family == Family::Structural {
        return Kin::asking(Family::HighAlloy, Ask::Grade);
    }
    // A sheet of its own may speak for it: its minimum stays a floor above 0.20 % of carbon too.
    // A strong steel is no creep-resisting one.
    if nameless
        && percent(Element::Cr) <= LOW_ALLOY_UP_TO
        && percent(Element::Mo) >= 0.4
        && member.yield_mpa.is_none_or(|mpa| mpa < NO_CREEP_STEEL_FROM_MPA)
    {
        kin.also.push(Family::Creep);
        if percent(Element::C) <= 0.20 {
            kin.asks.push(Ask::Creep);
        }
    }
    kin
}

/// High-alloy steel by its analysis alone: asked which it is, or not covered by any method.
pub(super) fn high_alloy(percent: &impl Fn(Element) -> f64) -> Option<Kin> {
    let (carbon, chromium) = (percent(Element::C), percent(Element::Cr));
    let carbides = percent(Element::Mo) + percent(Element::W) + percent(Element::V);
    let stainless = chromium >= STAINLESS_CHROMIUM;
    let tool = carbon >= 0.3 && (chromium > LOW_ALLOY_UP_TO || carbides > 2.0);
    if tool && (!stainless || carbon >= 0.5 || carbides > 1.0) {
        return Some(Kin::asking(Family::Unsettled, Ask::ToolGrade));
    }
    if stainless {
        return Some(Kin::asking(Family::Unsettled, Ask::StainlessKind));
    }
    let manganese = percent(Element::Mn);
    if manganese >= 10.0 && carbon >= 0.7 {
        return Some(Kin::just(Family::Manganese));
    }
    let covered = chromium <= LOW_ALLOY_UP_TO && manganese <= LOW_ALLOY_UP_TO;
    (!covered).then(|| Kin::asking(Family::HighAlloy, Ask::Grade))
}

/// The family that a steel with a sheet of its own would have by its analysis, where methods speak for
/// such an analysis.
#[must_use]
pub(in crate::engine) fn analysed(member: &Member, chemistry: &Chemistry) -> Option<Family> {
    let percent = |element| chemistry.nominal.get(element);
    high_alloy(&percent).is_none().then(|| low_alloy(member, &percent).family)
}

/// The families that methods speak for.
pub(super) fn low_alloy(member: &Member, percent: &impl Fn(Element) -> f64) -> Kin {
    if percent(Element::C) > HARDENING_CARBON {
        let alloy = percent(Element::Cr) + percent(Element::Mo) + percent(Element::Ni);
        return Kin::just(if alloy > 0.5 { Family::Hardenable } else { Family::PlainCarbon });
    }
    let known_mpa = yield_mpa(member);
    match counted_kind(member) {
        // A hardened plate of unknown strength is treated as a strong one: that is the safe side.
        ConditionKind::HardenedTempered => match known_mpa {
            Some(mpa) if mpa < QT_YIELD_MPA => Kin::just(Family::Structural),
            Some(_) => Kin::just(Family::QuenchedTempered),
            None => Kin::asking(Family::QuenchedTempered, Ask::Yield),
        },
        ConditionKind::Unknown if may_be_quenched(member, percent) => Kin {
            family: Family::Structural,
            also: vec![Family::QuenchedTempered],
            asks: vec![Ask::Condition],
        },
        _ => Kin::just(Family::Structural),
    }
}

/// Could a part whose condition nobody stated be quenched and tempered to a high strength? A
/// grade is only what it is listed as.
fn may_be_quenched(member: &Member, percent: &impl Fn(Element) -> f64) -> bool {
    if let Some(grade) = member.steel.grade() {
        let strong = |mpa: f64| mpa >= QT_YIELD_MPA;
        let listed = grade
            .conditions
            .iter()
            .any(|row| row.kind == ConditionKind::HardenedTempered && row.yield_mpa.is_none_or(strong));
        if listed || !has_left_its_name(member) {
            return listed;
        }
    }
    // No test of an unmarked steel finds its boron; its hardness may rule such a strength out.
    member.steel.is_unmarked() && member.hardness_hv.is_none_or(|hv| hv >= QT_LEAST_HV)
        || percent(Element::Ni) >= 0.3
        || percent(Element::Cr) >= 0.3
        || percent(Element::Mo) >= 0.08
        || percent(Element::B) >= 0.0005
        || member.yield_mpa.is_some_and(|mpa| mpa >= QT_YIELD_MPA)
}

/// The one tempered condition that a grade comes in, where it comes in no other: "as rolled" is
/// then how the plate was delivered, not how it was treated.
fn only_tempered(member: &Member) -> Option<ConditionKind> {
    let rows = member.steel.grade()?.conditions.as_slice();
    let first = rows.first()?.kind;
    (has_temper(first) && rows.iter().all(|row| row.kind == first)).then_some(first)
}

/// Is another condition stated than the only, tempered one that the grade comes in?
fn belies_its_grade(member: &Member) -> bool {
    let stated = member.condition.kind;
    stated != ConditionKind::Unknown && !has_temper(stated) && only_tempered(member).is_some()
}

/// Has the certificate left the grade named beside it? Then the certificate counts, and the name
/// clears the part of no condition.
pub(in crate::engine) fn has_left_its_name(member: &Member) -> bool {
    !outside_named_grade(member).is_empty()
}

/// The condition that counts: as stated, and where it isn't known the only one that the
/// grade comes in, if there is only one. A part that is too hard for what is stated counts
/// as hardened, with a temper that nobody knows: that is the safe side. A name that the certificate
/// has left says nothing of the condition, but for a temper that heat could spoil.
pub(in crate::engine) fn counted_kind(member: &Member) -> ConditionKind {
    let listed = listed_kind(member);
    let by_name = member.condition.kind == ConditionKind::Unknown && !has_temper(listed);
    if by_name && has_left_its_name(member) { ConditionKind::Unknown } else { listed }
}

/// The same where the name is taken at its word.
pub(in crate::engine) fn listed_kind(member: &Member) -> ConditionKind {
    if contradiction::hardened_by_measure(member) {
        return ConditionKind::HardenedTempered;
    }
    let stated = member.condition.kind;
    if let Some(only) = only_tempered(member).filter(|_| !has_temper(stated)) {
        return only;
    }
    if stated != ConditionKind::Unknown {
        return stated;
    }
    let rows = member.steel.grade().map_or(&[][..], |grade| grade.conditions.as_slice());
    match rows.first() {
        Some(first) if rows.iter().all(|row| row.kind == first.kind) => first.kind,
        _ => stated,
    }
}

/// Product tolerance on top of a grade's limits, % (common practice).
const TOLERANCE: [(Element, f64); 8] = [
    (Element::C, 0.02),
    (Element::Si, 0.05),
    (Element::Mn, 0.05),
    (Element::Cr, 0.05),
    (Element::Mo, 0.03),
    (Element::Ni, 0.05),
    (Element::V, 0.01),
    (Element::Cu, 0.05),
];

/// The elements of a certificate that lie outside the grade named beside it, product tolerance
/// allowed for; none for a steel that is known by its grade.
#[must_use]
pub(in crate::engine) fn outside_grade(member: &Member) -> Vec<Element> {
    let Steel::Certificate { composition, grade: Some(grade) } = &member.steel else { return Vec::new() };
    TOLERANCE
        .into_iter()
        .filter(|(element, tolerance)| {
            let limits = grade.composition.get(element);
            let percent = composition.get(*element);
            let over = limits.and_then(|limits| limits.max).is_some_and(|max| percent > max + tolerance);
            let under = limits.and_then(|limits| limits.min).is_some_and(|min| percent < min - tolerance);
            over || under
        })
        .map(|(element, _)| element)
        .collect()
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
#[must_use]
pub(in crate::engine) fn grade_row(member: &Member) -> Option<&crate::reference::GradeCondition> {
    let rows = &member.steel.grade()?.conditions;
    let same = |row: &&crate::reference::GradeCondition| row.kind == listed_kind(member);
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
