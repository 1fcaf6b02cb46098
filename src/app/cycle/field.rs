//! Temperatures of a section as a smooth picture needs them: between the middles of its cells, and
//! carried on over its edge.

use crate::engine::heat_cycle::{Drawing, Matter};

/// Two neighbours, and how far a place lies from the first to the second.
pub(super) type Between = (usize, usize, f64);

/// The temperatures of one moment on the lines of a section.
pub(super) struct SmoothField {
    middles_x: Vec<f64>,
    middles_y: Vec<f64>,
    columns: usize,
    at_c: Vec<f64>,
}

fn middles(lines: &[f64]) -> Vec<f64> {
    lines.windows(2).map(|pair| f64::midpoint(pair[0], pair[1])).collect()
}

impl SmoothField {
    pub(super) fn of(drawing: &Drawing, cells_c: &[f32]) -> Self {
        let (columns, rows) = (drawing.xs_mm.len() - 1, drawing.ys_mm.len() - 1);
        let mut at_c = vec![f64::NAN; columns * rows];
        for (cell, &found_c) in drawing.cells.iter().zip(cells_c) {
            at_c[cell.row * columns + cell.column] = f64::from(found_c);
        }
        // Air has the temperature of the nearest steel, so that no edge is smeared.
        for _ in 0..columns.max(rows) {
            let before = at_c.clone();
            let mut open = false;
            for row in 0..rows {
                for column in 0..columns {
                    if !before[row * columns + column].is_nan() {
                        continue;
                    }
                    let near = |column: Option<usize>, row: Option<usize>| {
                        let (column, row) =
                            (column.filter(|at| *at < columns)?, row.filter(|at| *at < rows)?);
                        Some(before[row * columns + column]).filter(|found| !found.is_nan())
                    };
                    let around = [
                        near(column.checked_sub(1), Some(row)),
                        near(Some(column + 1), Some(row)),
                        near(Some(column), row.checked_sub(1)),
                        near(Some(column), Some(row + 1)),
                    ];
                    let (sum, count) = around
                        .into_iter()
                        .flatten()
                        .fold((0.0, 0.0), |(sum, count), found| (sum + found, count + 1.0));
                    if count > 0.0 {
                        at_c[row * columns + column] = sum / count;
                    } else {
                        open = true;
                    }
                }
            }
            if !open {
                break;
            }
        }
        Self { middles_x: middles(&drawing.xs_mm), middles_y: middles(&drawing.ys_mm), columns, at_c }
    }

    /// Between which middles a place lies, and how far.
    fn between(middles: &[f64], at: f64) -> Between {
        let above = middles.partition_point(|&middle| middle < at);
        if above == 0 {
            return (0, 0, 0.0);
        }
        if above == middles.len() {
            return (above - 1, above - 1, 0.0);
        }
        let share = (at - middles[above - 1]) / (middles[above] - middles[above - 1]);
        (above - 1, above, share)
    }

    /// The temperature at a place of the section, mm.
    pub(super) fn at(&self, x_mm: f64, y_mm: f64) -> f64 {
        self.along(self.across(x_mm), self.upwards(y_mm))
    }

    /// Where a place lies across: looked up once for each column of a picture.
    pub(super) fn across(&self, x_mm: f64) -> Between {
        Self::between(&self.middles_x, x_mm)
    }

    /// Where a place lies upwards: looked up once for each row of a picture.
    pub(super) fn upwards(&self, y_mm: f64) -> Between {
        Self::between(&self.middles_y, y_mm)
    }

    /// The temperature where both meet.
    pub(super) fn along(&self, (left, right, across): Between, (low, high, up): Between) -> f64 {
        let read = |column: usize, row: usize| self.at_c[row * self.columns + column];
        let below = read(left, low) + across * (read(right, low) - read(left, low));
        let above = read(left, high) + across * (read(right, high) - read(left, high));
        below + up * (above - below)
    }
}

/// What a cell is: its matter, whether the minimum must be there, and of a half cell on which side it is.
type Cell = (Matter, bool, Option<(bool, bool)>);

/// What lies at a place of a section: the same at every moment of a cycle.
pub(super) struct Places {
    xs_mm: Vec<f64>,
    ys_mm: Vec<f64>,
    columns: usize,
    cells: Vec<Option<Cell>>,
}

impl Places {
    pub(super) fn of(drawing: &Drawing) -> Self {
        let columns = drawing.xs_mm.len() - 1;
        let mut cells = vec![None; columns * (drawing.ys_mm.len() - 1)];
        for found in &drawing.cells {
            cells[found.row * columns + found.column] = Some((found.matter, found.required, found.half));
        }
        Self { xs_mm: drawing.xs_mm.clone(), ys_mm: drawing.ys_mm.clone(), columns, cells }
    }

    /// The column of a place and how far it lies in it: looked up once for each column of a picture.
    pub(super) fn column(&self, x_mm: f64) -> Option<(usize, f64)> {
        Self::find(&self.xs_mm, x_mm)
    }

    /// The same upwards.
    pub(super) fn row(&self, y_mm: f64) -> Option<(usize, f64)> {
        Self::find(&self.ys_mm, y_mm)
    }

    fn find(lines: &[f64], at: f64) -> Option<(usize, f64)> {
        let above = lines.partition_point(|&line| line <= at);
        let low = *lines.get(above.checked_sub(1)?)?;
        Some((above - 1, (at - low) / (lines.get(above)? - low)))
    }

    /// The matter at a place, and whether the minimum must be there; none in the air.
    pub(super) fn along(
        &self,
        (column, across): (usize, f64),
        (row, height): (usize, f64),
    ) -> Option<(Matter, bool)> {
        let (matter, required, half) = self.cells[row * self.columns + column]?;
        if let Some((right, up)) = half {
            let out = if right { across } else { 1.0 - across } + if up { height } else { 1.0 - height };
            if out > 1.0 {
                return None;
            }
        }
        Some((matter, required))
    }

    /// The same at a place, mm.
    pub(super) fn at(&self, x_mm: f64, y_mm: f64) -> Option<(Matter, bool)> {
        self.along(self.column(x_mm)?, self.row(y_mm)?)
    }
}
