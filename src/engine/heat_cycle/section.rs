//! Which cells does a section have, how large are they, and where do they meet the air?

use std::f64::consts::TAU;

use super::recipe::{Fillet, Matter, Recipe};
use crate::engine::heat_cycle::fineness::Fineness;

/// No cell.
pub(super) const NONE: u32 = u32::MAX;

/// Which way a face looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Left,
    Right,
    Down,
    Up,
}

impl Side {
    pub(super) const fn along_x(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }
}

/// The place of a cell in its fillet, counted from the corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct InFillet {
    pub(super) out: usize,
    pub(super) up: usize,
    /// Cells along the leg.
    pub(super) cells: usize,
}

/// One cell, m. A half cell is a right triangle whose hypotenuse looks away from the corner.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cell {
    pub(super) column: usize,
    pub(super) row: usize,
    pub(super) matter: Matter,
    /// Which weld, where it is weld metal.
    pub(super) weld: usize,
    pub(super) in_fillet: Option<InFillet>,
    /// The sides that are cut away: right, up.
    pub(super) half: Option<(bool, bool)>,
    /// Its centroid.
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) volume: f64,
}

/// Two cells beside each other, the one after and its left or lower neighbour.
#[derive(Debug, Clone, Copy)]
pub(super) struct Joined {
    pub(super) area: f64,
    pub(super) before: f64,
    pub(super) after: f64,
    /// Members that only touch.
    pub(super) unfused: bool,
    /// Weld metal beside a member.
    pub(super) fusion: bool,
}

/// A face to the air.
#[derive(Debug, Clone, Copy)]
pub(super) struct Open {
    pub(super) cell: usize,
    pub(super) area: f64,
    /// From the face to the middle of the cell, m.
    pub(super) depth: f64,
    pub(super) side: Side,
    pub(super) x: f64,
    pub(super) y: f64,
}

/// The cells of a section, row by row from below, each row from the left.
#[derive(Debug, Clone)]
pub(super) struct Section {
    pub(super) round: bool,
    pub(super) xs: Vec<f64>,
    pub(super) ys: Vec<f64>,
    /// Cell of each column and row, row by row.
    pub(super) at: Vec<u32>,
    pub(super) cells: Vec<Cell>,
    /// Faces to the air, those that look along x first.
    pub(super) open: Vec<Open>,
    /// How many of them look along x.
    pub(super) open_along_x: usize,
}

impl Section {
    /// The section of a recipe.
    pub(super) fn of(recipe: &Recipe, fineness: Fineness) -> Self {
        let (xs, ys) = (recipe.x.lines(fineness.spacing()), recipe.y.lines(fineness.spacing()));
        let mut section = Self::cut(xs, ys, recipe.round, |x, y| (recipe.matter)(x, y));
        section.lay(&recipe.fillets);
        section.number();
        section
    }

    /// A block that is all one member: for cases with known answers.
    pub(super) fn block(xs: Vec<f64>, ys: Vec<f64>, round: bool) -> Self {
        let mut section = Self::cut(xs, ys, round, |_, _| Matter::First);
        section.number();
        section
    }

    fn cut(xs: Vec<f64>, ys: Vec<f64>, round: bool, matter: impl Fn(f64, f64) -> Matter) -> Self {
        let (columns, rows) = (xs.len() - 1, ys.len() - 1);
        let mut cells = Vec::with_capacity(columns * rows);
        for row in 0..rows {
            for column in 0..columns {
                let x = f64::midpoint(xs[column], xs[column + 1]);
                let y = f64::midpoint(ys[row], ys[row + 1]);
                let matter = matter(x, y);
                let area = (xs[column + 1] - xs[column]) * (ys[row + 1] - ys[row]);
                let volume = if round { TAU * x * area } else { area };
                let (weld, in_fillet, half) = (0, None, None);
                cells.push(Cell { column, row, matter, weld, in_fillet, half, x, y, volume });
            }
        }
        Self { round, xs, ys, at: Vec::new(), cells, open: Vec::new(), open_along_x: 0 }
    }

    /// Puts fillets into their corners.
    fn lay(&mut self, fillets: &[Fillet]) {
        let columns = self.xs.len() - 1;
        for (weld, fillet) in fillets.iter().enumerate() {
            let (first_column, across) = span(&self.xs, fillet.corner.0, fillet.right, fillet.leg);
            let (first_row, upwards) = span(&self.ys, fillet.corner.1, fillet.up, fillet.leg);
            let count = across.min(upwards);
            for up in 0..count {
                for out in 0..count - up {
                    let column = if fillet.right { first_column + out } else { first_column - 1 - out };
                    let row = if fillet.up { first_row + up } else { first_row - 1 - up };
                    let (dx, dy) = (self.xs[column + 1] - self.xs[column], self.ys[row + 1] - self.ys[row]);
                    let cell = &mut self.cells[row * columns + column];
                    cell.matter = Matter::Weld;
                    cell.weld = weld;
                    cell.in_fillet = Some(InFillet { out, up, cells: count });
                    if out + up + 1 == count {
                        cell.half = Some((fillet.right, fillet.up));
                        cell.x -= if fillet.right { dx / 6.0 } else { -dx / 6.0 };
                        cell.y -= if fillet.up { dy / 6.0 } else { -dy / 6.0 };
                        let area = dx * dy / 2.0;
                        cell.volume = if self.round { TAU * cell.x * area } else { area };
                    }
                }
            }
        }
    }

