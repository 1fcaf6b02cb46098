//! Curves of questions whose answer runs along one of their inputs: the question itself is asked at each
//! point.

use super::chart::{Frame, Point, band, bare, path, points, ticks};
use crate::app::rows::model;
use crate::app::screen_values::float;
use crate::app::ui;
use crate::engine::Outcome;
use crate::questions::{Answers, Given, Question};
use crate::report::Pen;

/// Points of a curve.
const POINTS: u32 = 24;

/// The curve of a question for what is given; none where it has no curve, or no answer.
pub(super) fn chart(pen: &Pen<'_>, question: &'static Question, given: &Answers) -> Option<ui::BenchChart> {
    let full = question.filled(given).ok()?;
    match question.name {
        "part-cooling" => cooling(pen, question, &full),
        "hydrogen-removal" => removal(pen, question, &full),
        _ => None,
    }
}

/// What is answered with another figure for one input.
fn at(question: &Question, given: &Answers, key: &str, figure: f64, answer: &str) -> Option<Outcome> {
    let asked = given.clone().with(key, Given::Number(figure));
    question.ask(&asked).ok()?.answer(answer).cloned()
}

/// Figures from one to another, both ends counted.
fn between(from: f64, to: f64) -> impl Iterator<Item = f64> {
    (0..=POINTS).map(move |point| (to - from).mul_add(f64::from(point) / f64::from(POINTS), from))
}

/// The temperature of a part over the minutes: undisturbed, and with what halves them.
fn cooling(pen: &Pen<'_>, question: &Question, given: &Answers) -> Option<ui::BenchChart> {
    let from_c = given.number("from-temperature").ok()?;
    let to_c = given.number("to-temperature").ok()?;
    let mut slow: Vec<Point> = vec![(0.0, from_c)];
    let mut fast: Vec<Point> = slow.clone();
    for at_c in between(from_c, to_c).skip(1) {
        let found = at(question, given, "to-temperature", at_c, "cooling-minutes")?;
        slow.push((found.high.or(found.value)?, at_c));
        fast.push((found.low.or(found.value)?, at_c));
    }
    let (most_min, _) = *slow.last()?;
    let reach_k = from_c - to_c;
    let frame = Frame { across: (0.0, most_min * 1.05), up: (to_c - 0.15 * reach_k, from_c + 0.1 * reach_k) };
    let (first, second) = (frame.inside(&slow), frame.inside(&fast));
    let unit = pen.show.units.temperature;
    let minutes = |minutes: f64| pen.show.number(minutes, 1);
    let degrees = |at_c: f64| pen.show.temperature(at_c).main;
    let said = [
        ("from", degrees(from_c)),
        ("to", degrees(to_c)),
        ("low", minutes(fast.last()?.0)),
        ("high", minutes(most_min)),
    ];
    let said: Vec<(&str, &str)> = said.iter().map(|(name, text)| (*name, text.as_str())).collect();
    let up = (unit.from_c(frame.up.0), unit.from_c(frame.up.1));
    Some(ui::BenchChart {
        title: pen.words.with("bench-curve-cooling", &[("unit", unit.symbol())]).into(),
        x_title: pen.words.get("bench-curve-minutes").into(),
        spoken: pen.words.with("bench-curve-cooling-spoken", &said).into(),
        band: band(&first, &second).into(),
        first: path(&first).into(),
        first_points: points(&first),
        second_points: points(&second),
        first_label: pen.words.get("bench-curve-cooling-slow").into(),
        second: path(&second).into(),
        second_label: pen.words.get("bench-curve-cooling-fast").into(),
        level_at: float(frame.y(to_c)),
        level_label: degrees(to_c).into(),
        x_ticks: model(ticks(pen, frame.across, |number| frame.x(number))),
        y_ticks: model(ticks(pen, up, |number| frame.y(unit.to_c(number)))),
        ..bare()
    })
}

/// The share of the hydrogen that is left over the hours at the temperature.
fn removal(pen: &Pen<'_>, question: &Question, given: &Answers) -> Option<ui::BenchChart> {
    const LEFT: [&str; 2] = ["hydrogen-left-middle", "hydrogen-left-mean"];
    let (at_c, wanted) = (given.number("temperature").ok()?, given.number("left").ok()?);
    let hours = question.ask(given).ok()?.answer("hydrogen-time-middle")?.value?;
    let to_h = 1.15 * hours;
    let line = |answer: &str| -> Vec<Point> {
        // It falls as the root of the time at first: its points lie close there.
        let rest = between(0.0, 1.0)
            .skip(1)
            .map(|share| to_h * share * share)
            .filter_map(|time_h| Some((time_h, 100.0 * at(question, given, "time", time_h, answer)?.value?)));
        std::iter::once((0.0, 100.0)).chain(rest).collect()
    };
    let [middle, mean] = LEFT.map(line);
    let frame = Frame { across: (0.0, to_h), up: (0.0, 105.0) };
    let (first, second) = (frame.inside(&middle), frame.inside(&mean));
    let percent = pen.show.with_unit(100.0 * wanted, 1, "%");
    let said = [
        ("at", pen.show.temperature(at_c).main),
        ("hours", pen.show.number(hours, 1)),
        ("left", percent.clone()),
    ];
    let said: Vec<(&str, &str)> = said.iter().map(|(name, text)| (*name, text.as_str())).collect();
    Some(ui::BenchChart {
        title: pen.words.get("bench-curve-hydrogen").into(),
        x_title: pen.words.get("bench-curve-hours").into(),
        spoken: pen.words.with("bench-curve-hydrogen-spoken", &said).into(),
        first: path(&first).into(),
        first_points: points(&first),
        second_points: points(&second),
        first_label: pen.words.get("bench-curve-hydrogen-middle").into(),
        second: path(&second).into(),
        second_label: pen.words.get("bench-curve-hydrogen-mean").into(),
        band: band(&first, &second).into(),
        level_at: float(frame.y(100.0 * wanted)),
        level_label: percent.into(),
        x_ticks: model(ticks(pen, frame.across, |number| frame.x(number))),
        y_ticks: model(ticks(pen, (0.0, 100.0), |number| frame.y(number))),
        ..bare()
    })
}
