//! How hardenable is a composition: carbon equivalents.

use super::error::check_composition;
use super::source_ids::{
    CE_ANSWERS, CE_NOTE, CEQ_TRADE_TEXT, ITO_BESSYO, WORKSHEET, YURIOKA_1983, published,
};
use super::{EngineError, Outcome, RangeCheck, Step, Unit};
use crate::reference::Element::{self, B, C, Cr, Cu, Mn, Mo, Nb, Ni, Si, Ti, V};
use crate::reference::{Basis, Composition};

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

/// A carbon equivalent by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Equivalent {
    /// CE (IIW), CEV.
    CeIiw,
    /// CE (IIW) + Si/6.
    CeSi6,
    /// CET.
    Cet,
    /// Pcm.
    Pcm,
    /// CE N.
    CeN,
    /// CE (WES, JIS).
    CeWes,
    /// Ceq of the preheat bands.
    CeqBands,
}

impl Equivalent {
    /// All of them, the most used first.
    pub const ALL: [Self; 7] =
        [Self::CeIiw, Self::Cet, Self::Pcm, Self::CeN, Self::CeSi6, Self::CeWes, Self::CeqBands];

    /// Stable id; also the name of its outcome.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::CeIiw => "ce-iiw",
            Self::CeSi6 => "ce-si6",
            Self::Cet => "cet",
            Self::Pcm => "pcm",
            Self::CeN => "cen",
            Self::CeWes => "ce-wes",
            Self::CeqBands => "ceq-bands-equivalent",
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
            Self::CeN => cen(steel),
            Self::CeWes => ce_wes(steel),
            Self::CeqBands => ceq_s49(steel),
        }
    }

    /// What the formula rests on: the text in which it was seen, as its row of
    /// `data/methods.ron` names it too.
    #[must_use]
    pub const fn basis(self) -> Basis {
        match self {
            Self::CeIiw => published(CE_ANSWERS, "IIW Doc. IX-535-67; EN 1011-2 C.2.1"),
            Self::CeSi6 => published(CE_ANSWERS, "AWS D1.1 Annex B, older XI, I, H"),
            Self::Cet => published(WORKSHEET, "EN 1011-2 C.3.2.1, SEW 088"),
            Self::Pcm => published(ITO_BESSYO, "Ito and Bessyo, IIW IX-576-68"),
            Self::CeN => published(YURIOKA_1983, "abstract"),
            Self::CeWes => published(CE_NOTE, "JIS and WES"),
            Self::CeqBands => published(CEQ_TRADE_TEXT, "Ceq = C + Mn/6 + Si/24 + Cr/5 + Mo/4 + Ni/15"),
        }
    }

    /// Limits of composition that the method states: element, lowest, highest, weight
    /// percent. Those of CET and the carbon of CE N are published; those of CE (IIW)
    /// and Pcm are from memory; the rest state none.
    #[must_use]
    pub const fn limits(self) -> &'static [(Element, f64, f64)] {
        match self {
            Self::CeIiw => &[
                (C, 0.05, 0.25),
                (Si, 0.0, 0.8),
                (Mn, 0.0, 1.7),
                (Cr, 0.0, 0.9),
                (Cu, 0.0, 1.0),
                (Ni, 0.0, 2.5),
                (Mo, 0.0, 0.75),
                (V, 0.0, 0.20),
            ],
            Self::Cet => &[
                (C, 0.05, 0.32),
                (Si, 0.0, 0.8),
                (Mn, 0.5, 1.9),
                (Cr, 0.0, 1.5),
                (Cu, 0.0, 0.7),
                (Mo, 0.0, 0.75),
                (Nb, 0.0, 0.06),
                (Ni, 0.0, 2.5),
                (Ti, 0.0, 0.12),
                (V, 0.0, 0.18),
                (B, 0.0, 0.005),
            ],
            Self::Pcm => &[
                (C, 0.07, 0.22),
                (Si, 0.0, 0.60),
                (Mn, 0.40, 1.40),
                (Cu, 0.0, 0.50),
                (Ni, 0.0, 1.20),
                (Cr, 0.0, 1.20),
                (Mo, 0.0, 0.70),
                (V, 0.0, 0.12),
                (Ti, 0.0, 0.05),
                (Nb, 0.0, 0.04),
                (B, 0.0, 0.005),
            ],
            Self::CeN => &[(C, 0.02, 0.26)],
            Self::CeSi6 | Self::CeWes | Self::CeqBands => &[],
        }
    }

    /// The composition beside the limits of this method.
    #[must_use]
    pub fn range(self, steel: &Composition) -> Vec<RangeCheck> {
        let mut made: Vec<RangeCheck> = self
            .limits()
            .iter()
            .map(|&(element, low, high)| RangeCheck {
                symbol: element.symbol(),
                value: steel.get(element),
                low: (low > 0.0).then_some(low),
                high: Some(high),
            })
            .collect();
        if self == Self::CeIiw {
            made.push(RangeCheck { symbol: "CE", value: ce_iiw(steel), low: Some(0.30), high: Some(0.70) });
        }
        made
    }
}

/// One carbon equivalent of a composition, with its own range of validity.
///
/// # Errors
/// An element that is not a number, negative or above 100 %, or a sum above 100 %.
pub fn carbon_equivalent(which: Equivalent, steel: &Composition) -> Result<Outcome, EngineError> {
    check_composition(steel)?;
    let mut steps = Vec::new();
    if which == Equivalent::CeN {
        steps.push(Step { symbol: "A(C)", value: cen_factor(steel.get(C)), unit: Unit::One });
    }
    if which == Equivalent::CeSi6 {
        steps.push(Step { symbol: "CE", value: ce_iiw(steel), unit: Unit::Percent });
    }
    Ok(Outcome::new(which.id(), which.of(steel), Unit::Percent, which.basis())
        .checked(which.range(steel))
        .worked(steps))
}
