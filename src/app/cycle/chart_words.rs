//! The words on the chart of a heat cycle, placed, and what a screen reader says of it.

use super::chart::{self, Chart};
use super::seen::Seen;
use crate::app::screen_values::float;
use crate::app::ui;
use crate::engine::heat_cycle::Turned;
use crate::report::{Pen, turn_key, turn_lines};
use crate::units::TemperatureUnit;
use crate::words::List;

/// Two labels one over the other keep so far apart, logical pixels.
const APART: f64 = 13.0;
/// A figure of a run is so wide, and so much for each digit, logical pixels.
const NUMBER: (f64, f64) = (6.0, 8.0);

fn label(x: f64, y: f64, text: String, side: ui::LabelSide) -> ui::CycleLabel {
    ui::CycleLabel { x: float(x), y: float(y), text: text.into(), side, strong: false, stops: false }
}

/// Hours and minutes since the first flame.
fn clock(pen: &Pen<'_>, minute: f64) -> String {
    let whole = minute.round().max(0.0);
    let (hours, minutes) = ((whole / 60.0).floor(), whole % 60.0);
    format!("{}:{minutes:02}", pen.show.number(hours, 0))
}

/// The words on a chart of a width, logical pixels.
pub(super) fn labels(pen: &Pen<'_>, seen: &Seen, chart: &Chart<'_>, width: f64) -> Vec<ui::CycleLabel> {
    let query = &seen.flames.cycle;
    let unit = pen.show.units.temperature;
    let degrees = |at_c: f64| pen.show.number(unit.from_c(at_c), 0);
    let mut labels = Vec::new();
    let limits: Vec<f64> = [Some(query.minimum_c), query.interpass_c].into_iter().flatten().collect();
    for &limit_c in &limits {
        let label = label(0.0, chart.y_c(limit_c), degrees(limit_c), ui::LabelSide::Before);
        labels.push(ui::CycleLabel { strong: true, ..label });
    }
    // A limit's own figure comes first.
    let free =
        |at_c: &f64| limits.iter().all(|limit_c| (chart.y_c(*limit_c) - chart.y_c(*at_c)).abs() > APART);
    let round = chart.grid_c().into_iter().filter(free);
    labels.extend(round.map(|at_c| label(0.0, chart.y_c(at_c), degrees(at_c), ui::LabelSide::Before)));
    let ceiling_at = query.ceiling_c.map(|ceiling_c| chart.y_c(ceiling_c) + 10.0);
    if let (Some(ceiling_c), Some(y)) = (query.ceiling_c, ceiling_at) {
        let figure = pen.show.maximum(ceiling_c, None).main;
        let text = pen.words.with("window-ceiling", &[("figure", &figure)]);
        let label = label(1.0, y, text, ui::LabelSide::EndsAt);
        labels.push(ui::CycleLabel { stops: true, ..label });
    }
    for turned in seen.found.turned(&seen.flames).iter().filter(|turned| chart.shows(turned)) {
        labels.push(turn_label(pen, chart, turned, ceiling_at, unit));
    }
    let mut ml = chart::LEAST_ML;
    while ml <= chart.most_ml {
        labels.push(label(0.0, chart.y_ml(ml), pen.show.number(ml, 2), ui::LabelSide::Before));
        ml *= 10.0;
    }
    labels.extend(run_labels(pen, seen, chart, width));
    for part in &chart.axis.parts {
        let y = chart::HEIGHT + 10.0;
        if part.from_min <= 0.0 {
            labels.push(label(part.left, y, clock(pen, part.from_min), ui::LabelSide::StartsAt));
        }
        labels.push(label(part.right, y, clock(pen, part.to_min), ui::LabelSide::EndsAt));
    }
    labels
}

/// A point of the transformation: over its line, or under it where the ceiling's words are.
fn turn_label(
    pen: &Pen<'_>,
    chart: &Chart<'_>,
    turned: &Turned,
    ceiling_at: Option<f64>,
    unit: TemperatureUnit,
) -> ui::CycleLabel {
    let line = chart.y_c(turned.at_c);
    let taken = |y: f64| ceiling_at.is_some_and(|ceiling| (ceiling - y).abs() < APART);
    let y = [line - 8.0, line + 9.0].into_iter().find(|y| !taken(*y)).unwrap_or(line + 9.0 + APART);
    let figure = pen.show.number(unit.from_c(turned.at_c), 0);
    let key = format!("{}.mark", turn_key(turned.turn));
    label(1.0, y, pen.words.with(&key, &[("figure", &figure)]), ui::LabelSide::EndsAt)
}

/// The numbers of the runs: in their blocks where all fit, or else under them, as many as there is room for.
fn run_labels(pen: &Pen<'_>, seen: &Seen, chart: &Chart<'_>, width: f64) -> Vec<ui::CycleLabel> {
    let passes = &seen.found.cycle.passes;
    let place = |minute: f64| chart.axis.x(minute);
    let number = |at: usize| pen.show.number((at + 1) as f64, 0);
    let wide = |at: usize| NUMBER.0 + NUMBER.1 * number(at).len() as f64;
    let ends = |at: usize| (place(passes[at].start_min), place(passes[at].start_min + passes[at].arc_min));
    let middle = |at: usize| f64::midpoint(ends(at).0, ends(at).1);
    let fits = (0..passes.len()).all(|at| (ends(at).1 - ends(at).0) * width >= wide(at));
    let (y, side) = if fits {
        (chart::LANE / 2.0, ui::LabelSide::OnInk)
    } else {
        (chart::UNDER_LANE_AT, ui::LabelSide::Under)
    };
    let made = |every: usize| {
        let shown: Vec<usize> = (0..passes.len()).step_by(every).collect();
        let free = shown.windows(2).all(|pair| (middle(pair[1]) - middle(pair[0])) * width >= wide(pair[1]));
        free.then_some(shown)
    };
    let shown = if fits { Some((0..passes.len()).collect()) } else { (1..=passes.len()).find_map(made) };
    let label = |at: usize| ui::CycleLabel { strong: true, ..label(middle(at), y, number(at), side) };
    shown.into_iter().flatten().map(label).collect()
}

/// The chart in words, between what the plan says of it in one line and what does not hold.
pub(super) fn spoken(pen: &Pen<'_>, seen: &Seen, line: String, warnings: Vec<String>) -> String {
    let (flames, found) = (&seen.flames, &seen.found);
    let runs = found.cycle.passes.len();
    let end = pen.show.duration(found.cycle.end_of_weld_min * 60.0);
    let cold = found.cycle.moments.last().map_or(0.0, |moment| moment.minute);
    let cold = pen.show.duration(cold * 60.0);
    let rest = pen.words.count("cycle-spoken", runs, &[("end", &end), ("cold", &cold)]);
    let mut said = vec![line, rest];
    said.extend(turn_lines(pen, flames, found));
    said.extend(warnings);
    pen.words.list(List::Sentences, &said)
}
