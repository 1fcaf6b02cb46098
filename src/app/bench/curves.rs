//! Curves of questions whose answer runs along one of their inputs: the question itself is asked at each
//! point.

use super::chart::{Frame, Point, band, bare, path, ticks};
use crate::app::rows::model;
use crate::app::screen_values::float;
use crate::app::ui;
use crate::engine::Outcome;
use crate::questions::{Answers, Given, Question};
use crate::report::Pen;

/// Points of a curve.
const POINTS: u32 = 24;
/// So far to each side of a temperature a curve over temperatures runs, K.
const ASIDE_K: f64 = 75.0;
/// The hours of a curve are drawn up to so many times the answer.
const TIMES: f64 = 3.0;

/// The curve of a question for what is given; none where it has no curve, or no answer.
pub(super) fn chart(pen: &Pen<'_>, question: &'static Question, given: &Answers) -> Option<ui::BenchChart> {
    let full = question.complete(given).ok()?;
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

/// The hours that the hydrogen takes, the hotter the part is kept.
fn removal(pen: &Pen<'_>, question: &Question, given: &Answers) -> Option<ui::BenchChart> {
    const ANSWERS: [&str; 2] = ["hydrogen-time-middle", "hydrogen-time-mean"];
    let here_c = given.number("temperature").ok()?;
    let now = at(question, given, "temperature", here_c, ANSWERS[0])?.value?;
    let line = |answer: &str| -> Vec<Point> {
        between(here_c - ASIDE_K, here_c + ASIDE_K)
            .filter_map(|at_c| Some((at_c, at(question, given, "temperature", at_c, answer)?.value?)))
            .collect()
    };
    let [middle, mean] = ANSWERS.map(line);
    let frame = Frame { across: (middle.first()?.0, middle.last()?.0), up: (0.0, TIMES * now) };
    let (first, second) = (frame.inside(&middle), frame.inside(&mean));
    let unit = pen.show.units.temperature;
    let (at, hours) = (pen.show.temperature(here_c).main, pen.show.number(now, 1));
    let across = (unit.from_c(frame.across.0), unit.from_c(frame.across.1));
    Some(ui::BenchChart {
        title: pen.words.get("bench-curve-hydrogen").into(),
        x_title: pen.words.with("bench-curve-temperature", &[("unit", unit.symbol())]).into(),
        spoken: pen.words.with("bench-curve-hydrogen-spoken", &[("at", &at), ("hours", &hours)]).into(),
        first: path(&first).into(),
        first_label: pen.words.get("bench-curve-hydrogen-middle").into(),
        second: path(&second).into(),
        second_label: pen.words.get("bench-curve-hydrogen-mean").into(),
        mark_at: float(frame.x(here_c)),
        mark_level: float(frame.y(now)),
        mark_label: at.into(),
        x_ticks: model(ticks(pen, across, |number| frame.x(unit.to_c(number)))),
        y_ticks: model(ticks(pen, frame.up, |number| frame.y(number))),
        ..bare()
    })
}
