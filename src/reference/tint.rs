//! Rows behind temper colours, red heat, IR readings and crayons: what handbooks print,
//! and what light and materials are made of.

use serde::Deserialize;

use super::{Basis, embedded};

/// One wavelength of light and eye.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LightRow {
    /// Wavelength, nm.
    pub nm: f64,
    /// Colour matching function x of the 2° observer.
    pub x: f64,
    /// Colour matching function y.
    pub y: f64,
    /// Colour matching function z.
    pub z: f64,
    /// Relative power of daylight D65.
    pub d65: f64,
}

/// Refractive index and extinction of each material at one wavelength.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MaterialRow {
    /// Wavelength, nm.
    pub nm: f64,
    /// Iron, as the model takes it.
    pub iron: (f64, f64),
    /// Magnetite, the set that absorbs least.
    pub magnetite_clear: (f64, f64),
    /// Magnetite in bulk.
    pub magnetite_bulk: (f64, f64),
    /// Hematite.
    pub hematite: (f64, f64),
    /// Iron of another author, to show what the choice costs.
    pub iron_other: (f64, f64),
}

/// A film thickness that older texts give a colour.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClassicalFilm {
    /// The colour word of the text.
    pub name: String,
    /// Thickness, nm.
    pub nm: f64,
    /// The stage that it belongs to.
    pub stage: Option<String>,
}

/// Light, eye and materials of the film.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Optics {
    /// Light and eye in even steps.
    pub light: Vec<LightRow>,
    /// Where light and eye come from.
    pub light_basis: Basis,
    /// Materials; values between rows are taken on a straight line.
    pub materials: Vec<MaterialRow>,
    /// Where iron comes from.
    pub iron_basis: Basis,
    /// Where the other iron comes from.
    pub iron_other_basis: Basis,
    /// Where the clear magnetite comes from.
    pub magnetite_clear_basis: Basis,
    /// Where the bulk magnetite comes from.
    pub magnetite_bulk_basis: Basis,
    /// Where hematite comes from.
    pub hematite_basis: Basis,
    /// Share of the thickness that is hematite, outside.
    pub hematite_share: f64,
    /// Share of the bulk set in the magnetite of the model.
    pub bulk_share: f64,
    /// Standard deviation of the thickness over a spot, as a share.
    pub thickness_spread: f64,
    /// Classical thickness table.
    pub classical: Vec<ClassicalFilm>,
    /// Classical thickness less model thickness, nm.
    pub classical_offset_nm: f64,
    /// Where the classical table comes from.
    pub classical_basis: Basis,
}

/// One colour word and its temperature in a handbook.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TintRow {
    /// The word of the handbook.
    pub name: String,
    /// Lower end, °C; equal to the upper where one figure is printed.
    pub low_c: f64,
    /// Upper end, °C.
    pub high_c: f64,
    /// Id of the stage that the word belongs to, in our reading.
    pub stage: Option<String>,
}

impl TintRow {
    /// Middle of the printed range, °C.
    #[must_use]
    pub const fn middle_c(&self) -> f64 {
        f64::midpoint(self.low_c, self.high_c)
    }
}

/// A group of handbook columns that the model is compared with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
pub enum CoverageSet {
    /// Lists outside the family that the model was fitted to.
    S1,
    /// S1 and the ten-degree list.
    S2,
    /// Every column that was not fitted.
    S3,
}

/// One handbook's list of temper colours.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TintColumn {
    /// Stable id.
    pub id: String,
    /// Where it comes from.
    pub basis: Basis,
    /// Was the model fitted to it?
    #[serde(default)]
    pub fitted: bool,
    /// Sets that it counts in.
    #[serde(default)]
    pub sets: Vec<CoverageSet>,
    /// Its rows.
    pub rows: Vec<TintRow>,
    /// What to keep in mind: a Fluent message `tint-column-…`.
    pub note: Option<String>,
}

/// What the trade sees, with the film that the words mean.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PracticeTint {
    /// Stable id.
    pub id: String,
    /// Lowest temperature, °C.
    pub low_c: f64,
    /// Highest temperature, °C.
    pub high_c: f64,
    /// Thinnest model film that the words mean, nm.
    pub film_low_nm: f64,
    /// Thickest, nm.
    pub film_high_nm: f64,
    /// What it rests on.
    pub basis: Basis,
}

