//! Which cells and faces count for what: where it must be warm, where the weld is, where the
//! flame goes, where somebody measures.

use super::recipe::{Filling, Matter, Recipe, Stations};
use super::section::{Section, Side};
use std::collections::BTreeMap;

/// The heat-affected zone is looked for so far from weld metal, m.
const AFFECTED: f64 = 5e-3;

/// Which faces a flame can get at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, strum::IntoStaticStr, strum::VariantNames)]
#[strum(serialize_all = "kebab-case")]
pub enum Reached {
    /// All.
    #[default]
    All,
    /// All but those that look down.
    FromAbove,
    /// All but those that look up.
    FromBelow,
}

impl Reached {
    const fn is(self, side: Side) -> bool {
        !matches!((self, side), (Self::FromAbove, Side::Down) | (Self::FromBelow, Side::Up))
    }
}

/// A place between cells: cells with their weights.
pub(super) type Place = Vec<(usize, f64)>;

/// What counts for what.
#[derive(Debug, Clone)]
pub(super) struct Sites {
    /// Cells that must have the minimum.
    pub(super) required: Vec<usize>,
    /// Weld metal.
    pub(super) weld: Vec<usize>,
    /// Weld metal and heat-affected zone.
    pub(super) weld_zone: Vec<usize>,
    /// Cells among which a reading on one face speaks for the other.
    pub(super) stations: Vec<Vec<usize>>,
    /// Open faces that are heated.
    pub(super) heated: Vec<usize>,
    /// Their area, m² (for a flat part, each metre).
    pub(super) heated_area: f64,
    pub(super) core: Place,
    pub(super) far_face: Place,
    pub(super) required_point: Place,
}

impl Sites {
    pub(super) fn of(section: &Section, recipe: &Recipe, zone: f64, reached: Reached) -> Self {
        let all = 0..section.cells.len();
        let of = |is: &dyn Fn(usize) -> bool| all.clone().filter(|&cell| is(cell)).collect::<Vec<_>>();
        let weld = of(&|cell| section.cells[cell].matter == Matter::Weld);
        let required = of(&|cell| {
            let cell = &section.cells[cell];
            cell.matter == Matter::Weld || (recipe.required)(cell.matter, cell.x, cell.y)
        });
        let beside = |one: usize, other: usize| {
            let (one, other) = (&section.cells[one], &section.cells[other]);
            (one.x - other.x).hypot(one.y - other.y) <= AFFECTED
        };
        let weld_zone = of(&|cell| weld.iter().any(|&near| beside(cell, near)));
        let near = |x: f64, y: f64| recipe.toes.iter().any(|toe| (toe.0 - x).hypot(toe.1 - y) <= zone);
        let heated: Vec<usize> = (0..section.open.len())
            .filter(|&face| {
                let face = &section.open[face];
                reached.is(face.side) && near(face.x, face.y)
            })
            .collect();
        let places = recipe.places;
        Self {
            stations: stations(section, recipe.stations, &required),
            heated_area: heated.iter().map(|&face| section.open[face].area).sum(),
            core: place(section, places.core),
            far_face: place(section, places.far_face),
            required_point: place(section, places.required),
            required,
            weld,
            weld_zone,
            heated,
        }
    }
}

fn stations(section: &Section, by: Stations, required: &[usize]) -> Vec<Vec<usize>> {
    // Column or row, and which of the two.
    let mut found: BTreeMap<(bool, usize), Vec<usize>> = BTreeMap::new();
    for &number in required {
        let cell = &section.cells[number];
        let station = match (by, cell.matter) {
            (Stations::ByMember, Matter::First) | (Stations::Columns, _) => (false, cell.column),
            (Stations::ByMember, Matter::Second) | (Stations::Rows, _) => (true, cell.row),
            (Stations::ByMember, _) => continue,
        };
        found.entry(station).or_default().push(number);
    }
    found.into_values().filter(|cells| cells.len() > 1).collect()
}

