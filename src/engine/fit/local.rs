//! How much less does a bore open that is heated alone?

use super::metal::{End, mean_expansion_per_k};
use super::{DIAMETER, SHOP, check_outer};
use crate::engine::error::Domain;
use crate::engine::{EngineError, Outcome, Step, Unit};
use crate::reference::{Metal, Method};

/// What of a round plate with a hole is hot: the metal round the hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HotRing {
    /// Outside of the plate, mm.
    pub outer_mm: f64,
    /// Outside of what is hot, mm.
    pub heated_mm: f64,
}

impl HotRing {
    /// Share of the area of a plate with this hole that is hot: `(R² - a²) / (b² - a²)`.
    ///
    /// The strain at the hole of an elastic disc is the expansion times the mean rise over its area.
    #[must_use]
    pub fn share(self, bore_mm: f64) -> f64 {
        let square = |diameter_mm: f64| diameter_mm * diameter_mm;
        (square(self.heated_mm.min(self.outer_mm)) - square(bore_mm))
            / (square(self.outer_mm) - square(bore_mm))
    }

    /// Does it lie between the bore and the outside?
    pub(super) fn check(self, bore_mm: f64) -> Result<(), EngineError> {
        check_outer(bore_mm, self.outer_mm)?;
        Domain::new("heated-diameter", bore_mm, self.outer_mm).check(self.heated_mm).map(|_| ())
    }
}

/// A round plate with a hole, hot around the hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LocalHeat {
    /// The hole, mm.
    pub bore_mm: f64,
    /// Outside of the plate, mm.
    pub outer_mm: f64,
    /// Outside of what is hot, mm.
    pub heated_mm: f64,
    /// How much hotter it is than the rest, K.
    pub rise_k: f64,
}

impl LocalHeat {
    /// Share of the plate's area that is hot.
    #[must_use]
    pub fn share(&self) -> f64 {
        self.ring().share(self.bore_mm)
    }

    const fn ring(&self) -> HotRing {
        HotRing { outer_mm: self.outer_mm, heated_mm: self.heated_mm }
    }

    /// The rise of a plate that is hot all over and opens as much, K.
    #[must_use]
    pub fn even_rise_k(&self) -> f64 {
        self.rise_k * self.share()
    }

    /// How much the hole opens on its diameter, µm, for a mean expansion in 1/K.
    #[must_use]
    pub fn opening_um(&self, expansion_per_k: f64) -> f64 {
        1e3 * expansion_per_k * self.even_rise_k() * self.bore_mm
    }
}

/// The rise that counts, its share of the rise in the hot zone, and the opening.
///
/// Source: the classical disc with a temperature that depends on the radius.
///
/// # Errors
/// A hot zone that is smaller than the bore, a plate that is, a rise beyond the metal's figures.
pub fn local_bore(metal: &Metal, shop_c: f64, heat: LocalHeat) -> Result<[Outcome; 3], EngineError> {
    SHOP.check(shop_c)?;
    DIAMETER.check(heat.bore_mm)?;
    heat.ring().check(heat.bore_mm)?;
    Domain::new("rise", 1.0, 750.0).check(heat.rise_k)?;
    let expansion = mean_expansion_per_k(metal, shop_c, shop_c + heat.rise_k, End::Least)
        .ok_or(EngineError::NoAnswer { reason: "fit-hub-beyond-figures" })?;
    let answer = |name, value, unit| Outcome::new(Method::LocalBore, value, unit).named(name);
    let whole = LocalHeat { heated_mm: heat.outer_mm, ..heat };
    Ok([
        answer("local-opening", heat.opening_um(expansion), Unit::Micrometre).worked(vec![Step::new(
            "all hot",
            whole.opening_um(expansion),
            Unit::Micrometre,
        )]),
        answer("local-rise", heat.even_rise_k(), Unit::Kelvin),
        answer("local-share", 100.0 * heat.share(), Unit::Percent),
    ])
}
