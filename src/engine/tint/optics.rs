//! How much light of each wavelength does steel with a film reflect?

use num_complex::Complex64;
use once_cell::sync::Lazy;

use crate::reference::tint::{LightRow, MaterialRow, Optics, TintData};

/// Nodes and weights of a normal spread (Gauss-Hermite, seven points), `∫ e^{-x²} f dx / √π`.
const SPREAD: [(f64, f64); 7] = [
    (-2.651_961_356_835, 0.000_548_268_856),
    (-1.673_551_628_767, 0.030_757_123_968),
    (-0.816_287_882_859, 0.240_123_178_605),
    (0.0, 0.457_142_857_143),
    (0.816_287_882_859, 0.240_123_178_605),
    (1.673_551_628_767, 0.030_757_123_968),
    (2.651_961_356_835, 0.000_548_268_856),
];

/// Which choices the film is computed with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilmModel {
    /// Share of hematite, outside.
    pub hematite_share: f64,
    /// Share of the bulk set in the magnetite.
    pub bulk_share: f64,
    /// Standard deviation of the thickness, as a share.
    pub spread: f64,
    /// Iron of the other author?
    pub other_iron: bool,
}

impl FilmModel {
    /// The adopted choices.
    #[must_use]
    pub fn adopted() -> Self {
        let optics = &TintData::embedded().optics;
        Self {
            hematite_share: optics.hematite_share,
            bulk_share: optics.bulk_share,
            spread: optics.thickness_spread,
            other_iron: false,
        }
    }
}

/// Light and materials at one wavelength.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Band {
    pub(crate) light: LightRow,
    material: MaterialRow,
}

static BANDS: Lazy<Vec<Band>> = Lazy::new(|| {
    let optics = &TintData::embedded().optics;
    optics.light.iter().map(|&light| Band { light, material: material_at(optics, light.nm) }).collect()
});

/// Every band of the embedded light.
pub(crate) fn bands() -> &'static [Band] {
    &BANDS
}

/// Materials at a wavelength, on a straight line between rows.
fn material_at(optics: &Optics, nm: f64) -> MaterialRow {
    let rows = &optics.materials;
    let place = rows.partition_point(|row| row.nm <= nm).clamp(1, rows.len() - 1);
    let (below, above) = (rows[place - 1], rows[place]);
    let share = (nm - below.nm) / (above.nm - below.nm);
    let on = |a: (f64, f64), b: (f64, f64)| (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share);
    MaterialRow {
        nm,
        iron: on(below.iron, above.iron),
        magnetite_clear: on(below.magnetite_clear, above.magnetite_clear),
        magnetite_bulk: on(below.magnetite_bulk, above.magnetite_bulk),
        hematite: on(below.hematite, above.hematite),
        iron_other: on(below.iron_other, above.iron_other),
    }
}

/// Reflectance of one even film of hematite over magnetite on iron, at right angles.
///
/// Characteristic matrix of both layers, `M = Π [[cos δ, -i sin δ / n], [-i n sin δ, cos δ]]`
/// with `δ = 2π n d / λ` and `n + ik` for waves `exp(-iωt)`; `r = (B - C)/(B + C)` with
/// `(B, C) = M (1, n of iron)`; R = |r|².
pub(crate) fn sharp(band: &Band, film_nm: f64, model: &FilmModel) -> f64 {
    let index = |(n, k): (f64, f64)| Complex64::new(n, k);
    let material = &band.material;
    let iron = index(if model.other_iron { material.iron_other } else { material.iron });
    let magnetite = index(material.magnetite_clear) * (1.0 - model.bulk_share)
        + index(material.magnetite_bulk) * model.bulk_share;
    let layers = [
        (index(material.hematite), film_nm * model.hematite_share),
        (magnetite, film_nm * (1.0 - model.hematite_share)),
    ];
    let (mut b, mut c) = (Complex64::ONE, iron);
    for (n, thickness_nm) in layers.into_iter().rev() {
        let phase = n * (std::f64::consts::TAU * thickness_nm / band.light.nm);
        let (cos, sin) = (phase.cos(), phase.sin());
        let minus_i_sin = Complex64::new(sin.im, -sin.re);
        (b, c) = (cos * b + minus_i_sin / n * c, minus_i_sin * n * b + cos * c);
    }
    ((b - c) / (b + c)).norm_sqr()
}

/// Reflectance of a spot whose thickness is spread normally about its mean.
pub(crate) fn spread(band: &Band, film_nm: f64, model: &FilmModel) -> f64 {
    if model.spread <= 0.0 {
        return sharp(band, film_nm, model);
    }
    let reach = std::f64::consts::SQRT_2 * model.spread;
    SPREAD.iter().map(|&(x, weight)| weight * sharp(band, film_nm * (1.0 + reach * x), model)).sum()
}

/// Reflectance of an even film at a wavelength, nm.
#[must_use]
pub fn reflectance(nm: f64, film_nm: f64, model: &FilmModel) -> f64 {
    let optics = &TintData::embedded().optics;
    let light = LightRow { nm, x: 0.0, y: 0.0, z: 0.0, d65: 0.0 };
    sharp(&Band { light, material: material_at(optics, nm) }, film_nm, model)
}