/// Straight between the middles of cells; beyond them the nearest.
pub(super) fn place(section: &Section, (x, y): (f64, f64)) -> Place {
    let around = |lines: &[f64], at: f64| {
        let middles: Vec<f64> = lines.windows(2).map(|pair| f64::midpoint(pair[0], pair[1])).collect();
        let above = middles.partition_point(|&middle| middle < at).clamp(1, middles.len().max(2) - 1);
        if middles.len() == 1 {
            return [(0, 1.0), (0, 0.0)];
        }
        let share = ((at - middles[above - 1]) / (middles[above] - middles[above - 1])).clamp(0.0, 1.0);
        [(above - 1, 1.0 - share), (above, share)]
    };
    let columns = section.xs.len() - 1;
    let (across, upwards) = (around(&section.xs, x), around(&section.ys, y));
    let mut place = Vec::new();
    for (row, by_row) in upwards {
        for (column, by_column) in across {
            let number = section.at[row * columns + column];
            let weight = by_row * by_column;
            if number != super::section::NONE && weight > 0.0 {
                place.push((number as usize, weight));
            }
        }
    }
    let sum: f64 = place.iter().map(|(_, weight)| weight).sum();
    if sum > 0.0 {
        place.iter_mut().for_each(|(_, weight)| *weight /= sum);
        return place;
    }
    // All around is air: the nearest cell.
    let away = |cell: &usize| (section.cells[*cell].x - x).hypot(section.cells[*cell].y - y);
    let nearest = (0..section.cells.len()).min_by(|one, other| away(one).total_cmp(&away(other)));
    nearest.map(|cell| vec![(cell, 1.0)]).unwrap_or_default()
}

/// What is at a place.
pub(super) fn read(place: &Place, field: &[f64]) -> f64 {
    place.iter().map(|&(cell, weight)| field[cell] * weight).sum()
}

/// The share of each weld cell that each of so many passes of a weld fills.
pub(super) fn shares(
    section: &Section,
    filling: Filling,
    weld: usize,
    passes: usize,
) -> Vec<Vec<(usize, f64)>> {
    let cells: Vec<usize> = (0..section.cells.len())
        .filter(|&cell| section.cells[cell].matter == Matter::Weld && section.cells[cell].weld == weld)
        .collect();
    let filled: Vec<Vec<f64>> = match filling {
        Filling::Corners => cells.iter().map(|&cell| corner_shares(section, cell, passes)).collect(),
        Filling::Up | Filling::Out => bands(section, filling, &cells, passes),
    };
    let mut of_pass = vec![Vec::new(); passes];
    let most = |pass: usize| filled.iter().map(|shares| shares[pass]).fold(0.0, f64::max);
    let most: Vec<f64> = (0..passes).map(most).collect();
    for (&cell, shares) in cells.iter().zip(&filled) {
        // A sliver would be laid as a whole cell for nothing, but in a pass that is all slivers.
        let kept = |pass: usize| {
            let share = shares[pass];
            if share >= 0.1_f64.min(most[pass]) && share > 0.0 { share } else { 0.0 }
        };
        let sum: f64 = (0..passes).map(kept).sum();
        for (pass, cells) in of_pass.iter_mut().enumerate() {
            if kept(pass) > 0.0 {
                cells.push((cell, kept(pass) / sum));
            }
        }
    }
    of_pass
}

/// Pass k of n lies between the legs L √(k/n) and L √((k+1)/n).
fn corner_shares(section: &Section, cell: usize, passes: usize) -> Vec<f64> {
    let cell = &section.cells[cell];
    let Some(place) = cell.in_fillet else { return vec![0.0; passes] };
    let whole = if cell.half.is_some() { 0.5 } else { 1.0 };
    let below = |pass: usize| {
        let leg = place.cells as f64 * (pass as f64 / passes as f64).sqrt();
        let s = leg - (place.out + place.up) as f64;
        let area = if s <= 0.0 {
            0.0
        } else if s <= 1.0 {
            s * s / 2.0
        } else if s <= 2.0 {
            1.0 - (2.0 - s) * (2.0 - s) / 2.0
        } else {
            1.0
        };
        area.min(whole)
    };
    (0..passes).map(|pass| (below(pass + 1) - below(pass)) / whole).collect()
}

/// Bands of equal volume, straight inside a cell.
fn bands(section: &Section, filling: Filling, cells: &[usize], passes: usize) -> Vec<Vec<f64>> {
    let line = |cell: usize| match filling {
        Filling::Out => section.cells[cell].column,
        _ => section.cells[cell].row,
    };
    let mut volumes: BTreeMap<usize, f64> = BTreeMap::new();
    for &cell in cells {
        *volumes.entry(line(cell)).or_default() += section.cells[cell].volume;
    }
    let total: f64 = volumes.values().sum();
    let mut below: BTreeMap<usize, (f64, f64)> = BTreeMap::new();
    let mut sum = 0.0;
    for (&line, &volume) in &volumes {
        below.insert(line, (sum / total, (sum + volume) / total));
        sum += volume;
    }
    let share = |cell: usize, pass: usize| {
        let (low, high) = below[&line(cell)];
        let (from, to) = (pass as f64 / passes as f64, (pass + 1) as f64 / passes as f64);
        ((high.min(to) - low.max(from)) / (high - low)).max(0.0)
    };
    cells.iter().map(|&cell| (0..passes).map(|pass| share(cell, pass)).collect()).collect()
}
