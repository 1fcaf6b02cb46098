//! What a part is by the name of its grade, where a sheet of its own speaks for it; and what it may be
//! besides once a certificate has left that name.

use super::family::Family;
use super::treatment::{
    Ask, Kin, STAINLESS_CHROMIUM, counted_kind, has_left_its_name, has_temper, high_alloy, low_alloy,
};
use crate::engine::job::Member;
use crate::reference::{ConditionKind, Element, GradeFamily};

/// Nickel at least and carbon at most with which a stainless steel is surely austenite, %: as in the usual 18/8
/// grades (common practice, no source).
const SURELY_AUSTENITE: (f64, f64) = (6.0, 0.15);

/// What it is by its name, and by the certificate where that has left the name; none where the analysis alone
/// speaks.
pub(super) fn named(member: &Member, own: GradeFamily, percent: &impl Fn(Element) -> f64) -> Option<Kin> {
    let kin = by_name(member, own)?;
    if has_left_its_name(member) { or_by_analysis(kin, member, percent) } else { Some(kin) }
}

/// What a part is by the name of its grade, where a sheet of its own speaks for it.
fn by_name(member: &Member, own: GradeFamily) -> Option<Kin> {
    Some(Kin::just(match own {
        GradeFamily::ToolSteel if tool_temper_is_open(member) => {
            return Some(Kin::asking(Family::Tool, Ask::Temper));
        }
        GradeFamily::ToolSteel => Family::Tool,
        GradeFamily::StainlessAustenitic => Family::StainlessAustenitic,
        GradeFamily::StainlessFerritic => Family::StainlessFerritic,
        GradeFamily::StainlessDuplex => Family::StainlessDuplex,
        GradeFamily::StainlessMartensitic => Family::StainlessMartensitic,
        GradeFamily::CreepResisting => Family::Creep,
        _ => return None,
    }))
}

/// The same where the certificate has left the name: it may be what the name says, and what the
/// certificate says. A name that spares a steel its preheat does so no more where the analysis may harden.
fn or_by_analysis(named: Kin, member: &Member, percent: &impl Fn(Element) -> f64) -> Option<Kin> {
    let hardens = named.family.traits().hardens;
    let Some(analysed) = high_alloy(percent) else {
        // What hardens by its own sheet stays under that sheet as well; what does not is the other steel.
        let Kin { family, also, .. } = low_alloy(member, percent);
        let others = std::iter::once(family).chain(also);
        return hardens.then(|| Kin { also: named.also.into_iter().chain(others).collect(), ..named });
    };
    let (nickel, carbon) = SURELY_AUSTENITE;
    let austenite = named.family == Family::StainlessAustenitic
        && percent(Element::Cr) >= STAINLESS_CHROMIUM
        && percent(Element::Ni) >= nickel
        && percent(Element::C) <= carbon;
    Some(if hardens || austenite { named } else { analysed })
}

/// Tool steel stays under its own temper: where it is hardened, or may be, and nobody says how it
/// was tempered, no figure is safe.
fn tool_temper_is_open(member: &Member) -> bool {
    let counted = counted_kind(member);
    let hardened = has_temper(counted) || counted == ConditionKind::Unknown;
    hardened && member.condition.temper_c.is_none()
}
