//! The room between bore and pin against the temperature of the hub.

use super::chart::{Frame, band, dashed, holds, path, points, ticks};
use crate::app::rows::model;
use crate::app::screen_values::float;
use crate::app::ui;
use crate::questions::FitDrawing;
use crate::report::{Pen, degrees_up};
use crate::units::LengthUnit;

/// A thousandth of an inch, µm.
const THOU_UM: f64 = 25.4;

fn frame(fit: &FitDrawing) -> Frame {
    let to_c = fit.tightest.last().map_or(fit.shop_c + 50.0, |(hub_c, _)| *hub_c);
    let top = fit.tightest.iter().map(|(_, room_um)| *room_um).fold(0.0, f64::max);
    let high_um = (1.6 * fit.wanted_um).max(top.min(3.5 * fit.wanted_um.max(fit.tight_um)));
    Frame { across: (fit.shop_c, to_c), up: (-1.15 * fit.tight_um.max(1.0), high_um.max(1.0)) }
}

/// The chart.
pub(super) fn chart(pen: &Pen<'_>, fit: &FitDrawing) -> ui::BenchChart {
    let frame = frame(fit);
    let (tightest, loosest) = (frame.inside(&fit.tightest), frame.inside(&fit.loosest));
    let single = fit.tightest == fit.loosest;
    let degrees = |at_c: f64| pen.show.temperature(at_c).main;
    let fine = |room_um: f64| pen.show.fine(room_um).main;
    let place = |at_c: f64| Some((frame.x(at_c), at_c)).filter(|(x, _)| holds(*x));
    let mark = |found: Option<(f64, f64)>, key: &str| match found {
        Some((x, at_c)) => (float(x), pen.words.with(key, &[("at", &degrees(at_c))]).into()),
        None => (-1.0, "".into()),
    };
    let needed = fit.needed_c.and_then(place);
    let (line_at, line_label) =
        mark(fit.afterwards.and_then(|(both_c, _)| place(both_c)), "bench-fit-preheat-mark");
    let (stop_at, stop_label) = mark(place(fit.ceiling_c), "bench-fit-ceiling-mark");
    let spoken = match fit.needed_c {
        Some(needed_c) => {
            let said = [
                ("tight", fine(fit.tight_um)),
                ("shop", degrees(fit.shop_c)),
                ("room", fine(fit.wanted_um)),
                ("needed", degrees_up(pen, needed_c).main),
            ];
            let locally = fit.needed_locally_c.map(|locally_c| degrees_up(pen, locally_c).main);
            let mut said: Vec<(&str, &str)> =
                said.iter().map(|(name, text)| (*name, text.as_str())).collect();
            said.push(("locally", locally.as_deref().unwrap_or_default()));
            let key = match (fit.locally.is_empty(), &locally) {
                (true, _) => "bench-fit-chart-spoken",
                (false, Some(_)) => "bench-fit-chart-spoken-local",
                (false, None) => "bench-fit-chart-spoken-never",
            };
            pen.words.with(key, &said)
        }
        None => pen.words.get("bench-fit-beyond"),
    };
    let inches = pen.show.units.length == LengthUnit::Inch;
    let unit = pen.show.units.temperature;
    let unit_um = if inches { THOU_UM } else { 1.0 };
    let across = (unit.from_c(frame.across.0), unit.from_c(frame.across.1));
    ui::BenchChart {
        title: pen.words.get(if inches { "bench-fit-axis-inch" } else { "bench-fit-axis" }).into(),
        x_title: pen.words.with("bench-fit-axis-hub", &[("unit", unit.symbol())]).into(),
        spoken: spoken.into(),
        first: path(&tightest).into(),
        first_points: points(&tightest),
        second_points: points(if single { &[] } else { &loosest }),
        first_label: pen.words.get("bench-fit-line-tightest").into(),
        second: if single { "".into() } else { path(&loosest).into() },
        second_label: pen.words.get("bench-fit-line-loosest").into(),
        band: if single { "".into() } else { band(&loosest, &tightest).into() },
        third: dashed(&frame.inside(&fit.locally)).into(),
        third_label: pen.words.get("bench-fit-line-local").into(),
        below_at: float(frame.y(0.0)),
        below_label: pen.words.get("bench-fit-tight").into(),
        level_at: float(frame.y(fit.wanted_um)),
        level_label: pen.words.with("bench-fit-wanted", &[("length", &fine(fit.wanted_um))]).into(),
        mark_at: needed.map_or(-1.0, |(x, _)| float(x)),
        mark_level: float(frame.y(fit.wanted_um)),
        mark_label: needed.map_or_else(String::new, |(_, needed_c)| degrees_up(pen, needed_c).main).into(),
        line_at,
        line_label,
        stop_at,
        stop_label,
        x_ticks: model(ticks(pen, across, |number| frame.x(unit.to_c(number)))),
        y_ticks: model(ticks(pen, (frame.up.0 / unit_um, frame.up.1 / unit_um), |number| {
            frame.y(number * unit_um)
        })),
    }
}
