//! Which temperature do lists give a red heat, and which red heats a temperature?

use super::error::Domain;
use super::{EngineError, Outcome, Unit};
use crate::reference::tint::{Light, RedHeat, RedHeatRow, RedHeats};
use crate::reference::{Basis, Method};

impl RedHeat {
    /// All red heats, rising.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id; the words are the Fluent message `red-heat-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

impl Light {
    /// All lights, from dark to bright.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// Stable id; the words are the Fluent message `light-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// A row of a list with the basis of its list.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RedHeatLine<'a> {
    /// Id of the list.
    pub list: &'a str,
    /// Its basis.
    pub basis: &'a Basis,
    /// The row.
    pub row: &'a RedHeatRow,
}

/// The range of all lists for a red heat, with every row that it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct RedHeatRange<'a> {
    /// Lowest to highest, °C, without a single value.
    pub outcome: Outcome,
    /// The rows.
    pub lines: Vec<RedHeatLine<'a>>,
}

fn lines(heats: &RedHeats) -> impl Iterator<Item = RedHeatLine<'_>> {
    heats
        .lists
        .iter()
        .flat_map(|list| list.rows.iter().map(|row| RedHeatLine { list: &list.id, basis: &list.basis, row }))
}

/// May a row be used in a light? A row that names its light counts in that light only.
const fn seen_in(row: &RedHeatRow, light: Light) -> bool {
    match row.light {
        None => true,
        Some(stated) => stated as u8 == light as u8,
    }
}

/// Which temperatures do lists give a red heat, seen in a light?
///
/// Lowest to highest figure of all lists that name it in this light or in none; lists
/// differ by 100 K and more. Nothing below 500 °C is used.
/// Source: the rows of `data/red_heat.ron`, each with its list.
///
/// # Errors
/// `red-heat-not-listed` where no list names that heat in that light from 500 °C up.
pub fn red_heat_range(
    heats: &RedHeats,
    name: RedHeat,
    light: Light,
) -> Result<RedHeatRange<'_>, EngineError> {
    let lines: Vec<_> = lines(heats)
        .filter(|line| line.row.name == name && seen_in(line.row, light) && line.row.high_c >= heats.lowest_c)
        .collect();
    let low_c = lines.iter().map(|line| line.row.low_c.max(heats.lowest_c)).reduce(f64::min);
    let high_c = lines.iter().map(|line| line.row.high_c).reduce(f64::max);
    let (Some(first), Some(low_c), Some(high_c)) = (lines.first(), low_c, high_c) else {
        return Err(EngineError::NoAnswer { reason: "red-heat-not-listed" });
    };
    let outcome = Outcome::open(Method::RedHeat, Unit::Celsius).spread(low_c, high_c).resting_on(first.basis);
    Ok(RedHeatRange { outcome, lines })
}

/// What do lists call steel of this temperature, seen in a light? In each list the row
/// whose range holds it, or else the nearest within 50 K.
///
/// # Errors
/// `red-heat-too-cold` below 500 °C, where a glow must not be used; a temperature that is
/// not a number or above 1600 °C.
pub fn red_heat_names(
    heats: &RedHeats,
    celsius: f64,
    light: Light,
) -> Result<Vec<RedHeatLine<'_>>, EngineError> {
    Domain::new("T", -273.15, 1600.0).check(celsius)?;
    if celsius < heats.lowest_c {
        return Err(EngineError::NoAnswer { reason: "red-heat-too-cold" });
    }
    let away_k = |row: &RedHeatRow| (row.low_c - celsius).max(celsius - row.high_c).max(0.0);
    let found = heats.lists.iter().filter_map(|list| {
        lines(heats)
            .filter(|line| line.list == list.id && seen_in(line.row, light))
            .min_by(|a, b| away_k(a.row).total_cmp(&away_k(b.row)))
            .filter(|line| away_k(line.row) <= 50.0)
    });
    Ok(found.collect())
}

/// From which temperature a glow can be used in a light, °C: never below 500.
///
/// # Errors
/// `red-heat-not-listed` where no list states that light.
pub fn visible_from_c(heats: &RedHeats, light: Light) -> Result<f64, EngineError> {
    lines(heats)
        .filter(|line| line.row.name == RedHeat::JustVisible && line.row.light == Some(light))
        .filter(|line| line.row.low_c.total_cmp(&line.row.high_c).is_eq())
        .map(|line| line.row.low_c.max(heats.lowest_c))
        .reduce(f64::max)
        .ok_or(EngineError::NoAnswer { reason: "red-heat-not-listed" })
}
