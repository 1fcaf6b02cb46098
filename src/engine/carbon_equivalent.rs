//! How hardenable is a composition: carbon equivalents.

use strum::{EnumIter, IntoStaticStr};

use super::error::check_composition;
use super::{Checked, Ends, EngineError, Outcome, Step};
use crate::reference::Element::{self, B, C, Cr, Cu, Mn, Mo, Nb, Ni, Si, V};
use crate::reference::{Composition, Method, MethodRow, Unit};

/// CE (IIW), also written CEV: `C + Mn/6 + (Cr+Mo+V)/5 + (Ni+Cu)/15`, weight percent.
///
/// Source: IIW Doc. IX-535-67; EN 1011-2 C.2.1. A published example:
/// ```
/// use strawblue::engine::carbon_equivalent::ce_iiw;
/// use strawblue::reference::{Composition, Element::*};
/// let steel = Composition::new(&[(C, 0.200), (Mn, 1.213), (Cr, 0.195), (V, 0.035), (Mo, 0.009), (Ni, 0.118)]);
/// assert!((ce_iiw(&steel) - 0.4578).abs() < 5e-5);
/// ```
#[must_use]
pub fn ce_iiw(steel: &Composition) -> f64 {
    steel.get(C)
        + steel.get(Mn) / 6.0
        + (steel.get(Cr) + steel.get(Mo) + steel.get(V)) / 5.0
        + (steel.get(Ni) + steel.get(Cu)) / 15.0
}

/// CE of the AWS D1.1 annex: CE (IIW) + Si/6, weight percent.
///
/// Source: AWS D1.1 Annex B (2020).
#[must_use]
pub fn ce_si6(steel: &Composition) -> f64 {
    ce_iiw(steel) + steel.get(Si) / 6.0
}

/// CET: `C + (Mn+Mo)/10 + (Cr+Cu)/20 + Ni/40`, weight percent.
///
/// Source: SEW 088; EN 1011-2 C.3.2.1. A published example:
/// ```
/// use strawblue::engine::carbon_equivalent::cet;
/// use strawblue::reference::{Composition, Element::*};
/// let steel = Composition::new(&[(C, 0.110), (Mn, 1.150), (Cr, 0.140), (Mo, 0.220), (Ni, 0.920), (Cu, 0.140)]);
/// assert!((cet(&steel) - 0.2840).abs() < 5e-5);
/// ```
#[must_use]
pub fn cet(steel: &Composition) -> f64 {
    steel.get(C)
        + (steel.get(Mn) + steel.get(Mo)) / 10.0
        + (steel.get(Cr) + steel.get(Cu)) / 20.0
        + steel.get(Ni) / 40.0
}

/// Pcm: `C + Si/30 + (Mn+Cu+Cr)/20 + Ni/60 + Mo/15 + V/10 + 5 B`, weight percent.
///
/// Source: Ito and Bessyo, IIW Doc. IX-576-68.
#[must_use]
pub fn pcm(steel: &Composition) -> f64 {
    steel.get(C)
        + steel.get(Si) / 30.0
        + (steel.get(Mn) + steel.get(Cu) + steel.get(Cr)) / 20.0
        + steel.get(Ni) / 60.0
        + steel.get(Mo) / 15.0
        + steel.get(V) / 10.0
        + 5.0 * steel.get(B)
}

/// The accommodation factor of CE N: `A(C) = 0.75 + 0.25 tanh[20 (C - 0.12)]`.
#[must_use]
pub fn cen_factor(carbon_percent: f64) -> f64 {
    0.75 + 0.25 * (20.0 * (carbon_percent - 0.12)).tanh()
}

/// CE N: `C + A(C) {Si/24 + Mn/6 + Cu/15 + Ni/20 + (Cr+Mo+Nb+V)/5 + 5 B}`, weight percent.
///
/// Source: Yurioka et al., Welding Journal 62 (June 1983) 147-s; Ni/20, as printed there.
#[must_use]
pub fn cen(steel: &Composition) -> f64 {
    let sum = steel.get(Si) / 24.0
        + steel.get(Mn) / 6.0
        + steel.get(Cu) / 15.0
        + steel.get(Ni) / 20.0
        + (steel.get(Cr) + steel.get(Mo) + steel.get(Nb) + steel.get(V)) / 5.0
        + 5.0 * steel.get(B);
    steel.get(C) + cen_factor(steel.get(C)) * sum
}

