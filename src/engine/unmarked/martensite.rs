//! Which carbon has martensite of a hardness?

use crate::reference::{MartensiteRow, Unmarked};

/// Carbon at which a column of the table has a hardness, %: straight between rows, in proportion below the
/// first; none above the last.
fn carbon_at(table: &[MartensiteRow], hrc: f64, of: fn(&MartensiteRow) -> f64) -> Option<f64> {
    let first = table.first()?;
    if hrc <= of(first) {
        return Some((first.carbon * hrc / of(first)).max(0.0));
    }
    table.windows(2).find(|pair| hrc <= of(&pair[1])).map(|pair| {
        let share = (hrc - of(&pair[0])) / (of(&pair[1]) - of(&pair[0]));
        pair[0].carbon + share * (pair[1].carbon - pair[0].carbon)
    })
}

/// Carbon whose whole martensite has this hardness, %: the least that can reach it; the end of the table
/// above it.
#[must_use]
pub fn carbon_of_all(data: &Unmarked, hrc: f64) -> f64 {
    let last = data.martensite.last().map_or(0.0, |row| row.carbon);
    carbon_at(&data.martensite, hrc, |row| row.all_hrc).unwrap_or(last)
}

/// Carbon whose half martensite has this hardness, %; none above the table.
#[must_use]
pub fn carbon_of_half(data: &Unmarked, hrc: f64) -> Option<f64> {
    carbon_at(&data.martensite, hrc, |row| row.half_hrc)
}
