//! The section of the joint at one moment: filled by what each place is held against, and not by a
//! rainbow; lines of one temperature; where it is coldest, where to measure.

use slint::Image;

use super::canvas::{Canvas, Point, slanted};
use super::field::{Places, SmoothField};
use super::inks::Inks;
use super::work::Seen;
use crate::engine::heat_cycle::{Field, Matter, Phase};

/// Height of the picture, logical pixels.
pub(super) const HEIGHT: f64 = 260.0;
/// Around the part, logical pixels.
const MARGIN: f64 = 14.0;
/// Shown past the place where the minimum must be, as a share of how far that is.
const BEYOND: f64 = 0.3;
/// Labels of one line keep so far apart, logical pixels.
const LABELS_APART: f64 = 36.0;

/// What a mark on the section is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sign {
    /// The figure of a line of one temperature.
    Level,
    /// A place to measure.
    Dot,
    /// The coldest place that must have the minimum.
    Coldest,
    /// The hottest of weld and heat-affected zone.
    Hottest,
}

/// A mark on the section.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Mark {
    pub(super) at: Point,
    pub(super) sign: Sign,
    pub(super) at_c: f64,
}

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
pub(super) struct Section<'a> {
    seen: &'a Seen,
    pub(super) field: &'a Field,
    smooth: SmoothField,
    places: Places<'a>,
    /// From the left, to the right, from below, to the top, mm.
    view: (f64, f64, f64, f64),
}

