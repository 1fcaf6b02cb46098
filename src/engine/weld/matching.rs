//! Does this filler match the steel as the weld needs?

use strum::{IntoStaticStr, VariantArray, VariantNames};

use super::strength::STRENGTH;
use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Unit};
use crate::reference::{Method, Told, WeldStrength};

/// What kind of weld it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, IntoStaticStr, VariantArray, VariantNames)]
#[strum(serialize_all = "kebab-case")]
pub enum WeldKind {
    /// A groove through the whole thickness.
    FullGroove,
    /// A groove through a part of it.
    PartGroove,
    /// A fillet.
    Fillet,
    /// A plug or slot.
    Plug,
}

impl WeldKind {
    /// All of them.
    pub const ALL: &'static [Self] = <Self as VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// How it is loaded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, IntoStaticStr, VariantArray, VariantNames)]
#[strum(serialize_all = "kebab-case")]
pub enum WeldLoad {
    /// Tension across it.
    Tension,
    /// Compression across it.
    Compression,
    /// Shear.
    Shear,
    /// Stress along its axis.
    Along,
    /// Not told: the strictest.
    #[default]
    NotKnown,
}

impl Told for WeldLoad {
    const TOPIC: &'static str = "option-weld-load";

    fn key(self) -> &'static str {
        match self {
            Self::Tension => "option-weld-load-tension",
            Self::Compression => "option-weld-load-compression",
            Self::Shear => "option-weld-load-shear",
            Self::Along => "option-weld-load-along",
            Self::NotKnown => "option-weld-load-not-known",
        }
    }
}

impl WeldLoad {
    /// All of them.
    pub const ALL: &'static [Self] = <Self as VariantArray>::VARIANTS;

    /// Stable id.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// What the rules say of a filler.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, IntoStaticStr)]
#[strum(prefix = "match-", serialize_all = "kebab-case")]
pub enum MatchVerdict {
    /// It matches.
    Matches,
    /// It is stronger than the rules or the joint have use for.
    TooStrong,
    /// One level lower, which compression allows.
    OneLower,
    /// Any strength is allowed where the strength is shown.
    IfShown,
    /// Too weak for a groove in tension or shear.
    TooWeakTension,
    /// Too weak for a groove in compression.
    TooWeakCompression,
    /// No filler is strong enough.
    NoFiller,
}

impl MatchVerdict {
    /// Id of its note.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// Is the filler refused?
    #[must_use]
    pub const fn refused(self) -> bool {
        matches!(self, Self::TooWeakTension | Self::TooWeakCompression | Self::NoFiller)
    }
}

/// Least strength of a filler for a groove, MPa; none where any is allowed.
#[must_use]
pub fn least_filler_mpa(
    strength: &WeldStrength,
    kind: WeldKind,
    load: WeldLoad,
    base_mpa: f64,
) -> Option<f64> {
    let matching = (1.0 - strength.same_share) * base_mpa;
    match (kind, load) {
        (WeldKind::FullGroove, WeldLoad::Along) => None,
        (WeldKind::FullGroove, WeldLoad::Compression) => {
            Some(matching.min(base_mpa - strength.one_lower_mpa))
        }
        (WeldKind::FullGroove, _) => Some(matching),
        _ => None,
    }
}

/// Above this a filler is a level stronger than it need be, MPa.
fn too_strong_mpa(strength: &WeldStrength, base_mpa: f64) -> Option<f64> {
    let matching = (1.0 - strength.same_share) * base_mpa;
    let at = strength.steps_mpa.iter().position(|step| *step >= matching)?;
    strength.steps_mpa.get(at + 1).map(|next| (1.0 + strength.same_share) * next)
}

/// What the rules say of a filler of some tensile strength on a part of some tensile strength, the weaker
/// of two. Only the tensile strength decides.
#[must_use]
pub fn verdict(
    strength: &WeldStrength,
    kind: WeldKind,
    load: WeldLoad,
    base_mpa: f64,
    filler_mpa: f64,
    strongest_mpa: Option<f64>,
) -> MatchVerdict {
    let matching = (1.0 - strength.same_share) * base_mpa;
    let strong = too_strong_mpa(strength, base_mpa).is_some_and(|most| filler_mpa > most);
    let Some(least) = least_filler_mpa(strength, kind, load, base_mpa) else {
        return if strong { MatchVerdict::TooStrong } else { MatchVerdict::IfShown };
    };
    if strongest_mpa.is_some_and(|strongest| strongest < least) {
        return MatchVerdict::NoFiller;
    }
    if strong {
        MatchVerdict::TooStrong
    } else if filler_mpa >= matching {
        MatchVerdict::Matches
    } else if filler_mpa >= least {
        MatchVerdict::OneLower
    } else if load == WeldLoad::Compression {
        MatchVerdict::TooWeakCompression
    } else {
        MatchVerdict::TooWeakTension
    }
}

/// What is asked of a filler.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MatchQuery {
    /// The weld.
    pub kind: WeldKind,
    /// Its load.
    pub load: WeldLoad,
    /// Tensile strength of the weaker part, MPa.
    pub base_mpa: f64,
    /// Tensile strength of the filler, MPa.
    pub filler_mpa: f64,
}

/// The verdict, the least strength of a filler and how much larger a fillet's throat is for it.
///
/// Source: AISC 360 Table J2.5 and its notes; 1 % for the rounding between ksi and MPa (common practice).
///
/// # Errors
/// A strength that no steel has.
pub fn filler_match(
    strength: &WeldStrength,
    asked: &MatchQuery,
) -> Result<(Vec<Outcome>, MatchVerdict), EngineError> {
    let base = Domain::new("base-strength", 200.0, 2500.0).check(asked.base_mpa)?;
    let filler = STRENGTH.check(asked.filler_mpa)?;
    let answer = |name, value, unit| {
        Outcome::new(Method::FillerMatch, value, unit).named(name).resting_on(&strength.matching_basis)
    };
    let mut outcomes = Vec::new();
    if let Some(least) = least_filler_mpa(strength, asked.kind, asked.load, base) {
        outcomes.push(answer("match-least", least, Unit::Megapascal));
    }
    outcomes.push(answer("match-throat-factor", base / filler, Unit::One));
    let found = verdict(strength, asked.kind, asked.load, base, filler, None);
    Ok((outcomes, found))
}
