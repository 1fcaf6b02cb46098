//! One part of a job, as typed.

use super::field_problem::{DefaultValue, Fault};
use super::read_job::Reader;
use super::steel::{find_steel, is_other_name, several_steels};
use super::typed::{self, CertificateLine};
use super::{Field, Slot};
use crate::engine::hardness_conversion::{ConversionTable, Scale};
use crate::engine::job::{Condition, Member, Steel};
use crate::reference::{Composition, ConditionKind, Element, Grade};
use crate::units::{self, Hardness, HardnessScale, limits};
use std::sync::Arc;

/// Elements that the formulas look for; a certificate without a grade that does not state
/// one of them is taken to have none of it, which is said.
pub const LOOKED_FOR: [Element; 8] =
    [Element::Si, Element::Cr, Element::Mo, Element::Ni, Element::V, Element::Cu, Element::P, Element::S];

/// Reads the part of this number. `same_steel` is the steel of the first part, for a second one that
/// states none; `round_by_joint` says that the sketch shows a round there.
pub(super) fn part(
    reader: &mut Reader<'_>,
    nth: usize,
    same_steel: Option<&Steel>,
    round_by_joint: bool,
) -> Option<Member> {
    let steel = steel(reader, nth, same_steel);
    let size = size(reader, nth, round_by_joint);
    let temperature = reader.units.temperature;
    let condition = match reader.read(Field::Condition.nth(nth), |text| typed::condition(text, temperature)) {
        Some(condition) => condition,
        None => {
            if !reader.has(Field::Condition.nth(nth)) {
                reader.default(Field::Condition.nth(nth), DefaultValue::UnknownCondition);
            }
            Condition { kind: ConditionKind::Unknown, temper_c: None }
        }
    };
    let yield_mpa =
        reader.read(Field::Yield.nth(nth), |text| units::stated_strength(text, limits::STRENGTH_MPA));
    let hardness_hv = hardness(reader, Field::Hardness.nth(nth));
    let buttered = reader.read(Field::Buttered.nth(nth), typed::yes_no).unwrap_or(false);
    let (thickness_mm, round) = size?;
    Some(Member { steel: steel?, condition, thickness_mm, round, yield_mpa, hardness_hv, buttered })
}

/// Thickness or diameter, mm, and whether the part is a round.
fn size(reader: &mut Reader<'_>, nth: usize, round_by_joint: bool) -> Option<(f64, bool)> {
    let unit = reader.units.length;
    let shape = reader.read(Field::Shape.nth(nth), typed::shape_is_round);
    if reader.has(Field::Diameter.nth(nth)) {
        if reader.has(Field::Thickness.nth(nth)) {
            reader.fault(Field::Diameter.nth(nth), Fault::Conflict { with: Field::Thickness.nth(nth) });
        }
        if shape == Some(false) {
            reader.fault(Field::Diameter.nth(nth), Fault::Contradicts { with: Field::Shape.nth(nth) });
        }
        let read =
            reader.read(Field::Diameter.nth(nth), |text| units::length(text, unit, limits::THICKNESS_MM))?;
        return Some((read.mm, true));
    }
    let read =
        reader.required(Field::Thickness.nth(nth), |text| units::length(text, unit, limits::THICKNESS_MM))?;
    if read.round && shape == Some(false) {
        reader.fault(Field::Thickness.nth(nth), Fault::Contradicts { with: Field::Shape.nth(nth) });
    }
    let round = shape.unwrap_or_else(|| {
        if round_by_joint && !read.round {
            reader.default(Field::Shape.nth(nth), DefaultValue::Round);
        }
        read.round || round_by_joint
    });
    Some((read.mm, round))
}

fn hardness(reader: &mut Reader<'_>, slot: Slot) -> Option<f64> {
    let Hardness { value, scale } = reader.read(slot, units::hardness)?;
    let from = match scale {
        HardnessScale::Vickers => return Some(value),
        HardnessScale::Brinell => Scale::Hb,
        HardnessScale::RockwellC => Scale::Hrc,
    };
    let converted = ConversionTable::AstmE140
        .convert(value, from, Scale::Hv)
        .or_else(|| ConversionTable::Iso18265.convert(value, from, Scale::Hv));
    if converted.is_none() {
        reader.fault(slot, Fault::NoConversion { value, scale });
    }
    converted
}

fn steel(reader: &mut Reader<'_>, nth: usize, same_steel: Option<&Steel>) -> Option<Steel> {
    let certificate = reader.read(Field::Certificate.nth(nth), typed::composition);
    let named = match reader.typed(Field::Steel.nth(nth)) {
        None => None,
        Some(name) => Some(named(reader, Field::Steel.nth(nth), name)?),
    };
    if reader.has(Field::Certificate.nth(nth)) && certificate.is_none() {
        return None;
    }
    match (named, certificate) {
        (_, Some(line)) if line.unmarked.is_some() => unmarked(reader, nth, &line),
        (Some(Named::Own { line, .. }), None) if line.unmarked.is_some() => unmarked(reader, nth, &line),
        (Some(Named::Grade(grade)), None) => Some(Steel::Grade(grade)),
        (Some(Named::Grade(grade)), Some(line)) => with_grade(reader, nth, &line, grade),
        (Some(Named::Own { line, grade: Some(grade) }), None) => with_grade(reader, nth, &line, grade),
        (Some(Named::Own { line, grade: None }), None) => alone(reader, nth, &line),
        (None, Some(line)) => alone(reader, nth, &line),
        (Some(Named::Own { .. }), Some(_)) => {
            reader.fault(Field::Certificate.nth(nth), Fault::Conflict { with: Field::Steel.nth(nth) });
            None
        }
        (None, None) => {
            if let Some(same) = same_steel {
                reader.default(Field::Steel.nth(nth), DefaultValue::SameSteel);
                return Some(same.clone());
            }
            reader.fault(Field::Steel.nth(nth), Fault::Missing);
            None
        }
    }
}