/// Temper colours as handbooks print them.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TintTables {
    /// Columns for carbon and low-alloy steel.
    pub columns: Vec<TintColumn>,
    /// Means of the fitted column, by stage, °C.
    pub fitted_means_c: Vec<(String, f64)>,
    /// Columns for stainless steel.
    pub stainless: Vec<TintColumn>,
    /// What the trade sees.
    pub practice: PracticeTint,
}

/// A red heat on our own scale, in rising order.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Deserialize,
    strum::IntoStaticStr,
    strum::VariantNames,
    strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
#[allow(missing_docs, reason = "each is the colour of its name")]
pub enum RedHeat {
    JustVisible,
    DarkRed,
    DullCherry,
    Cherry,
    BrightCherry,
    Orange,
    LightOrange,
    Yellow,
    White,
    BrightWhite,
}

/// The light that a glow is seen in, from dark to bright.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Deserialize,
    strum::IntoStaticStr,
    strum::VariantNames,
    strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
#[allow(missing_docs, reason = "each is the light of its name")]
pub enum Light {
    Dark,
    Twilight,
    Daylight,
    Sunlight,
}

/// One red heat of a list.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RedHeatRow {
    /// On our scale.
    pub name: RedHeat,
    /// The word of the list.
    pub printed: String,
    /// Lower end, °C.
    pub low_c: f64,
    /// Upper end, °C.
    pub high_c: f64,
    /// The light, where the list states it.
    pub light: Option<Light>,
}

/// One list of red heats.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RedHeatList {
    /// Stable id.
    pub id: String,
    /// Where it comes from.
    pub basis: Basis,
    /// Its rows.
    pub rows: Vec<RedHeatRow>,
}

/// Red heat by name.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RedHeats {
    /// The lists.
    pub lists: Vec<RedHeatList>,
    /// Glow says nothing below this, °C.
    pub lowest_c: f64,
}

/// A state of the surface, as an IR gun sees it.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SurfaceState {
    /// Stable id.
    pub id: String,
    /// Lowest emissivity at 8 to 14 µm.
    pub low: f64,
    /// Highest emissivity.
    pub high: f64,
    /// Where the range comes from.
    pub basis: Basis,
}

/// Temperature crayons.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Crayons {
    /// Melting points, rising, °C.
    pub steps_c: Vec<f64>,
    /// How far a crayon may be off, percent of its figure in °C.
    pub rating_pct: f64,
    /// Where they come from.
    pub basis: Basis,
    /// The instruments beside them that touch the steel.
    pub instruments: Vec<TouchRow>,
}

/// How far an instrument that touches the steel may be off.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TouchRow {
    /// Id of the instrument.
    pub id: String,
    /// Percent of its figure in °C.
    pub share_pct: f64,
    /// Never less, K.
    pub least_k: f64,
    /// Where that comes from.
    pub basis: Basis,
}

/// All of it.
#[derive(Debug, Clone, PartialEq)]
pub struct TintData {
    /// Light, eye and materials.
    pub optics: Optics,
    /// Temper colours.
    pub tables: TintTables,
    /// Red heat.
    pub red_heat: RedHeats,
    /// Surfaces.
    pub surfaces: Vec<SurfaceState>,
    /// Crayons.
    pub crayons: Crayons,
}

impl TintData {
    /// The rows that the program carries.
    #[must_use]
    pub fn embedded() -> &'static Self {
        &embedded().tint
    }

    /// How far an instrument may be off at a temperature, K, and what that rests on; none for one
    /// that does not touch the steel.
    #[must_use]
    pub fn off_k(&self, instrument: &str, celsius: f64) -> Option<(f64, &Basis)> {
        let share = |pct: f64| celsius * pct / 100.0;
        if instrument == "crayon" {
            return Some((share(self.crayons.rating_pct), &self.crayons.basis));
        }
        let row = self.crayons.instruments.iter().find(|row| row.id == instrument)?;
        Some((share(row.share_pct).max(row.least_k), &row.basis))
    }

    /// The surface state of an id.
    #[must_use]
    pub fn surface(&self, id: &str) -> Option<&SurfaceState> {
        self.surfaces.iter().find(|surface| surface.id == id)
    }
}
