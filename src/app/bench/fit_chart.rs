//! The room between bore and pin against the temperature of the hub, as lines to be drawn.

use std::fmt::Write;

use crate::app::rows::model;
use crate::app::screen_values::float;
use crate::app::ui;
use crate::questions::FitDrawing;
use crate::report::Pen;
use crate::units::{LengthUnit, TemperatureUnit};

/// The paths are drawn in a square of this side, which is stretched to its place.
const SIDE: f64 = 1000.0;
/// A thousandth of an inch, µm.
const THOU_UM: f64 = 25.4;

/// The part of the world that is drawn.
struct Frame {
    from_c: f64,
    to_c: f64,
    low_um: f64,
    high_um: f64,
}

impl Frame {
    fn of(fit: &FitDrawing) -> Self {
        let to_c = fit.tightest.last().map_or(fit.shop_c + 50.0, |(hub_c, _)| *hub_c);
        let top = fit.tightest.iter().map(|(_, room_um)| *room_um).fold(0.0, f64::max);
        Self {
            from_c: fit.shop_c,
            to_c,
            low_um: -1.15 * fit.tight_um.max(1.0),
            high_um: (1.6 * fit.wanted_um).max(top.min(3.5 * fit.wanted_um.max(fit.tight_um))),
        }
    }

    fn x(&self, hub_c: f64) -> f64 {
        (hub_c - self.from_c) / (self.to_c - self.from_c)
    }

    fn y(&self, room_um: f64) -> f64 {
        (self.high_um - room_um) / (self.high_um - self.low_um)
    }

    fn holds(&self, at: f64) -> bool {
        (0.0..=1.0).contains(&at)
    }

    /// The points of a line inside the frame, where it leaves it cut at the edge.
    fn inside(&self, line: &[(f64, f64)]) -> Vec<(f64, f64)> {
        let mut made: Vec<(f64, f64)> = Vec::new();
        let mut before: Option<(f64, f64)> = None;
        for &(hub_c, room_um) in line {
            let here = (self.x(hub_c), self.y(room_um));
            if self.holds(here.1) {
                made.push(here);
            } else if let Some((x, y)) = before.filter(|(_, y)| self.holds(*y)) {
                let edge = if here.1 < 0.0 { 0.0 } else { 1.0 };
                made.push((x + (here.0 - x) * (edge - y) / (here.1 - y), edge));
            }
            before = Some(here);
        }
        made
    }
}

fn path(points: impl Iterator<Item = (f64, f64)>) -> String {
    let mut made = String::new();
    for (at, (x, y)) in points.enumerate() {
        let _ = write!(made, "{} {:.1} {:.1} ", if at == 0 { 'M' } else { 'L' }, x * SIDE, y * SIDE);
    }
    made
}

/// The chart.
pub(super) fn chart(pen: &Pen<'_>, fit: &FitDrawing) -> ui::RoomChart {
    let frame = Frame::of(fit);
    let (tightest, loosest) = (frame.inside(&fit.tightest), frame.inside(&fit.loosest));
    let single = fit.tightest == fit.loosest;
    let mut band = loosest.clone();
    // The corner where the looser line has left the frame already.
    if let (Some((_, y)), Some(&last)) = (loosest.last(), tightest.last())
        && *y <= 0.0
    {
        band.push((last.0, 0.0));
    }
    band.extend(tightest.iter().rev());
    let degrees = |at_c: f64| pen.show.temperature(at_c).main;
    let fine = |room_um: f64| pen.show.fine(room_um).main;
    let needed = fit.needed_c.map(|needed_c| (frame.x(needed_c), needed_c)).filter(|(x, _)| frame.holds(*x));
    let preheat =
        fit.afterwards.map(|(both_c, _)| (frame.x(both_c), both_c)).filter(|(x, _)| frame.holds(*x));
    let ceiling = Some((frame.x(fit.ceiling_c), fit.ceiling_c)).filter(|(x, _)| frame.holds(*x));
    let mark = |found: Option<(f64, f64)>, key: &str| match found {
        Some((x, at_c)) => (float(x), pen.words.with(key, &[("at", &degrees(at_c))]).into()),
        None => (-1.0, "".into()),
    };
    let needed_at = needed.map_or(-1.0, |(x, _)| float(x));
    let needed_label = needed.map_or_else(String::new, |(_, needed_c)| degrees(needed_c)).into();
    let (preheat_at, preheat_label) = mark(preheat, "bench-fit-preheat-mark");
    let (ceiling_at, ceiling_label) = mark(ceiling, "bench-fit-ceiling-mark");
    let spoken = match fit.needed_c {
        Some(needed_c) => pen.words.with(
            "bench-fit-chart-spoken",
            &[
                ("tight", fine(fit.tight_um).as_str()),
                ("shop", degrees(fit.shop_c).as_str()),
                ("room", fine(fit.wanted_um).as_str()),
                ("needed", degrees(needed_c).as_str()),
            ],
        ),
        None => pen.words.get("bench-fit-beyond"),
    };
    let inches = pen.show.units.length == LengthUnit::Inch;
    ui::RoomChart {
        title: pen.words.get(if inches { "bench-fit-axis-inch" } else { "bench-fit-axis" }).into(),
        x_title: pen
            .words
            .with("bench-fit-axis-hub", &[("unit", pen.show.units.temperature.symbol())])
            .into(),
        spoken: spoken.into(),
        tightest: path(tightest.into_iter()).into(),
        loosest: if single { "".into() } else { path(loosest.into_iter()).into() },
        band: if single { "".into() } else { format!("{}Z", path(band.into_iter())).into() },
        zero_at: float(frame.y(0.0)),
        wanted_at: float(frame.y(fit.wanted_um)),
        wanted_label: pen.words.with("bench-fit-wanted", &[("length", &fine(fit.wanted_um))]).into(),
        needed_at,
        needed_label,
        preheat_at,
        preheat_label,
        ceiling_at,
        ceiling_label,
        x_ticks: model(x_ticks(pen, &frame)),
        y_ticks: model(y_ticks(pen, &frame)),
    }
}

/// A round step of which four or five lie in a span.
fn step(span: f64) -> f64 {
    let power = 10_f64.powf((span / 5.0).log10().floor());
    let round = [1.0, 2.0, 5.0, 10.0].map(|round| round * power);
    round.into_iter().find(|step| span / step <= 5.5).unwrap_or(10.0 * power)
}

/// Round numbers of a span, each with its place.
fn round_numbers(pen: &Pen<'_>, (from, to): (f64, f64), at: impl Fn(f64) -> f64) -> Vec<ui::ChartTick> {
    let step = step(to - from);
    let first = (from / step - 1e-9).ceil();
    (0..8)
        .map(|count| (first + f64::from(count)) * step)
        .take_while(|number| *number <= to + 1e-9)
        .map(|number| ui::ChartTick { at: float(at(number)), label: pen.show.number(number, 2).into() })
        .collect()
}

fn x_ticks(pen: &Pen<'_>, frame: &Frame) -> Vec<ui::ChartTick> {
    let unit: TemperatureUnit = pen.show.units.temperature;
    let span = (unit.from_c(frame.from_c), unit.from_c(frame.to_c));
    round_numbers(pen, span, |number| frame.x(unit.to_c(number)))
}

fn y_ticks(pen: &Pen<'_>, frame: &Frame) -> Vec<ui::ChartTick> {
    let unit_um = if pen.show.units.length == LengthUnit::Inch { THOU_UM } else { 1.0 };
    let span = (frame.low_um / unit_um, frame.high_um / unit_um);
    round_numbers(pen, span, |number| frame.y(number * unit_um))
}
