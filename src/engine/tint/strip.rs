//! Which colour does each temperature of a strip leave?

use super::colour::film_screen;
use super::heating::Heating;
use super::stages::Stage;

/// One column of a strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StripColumn {
    /// Peak, °C.
    pub peak_c: f64,
    /// Film, nm.
    pub film_nm: f64,
    /// Stage.
    pub stage: Stage,
    /// Colour for the screen.
    pub srgb: [u8; 3],
}

/// Colours of evenly spaced peaks, first and last included.
#[must_use]
pub fn strip(heating: &Heating, from_c: f64, to_c: f64, columns: u16) -> Vec<StripColumn> {
    let last = f64::from(columns.saturating_sub(1).max(1));
    (0..columns)
        .map(|column| {
            let peak_c = from_c + (to_c - from_c) * f64::from(column) / last;
            let film_nm = heating.film_nm(peak_c);
            StripColumn { peak_c, film_nm, stage: Stage::of(film_nm), srgb: film_screen(film_nm) }
        })
        .collect()
}