/// CE (WES, JIS): `C + Si/24 + Mn/6 + Ni/40 + Cr/5 + Mo/4 + V/14`, weight percent.
#[must_use]
pub fn ce_wes(steel: &Composition) -> f64 {
    steel.get(C)
        + steel.get(Si) / 24.0
        + steel.get(Mn) / 6.0
        + steel.get(Ni) / 40.0
        + steel.get(Cr) / 5.0
        + steel.get(Mo) / 4.0
        + steel.get(V) / 14.0
}

/// Ceq of the preheat bands: `C + Mn/6 + Si/24 + Cr/5 + Mo/4 + Ni/15`, weight percent.
#[must_use]
pub fn ceq_s49(steel: &Composition) -> f64 {
    steel.get(C)
        + steel.get(Mn) / 6.0
        + steel.get(Si) / 24.0
        + steel.get(Cr) / 5.0
        + steel.get(Mo) / 4.0
        + steel.get(Ni) / 15.0
}

/// A carbon equivalent by name, the most used first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, EnumIter, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Equivalent {
    /// CE (IIW), CEV.
    CeIiw,
    /// CET.
    Cet,
    /// Pcm.
    Pcm,
    /// CE N.
    Cen,
    /// CE (IIW) + Si/6.
    CeSi6,
    /// CE (WES, JIS).
    CeWes,
    /// Ceq of the preheat bands.
    CeqBandsEquivalent,
}

impl Equivalent {
    /// Stable id; also the name of its outcome.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// Its method.
    #[must_use]
    pub const fn method(self) -> Method {
        match self {
            Self::CeIiw => Method::CeIiw,
            Self::CeSi6 => Method::CeSi6,
            Self::Cet => Method::Cet,
            Self::Pcm => Method::Pcm,
            Self::Cen => Method::Cen,
            Self::CeWes => Method::CeWes,
            Self::CeqBandsEquivalent => Method::CeqS49,
        }
    }

    /// Its value, weight percent.
    #[must_use]
    pub fn of(self, steel: &Composition) -> f64 {
        match self {
            Self::CeIiw => ce_iiw(steel),
            Self::CeSi6 => ce_si6(steel),
            Self::Cet => cet(steel),
            Self::Pcm => pcm(steel),
            Self::Cen => cen(steel),
            Self::CeWes => ce_wes(steel),
            Self::CeqBandsEquivalent => ceq_s49(steel),
        }
    }

    /// The composition beside the limits of its method's row: those of CET and the carbon of
    /// CE N are published, those of CE (IIW) and Pcm from memory; the rest state none.
    #[must_use]
    pub fn range(self, row: &MethodRow, steel: &Composition) -> Vec<Checked> {
        let mut made = within(row, steel);
        if row.limit("CE").is_some() {
            made.push(Checked::of(row, "CE", self.of(steel), Ends::Drawn));
        }
        made
    }
}

/// The elements for which a method states limits, beside them.
#[must_use]
pub fn within(row: &MethodRow, steel: &Composition) -> Vec<Checked> {
    Element::ALL
        .iter()
        .copied()
        .filter(|element| row.limit(element.symbol()).is_some())
        .map(|element| Checked::of(row, element.symbol(), steel.get(element), Ends::Drawn))
        .collect()
}

/// One carbon equivalent of a composition, with its own range of validity.
///
/// # Errors
/// An element that is not a number, negative or above 100 %, or a sum above 100 %.
pub fn carbon_equivalent(
    which: Equivalent,
    row: &MethodRow,
    steel: &Composition,
) -> Result<Outcome, EngineError> {
    check_composition(steel)?;
    let steps = match which {
        Equivalent::Cen => vec![Step::new("A(C)", cen_factor(steel.get(C)), Unit::One)],
        Equivalent::CeSi6 => vec![Step::new("CE", ce_iiw(steel), Unit::Percent)],
        _ => Vec::new(),
    };
    Ok(Outcome::new(which.method(), which.of(steel), Unit::Percent)
        .named(which.id())
        .from_inputs(which.range(row, steel))
        .worked(steps))
}
