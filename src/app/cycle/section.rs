//! The section of the joint at one moment: filled by what each place is held against, and not by a
//! rainbow; lines of one temperature; where it is coldest, where to measure.

use std::rc::Rc;

use slint::Image;

use super::canvas::{Canvas, Point, slanted};
use super::field::SmoothField;
use super::inks::Inks;
use super::seen::Seen;
use crate::app::screen_values::round_c;
use crate::engine::heat_cycle::{Field, Matter, Phase};
use crate::units::TemperatureUnit;

/// Height of the picture, logical pixels.
pub(super) const HEIGHT: f64 = 260.0;
/// Height of a small one.
pub(super) const SMALL_HEIGHT: f64 = 76.0;
/// No narrower picture has lines of one temperature, logical pixels.
const LEAST_WITH_LEVELS: f64 = 160.0;
/// Around the part, as a share of the height, but no more logical pixels than this.
const MARGIN: (f64, f64) = (0.08, 14.0);
/// Shown past the place where the minimum must be, as a share of how far that is.
const BEYOND: f64 = 0.3;
/// What a place is held against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Verdict {
    /// No limit counts any more.
    None,
    /// Below the minimum.
    Below,
    /// Between minimum and maximum.
    Inside,
    /// Above the maximum.
    Above,
    /// Above the ceiling.
    Ceiling,
}

/// A section at a moment.
pub(super) struct Section {
    pub(super) seen: Rc<Seen>,
    /// Its place among the kept moments.
    at: usize,
    smooth: SmoothField,
    /// The temperatures that are drawn as lines; is it a limit?
    pub(super) levels: Vec<(f64, bool)>,
    /// Its lines are at round figures of this unit.
    unit: TemperatureUnit,
    /// From the left, to the right, from below, to the top, mm.
    pub(super) view: (f64, f64, f64, f64),
}

/// The kept moment that lies nearest to a minute.
pub(super) fn nearest(seen: &Seen, minute: f64) -> Option<usize> {
    let away = |field: &Field| (field.minute - minute).abs();
    let fields = seen.found.cycle.fields.iter().enumerate();
    fields.min_by(|one, other| away(one.1).total_cmp(&away(other.1))).map(|(at, _)| at)
}

impl Section {
    /// One of the kept moments.
    pub(super) fn of(seen: &Rc<Seen>, at: usize, unit: TemperatureUnit) -> Option<Self> {
        let field = seen.found.cycle.fields.get(at)?;
        let drawing = &seen.drawing;
        let (mut low, mut high) = ((f64::INFINITY, f64::INFINITY), (f64::NEG_INFINITY, f64::NEG_INFINITY));
        for cell in drawing.cells.iter().filter(|cell| cell.required) {
            low = (low.0.min(drawing.xs_mm[cell.column]), low.1.min(drawing.ys_mm[cell.row]));
            high = (high.0.max(drawing.xs_mm[cell.column + 1]), high.1.max(drawing.ys_mm[cell.row + 1]));
        }
        let past = BEYOND * (high.0 - low.0).max(high.1 - low.1);
        let ends = |lines: &[f64]| (lines[0], lines[lines.len() - 1]);
        let (xs, ys) = (ends(&drawing.xs_mm), ends(&drawing.ys_mm));
        let right = (high.0 + past).min(xs.1);
        let left = if drawing.round { -right } else { (low.0 - past).max(xs.0) };
        Some(Self {
            smooth: SmoothField::of(drawing, &field.at_c),
            levels: levels(seen, field, unit),
            unit,
            view: (left, right, (low.1 - past).max(ys.0), (high.1 + past).min(ys.1)),
            at,
            seen: seen.clone(),
        })
    }

    /// Its place among the kept moments.
    pub(super) const fn at(&self) -> usize {
        self.at
    }

    /// Is it this moment of this cycle, with lines of this unit?
    pub(super) fn is(&self, seen: &Rc<Seen>, at: usize, unit: TemperatureUnit) -> bool {
        Rc::ptr_eq(&self.seen, seen) && self.at == at && self.unit == unit
    }

    /// The moment itself.
    pub(super) fn field(&self) -> &Field {
        &self.seen.found.cycle.fields[self.at]
    }

