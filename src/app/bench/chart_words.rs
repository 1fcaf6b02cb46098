//! Where words on a chart stand: beside its lines, wherever there is room.

use slint::Model;

use super::chart::Point;
use crate::app::screen_values::float;
use crate::app::ui;

/// A word is so high, logical pixels.
const HIGH: f64 = 18.0;
/// Each letter takes so much, and both ends together, logical pixels.
const LETTER: (f64, f64) = (6.2, 8.0);
/// Words keep so far off lines, logical pixels.
const OFF: f64 = 1.0;
/// A line is looked at in such steps, logical pixels.
const STEP: f64 = 2.0;

/// A place on the plot: left, top, right, foot.
type Place = (f64, f64, f64, f64);

/// What a word must not cover.
struct Taken {
    lines: Vec<Vec<Point>>,
    words: Vec<Place>,
}

impl Taken {
    /// How much of it a place covers.
    fn under(&self, place: Place) -> usize {
        let (left, top, right, foot) = place;
        let within =
            |(x, y): Point| (left - OFF..=right + OFF).contains(&x) && (top - OFF..=foot + OFF).contains(&y);
        let along = |pair: &[Point]| {
            let ((x1, y1), (x2, y2)) = (pair[0], pair[1]);
            let steps = ((x2 - x1).hypot(y2 - y1) / STEP).ceil().max(1.0);
            let at = |step: u32| {
                let share = f64::from(step) / steps;
                (x1 + share * (x2 - x1), y1 + share * (y2 - y1))
            };
            (0..=steps as u32).filter(|step| within(at(*step))).count()
        };
        let lines: usize = self.lines.iter().flat_map(|line| line.windows(2).map(along)).sum();
        let over = |word: &&Place| word.0 < right && left < word.2 && word.1 < foot && top < word.3;
        // A word over a word can't be read at all.
        lines + 1000 * self.words.iter().filter(over).count()
    }
}

/// The words of a chart on a plot of a size.
pub(super) fn places(chart: &ui::BenchChart, width: f64, height: f64) -> Vec<ui::ChartWordRow> {
    let across = |share: f32| f64::from(share) * width;
    let up = |share: f32| f64::from(share) * height;
    let line = |points: &slint::ModelRc<ui::ChartPoint>| {
        points.iter().map(|point| (across(point.x), up(point.y))).collect::<Vec<Point>>()
    };
    let mut taken =
        Taken { lines: vec![line(&chart.first_points), line(&chart.second_points)], words: Vec::new() };
    let (level, mark) = (up(chart.level_at), (across(chart.mark_at), up(chart.mark_level)));
    if chart.level_at >= 0.0 {
        taken.lines.push(vec![(0.0, level), (width, level)]);
    }
    if chart.mark_at >= 0.0 {
        taken.lines.push(vec![mark, (mark.0, height)]);
    }
    for at in [chart.line_at, chart.stop_at].into_iter().filter(|at| *at >= 0.0) {
        taken.lines.push(vec![(across(at), 0.0), (across(at), height)]);
    }
    let mut made = Vec::new();
    let mut put = |shown: bool, text: &slint::SharedString, bold: bool, corners: &[(Point, bool)]| {
        if !shown || text.is_empty() {
            return;
        }
        let wide = LETTER.0.mul_add(text.chars().count() as f64, LETTER.1);
        // A corner is the left end of a word, or its right one.
        let place = |&((x, y), ends): &(Point, bool)| {
            let left = if ends { x - wide } else { x };
            let (left, top) = (left.clamp(0.0, (width - wide).max(0.0)), y.clamp(0.0, height - HIGH));
            (left, top, left + wide, top + HIGH)
        };
        let Some(best) = corners.iter().map(place).min_by_key(|place| taken.under(*place)) else { return };
        taken.words.push(best);
        made.push(ui::ChartWordRow { text: text.clone(), x: float(best.0), y: float(best.1), bold });
    };
    let (over, beneath) = (HIGH + 4.0, 5.0);
    put(
        chart.level_at >= 0.0,
        &chart.level_label,
        false,
        &[
            ((6.0, level - over), false),
            ((width - 6.0, level + beneath), true),
            ((6.0, level + beneath), false),
            ((width - 6.0, level - over), true),
        ],
    );
    // Where nothing else is free, at the foot of its own line.
    put(
        chart.mark_at >= 0.0,
        &chart.mark_label,
        true,
        &[
            ((mark.0 + 6.0, mark.1 + beneath + 4.0), false),
            ((mark.0 - 6.0, mark.1 - over - 4.0), true),
            ((mark.0 + 6.0, height - HIGH - 2.0), false),
            ((mark.0 - 6.0, height - HIGH - 2.0), true),
        ],
    );
    for (at, text) in [(chart.line_at, &chart.line_label), (chart.stop_at, &chart.stop_label)] {
        let x = across(at);
        let heights = [2.0, height - 2.0 * HIGH - 8.0, height - HIGH - 2.0, level + beneath, HIGH + 6.0];
        let corners = heights.map(|y| [((x + 5.0, y), false), ((x - 5.0, y), true)]).concat();
        put(at >= 0.0, text, false, &corners);
    }
    put(
        chart.below_at >= 0.0,
        &chart.below_label,
        false,
        &[((width - 8.0, height - HIGH - 4.0), true), ((8.0, height - HIGH - 4.0), false)],
    );
    made
}
