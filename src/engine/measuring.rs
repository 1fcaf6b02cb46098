//! Where on the part, and how long after the flame, is the temperature measured?

use super::error::THICKNESS;
use super::{EngineError, Outcome, Step, Unit};
use crate::reference::{Basis, Method, Methods};

/// How the part is heated.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantNames, strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum HeatedBy {
    /// Flame from one side; it must be taken away before measuring.
    Flame,
    /// Furnace, mats or coil, in no hurry.
    Soaking,
}

impl HeatedBy {
    /// All ways.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// The joint to be measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartToMeasure {
    /// Thickness of the thickest member at the joint, mm.
    pub thickest_mm: f64,
    /// How it is heated.
    pub heated_by: HeatedBy,
    /// Can the face opposite the heat be reached?
    pub far_face_reached: bool,
}

/// A rule of measuring; the words are the Fluent message `note-ID`.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, strum::IntoStaticStr, strum::VariantNames, strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case", prefix = "measuring-")]
pub enum MeasuringRule {
    /// On the face opposite the heat, where it can be reached.
    FarFace,
    /// On the heated face, after the heat is away and the wait is over.
    HeatedFaceAfterWait,
    /// For a minimum: at the coldest point.
    ColdestPoint,
    /// For a maximum: where the next run begins, at the hottest point.
    HottestPoint,
    /// On the thick member: it lags behind.
    ThickMember,
    /// Preheat just before the arc, interpass just before the next run.
    JustBefore,
    /// The temperature reaches over the zone in all directions.
    WholeZone,
}

impl MeasuringRule {
    /// All rules.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// What the rule rests on.
    #[must_use]
    pub fn basis(self, methods: &Methods) -> &Basis {
        let of = |method| &methods.row(method).basis;
        match self {
            Self::FarFace | Self::HeatedFaceAfterWait => of(Method::MeasuringWait),
            Self::JustBefore => of(Method::MeasuringDistance),
            Self::WholeZone => of(Method::MeasuringZone),
            Self::ColdestPoint | Self::HottestPoint | Self::ThickMember => &Basis::Practice,
        }
    }
}

/// Where and when to measure.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuringPlace {
    /// Distance from the groove edge on the face towards the welder, mm.
    pub distance: Outcome,
    /// Is the distance a least one, over which the temperature exists in all directions?
    pub at_least: bool,
    /// Distance over which a structural code wants the preheat, mm, at least.
    pub zone: Outcome,
    /// Wait after the heat is away, min; 0 where no wait is needed.
    pub wait: Outcome,
    /// Rules in the order of use.
    pub rules: Vec<MeasuringRule>,
}

/// Distance from the groove edge by ISO 13916, mm, and whether it is a least one: four
/// times the thickness, at most 50 mm, up to 50 mm thick; at least 75 mm above.
#[must_use]
pub fn distance_mm(thickest_mm: f64) -> (f64, bool) {
    if thickest_mm <= 50.0 { ((4.0 * thickest_mm).min(50.0), false) } else { (75.0, true) }
}

/// Wait after a flame on a face that is measured itself, min: 2 min for each 25 mm (ISO 13916, from
/// memory).
#[must_use]
pub const fn wait_after_flame_min(thickest_mm: f64) -> f64 {
    2.0 * thickest_mm / 25.0
}

/// Where on the part, and how long after the flame, is the temperature measured?
///
/// `A = 4 t`, at most 50 mm, for t up to 50 mm; at least 75 mm above; wait 2 min per 25 mm
/// after a flame on a face that is measured itself.
/// Source: ISO 13916 (the wait from memory); AWS D1.1 for the zone: the thickest part, at
/// least 75 mm.
///
/// # Errors
/// A thickness that is not a number, negative, or that no part has.
pub fn measuring_place(part: PartToMeasure) -> Result<MeasuringPlace, EngineError> {
    let thick_mm = THICKNESS.check(part.thickest_mm)?;
    let (distance, at_least) = distance_mm(thick_mm);
    let step = || vec![Step { symbol: "t", value: thick_mm, unit: Unit::Millimetre }];
    let waits = part.heated_by == HeatedBy::Flame && !part.far_face_reached;
    let wait_min = if waits { wait_after_flame_min(thick_mm) } else { 0.0 };
    let mut rules = match part.heated_by {
        HeatedBy::Flame if waits => vec![MeasuringRule::HeatedFaceAfterWait],
        HeatedBy::Flame => vec![MeasuringRule::FarFace],
        HeatedBy::Soaking => vec![],
    };
    rules.extend([
        MeasuringRule::ColdestPoint,
        MeasuringRule::HottestPoint,
        MeasuringRule::ThickMember,
        MeasuringRule::JustBefore,
        MeasuringRule::WholeZone,
    ]);
    Ok(MeasuringPlace {
        distance: Outcome::new(Method::MeasuringDistance, distance, Unit::Millimetre).worked(step()),
        at_least,
        zone: Outcome::new(Method::MeasuringZone, thick_mm.max(75.0), Unit::Millimetre).worked(step()),
        wait: Outcome::new(Method::MeasuringWait, wait_min, Unit::Minute).worked(step()),
        rules,
    })
}
