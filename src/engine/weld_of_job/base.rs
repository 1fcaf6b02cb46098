//! How strong is the weaker part of the joint?

use crate::engine::contradiction::impossible_yield;
use crate::engine::hardness_conversion::{ConversionTable, Scale};
use crate::engine::job::{Job, Member};
use crate::engine::treatment;
use crate::engine::weld::matching::{WeldKind, WeldLoad};
use crate::reference::ConditionKind;

/// What a strength is taken from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum StrengthFrom {
    /// The hardness that was measured.
    Hardness,
    /// The least that its grade has in this condition and thickness.
    Grade,
    /// The most that its grade has in any condition, since its own is not known.
    AnyCondition,
    /// The yield strength that is stated, which it has at least.
    Yield,
}

impl StrengthFrom {
    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// The strength of the weaker part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BaseStrength {
    /// Tensile strength, MPa.
    pub tensile_mpa: f64,
    /// What it is taken from.
    pub from: StrengthFrom,
    /// Which part.
    pub member: usize,
}

/// Is the strength that a filler must match not known? A part is stronger than its yield, nobody knows by
/// how much: in a full groove no filler is shown to match it, unless its load asks for none that does.
#[must_use]
pub(super) fn is_open(base: Option<BaseStrength>, kind: WeldKind, load: WeldLoad) -> bool {
    let matched = kind == WeldKind::FullGroove && load != WeldLoad::Along;
    base.is_none_or(|base| base.from == StrengthFrom::Yield && matched)
}

/// Tensile strength of a part, the most that is known of it: a filler for less would be too weak.
fn tensile(member: &Member) -> Option<(f64, StrengthFrom)> {
    let surface =
        matches!(member.condition.kind, ConditionKind::CaseHardened | ConditionKind::InductionHardened);
    let measured = member.hardness_hv.filter(|_| !surface);
    let by_hardness = measured.and_then(|hv| ConversionTable::Iso18265.convert(hv, Scale::Hv, Scale::Mpa));
    if let Some(mpa) = by_hardness {
        return Some((mpa, StrengthFrom::Hardness));
    }
    let by_grade = treatment::tensile_mpa(member).map(|mpa| (mpa, StrengthFrom::Grade));
    let any = || {
        let rows = &member.steel.grade()?.conditions;
        let strongest = rows.iter().filter_map(|row| row.tensile_min_mpa).reduce(f64::max)?;
        (treatment::counted_kind(member) == ConditionKind::Unknown)
            .then_some((strongest, StrengthFrom::AnyCondition))
    };
    // A yield that its condition can't have is asked about by the plan.
    let by_yield = member.yield_mpa.filter(|_| !impossible_yield(member));
    let by_yield = by_yield.map(|mpa| (mpa, StrengthFrom::Yield));
    let known = by_grade.or_else(any);
    known.into_iter().chain(by_yield).max_by(|one, other| one.0.total_cmp(&other.0))
}

/// The strength of the weaker part; none where no part's is known. A part of which nothing is known leaves
/// the other one's, which is no weaker than the weaker of the two.
#[must_use]
pub(super) fn weaker(job: &Job) -> Option<BaseStrength> {
    let known = job.members.iter().enumerate().filter_map(|(member, part)| {
        tensile(part).map(|(tensile_mpa, from)| BaseStrength { tensile_mpa, from, member })
    });
    known.min_by(|one, other| one.tensile_mpa.total_cmp(&other.tensile_mpa))
}
