//! What does a hardness say of a temper, by the printed curves of hardness after tempering?
//!
//! | steel | curve |
//! |---|---|
//! | a grade with a curve of its own | that one |
//! | plain carbon steel | the lower reading of the curves of 4140 and of C35 |
//! | every other | that of 4140 |
//!
//! The plan's rule names the curve of 4140 for every grade without its own. Plain carbon steel softens
//! at less heat than chromium-molybdenum steel, so that for it that curve reads a temper that is too
//! hot: C35, quenched in water, keeps 361 HV after 400 °C and 4140 after 525. The rule is tightened here.
//!
//! Under 0.35 % of carbon 25 HV are taken off a curve (from memory). Below its first point a grade's
//! own curve goes on beside that of 4140, at the distance that they have there.

use crate::engine::contradiction;
use crate::engine::hardness_conversion::{ConversionTable, Scale};
use crate::engine::part::Part;
use crate::engine::treatment::{self, Ask};
use crate::reference::{
    Basis, ConditionKind, Element, HardnessScale, Reference, TemperCurve, TemperKind, TemperPoint,
};

/// What a steel with less carbon keeps less of, HV (from memory), and the carbon, %.
const LEAN: (f64, f64) = (25.0, 0.35);
/// The curve of plain carbon steel.
const PLAIN_CARBON: &str = "C35";
/// Chromium, molybdenum and nickel up to which a steel is a plain carbon one, % together.
const PLAIN_UP_TO: f64 = 0.5;
/// So much harder than its curve is a part of that temper hardly ever, HV (common practice, no source:
/// about 3 HRC).
const SCATTER_HV: f64 = 30.0;
/// A grade that is tempered no hotter than this is used hard, °C: wear plate, bearings.
const USED_HARD_UP_TO_C: f64 = 320.0;

/// The curves that speak for a part, each as that steel has it. The lower reading counts.
fn curves(reference: &Reference, part: &Part) -> Vec<TemperCurve> {
    let practice = &reference.practice;
    let Some(common) = practice.temper_curve_of(None) else { return Vec::new() };
    let grade = part.member.steel.grade().map(|grade| grade.id.as_str());
    let percent = |element| part.chemistry.nominal.get(element);
    if let Some(own) = practice.temper_curve_of(grade).filter(|own| Some(own.grade.as_str()) == grade) {
        return vec![drawn_on(own, common)];
    }
    let less_hv = if percent(Element::C) < LEAN.1 { LEAN.0 } else { 0.0 };
    let alloy = percent(Element::Cr) + percent(Element::Mo) + percent(Element::Ni);
    let plain = practice.temper_curve_of(Some(PLAIN_CARBON)).filter(|_| alloy <= PLAIN_UP_TO);
    [Some(common), plain].into_iter().flatten().map(|curve| shifted(curve, -less_hv)).collect()
}

fn shifted(curve: &TemperCurve, by_hv: f64) -> TemperCurve {
    let points = curve.points.iter().map(|point| TemperPoint { hv: point.hv + by_hv, ..*point }).collect();
    TemperCurve { points, ..curve.clone() }
}

/// A curve with that of the common steel beside it where it has no points.
fn drawn_on(own: &TemperCurve, common: &TemperCurve) -> TemperCurve {
    let Some(first) = own.points.first() else { return own.clone() };
    let Some(there_hv) = common.hardness_hv(first.temper_c) else { return own.clone() };
    let cooler = shifted(common, first.hv - there_hv).points.into_iter();
    let points = cooler.filter(|point| point.temper_c < first.temper_c).chain(own.points.iter().copied());
    TemperCurve { points: points.collect(), ..own.clone() }
}

/// The temper that leaves a hardness, °C, the lowest of its curves; a softer part than any point was
/// tempered at the last point or hotter. `None` for a part that is harder than every point.
pub(super) fn read(reference: &Reference, part: &Part, hardness_hv: f64) -> Option<(f64, Basis)> {
    curves(reference, part)
        .into_iter()
        .map(|curve| {
            let softest_hv = curve.points.last().map_or(f64::NAN, |point| point.hv);
            Some((curve.temper_c(hardness_hv.max(softest_hv))?, curve.basis))
        })
        .collect::<Option<Vec<_>>>()?
        .into_iter()
        .min_by(|one, other| one.0.total_cmp(&other.0))
}