    /// Is a limit counted at this moment?
    pub(super) fn counted(&self) -> bool {
        counted(self.field())
    }

    /// What a temperature is held against.
    pub(super) fn verdict(&self, at_c: f64) -> Verdict {
        let query = &self.seen.flames.cycle;
        if query.ceiling_c.is_some_and(|ceiling_c| at_c > ceiling_c) {
            Verdict::Ceiling
        } else if !self.counted() {
            Verdict::None
        } else if at_c < query.minimum_c {
            Verdict::Below
        } else if query.interpass_c.is_some_and(|most_c| at_c > most_c) {
            Verdict::Above
        } else {
            Verdict::Inside
        }
    }

    /// Logical pixels for each mm, and where the middle lies.
    fn fit(&self, (width, height): Point) -> (f64, Point) {
        let (left, right, low, high) = self.view;
        let margin = (MARGIN.0 * height).min(MARGIN.1);
        let (wide, tall) =
            if self.seen.drawing.lies { (high - low, right - left) } else { (right - left, high - low) };
        let each = ((width - 2.0 * margin) / wide).min((height - 2.0 * margin) / tall);
        (each, (f64::midpoint(left, right), f64::midpoint(low, high)))
    }

    /// A place of the section on a picture of a size.
    pub(super) fn drawn_at(&self, size: Point, (x_mm, y_mm): Point) -> Point {
        let (each, middle) = self.fit(size);
        let (across, up) = (x_mm - middle.0, y_mm - middle.1);
        let (along, up) = if self.seen.drawing.lies { (up, across) } else { (across, up) };
        (size.0 / 2.0 + along * each, size.1 / 2.0 - up * each)
    }

    /// A place of the picture in the section; a round part is the same on both sides.
    fn place_of(&self, size: Point, (x, y): Point) -> Point {
        let (each, middle) = self.fit(size);
        let (along, up) = ((x - size.0 / 2.0) / each, (size.1 / 2.0 - y) / each);
        let (across, up) = if self.seen.drawing.lies { (up, along) } else { (along, up) };
        let (x_mm, y_mm) = (across + middle.0, up + middle.1);
        (if self.seen.drawing.round { x_mm.abs() } else { x_mm }, y_mm)
    }

    pub(super) fn inside(&self, (x_mm, y_mm): Point) -> bool {
        let (left, right, low, high) = self.view;
        (left..=right).contains(&x_mm) && (low..=high).contains(&y_mm)
    }

