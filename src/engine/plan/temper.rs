//! How was a part tempered, as far as it is known, and what does a window need where it is not?

use super::limit::Limit;
use super::upper::{Ceiling, UNDER_TEMPER_K, limit, printed_limit};
use super::{sheets, temper_curve};
use crate::engine::evidence::grade_rows;
use crate::engine::family::Family;
use crate::engine::hardness_conversion::{ConversionTable, Scale};
use crate::engine::part::Part;
use crate::engine::treatment::{self, Ask};
use crate::reference::{Basis, ConditionKind, Element, Reference, TemperKind};

/// Maximum where a low temper is the usual one and none is stated, °C (common practice).
const LOW_TEMPER_C: f64 = 200.0;
/// The same for a case or an induction-hardened skin, °C.
const CASE_TEMPER_C: f64 = 150.0;
/// Hardness that never passes as proof of a temper, HV.
const PROOF_UP_TO_HV: f64 = 400.0;

/// The least temper that a window needs, where a part's is not known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NeedsTemper {
    /// The member.
    pub member: usize,
    /// Tempered at this or hotter, °C.
    pub temper_c: f64,
    /// A hardness at or under this shows it, HV; none that is measured does where it is absent.
    pub hardness_hv: Option<f64>,
    /// The same on the Rockwell C scale, where that reaches.
    pub hardness_hrc: Option<f64>,
}

/// The condition that a part is harder to prove for, of two.
pub(super) fn harder(one: Option<NeedsTemper>, other: Option<NeedsTemper>) -> Option<NeedsTemper> {
    let shows = |needs: &NeedsTemper| needs.hardness_hv.unwrap_or(0.0);
    let by_hardness_then_temper = |a: &NeedsTemper, b: &NeedsTemper| {
        shows(a).total_cmp(&shows(b)).then(b.temper_c.total_cmp(&a.temper_c))
    };
    one.into_iter().chain(other).min_by(by_hardness_then_temper)
}

/// What is known of the temper of one member.
pub(super) enum Known {
    /// A ceiling.
    At(Limit),
    /// It is or may be tempered, nobody knows how; where a low temper is the usual one, the part
    /// stays under this until it is stated, °C.
    Ask { until_then_c: Option<f64> },
    /// It is not tempered.
    Untempered,
}

/// What a thermomechanically rolled steel may see, whatever is known of a temper.
pub(super) fn rolled(reference: &Reference, part: &Part, index: usize) -> Option<Limit> {
    let rolled = &reference.practice.thermomechanical;
    let most_c = rolled.ceiling_c - UNDER_TEMPER_K;
    part.rolled_to_strength()
        .then(|| limit("rolled-ceiling", Some(index), most_c, rolled.ceiling_basis.clone()))
}

/// What is known of the temper of one member: the condition that counts decides, not the grade row.
pub(super) fn known(reference: &Reference, part: &Part, index: usize) -> Known {
    let member = part.member;
    let at = |by, exact_c: f64, basis| Known::At(limit(by, Some(index), exact_c, basis));
    if let Some(sheet_c) = sheets::ceiling_c(reference, part) {
        return at("sheet-ceiling", sheet_c.0, sheet_c.1);
    }
    if !part.hardens() {
        return Known::Untempered;
    }
    let counted = treatment::counted_kind(member);
    if let Some(temper_c) = member.condition.temper_c.filter(|_| treatment::has_temper(member.condition.kind))
    {
        match temper_curve::contradiction(reference, part) {
            // A grade whose name says how hard it is was not tempered so: its usual temper counts.
            Some(Ask::TemperAgainstGrade) => {}
            // A temper that the measured hardness belies is none, and the standard's is none either.
            Some(_) => return lower_of(by_hardness(reference, part, index), temper_c),
            None => {
                let stated = Known::At(limit(
                    "stated-temper",
                    Some(index),
                    temper_c - UNDER_TEMPER_K,
                    Basis::Practice,
                ));
                return match temper_curve::temper_by_hardness(reference, part) {
                    Some((read_c, basis)) if read_c < temper_c => {
                        at("hardness-temper", read_c - UNDER_TEMPER_K, basis)
                    }
                    _ => stated,
                };
            }
        }
    }
    if treatment::has_temper(counted) {
        let row = treatment::grade_temper(member);
        let typical = row.is_none_or(|temper| temper.kind == TemperKind::Typical);
        // A creep-resisting steel is tempered far above what it is welded at: its figure is one for runs.
        let own = grade_rows::interpass(member).filter(|_| typical && part.family != Family::Creep);
        let low = low_temper_c(part);
        // The grade's own figure is its ceiling too, unless what it is usually tempered at is lower.
        if let Some((printed, basis)) =
            own.filter(|own| low.is_some_and(|low_c| own.0.as_maximum_c() <= low_c))
        {
            return Known::At(printed_limit("grade-interpass", index, printed, basis.clone()));
        }
        if let Some(most_c) = low {
            return Known::Ask { until_then_c: Some(most_c) };
        }
        if member.hardness_hv.is_some() {
            return by_hardness(reference, part, index);
        }
        if let Some((printed, basis)) = own {
            return Known::At(printed_limit("grade-interpass", index, printed, basis.clone()));
        }
        return match row {
            Some(temper) if temper.kind == TemperKind::Minimum => at(
                "standard-temper",
                temper.low_c - UNDER_TEMPER_K,
                Basis::memory("lowest temper of the grade's standard"),
            ),
            _ => Known::Ask { until_then_c: None },
        };
    }
    if counted == ConditionKind::Unknown && part.may_be_tempered() {
        if let Some(most_c) = low_temper_c(part) {
            return Known::Ask { until_then_c: Some(most_c) };
        }
        return match member.hardness_hv {
            Some(_) => by_hardness(reference, part, index),
            None => Known::Ask { until_then_c: None },
        };
    }
    Known::Untempered
}

