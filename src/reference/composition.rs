//! Chemical composition in weight percent.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

/// An element that the formulas or the dataset speak of.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    Hash,
    PartialOrd,
    Ord,
    Serialize,
    Deserialize,
    strum::IntoStaticStr,
    strum::VariantArray,
)]
#[allow(missing_docs, reason = "chemical symbols")]
pub enum Element {
    C,
    Si,
    Mn,
    P,
    S,
    Cr,
    Mo,
    Ni,
    V,
    Cu,
    Nb,
    Ti,
    B,
    Al,
    N,
    W,
    Pb,
    Zr,
    Co,
    Mg,
}

impl Element {
    /// All elements in the order in which a mill certificate prints them.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The chemical symbol.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        self.into()
    }

    /// The element of a symbol, whatever its case.
    #[must_use]
    pub fn from_symbol(symbol: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|element| element.symbol().eq_ignore_ascii_case(symbol))
    }
}

/// A composition in weight percent; what is not stated is zero.
///
/// In RON and JSON it is a map of symbols: `{C: 0.41, Mn: 0.9}`.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(from = "BTreeMap<Element, f64>", into = "BTreeMap<Element, f64>")]
pub struct Composition {
    percent: [f64; Element::ALL.len()],
}

impl Composition {
    /// A composition from pairs of element and weight percent.
    #[must_use]
    pub fn new(pairs: &[(Element, f64)]) -> Self {
        let mut made = Self::default();
        for &(element, percent) in pairs {
            made.set(element, percent);
        }
        made
    }

    /// Weight percent of one element.
    #[must_use]
    pub const fn get(&self, element: Element) -> f64 {
        self.percent[element as usize]
    }

    /// Sets the weight percent of one element.
    pub const fn set(&mut self, element: Element, percent: f64) {
        self.percent[element as usize] = percent;
    }

    /// This composition with one element changed.
    #[must_use]
    pub const fn with(mut self, element: Element, percent: f64) -> Self {
        self.set(element, percent);
        self
    }
}

impl From<BTreeMap<Element, f64>> for Composition {
    fn from(map: BTreeMap<Element, f64>) -> Self {
        let mut made = Self::default();
        for (element, percent) in map {
            made.set(element, percent);
        }
        made
    }
}

impl From<Composition> for BTreeMap<Element, f64> {
    fn from(composition: Composition) -> Self {
        Element::ALL
            .iter()
            .copied()
            .filter(|element| composition.get(*element) != 0.0)
            .map(|element| (element, composition.get(element)))
            .collect()
    }
}
