//! The heat cycle for a card, from the curve that the plan copy keeps: its lines with the limits, from 0 to
//! 1 along the minutes, in °C.

use super::degrees::{degrees, shown};
use super::draw::Point;
use crate::log::{CurvePoint, PlanCopy, TurnCopy};
use crate::report::Pen;
use crate::report::cycle_axis::Axis;

/// Around an arc the model has no figure for the weld, min.
const NO_FIGURE_MIN: f64 = 1.0;
/// A flame that burns longer has a part of its own, min.
const LONG_FLAME_MIN: f64 = 60.0;

/// A line, piece by piece.
type Curve = Vec<Vec<Point>>;

/// A run of the weld.
#[derive(Debug, Clone, PartialEq)]
pub struct PictureRun {
    /// Where the arc burns.
    pub span: (f64, f64),
    /// Coldest and hottest at its start, °C.
    pub start_c: (f64, f64),
    /// Does it end below the minimum?
    pub below: bool,
    /// Its number.
    pub number: String,
}

/// A heat cycle, to be drawn at any width.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CyclePicture {
    /// The parts of the axis of minutes, each with a scale of its own.
    pub parts: Vec<(f64, f64)>,
    /// Where the last run ends.
    pub end_of_weld: f64,
    /// Where the post-heat lies; none where there is none.
    pub held: Option<(f64, f64)>,
    /// The minimum preheat, °C.
    pub minimum_c: Option<f64>,
    /// The maximum interpass, °C.
    pub maximum_c: Option<f64>,
    /// The ceiling, °C.
    pub ceiling_c: Option<f64>,
    /// The ceiling in words.
    pub ceiling: String,
    /// The top of the temperatures, °C.
    pub top_c: f64,
    /// Figures along the temperatures: °C, as written, is it a limit?
    pub degrees: Vec<(f64, String, bool)>,
    /// The sign of the unit.
    pub unit: String,
    /// Where a flame burns.
    pub flames: Vec<(f64, f64)>,
    /// The runs.
    pub runs: Vec<PictureRun>,
    /// Coldest point that counts.
    pub coldest: Curve,
    /// The weld, where it has a figure.
    pub weld: Curve,
    /// Where the joint turns while it cools: at, from, to in °C, and its name with its figure.
    pub turns: Vec<(f64, f64, f64, String)>,
    /// Hours and minutes along the axis, and does the figure end there?
    pub times: Vec<(f64, String, bool)>,
    /// What the lines are, in their order: coldest, weld, range, marks, and turns where there are some.
    pub legend: Vec<String>,
}

const LEGEND: [&str; 4] =
    ["cycle-legend-coldest", "cycle-legend-weld", "card-legend-range", "cycle-legend-marks"];