/// The most that a part may see whose usual temper is a low one, °C, until its own is stated.
fn low_temper_c(part: &Part) -> Option<f64> {
    let member = part.member;
    let percent = |element| part.chemistry.nominal.get(element);
    match treatment::counted_kind(member) {
        ConditionKind::CaseHardened | ConditionKind::InductionHardened => return Some(CASE_TEMPER_C),
        _ => {}
    }
    let hard = member.hardness_hv.is_some_and(|hardness_hv| hardness_hv > PROOF_UP_TO_HV);
    let by_name = member.steel.grade().is_some_and(|grade| grade.low_temper.is_some());
    let stated = member.condition.kind == ConditionKind::HardenedTempered && member.steel.grade().is_none();
    let carbon = percent(Element::C);
    let wear_plate = (0.15..=0.35).contains(&carbon)
        && (percent(Element::B) >= 0.0005 || member.yield_mpa.is_some_and(|mpa| mpa >= 900.0));
    let high_silicon = carbon >= 0.35 && percent(Element::Si) >= 1.2;
    let spring = carbon >= 0.45 && (percent(Element::V) >= 0.10 || percent(Element::Cr) >= 0.6);
    let by_analysis = stated && (wear_plate || high_silicon || spring);
    (hard || by_name || by_analysis).then_some(LOW_TEMPER_C)
}

/// The ceiling that a measured hardness gives: the temper that the printed curve has for it, less
/// 30 K. Too hard to prove a temper it is 200 °C; where no curve speaks the temper is asked.
fn by_hardness(reference: &Reference, part: &Part, index: usize) -> Known {
    let Some(hardness_hv) = part.member.hardness_hv else { return Known::Ask { until_then_c: None } };
    let at = |by, exact_c: f64, basis| Known::At(limit(by, Some(index), exact_c, basis));
    if hardness_hv > PROOF_UP_TO_HV {
        return Known::Ask { until_then_c: Some(LOW_TEMPER_C) };
    }
    // What was never hardened proves no temper.
    if temper_curve::too_soft(part) {
        return Known::Ask { until_then_c: None };
    }
    match temper_curve::read(reference, part, hardness_hv) {
        Some((temper_c, basis)) => at("hardness-temper", temper_c - UNDER_TEMPER_K, basis),
        None => Known::Ask { until_then_c: None },
    }
}

/// What a hardness gives, and never more than the temper that is stated beside it.
fn lower_of(by_hardness: Known, temper_c: f64) -> Known {
    let most_c = temper_c - UNDER_TEMPER_K;
    match by_hardness {
        Known::At(limit) => Known::At(Limit { exact_c: limit.exact_c.min(most_c), ..limit }),
        Known::Ask { until_then_c } => {
            Known::Ask { until_then_c: Some(until_then_c.unwrap_or(most_c).min(most_c)) }
        }
        Known::Untempered => Known::Untempered,
    }
}

/// The temper and the hardness that the window needs of the parts whose temper is not known: the
/// hardest condition among them.
pub(super) fn needs_temper(
    reference: &Reference,
    parts: &[Part],
    asked: &[usize],
    interpass: &Limit,
    ceiling: &Ceiling,
) -> Option<NeedsTemper> {
    let hottest_c = ceiling.exact_c().map_or(interpass.exact_c, |ceiling_c| ceiling_c.max(interpass.exact_c));
    let open = |index: &&usize| {
        parts[**index]
            .readings()
            .any(|reading| matches!(known(reference, &reading, **index), Known::Ask { until_then_c: None }))
    };
    asked
        .iter()
        .filter(open)
        .map(|&member| {
            let temper_c = hottest_c + UNDER_TEMPER_K;
            let shows = temper_curve::hardness_that_shows(reference, &parts[member], temper_c);
            let shows = shows.map(|hv| hv.min(PROOF_UP_TO_HV));
            let hardness_hrc =
                shows.and_then(|hv| ConversionTable::AstmE140.convert(hv, Scale::Hv, Scale::Hrc));
            NeedsTemper { member, temper_c, hardness_hv: shows, hardness_hrc }
        })
        .min_by(|a, b| a.hardness_hv.unwrap_or(0.0).total_cmp(&b.hardness_hv.unwrap_or(0.0)))
}
