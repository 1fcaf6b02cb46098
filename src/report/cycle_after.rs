//! What follows the last run of a heat cycle in words: when the steel turns, how much hydrogen is left
//! after so many hours of post-heat.

use super::Pen;
use super::cycle::{hydrogen_left, hydrogen_line, minutes_between};
use crate::engine::heat_cycle::{Flamed, Flames, Turn, Turned};

/// One hold, and what is left when the joint is cold.
#[derive(Debug, Clone, PartialEq)]
pub struct HeldRow {
    /// Its hours; 0 for none.
    pub hours: f64,
    /// The same in words.
    pub held: String,
    /// What is left, as a range.
    pub left: String,
    /// Is it what is planned?
    pub planned: bool,
}

/// The holds that were worked out, from none to the longest.
#[must_use]
pub fn held_rows(pen: &Pen<'_>, flames: &Flames, found: &Flamed) -> Vec<HeldRow> {
    let planned_h = found.cycle.planned.hours;
    let mut hours: Vec<f64> = found.cycle.beside.iter().map(|cooled| cooled.hours).collect();
    hours.push(planned_h);
    hours.sort_by(f64::total_cmp);
    let row = |hours: f64| {
        Some(HeldRow {
            hours,
            held: if hours > 0.0 {
                pen.show.with_unit(hours, 1, "h")
            } else {
                pen.words.get("cycle-held-none")
            },
            left: hydrogen_left(pen, flames, found, hours)?,
            planned: (hours - planned_h).abs() < 1e-9,
        })
    };
    hours.into_iter().filter_map(row).collect()
}

/// What is left of the hydrogen, with the planned hold and without one, and when the joint turns: in
/// sentences, as a log keeps them. A weld metal that keeps its hydrogen has no figure of it.
#[must_use]
pub fn after_lines(pen: &Pen<'_>, flames: &Flames, found: &Flamed, austenitic: bool) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    if !austenitic {
        let held = (flames.cycle.post_heat.hours > 0.0).then_some(flames.cycle.post_heat.hours);
        let hours = held.into_iter().chain([0.0]);
        lines.extend(hours.filter_map(|hours| hydrogen_line(pen, flames, found, hours)));
    }
    lines.extend(turn_lines(pen, flames, found));
    lines
}

/// The message that names a point of the transformation; `.mark` of it stands on a chart.
#[must_use]
pub const fn turn_key(turn: Turn) -> &'static str {
    match turn {
        Turn::Ms => "cycle-turn-ms",
        Turn::M90 => "cycle-turn-m90",
    }
}

/// When the joint cools through Ms and M90, each with what the formula leaves open.
#[must_use]
pub fn turn_lines(pen: &Pen<'_>, flames: &Flames, found: &Flamed) -> Vec<String> {
    let turned = found.turned(flames);
    let line = |turned: &Turned| {
        let name = pen.words.get(turn_key(turned.turn));
        let figure = pen.show.temperature(turned.at_c).main;
        let scatter = pen.show.difference((turned.high_c - turned.low_c) / 2.0).main;
        let figure = pen.words.with("then-m90-about", &[("m90", &figure), ("scatter", &scatter)]);
        let (key, minutes) = match (turned.from_min, turned.to_min) {
            (_, Some(to)) if to <= 0.0 => ("cycle-turn.before", String::new()),
            (Some(from), Some(to)) if from <= 0.0 => ("cycle-turn.most", minutes_between(pen, to, to)),
            (Some(from), Some(to)) => ("cycle-turn", minutes_between(pen, from, to)),
            (_, None) | (None, Some(_)) => ("cycle-turn.open", String::new()),
        };
        pen.words.with(key, &[("name", &name), ("figure", &figure), ("minutes", &minutes)])
    };
    let mut lines: Vec<String> = turned.iter().map(line).collect();
    if turned.iter().any(|turned| turned.turn == Turn::M90 && turned.to_min != Some(0.0)) {
        lines.push(pen.words.get("cycle-turn-late"));
    }
    lines
}