/// A hardness that shows by every curve that the part was tempered at this temperature or hotter, HV.
pub(super) fn hardness_that_shows(reference: &Reference, part: &Part, temper_c: f64) -> Option<f64> {
    if too_soft(part) {
        return None;
    }
    curves(reference, part)
        .iter()
        .map(|curve| curve.hardness_that_shows(temper_c))
        .collect::<Option<Vec<_>>>()?
        .into_iter()
        .reduce(f64::min)
}

/// The temper that the measured hardness of a part stated hardened and tempered shows, °C.
pub(super) fn temper_by_hardness(reference: &Reference, part: &Part) -> Option<(f64, Basis)> {
    if !judged(part) || too_soft(part) {
        return None;
    }
    read(reference, part, part.member.hardness_hv?)
}

/// Is the part softer than hardened steel ever is?
pub(super) fn too_soft(part: &Part) -> bool {
    contradiction::too_soft(part.member, part.family, part.chemistry.nominal.get(Element::C))
}

/// The curves are those of low-alloy steel: a tool or a creep-resisting steel keeps more.
fn judged(part: &Part) -> bool {
    part.by_methods() && part.member.condition.kind == ConditionKind::HardenedTempered
}

/// Does the stated temper contradict the measured hardness, or the hardness that its grade is named for?
pub(super) fn contradiction(reference: &Reference, part: &Part) -> Option<Ask> {
    let member = part.member;
    let temper_c = member.condition.temper_c.filter(|_| judged(part))?;
    let curves = curves(reference, part);
    let expected_hv = curves.iter().filter_map(|curve| after(curve, temper_c)).reduce(f64::min)?;
    let row = treatment::grade_row(member);
    let own = row.and_then(|row| row.hardness);
    let in_hv = |value: f64, scale| ConversionTable::AstmE140.convert(value, scale_of(scale)?, Scale::Hv);
    // Hard as its grade is named to be, a part contradicts nothing.
    let named_hv = own.and_then(|own| in_hv(own.high.or(own.at)?, own.scale));
    let usual = row.and_then(|row| row.temper);
    let inside = usual.is_some_and(|usual| {
        usual.kind == TemperKind::Typical
            && usual.low_c <= temper_c
            && usual.high_c.is_none_or(|high_c| temper_c <= high_c)
    });
    let up_to_hv = (expected_hv + SCATTER_HV).max(named_hv.filter(|_| inside).unwrap_or(0.0));
    if member.hardness_hv.is_some_and(|hardness_hv| hardness_hv > up_to_hv)
        || contradiction::too_hard(member, part.family)
    {
        return Some(Ask::HardnessAgainstTemper);
    }
    let hard = usual.filter(|usual| usual.high_c.is_some_and(|high_c| high_c <= USED_HARD_UP_TO_C));
    let least_hv = own.filter(|_| hard.is_some()).and_then(|own| in_hv(own.low?, own.scale));
    let most_hv = curves.iter().filter_map(|curve| after(curve, temper_c)).reduce(f64::max)?;
    least_hv.filter(|least_hv| *least_hv > most_hv + SCATTER_HV).map(|_| Ask::TemperAgainstGrade)
}

/// The hardness after a temper; past the ends of the curve that of its end, HV.
fn after(curve: &TemperCurve, temper_c: f64) -> Option<f64> {
    let (first, last) = (curve.points.first()?, curve.points.last()?);
    curve.hardness_hv(temper_c.clamp(first.temper_c, last.temper_c))
}

/// The scale of the conversion; B is for softer steel than any that is judged here.
const fn scale_of(scale: HardnessScale) -> Option<Scale> {
    match scale {
        HardnessScale::Hb => Some(Scale::Hb),
        HardnessScale::Hrc => Some(Scale::Hrc),
        HardnessScale::Hrb => None,
    }
}
