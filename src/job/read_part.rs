//! One part of a job, as typed.

use super::Field;
use super::field_problem::{DefaultValue, Fault};
use super::read_job::Reader;
use super::steel::{find_steel, is_other_name, several_steels};
use super::typed::{self, CertificateLine};
use crate::engine::hardness_conversion::{ConversionTable, Scale};
use crate::engine::job::{Condition, Member, Steel};
use crate::reference::{Composition, ConditionKind, Element, Grade};
use crate::units::{self, Hardness, HardnessScale, limits};

/// The fields of one part.
pub(super) struct PartFields {
    steel: Field,
    certificate: Field,
    condition: Field,
    thickness: Field,
    shape: Field,
    diameter: Field,
    hardness: Field,
    yield_strength: Field,
    buttered: Field,
}

impl PartFields {
    pub(super) const fn fields(&self) -> [Field; 9] {
        [
            self.steel,
            self.certificate,
            self.condition,
            self.thickness,
            self.shape,
            self.diameter,
            self.hardness,
            self.yield_strength,
            self.buttered,
        ]
    }
}

pub(super) const FIRST: PartFields = PartFields {
    steel: Field::Steel,
    certificate: Field::Certificate,
    condition: Field::Condition,
    thickness: Field::Thickness,
    shape: Field::Shape,
    diameter: Field::Diameter,
    hardness: Field::Hardness,
    yield_strength: Field::Yield,
    buttered: Field::Buttered,
};

pub(super) const SECOND: PartFields = PartFields {
    steel: Field::SteelB,
    certificate: Field::CertificateB,
    condition: Field::ConditionB,
    thickness: Field::ThicknessB,
    shape: Field::ShapeB,
    diameter: Field::DiameterB,
    hardness: Field::HardnessB,
    yield_strength: Field::YieldB,
    buttered: Field::ButteredB,
};

/// Elements that the formulas look for; a certificate without a grade that does not state
/// one of them is taken to have none of it, which is said.
pub const LOOKED_FOR: [Element; 8] =
    [Element::Si, Element::Cr, Element::Mo, Element::Ni, Element::V, Element::Cu, Element::P, Element::S];

/// Reads one part. `same_steel` is the steel of the first part, for a second one that
/// states none; `round_by_joint` says that the sketch shows a round there.
pub(super) fn part(
    reader: &mut Reader<'_>,
    fields: &PartFields,
    same_steel: Option<&Steel>,
    round_by_joint: bool,
) -> Option<Member> {
    let steel = steel(reader, fields, same_steel);
    let size = size(reader, fields, round_by_joint);
    let temperature = reader.units.temperature;
    let condition = match reader.read(fields.condition, |text| typed::condition(text, temperature)) {
        Some(condition) => condition,
        None => {
            if !reader.has(fields.condition) {
                reader.default(fields.condition, DefaultValue::UnknownCondition);
            }
            Condition { kind: ConditionKind::Unknown, temper_c: None }
        }
    };
    let length = reader.units.length;
    let yield_mpa =
        reader.read(fields.yield_strength, |text| units::strength(text, length, limits::STRENGTH_MPA));
    let hardness_hv = hardness(reader, fields.hardness);
    let buttered = reader.read(fields.buttered, typed::yes_no).unwrap_or(false);
    let (thickness_mm, round) = size?;
    Some(Member { steel: steel?, condition, thickness_mm, round, yield_mpa, hardness_hv, buttered })
}

/// Thickness or diameter, mm, and whether the part is a round.
fn size(reader: &mut Reader<'_>, fields: &PartFields, round_by_joint: bool) -> Option<(f64, bool)> {
    let unit = reader.units.length;
    let shape = reader.read(fields.shape, typed::shape_is_round);
    if reader.has(fields.diameter) {
        if reader.has(fields.thickness) {
            reader.fault(fields.diameter, Fault::Conflict { with: fields.thickness });
        }
        if shape == Some(false) {
            reader.fault(fields.diameter, Fault::Contradicts { with: fields.shape });
        }
        let read = reader.read(fields.diameter, |text| units::length(text, unit, limits::THICKNESS_MM))?;
        return Some((read.mm, true));
    }
    let read = reader.required(fields.thickness, |text| units::length(text, unit, limits::THICKNESS_MM))?;
    if read.round && shape == Some(false) {
        reader.fault(fields.thickness, Fault::Contradicts { with: fields.shape });
    }
    let round = shape.unwrap_or_else(|| {
        if round_by_joint && !read.round {
            reader.default(fields.shape, DefaultValue::Round);
        }
        read.round || round_by_joint
    });
    Some((read.mm, round))
}