impl<'a> Section<'a> {
    /// The kept moment that lies nearest to a minute.
    pub(super) fn of(seen: &'a Seen, minute: f64) -> Option<Self> {
        let away = |field: &&Field| (field.minute - minute).abs();
        let field = seen.found.cycle.fields.iter().min_by(|one, other| away(one).total_cmp(&away(other)))?;
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
            places: Places::of(drawing),
            view: (left, right, (low.1 - past).max(ys.0), (high.1 + past).min(ys.1)),
            field,
            seen,
        })
    }

    /// Is a limit counted at this moment?
    pub(super) fn counted(&self) -> bool {
        !matches!(self.field.phase, Phase::Hold | Phase::Cooling)
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
    fn fit(&self, width: f64) -> (f64, Point) {
        let (left, right, low, high) = self.view;
        let each = ((width - 2.0 * MARGIN) / (right - left)).min((HEIGHT - 2.0 * MARGIN) / (high - low));
        (each, (f64::midpoint(left, right), f64::midpoint(low, high)))
    }

    /// A place of the section on the picture.
    fn drawn_at(&self, width: f64, (x_mm, y_mm): Point) -> Point {
        let (each, middle) = self.fit(width);
        (width / 2.0 + (x_mm - middle.0) * each, HEIGHT / 2.0 - (y_mm - middle.1) * each)
    }

    /// A place of the picture in the section; a round part is the same on both sides.
    fn place_of(&self, width: f64, (x, y): Point) -> Point {
        let (each, middle) = self.fit(width);
        let (x_mm, y_mm) = ((x - width / 2.0) / each + middle.0, (HEIGHT / 2.0 - y) / each + middle.1);
        (if self.seen.drawing.round { x_mm.abs() } else { x_mm }, y_mm)
    }

    fn inside(&self, (x_mm, y_mm): Point) -> bool {
        let (left, right, low, high) = self.view;
        (left..=right).contains(&x_mm) && (low..=high).contains(&y_mm)
    }

    /// The temperatures that are drawn as lines: the limits, and round figures between.
    fn levels(&self) -> Vec<(f64, bool)> {
        let query = &self.seen.flames.cycle;
        let limits: Vec<f64> = if self.counted() {
            [Some(query.minimum_c), query.interpass_c, query.ceiling_c].into_iter().flatten().collect()
        } else {
            query.ceiling_c.into_iter().collect()
        };
        let range = self.field.at_c.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |range, &at_c| {
            (range.0.min(f64::from(at_c)), range.1.max(f64::from(at_c)))
        });
        let step = match range.1 - range.0 {
            spread if spread > 250.0 => 100.0,
            spread if spread > 100.0 => 50.0,
            spread if spread > 20.0 => 25.0,
            _ => 5.0,
        };
        let mut levels: Vec<(f64, bool)> = limits.iter().map(|&at_c| (at_c, true)).collect();
        let mut at_c = (range.0 / step).ceil() * step;
        while at_c < range.1 {
            if !limits.iter().any(|limit| (limit - at_c).abs() < step / 3.0) {
                levels.push((at_c, false));
            }
            at_c += step;
        }
        levels
    }

    /// Draws it.
    pub(super) fn image(&self, width: f64, scale: f64, inks: &Inks) -> Image {
        let mut canvas = Canvas::new(width, HEIGHT, scale);
        let (columns, rows) = canvas.size();
        let across: Vec<_> = (0..columns)
            .map(|x| {
                let x_mm = self.place_of(width, (canvas.place(x, 0).0, 0.0)).0;
                let shown = self.inside((x_mm, self.view.2));
                (self.smooth.across(x_mm), self.places.column(x_mm).filter(|_| shown))
            })
            .collect();
        let upwards: Vec<_> = (0..rows)
            .map(|y| {
                let y_mm = self.place_of(width, (0.0, canvas.place(0, y).1)).1;
                let shown = self.inside((self.view.1, y_mm));
                (self.smooth.upwards(y_mm), self.places.row(y_mm).filter(|_| shown))
            })
            .collect();
        let mut warm = vec![0.0; columns * rows];
        let mut what: Vec<Option<(Matter, bool)>> = vec![None; columns * rows];
        for (y, (up, row)) in upwards.iter().enumerate() {
            for (x, (along, column)) in across.iter().enumerate() {
                warm[y * columns + x] = self.smooth.along(*along, *up);
                what[y * columns + x] =
                    row.zip(*column).and_then(|(row, column)| self.places.along(column, row));
            }
        }
        let levels = self.levels();
        for y in 0..rows {
            for x in 0..columns {
                let at = y * columns + x;
                let Some((matter, required)) = what[at] else { continue };
                self.fill(&mut canvas, (x, y), warm[at], required, inks);
                let next = |by: usize, far: bool| if far { warm[at] } else { warm[at + by] };
                let (dx, dy) =
                    (next(1, x + 1 == columns) - warm[at], next(columns, y + 1 == rows) - warm[at]);
                let slope = dx.hypot(dy).max(1e-9);
                for &(level_c, limit) in &levels {
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
        self.under_flame(&mut canvas, width, inks);
        if self.seen.drawing.round {
            let (top, foot) = ((width / 2.0, 2.0), (width / 2.0, HEIGHT - 2.0));
            canvas.line(&[top, foot], 1.0, inks.ink2, Some((10.0, 4.0)));
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
    fn under_flame(&self, canvas: &mut Canvas, width: f64, inks: &Inks) {
        if self.field.phase != Phase::Heating {
            return;
        }
        for &(x_mm, y_mm) in &self.seen.drawing.heated_mm {
            let sides = if self.seen.drawing.round { vec![x_mm, -x_mm] } else { vec![x_mm] };
            for side_mm in sides.into_iter().filter(|side_mm| self.inside((*side_mm, y_mm))) {
                let at = self.drawn_at(width, (side_mm, y_mm));
                canvas.ring(at, 2.0, 2.0, inks.ink2);
            }
        }
    }

    /// The places to measure in the order in which they are taken: on the faces of the first part at
    /// the distance that is asked for.
    pub(super) fn dots_mm(&self) -> Vec<Point> {
        let (x_mm, _) = self.seen.drawing.required_point_mm;
        let faces: Vec<f64> = self.seen.drawing.ys_mm.to_vec();
        let solid = |y_mm: f64| matches!(self.places.at(x_mm, y_mm), Some((Matter::First, _)));
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
        self.smooth.at(x_mm, y_mm)
    }

    /// The coldest cell that must have the minimum, or the hottest of the weld: its middle and °C.
    pub(super) fn extreme(&self, coldest: bool) -> Option<(Point, f64, Matter)> {
        let drawing = &self.seen.drawing;
        let cells = drawing.cells.iter().zip(&self.field.at_c);
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

    /// All marks, where they stand on a picture so wide.
    pub(super) fn marks(&self, width: f64) -> Vec<Mark> {
        let mut marks: Vec<Mark> = Vec::new();
        let put = |marks: &mut Vec<Mark>, at: Point, sign, at_c| marks.push(Mark { at, sign, at_c });
        for place in self.dots_mm() {
            put(&mut marks, self.drawn_at(width, place), Sign::Dot, self.at_c(place));
        }
        if self.counted() {
            if let Some((place, at_c, _)) = self.extreme(true) {
                // What hits a dot stands on the other half.
                let place = if self.seen.drawing.round { (-place.0, place.1) } else { place };
                put(&mut marks, self.drawn_at(width, place), Sign::Coldest, at_c);
            }
            let above = |at_c: f64| matches!(self.verdict(at_c), Verdict::Above | Verdict::Ceiling);
            if let Some((place, at_c, _)) = self.extreme(false).filter(|found| above(found.1)) {
                let place = if self.seen.drawing.round { (-place.0, place.1) } else { place };
                put(&mut marks, self.drawn_at(width, place), Sign::Hottest, at_c);
            }
        }
        self.level_marks(width, &mut marks);
        marks
    }

    /// Figures of the lines, where each crosses the middle of the first part, or that of the second.
    fn level_marks(&self, width: f64, marks: &mut Vec<Mark>) {
        let drawing = &self.seen.drawing;
        let (left, right, low, high) = self.view;
        let core = drawing.required_point_mm;
        let ways = [
            ((drawing.core_mm.0.max(0.0), core.1), (right, core.1)),
            (((left + right) / 2.0, drawing.core_mm.1.max(low)), ((left + right) / 2.0, high)),
        ];
        for (from, to) in ways {
            let at = |share: f64| (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1));
            let mut before: Option<f64> = None;
            for step in 0..=160 {
                let place = at(f64::from(step) / 160.0);
                let inside = (place.0.abs(), place.1);
                let here = self.places.at(inside.0, inside.1).map(|_| self.at_c(inside));
                if let (Some(was), Some(now)) = (before, here) {
                    for (level_c, _) in self.levels() {
                        let crosses = (was - level_c) * (now - level_c) <= 0.0 && was != now;
                        let drawn = self.drawn_at(width, place);
                        let free = marks.iter().all(|mark| {
                            (mark.at.0 - drawn.0).abs() > LABELS_APART || (mark.at.1 - drawn.1).abs() > 20.0
                        });
                        if crosses && free && self.inside(place) {
                            marks.push(Mark { at: drawn, sign: Sign::Level, at_c: level_c });
                        }
                    }
                }
                before = here;
            }
        }
    }
}