impl CyclePicture {
    /// Of the plan of a log; `None` where it has no curve.
    #[must_use]
    pub fn of(pen: &Pen<'_>, plan: &PlanCopy) -> Option<Self> {
        let curve: Vec<&CurvePoint> = plan.curve.iter().filter(|point| point.minute.is_finite()).collect();
        let last = curve.last()?;
        let ends = |phases: &[&str]| {
            let of = curve.iter().rfind(|point| phases.contains(&point.phase.as_str()));
            of.map_or(0.0, |point| point.minute)
        };
        let end_of_weld_min = ends(&["heating", "even", "interpass", "arc", "pause"]);
        let held_min = ends(&["hold"]);
        let axis = axis(&curve, end_of_weld_min, held_min.max(end_of_weld_min), last.minute);
        let limits = plan.limits();
        let spans = |phase| spans(&curve, phase);
        let arcs = spans("arc");
        let by_arc = |minute: f64| {
            arcs.iter().any(|&(from, to)| {
                let (from, to) = (curve[from].minute, curve[to].minute + NO_FIGURE_MIN);
                (from..=to).contains(&minute)
            })
        };
        let hottest_c = curve
            .iter()
            .filter(|point| !by_arc(point.minute))
            .fold(limits.ceiling_c.unwrap_or(0.0), |most, point| most.max(point.hottest_c));
        let unit = pen.show.units.temperature;
        let top_c = (((hottest_c + 10.0) / 50.0).ceil() * 50.0).clamp(100.0, 1500.0);
        let at = |&(from, to): &(usize, usize)| (axis.x(curve[from].minute), axis.x(curve[to].minute));
        let run = |(nth, span): (usize, &(usize, usize))| PictureRun {
            span: at(span),
            // The last point before the arc: under the arc the weld has no figure.
            start_c: {
                let before = curve[span.0.saturating_sub(1)];
                (before.coldest_c, before.hottest_c)
            },
            below: limits.minimum_c.is_some_and(|minimum_c| curve[span.1].coldest_c < minimum_c),
            number: pen.show.number((nth + 1) as f64, 0),
        };
        let line = |of: fn(&CurvePoint) -> f64, near_arc: bool| {
            let known = |point: &&CurvePoint| {
                let figure = of(point);
                (point.minute, (figure.is_finite() && (near_arc || !by_arc(point.minute))).then_some(figure))
            };
            axis.curve(curve.iter().map(known))
        };
        Some(Self {
            end_of_weld: axis.x(end_of_weld_min),
            held: (held_min > end_of_weld_min).then(|| (axis.x(end_of_weld_min + 1e-6), axis.x(held_min))),
            minimum_c: limits.minimum_c,
            maximum_c: limits.maximum_c,
            ceiling_c: limits.ceiling_c,
            ceiling: plan.ceiling.as_ref().map_or_else(String::new, |limit| {
                pen.words.with("window-ceiling", &[("figure", shown(pen, plan, limit).0)])
            }),
            top_c,
            degrees: degrees(pen, plan, (0.0, top_c), 100.0),
            unit: unit.symbol().to_owned(),
            flames: spans("heating").iter().map(at).collect(),
            runs: arcs.iter().enumerate().map(run).collect(),
            coldest: line(|point| point.coldest_c, true),
            weld: line(|point| point.hottest_c, false),
            times: times(pen, &axis),
            legend: LEGEND
                .iter()
                .copied()
                .chain((!plan.turns.is_empty()).then_some("cycle-legend-turns"))
                .map(|key| pen.words.get(key))
                .collect(),
            turns: plan.turns.iter().filter_map(|turn| turned(pen, turn)).collect(),
            parts: axis.parts.iter().map(|part| (part.left, part.right)).collect(),
        })
    }
}

fn turned(pen: &Pen<'_>, turn: &TurnCopy) -> Option<(f64, f64, f64, String)> {
    let known = [turn.at_c, turn.low_c, turn.high_c].iter().all(|at_c| at_c.is_finite());
    let key = match turn.id.as_str() {
        "ms" => "cycle-turn-ms.mark",
        "m90" => "cycle-turn-m90.mark",
        _ => return None,
    };
    let figure = pen.show.temperature(turn.at_c).main;
    known.then(|| (turn.at_c, turn.low_c, turn.high_c, pen.words.with(key, &[("figure", &figure)])))
}

/// The axis of minutes: heat and weld, post-heat, cooling; a long flame apart.
fn axis(curve: &[&CurvePoint], end_of_weld_min: f64, held_min: f64, last_min: f64) -> Axis {
    let flame = curve.iter().position(|point| point.phase != "heating").map_or(0.0, |at| curve[at].minute);
    let (held, cooling) = (held_min - end_of_weld_min, last_min - held_min);
    if flame > LONG_FLAME_MIN {
        return Axis::of(&[(flame, 0.25), (end_of_weld_min - flame, 0.4), (held, 0.13), (cooling, 0.22)]);
    }
    Axis::of(&[(end_of_weld_min, 0.64), (held, 0.14), (cooling, 0.22)])
}

/// The first and the last point of each time that a phase lasts.
fn spans(curve: &[&CurvePoint], phase: &str) -> Vec<(usize, usize)> {
    let mut found: Vec<(usize, usize)> = Vec::new();
    for at in (0..curve.len()).filter(|&at| curve[at].phase == phase) {
        match found.last_mut() {
            Some(last) if last.1 + 1 == at => last.1 = at,
            _ => found.push((at, at)),
        }
    }
    found
}

/// Hours and minutes since the first flame.
fn times(pen: &Pen<'_>, axis: &Axis) -> Vec<(f64, String, bool)> {
    let clock = |minute: f64| {
        let whole = minute.round().max(0.0);
        format!("{}:{:02}", pen.show.number((whole / 60.0).floor(), 0), whole % 60.0)
    };
    let ends = axis.parts.iter().map(|part| (part.right, clock(part.to_min), true));
    let first = axis.parts.first().map(|part| (part.left, clock(part.from_min), false));
    first.into_iter().chain(ends).collect()
}