enum Named {
    Grade(Arc<Grade>),
    Own { line: Box<CertificateLine>, grade: Option<Arc<Grade>> },
}

/// The steel of a name: the reader's own first, then a grade by its exact designation.
fn named(reader: &mut Reader<'_>, slot: Slot, name: &str) -> Option<Named> {
    if let Some(own) = reader.own_steels.iter().find(|own| own.is_called(name)) {
        return match own.read() {
            Ok(line) if own.grade.trim().is_empty() => Some(Named::Own { line: Box::new(line), grade: None }),
            Ok(line) => graded(reader, slot, &own.grade)
                .map(|grade| Named::Own { line: Box::new(line), grade: Some(grade) }),
            Err(problem) => {
                reader.fault(slot, Fault::Typed(problem));
                None
            }
        };
    }
    // The analysis may be typed in the place of a name.
    if let Some(read) = certificate_for_name(reader, name) {
        return match read {
            Ok(line) => Some(Named::Own { line: Box::new(line), grade: None }),
            Err(problem) => {
                reader.fault(slot, Fault::Typed(problem));
                None
            }
        };
    }
    graded(reader, slot, name).map(Named::Grade)
}

/// The certificate line that stands where a name does. A grade of that name comes first, and a line of one
/// figure alone is no analysis, unless an equals sign says that it is meant as one.
fn certificate_for_name(reader: &Reader<'_>, name: &str) -> Option<Result<CertificateLine, units::Problem>> {
    if find_steel(name, reader.reference).is_ok() {
        return None;
    }
    let read = typed::composition(name);
    let meant = name.contains('=') || read.as_ref().is_ok_and(|line| line.is_analysis());
    meant.then_some(read)
}

/// A grade by its exact designation.
fn graded(reader: &mut Reader<'_>, slot: Slot, name: &str) -> Option<Arc<Grade>> {
    match find_steel(name, reader.reference) {
        Ok(grade) => {
            if is_other_name(name, grade) {
                let (typed, grade) = (name.to_owned(), grade.designation.clone());
                reader.default(slot, DefaultValue::TakenFor { typed, grade });
            }
            Some(Arc::new(grade.clone()))
        }
        Err(near) => {
            let typed = name.to_owned();
            let steels = several_steels(name, reader.reference);
            let fault = if steels.is_empty() {
                Fault::UnknownSteel { typed, near }
            } else {
                Fault::SeveralSteels { typed, steels }
            };
            reader.fault(slot, fault);
            None
        }
    }
}

/// A certificate with its grade.
fn with_grade(
    reader: &mut Reader<'_>,
    nth: usize,
    line: &CertificateLine,
    grade: Arc<Grade>,
) -> Option<Steel> {
    let (composition, at_maximum) = line.with_grade(&grade);
    if slips(reader, nth, line, &composition, Some(&grade)) {
        return None;
    }
    if !at_maximum.is_empty() {
        reader.default(Field::Certificate.nth(nth), DefaultValue::GradeMaximum(at_maximum));
    }
    Some(Steel::Certificate { composition, grade: Some(grade) })
}

/// Asks about every figure of a certificate that no steel has; are there any?
fn slips(
    reader: &mut Reader<'_>,
    nth: usize,
    line: &CertificateLine,
    composition: &Composition,
    grade: Option<&Grade>,
) -> bool {
    let found = typed::improbable(&line.stated, composition, grade);
    for slip in &found {
        reader.fault(certificate_slot(reader, nth), Fault::Improbable(*slip));
    }
    !found.is_empty()
}

/// Where the figures of a part's certificate come from: they are typed, or those of an own steel.
fn certificate_slot(reader: &Reader<'_>, nth: usize) -> Slot {
    let own = Field::Certificate.nth(nth);
    if reader.has(own) { own } else { Field::Steel.nth(nth) }
}

/// A steel without a mark, as a test at the bench left it. Nobody takes it for a grade.
fn unmarked(reader: &mut Reader<'_>, nth: usize, line: &CertificateLine) -> Option<Steel> {
    let steel = line.unmarked_steel(&reader.reference.unmarked)?;
    // The grade that somebody names beside it is no more than a guess.
    if reader.has(Field::Certificate.nth(nth)) && reader.has(Field::Steel.nth(nth)) {
        reader.fault(Field::Certificate.nth(nth), Fault::Conflict { with: Field::Steel.nth(nth) });
        return None;
    }
    let asked = steel.analysis().is_some_and(|composition| slips(reader, nth, line, composition, None));
    (!asked).then_some(steel)
}

/// A certificate without a grade.
fn alone(reader: &mut Reader<'_>, nth: usize, line: &CertificateLine) -> Option<Steel> {
    if ![Element::C, Element::Mn].iter().all(|element| line.stated.contains(element)) {
        reader.fault(certificate_slot(reader, nth), Fault::NeedsCarbonAndManganese);
        return None;
    }
    let composition: Composition = line.composition;
    if slips(reader, nth, line, &composition, None) {
        return None;
    }
    let not_stated: Vec<Element> =
        LOOKED_FOR.into_iter().filter(|element| !line.stated.contains(element)).collect();
    if !not_stated.is_empty() {
        reader.default(Field::Certificate.nth(nth), DefaultValue::NotStated(not_stated));
    }
    Some(Steel::Certificate { composition, grade: None })
}