    /// Draws it.
    pub(super) fn image(&self, size: Point, scale: f64, inks: &Inks) -> Image {
        let (width, height) = size;
        let places = &self.seen.places;
        let mut canvas = Canvas::new(width, height, scale);
        let (columns, rows) = canvas.size();
        // A bar lies: its radius goes with the rows of the picture.
        let lies = self.seen.drawing.lies;
        let (wide, tall) = if lies { (rows, columns) } else { (columns, rows) };
        let pixel = |x: usize, y: usize| canvas.place(if lies { y } else { x }, if lies { x } else { y });
        let across: Vec<_> = (0..wide)
            .map(|x| {
                let x_mm = self.place_of(size, pixel(x, 0)).0;
                let shown = self.inside((x_mm, self.view.2));
                (self.smooth.across(x_mm), places.column(x_mm).filter(|_| shown))
            })
            .collect();
        let upwards: Vec<_> = (0..tall)
            .map(|y| {
                let y_mm = self.place_of(size, pixel(0, y)).1;
                let shown = self.inside((self.view.1, y_mm));
                (self.smooth.upwards(y_mm), places.row(y_mm).filter(|_| shown))
            })
            .collect();
        let mut warm = vec![0.0; columns * rows];
        let mut what: Vec<Option<(Matter, bool)>> = vec![None; columns * rows];
        for (up_at, (up, row)) in upwards.iter().enumerate() {
            for (along_at, (along, column)) in across.iter().enumerate() {
                let (x, y) = if lies { (up_at, along_at) } else { (along_at, up_at) };
                warm[y * columns + x] = self.smooth.along(*along, *up);
                what[y * columns + x] = row.zip(*column).and_then(|(row, column)| places.along(column, row));
            }
        }
        let levels = if width < LEAST_WITH_LEVELS { &[][..] } else { &self.levels };
        for y in 0..rows {
            for x in 0..columns {
                let at = y * columns + x;
                let Some((matter, required)) = what[at] else { continue };
                self.fill(&mut canvas, (x, y), warm[at], required, inks);
                let next = |by: usize, far: bool| if far { warm[at] } else { warm[at + by] };
                let (dx, dy) =
                    (next(1, x + 1 == columns) - warm[at], next(columns, y + 1 == rows) - warm[at]);
                let slope = dx.hypot(dy).max(1e-9);
                for &(level_c, limit) in levels {
                    let away = (warm[at] - level_c).abs() / slope / scale;
                    let half = if limit { 1.0 } else { 0.5 };
                    let share = ((half - away) * scale + 0.5).clamp(0.0, 1.0);
                    canvas.over(x, y, if limit { inks.ink } else { inks.ink2 }, share);
                }
                // Where matter ends, and where weld metal and the members meet.
                let reach = scale.round().max(1.0) as usize;
                let other = |x: Option<usize>, y: Option<usize>| match (x, y) {
                    (Some(x), Some(y)) if x < columns && y < rows => {
                        what[y * columns + x].map(|found| found.0)
                    }
                    _ => None,
                };
                let around = [
                    other(x.checked_sub(reach), Some(y)),
                    other(Some(x + reach), Some(y)),
                    other(Some(x), y.checked_sub(reach)),
                    other(Some(x), Some(y + reach)),
                ];
                if around.iter().any(|found| *found != Some(matter)) {
                    canvas.over(x, y, inks.ink, 1.0);
                }
            }
        }
        self.under_flame(&mut canvas, size, inks);
        if self.seen.drawing.round {
            let upright = [(width / 2.0, 2.0), (width / 2.0, height - 2.0)];
            let level = [(2.0, height / 2.0), (width - 2.0, height / 2.0)];
            canvas.line(if lies { &level } else { &upright }, 1.0, inks.ink2, Some((10.0, 4.0)));
        }
        canvas.image()
    }

    /// The fill of one pixel: ground and pattern by verdict, so that it reads without colour too.
    fn fill(&self, canvas: &mut Canvas, (x, y): (usize, usize), at_c: f64, required: bool, inks: &Inks) {
        let (px, py) = canvas.place(x, y);
        let (ground, sign, covers) = match self.verdict(at_c) {
            Verdict::None => (inks.field, inks.field, 0.0),
            Verdict::Below => {
                let row = (py / 5.0).floor();
                let along = (px + if row.rem_euclid(2.0) < 1.0 { 0.0 } else { 5.0 }).rem_euclid(10.0);
                let dash = along < 4.0 && py.rem_euclid(5.0) < 1.3;
                (inks.field, inks.edge, f64::from(u8::from(dash)))
            }
            Verdict::Inside => (inks.marked, inks.marked, 0.0),
            Verdict::Above => (inks.line, inks.ink, slanted(px + py, 1.3, 6.0)),
            Verdict::Ceiling => {
                (inks.stop, inks.panel, slanted(px + py, 1.4, 7.0).max(slanted(px - py, 1.4, 7.0)))
            }
        };
        canvas.over(x, y, ground, 1.0);
        canvas.over(x, y, sign, covers);
        // Outside the place where the minimum must be it is there, and does not count.
        if !required && self.counted() {
            canvas.over(x, y, inks.panel, 0.62);
        }
    }

    /// Where the flame goes, while it burns.
    fn under_flame(&self, canvas: &mut Canvas, size: Point, inks: &Inks) {
        if self.field().phase != Phase::Heating {
            return;
        }
        let thick = if size.0 < LEAST_WITH_LEVELS { 1.0 } else { 2.0 };
        for &(x_mm, y_mm) in &self.seen.drawing.heated_mm {
            let sides = if self.seen.drawing.round { vec![x_mm, -x_mm] } else { vec![x_mm] };
            for side_mm in sides.into_iter().filter(|side_mm| self.inside((*side_mm, y_mm))) {
                let at = self.drawn_at(size, (side_mm, y_mm));
                canvas.ring(at, thick, thick, inks.ink2);
            }
        }
    }

