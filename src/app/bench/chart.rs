//! Lines in a frame: where they lie in it, and the round numbers at its edges.

use std::fmt::Write;

use slint::ModelRc;

use crate::app::rows::model;
use crate::app::screen_values::float;
use crate::app::ui;
use crate::report::Pen;

/// The paths are drawn in a square of this side, which is stretched to its place.
const SIDE: f64 = 1000.0;

/// A point of a line.
pub(super) type Point = (f64, f64);

/// The part of the world that is drawn.
pub(super) struct Frame {
    /// From the left to the right.
    pub(super) across: (f64, f64),
    /// From the foot to the top.
    pub(super) up: (f64, f64),
}

impl Frame {
    /// The place of a figure from the left, 0 to 1.
    pub(super) fn x(&self, figure: f64) -> f64 {
        (figure - self.across.0) / (self.across.1 - self.across.0)
    }

    /// The place of a figure from the top, 0 to 1.
    pub(super) fn y(&self, figure: f64) -> f64 {
        (self.up.1 - figure) / (self.up.1 - self.up.0)
    }

    /// The places of a line inside the frame, where it leaves or enters it cut at the edge.
    pub(super) fn inside(&self, line: &[Point]) -> Vec<Point> {
        let mut made: Vec<Point> = Vec::new();
        let mut before: Option<Point> = None;
        for &(across, up) in line {
            let here = (self.x(across), self.y(up));
            if let Some(before) = before.filter(|before| holds(before.1) != holds(here.1)) {
                let outside = if holds(here.1) { before.1 } else { here.1 };
                let edge = if outside < 0.0 { 0.0 } else { 1.0 };
                let share = (edge - before.1) / (here.1 - before.1);
                made.push((share.mul_add(here.0 - before.0, before.0), edge));
            }
            if holds(here.1) {
                made.push(here);
            }
            before = Some(here);
        }
        made
    }
}

/// Does a place lie in the frame?
pub(super) fn holds(place: f64) -> bool {
    (0.0..=1.0).contains(&place)
}

/// A line as a path.
pub(super) fn path(places: &[Point]) -> String {
    let mut made = String::new();
    for (at, (x, y)) in places.iter().enumerate() {
        let _ = write!(made, "{} {:.1} {:.1} ", if at == 0 { 'M' } else { 'L' }, x * SIDE, y * SIDE);
    }
    made
}

/// A dash and the gap after it, in shares of the frame's width.
const DASH: (f64, f64) = (0.022, 0.014);
/// A frame is about so much wider than it is high, which dashes on a steep line go by.
const SHAPE: f64 = 2.0;

/// A line in dashes as a path: what draws it has none.
pub(super) fn dashed(places: &[Point]) -> String {
    let (on, off) = DASH;
    let mut made: Vec<Vec<Point>> = Vec::new();
    let mut gone = 0.0;
    for pair in places.windows(2) {
        let (from, to) = (pair[0], pair[1]);
        let length = (to.0 - from.0).hypot((to.1 - from.1) / SHAPE);
        let at = |along: f64| {
            let share = along / length;
            (share.mul_add(to.0 - from.0, from.0), share.mul_add(to.1 - from.1, from.1))
        };
        let mut along = 0.0;
        while along < length {
            let in_turn = (gone + along) % (on + off);
            let left = if in_turn < on { on - in_turn } else { on + off - in_turn };
            let next = (along + left.max(1e-4)).min(length);
            if in_turn < on {
                match made.last_mut().filter(|_| in_turn > 1e-9) {
                    Some(dash) => dash.push(at(next)),
                    None => made.push(vec![at(along), at(next)]),
                }
            }
            along = next;
        }
        gone += length;
    }
    made.iter().map(|dash| path(dash)).collect()
}

/// A line as places.
pub(super) fn points(places: &[Point]) -> ModelRc<ui::ChartPoint> {
    model(places.iter().map(|&(x, y)| ui::ChartPoint { x: float(x), y: float(y) }).collect())
}

/// What lies between two lines as a path.
pub(super) fn band(first: &[Point], second: &[Point]) -> String {
    let mut around = first.to_vec();
    // The corner where the first line has left the frame before the second.
    if let (Some((_, y)), Some(last)) = (first.last(), second.last())
        && *y <= 0.0
        && last.0 > around[around.len() - 1].0
    {
        around.push((last.0, 0.0));
    }
    around.extend(second.iter().rev());
    format!("{}Z", path(&around))
}

/// A round step of which four or five lie in a span.
fn step(span: f64) -> f64 {
    let power = 10_f64.powf((span / 5.0).log10().floor());
    let round = [1.0, 2.0, 5.0, 10.0].map(|round| round * power);
    round.into_iter().find(|step| span / step <= 5.5).unwrap_or(10.0 * power)
}

/// Round numbers of a span, each with its place.
pub(super) fn ticks(pen: &Pen<'_>, (from, to): (f64, f64), at: impl Fn(f64) -> f64) -> Vec<ui::ChartTick> {
    let step = step(to - from);
    let first = (from / step - 1e-9).ceil();
    (0..8)
        .map(|count| (first + f64::from(count)) * step)
        .take_while(|number| *number <= to + 1e-9)
        .map(|number| ui::ChartTick { at: float(at(number)), label: pen.show.number(number, 2).into() })
        .collect()
}

/// A chart with nothing marked on it.
pub(super) fn bare() -> ui::BenchChart {
    ui::BenchChart {
        below_at: -1.0,
        level_at: -1.0,
        mark_at: -1.0,
        mark_level: -1.0,
        line_at: -1.0,
        stop_at: -1.0,
        ..ui::BenchChart::default()
    }
}