fn hardness(reader: &mut Reader<'_>, field: Field) -> Option<f64> {
    let Hardness { value, scale } = reader.read(field, units::hardness)?;
    let from = match scale {
        HardnessScale::Vickers => return Some(value),
        HardnessScale::Brinell => Scale::Hb,
        HardnessScale::RockwellC => Scale::Hrc,
    };
    let converted = ConversionTable::AstmE140
        .convert(value, from, Scale::Hv)
        .or_else(|| ConversionTable::Iso18265.convert(value, from, Scale::Hv));
    if converted.is_none() {
        reader.fault(field, Fault::NoConversion { value, scale });
    }
    converted
}

fn steel(reader: &mut Reader<'_>, fields: &PartFields, same_steel: Option<&Steel>) -> Option<Steel> {
    let certificate = reader.read(fields.certificate, typed::composition);
    let named = match reader.typed(fields.steel) {
        None => None,
        Some(name) => Some(named(reader, fields.steel, name)?),
    };
    if reader.has(fields.certificate) && certificate.is_none() {
        return None;
    }
    match (named, certificate) {
        (Some(Named::Grade(grade)), None) => Some(Steel::Grade(grade)),
        (Some(Named::Grade(grade)), Some(line)) => Some(with_grade(reader, fields, &line, grade)),
        (Some(Named::Own { line, grade: Some(grade) }), None) => {
            Some(with_grade(reader, fields, &line, grade))
        }
        (Some(Named::Own { line, grade: None }), None) => alone(reader, fields, &line),
        (None, Some(line)) => alone(reader, fields, &line),
        (Some(Named::Own { .. }), Some(_)) => {
            reader.fault(fields.certificate, Fault::Conflict { with: fields.steel });
            None
        }
        (None, None) => {
            if let Some(same) = same_steel {
                reader.default(fields.steel, DefaultValue::SameSteel);
                return Some(same.clone());
            }
            reader.fault(fields.steel, Fault::Missing);
            None
        }
    }
}

enum Named {
    Grade(Box<Grade>),
    Own { line: Box<CertificateLine>, grade: Option<Box<Grade>> },
}

/// The steel of a name: the reader's own first, then a grade by its exact designation.
fn named(reader: &mut Reader<'_>, field: Field, name: &str) -> Option<Named> {
    if let Some(own) = reader.own_steels.iter().find(|own| own.is_called(name)) {
        return match own.read() {
            Ok(line) if own.grade.trim().is_empty() => Some(Named::Own { line: Box::new(line), grade: None }),
            Ok(line) => graded(reader, field, &own.grade)
                .map(|grade| Named::Own { line: Box::new(line), grade: Some(grade) }),
            Err(problem) => {
                reader.fault(field, Fault::Typed(problem));
                None
            }
        };
    }
    graded(reader, field, name).map(Named::Grade)
}

/// A grade by its exact designation.
fn graded(reader: &mut Reader<'_>, field: Field, name: &str) -> Option<Box<Grade>> {
    match find_steel(name, reader.reference) {
        Ok(grade) => {
            if is_other_name(name, grade) {
                let (typed, grade) = (name.to_owned(), grade.designation.clone());
                reader.default(field, DefaultValue::TakenFor { typed, grade });
            }
            Some(Box::new(grade.clone()))
        }
        Err(near) => {
            let typed = name.to_owned();
            let steels = several_steels(name, reader.reference);
            let fault = if steels.is_empty() {
                Fault::UnknownSteel { typed, near }
            } else {
                Fault::SeveralSteels { typed, steels }
            };
            reader.fault(field, fault);
            None
        }
    }
}

/// A certificate with its grade.
fn with_grade(
    reader: &mut Reader<'_>,
    fields: &PartFields,
    line: &CertificateLine,
    grade: Box<Grade>,
) -> Steel {
    let (composition, at_maximum) = line.with_grade(&grade);
    if !at_maximum.is_empty() {
        reader.default(fields.certificate, DefaultValue::GradeMaximum(at_maximum));
    }
    Steel::Certificate { composition, grade: Some(grade) }
}

/// A certificate without a grade.
fn alone(reader: &mut Reader<'_>, fields: &PartFields, line: &CertificateLine) -> Option<Steel> {
    if ![Element::C, Element::Mn].iter().all(|element| line.stated.contains(element)) {
        let field = if reader.has(fields.certificate) { fields.certificate } else { fields.steel };
        reader.fault(field, Fault::NeedsCarbonAndManganese);
        return None;
    }
    let composition: Composition = line.composition;
    let not_stated: Vec<Element> =
        LOOKED_FOR.into_iter().filter(|element| !line.stated.contains(element)).collect();
    if !not_stated.is_empty() {
        reader.default(fields.certificate, DefaultValue::NotStated(not_stated));
    }
    Some(Steel::Certificate { composition, grade: None })
}