    /// The places to measure in the order in which they are taken: on the faces of the first part at
    /// the distance that is asked for.
    pub(super) fn dots_mm(&self) -> Vec<Point> {
        let (x_mm, y_mm) = self.seen.drawing.required_point_mm;
        if self.seen.drawing.lies {
            // On a bar on either side of it.
            let solid = |x_mm: f64| self.seen.places.at(x_mm, y_mm).is_some();
            let radii = self.seen.drawing.xs_mm.windows(2);
            let found = radii.filter(|pair| solid(f64::midpoint(pair[0], pair[1]))).map(|pair| pair[1]);
            let radius = found.fold(0.0, f64::max);
            return vec![(radius, y_mm), (-radius, y_mm)];
        }
        let faces: Vec<f64> = self.seen.drawing.ys_mm.to_vec();
        let solid = |y_mm: f64| matches!(self.seen.places.at(x_mm, y_mm), Some((Matter::First, _)));
        let found: Vec<f64> = faces
            .windows(2)
            .filter(|pair| solid(f64::midpoint(pair[0], pair[1])))
            .flatten()
            .copied()
            .collect();
        let top = found.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let foot = found.iter().copied().fold(f64::INFINITY, f64::min);
        if found.is_empty() { Vec::new() } else { vec![(x_mm, top), (x_mm, foot)] }
    }

    /// The temperature at a place, mm.
    pub(super) fn at_c(&self, (x_mm, y_mm): Point) -> f64 {
        self.smooth.at(if self.seen.drawing.round { x_mm.abs() } else { x_mm }, y_mm)
    }

    /// The coldest cell that must have the minimum, or the hottest of the weld: its middle and °C.
    pub(super) fn extreme(&self, coldest: bool) -> Option<(Point, f64, Matter)> {
        let drawing = &self.seen.drawing;
        let cells = drawing.cells.iter().zip(&self.field().at_c);
        let counted =
            cells.filter(|(cell, _)| if coldest { cell.required } else { cell.matter == Matter::Weld });
        let warm = |found: &&(&crate::engine::heat_cycle::DrawnCell, &f32)| f64::from(*found.1);
        let all: Vec<_> = counted.collect();
        let found = if coldest {
            all.iter().min_by(|one, other| warm(one).total_cmp(&warm(other)))
        } else {
            all.iter().max_by(|one, other| warm(one).total_cmp(&warm(other)))
        };
        found.map(|(cell, at_c)| {
            let middle = |lines: &[f64], at: usize| f64::midpoint(lines[at], lines[at + 1]);
            let place = (middle(&drawing.xs_mm, cell.column), middle(&drawing.ys_mm, cell.row));
            (place, f64::from(**at_c), cell.matter)
        })
    }
}

fn counted(field: &Field) -> bool {
    !matches!(field.phase, Phase::Hold | Phase::Cooling)
}

/// The temperatures that are drawn as lines: the limits, and round figures between.
fn levels(seen: &Seen, field: &Field, unit: TemperatureUnit) -> Vec<(f64, bool)> {
    let query = &seen.flames.cycle;
    let limits: Vec<f64> = if counted(field) {
        [Some(query.minimum_c), query.interpass_c, query.ceiling_c].into_iter().flatten().collect()
    } else {
        query.ceiling_c.into_iter().collect()
    };
    let range = field.at_c.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |range, &at_c| {
        (range.0.min(f64::from(at_c)), range.1.max(f64::from(at_c)))
    });
    let step = match range.1 - range.0 {
        spread if spread > 250.0 => 100.0,
        spread if spread > 100.0 => 50.0,
        spread if spread > 20.0 => 25.0,
        _ => 5.0,
    };
    let mut levels: Vec<(f64, bool)> = limits.iter().map(|&at_c| (at_c, true)).collect();
    let between = round_c(unit, range, step);
    levels.extend(
        between
            .filter(|at_c| limits.iter().all(|limit| (limit - at_c).abs() >= step / 3.0))
            .map(|at_c| (at_c, false)),
    );
    levels
}