    /// Leaves the air out, numbers the rest and finds where it is open.
    fn number(&mut self) {
        self.at = vec![NONE; self.cells.len()];
        let columns = self.xs.len() - 1;
        self.cells.retain(|cell| cell.matter != Matter::Void);
        for (number, cell) in self.cells.iter().enumerate() {
            self.at[cell.row * columns + cell.column] = number as u32;
        }
        let mut open = Vec::new();
        for cell in 0..self.cells.len() {
            self.open_faces(cell, &mut open);
        }
        let (mut along_x, along_y): (Vec<Open>, Vec<Open>) =
            open.into_iter().partition(|face| face.side.along_x());
        self.open_along_x = along_x.len();
        along_x.extend(along_y);
        self.open = along_x;
    }

    fn open_faces(&self, number: usize, open: &mut Vec<Open>) {
        let cell = self.cells[number];
        let (left, right) = (self.xs[cell.column], self.xs[cell.column + 1]);
        let (low, high) = (self.ys[cell.row], self.ys[cell.row + 1]);
        let (dx, dy) = (right - left, high - low);
        let (x, y) = (f64::midpoint(left, right), f64::midpoint(low, high));
        let around = |radius: f64| if self.round { TAU * radius } else { 1.0 };
        if let Some((to_right, to_up)) = cell.half {
            let slant = dx.hypot(dy);
            let depth = dx * dy / slant / 3.0;
            let area = slant * around(x) / 2.0;
            let sides =
                [if to_right { Side::Right } else { Side::Left }, if to_up { Side::Up } else { Side::Down }];
            open.extend(sides.map(|side| Open { cell: number, area, depth, side, x, y }));
        }
        for (side, area, at) in [
            (Side::Left, dy * around(left), (left, y)),
            (Side::Right, dy * around(right), (right, y)),
            (Side::Down, dx * around(x), (x, low)),
            (Side::Up, dx * around(x), (x, high)),
        ] {
            // The axis of a round part is no face.
            if area > 0.0 && self.neighbour(number, side).is_none() && !cell.cut_away(side) {
                let depth = cell.face_distance(side.along_x(), dx, dy);
                open.push(Open { cell: number, area, depth, side, x: at.0, y: at.1 });
            }
        }
    }

    /// The cell beside another.
    pub(super) fn neighbour(&self, number: usize, side: Side) -> Option<usize> {
        let (columns, rows) = (self.xs.len() - 1, self.ys.len() - 1);
        let cell = &self.cells[number];
        let (column, row) = match side {
            Side::Left => (cell.column.checked_sub(1)?, cell.row),
            Side::Right => (cell.column + 1, cell.row),
            Side::Down => (cell.column, cell.row.checked_sub(1)?),
            Side::Up => (cell.column, cell.row + 1),
        };
        (column < columns && row < rows)
            .then(|| self.at[row * columns + column])
            .filter(|&found| found != NONE)
            .map(|found| found as usize)
    }

    /// How a cell meets its left or lower neighbour.
    pub(super) fn joined(&self, number: usize, side: Side) -> Option<Joined> {
        let other = self.neighbour(number, side)?;
        let (before, after) = (&self.cells[other], &self.cells[number]);
        let size = |cell: &Cell| {
            (self.xs[cell.column + 1] - self.xs[cell.column], self.ys[cell.row + 1] - self.ys[cell.row])
        };
        let ((dx_before, dy_before), (dx, dy)) = (size(before), size(after));
        let along_x = side.along_x();
        let radius = if along_x {
            self.xs[after.column]
        } else {
            f64::midpoint(self.xs[after.column], self.xs[after.column + 1])
        };
        let width = if along_x { dy } else { dx };
        let is = |matter: Matter| [before.matter, after.matter].contains(&matter);
        Some(Joined {
            area: width * if self.round { TAU * radius } else { 1.0 },
            before: before.face_distance(along_x, dx_before, dy_before),
            after: after.face_distance(along_x, dx, dy),
            unfused: is(Matter::First) && is(Matter::Second),
            fusion: is(Matter::Weld) && before.matter != after.matter,
        })
    }
}

impl Cell {
    /// From its middle to a face, m. In a half cell this is a sixth and not a third, so that a
    /// field that is straight across the hypotenuse comes out exact.
    const fn face_distance(&self, along_x: bool, dx: f64, dy: f64) -> f64 {
        let width = if along_x { dx } else { dy };
        if self.half.is_some() { width / 6.0 } else { width / 2.0 }
    }

    const fn cut_away(&self, side: Side) -> bool {
        match (self.half, side) {
            (Some((right, _)), Side::Right) => right,
            (Some((right, _)), Side::Left) => !right,
            (Some((_, up)), Side::Up) => up,
            (Some((_, up)), Side::Down) => !up,
            (None, _) => false,
        }
    }
}

/// The line at a corner, and how many cells a leg from it has.
fn span(lines: &[f64], corner: f64, upwards: bool, leg: f64) -> (usize, usize) {
    let nearest = |at: f64| lines.partition_point(|&line| line < at - 1e-7);
    let from = nearest(corner);
    let to = nearest(if upwards { corner + leg } else { corner - leg });
    (from, from.abs_diff(to))
}
