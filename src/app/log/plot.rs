//! The readings of a piece against its limits, by the clock, as a chart.

use slint::ComponentHandle;

use super::desk::LogDesk;
use super::piece::verdict_sign;
use super::plot_time::{TimeAxis, with_room};
use crate::app::rows::model;
use crate::app::screen_values::float;
use crate::app::{State, ui};
use crate::card::{Scale, scale};
use crate::engine::reading::{Verdict, When};
use crate::log::{Moment, PieceView, PlanCopy, ReadingView};
use crate::report::{Pen, band_words, verdict_words, when_words};
use crate::units::TemperatureUnit;
use crate::words::List;

/// Figures at the side keep so far from each other, as a share of the height.
const FIGURES_APART: f64 = 0.1;
/// Times under the narrowest chart, as a share of its width; a day is as long as two of them.
const TIMES_APART: f64 = 0.17;
const DAYS_APART: f64 = 0.28;
/// Numbers of the moments, likewise.
const NUMBERS_APART: f64 = 0.06;
/// So many readings are told to whoever does not see the chart: the last ones.
const TOLD: usize = 12;

/// Fills the chart of the piece that is open.
pub(super) fn fill(window: &ui::AppWindow, state: &State, desk: &LogDesk) {
    let adapter = window.global::<ui::LogPlot>();
    let standing = desk.open.as_ref().map(|open| open.log().standing());
    let plan = standing.as_ref().and_then(|standing| standing.job.as_ref()).map(|job| &job.now.plan);
    let overview = standing.as_ref().and_then(|of| of.overview(state.reference, Moment::now()));
    let piece =
        overview.as_ref().and_then(|all| all.pieces.iter().find(|of| Some(of.thing.id) == desk.piece));
    let view = plan.zip(piece).and_then(|(plan, piece)| view(&state.pen(), plan, piece));
    let view = view.unwrap_or_else(empty);
    adapter.set_view(view);
}

fn empty() -> ui::PlotView {
    ui::PlotView {
        ticks: model(Vec::new()),
        dots: model(Vec::new()),
        times: model(Vec::new()),
        spans: model(Vec::new()),
        cuts: model(Vec::new()),
        minimum_at: -1.0,
        maximum_at: -1.0,
        ceiling_at: -1.0,
        ..ui::PlotView::default()
    }
}

/// A reading that has a place on the chart.
struct Mark<'a> {
    reading: &'a ReadingView<'a>,
    at_c: f64,
}

/// The middle of what a reading says, or its one end.
fn mark<'a>(reading: &'a ReadingView<'a>) -> Option<Mark<'a>> {
    let band = &reading.thing.now.band;
    let at_c = f64::midpoint(band.low_c.or(band.high_c)?, band.high_c.or(band.low_c)?);
    at_c.is_finite().then_some(Mark { reading, at_c })
}

fn view(pen: &Pen<'_>, plan: &PlanCopy, piece: &PieceView<'_>) -> Option<ui::PlotView> {
    let marks: Vec<Mark<'_>> = piece.readings.iter().filter_map(mark).collect();
    let first = marks.first()?.reading.thing.now.at;
    let minutes: Vec<f64> = marks.iter().map(|mark| mark.reading.thing.now.at.minutes_since(first)).collect();
    let axis = TimeAxis::of(&minutes);
    let seen: Vec<f64> = marks.iter().map(|mark| mark.at_c).collect();
    let Scale { span_c: (low_c, high_c), figures } = scale(pen, plan, &seen);
    let y = |at_c: f64| (high_c - at_c) / (high_c - low_c).max(1e-9);
    let limits = plan.limits();
    let line = |at_c: Option<f64>| at_c.map(y).filter(|at| (0.0..=1.0).contains(at)).map_or(-1.0, float);
    let places: Vec<f64> = figures.iter().map(|figure| y(figure.0)).collect();
    // Limits come first among the figures.
    let order: Vec<usize> = (0..figures.len()).filter(|nth| (0.0..=1.0).contains(&places[*nth])).collect();
    let ticks = with_room(&places, &order, FIGURES_APART).into_iter().map(|nth| ui::PlotTick {
        at: float(places[nth]),
        label: figures[nth].1.as_str().into(),
        limit: figures[nth].2,
    });
    let times = times(&marks, &axis);
    let (spans, legend) = moments(pen, &marks, &axis);
    let one_sided = |mark: &Mark<'_>| {
        let band = &mark.reading.thing.now.band;
        band.low_c.is_none() || band.high_c.is_none()
    };
    let mut notes = vec![pen.words.get("card-plot-note")];
    notes.extend(marks.iter().any(one_sided).then(|| pen.words.get("log-plot-open")));
    let unit: TemperatureUnit = pen.show.units.temperature;
    Some(ui::PlotView {
        shown: true,
        unit: unit.symbol().into(),
        limits: limit_words(pen, plan).into(),
        minimum_at: line(limits.minimum_c),
        maximum_at: line(limits.maximum_c),
        ceiling_at: line(limits.ceiling_c),
        ticks: model(ticks.collect()),
        dots: model(marks.iter().zip(&axis.at).map(|(mark, x)| dot(mark, *x, y)).collect()),
        dated: times.iter().any(|time| !time.day.is_empty()),
        times: model(times),
        spans: model(spans),
        cuts: model(axis.cuts.iter().copied().map(float).collect()),
        legend: legend.into(),
        note: pen.words.list(List::Sentences, &notes).into(),
        spoken: spoken(pen, plan, &marks).into(),
    })
}

/// The limits as the chart names them; the working range where it has one.
fn limit_words(pen: &Pen<'_>, plan: &PlanCopy) -> String {
    let each =
        [("window-low", &plan.minimum), ("window-high", &plan.maximum), ("window-ceiling", &plan.ceiling)];
    let shown = each.into_iter().filter_map(|(key, limit)| {
        let limit = limit.as_ref()?;
        let figure = crate::report::limit_line(pen, plan, limit);
        Some(pen.words.with(key, &[("figure", &figure)]))
    });
    pen.words.list(List::Semicolon, &shown.collect::<Vec<_>>())
}

fn dot(mark: &Mark<'_>, x: f64, y: impl Fn(f64) -> f64) -> ui::PlotDot {
    let taken = mark.reading.thing.now;
    let (low, high) = (taken.band.low_c, taken.band.high_c);
    // An end beyond the frame has no cap there.
    let inside = |at: f64, beyond: f64| at.clamp(-beyond, 1.0 + beyond);
    let end = |at_c: Option<f64>, open: f64| float(at_c.map_or(open, |at_c| inside(y(at_c), 0.01)));
    let sign = match mark.reading.judged.verdict {
        // Outside the weld the range on the chart does not count.
        None => ui::LogSign::Todo,
        Some(Verdict::In) if !taken.when.in_welding() => ui::LogSign::Todo,
        verdict => verdict_sign(verdict),
    };
    ui::PlotDot {
        x: float(x),
        y: float(inside(y(mark.at_c), 0.0)),
        low: end(low, 1.0),
        high: end(high, 0.0),
        open_low: low.is_none(),
        open_high: high.is_none(),
        sign,
    }
}

/// The times under the chart: of each stretch of work its beginning, then its end where there is room.
fn times(marks: &[Mark<'_>], axis: &TimeAxis) -> Vec<ui::PlotTime> {
    let when = |nth: usize| marks[nth].reading.thing.now.at.day_and_time();
    let ends = axis.begins.iter().skip(1).map(|begin| begin - 1).chain(marks.len().checked_sub(1));
    let order: Vec<usize> = axis.begins.iter().copied().chain(ends).chain(0..marks.len()).collect();
    let shown = with_room(&axis.at, &order, TIMES_APART);
    let several = when(0).0 != when(marks.len() - 1).0;
    let mut day = String::new();
    let changes: Vec<usize> = shown
        .iter()
        .copied()
        .filter(|nth| {
            let own = when(*nth).0;
            let new = own != day;
            day = own;
            new && several
        })
        .collect();
    let days = with_room(&axis.at, &changes, DAYS_APART);
    let time = |nth: usize| {
        let (day, time) = when(nth);
        let day = if days.contains(&nth) { day } else { String::new() };
        ui::PlotTime { at: float(axis.at[nth]), label: time.into(), day: day.into() }
    };
    shown.into_iter().map(time).collect()
}

/// The moments of the work under the chart, each stretch with the number of its moment; and what the numbers
/// mean.
fn moments(pen: &Pen<'_>, marks: &[Mark<'_>], axis: &TimeAxis) -> (Vec<ui::PlotSpan>, String) {
    let mut known: Vec<When> = Vec::new();
    let mut spans: Vec<(usize, f64, f64)> = Vec::new();
    let mut before = None;
    for (mark, at) in marks.iter().zip(&axis.at) {
        let when = mark.reading.thing.now.when;
        let number = known.iter().position(|other| *other == when).unwrap_or_else(|| {
            known.push(when);
            known.len() - 1
        });
        match spans.last_mut() {
            Some(span) if before == Some(when) => span.2 = *at,
            _ => spans.push((number, *at, *at)),
        }
        before = Some(when);
    }
    let middles: Vec<f64> = spans.iter().map(|(_, from, to)| f64::midpoint(*from, *to)).collect();
    let numbered = with_room(&middles, &(0..spans.len()).collect::<Vec<_>>(), NUMBERS_APART);
    let row = |(nth, &(number, from, to)): (usize, &(usize, f64, f64))| ui::PlotSpan {
        from: float(from),
        to: float(to),
        number: if numbered.contains(&nth) { (number + 1).to_string() } else { String::new() }.into(),
    };
    let named = known.iter().enumerate().map(|(nth, when)| {
        let number = (nth + 1).to_string();
        pen.words.with("log-plot-moment", &[("number", &number), ("moment", &when_words(pen, *when))])
    });
    let legend = pen.words.list(List::Semicolon, &named.collect::<Vec<_>>());
    (spans.iter().enumerate().map(row).collect(), legend)
}

/// What the chart shows, in words: the limits, then the last readings.
fn spoken(pen: &Pen<'_>, plan: &PlanCopy, marks: &[Mark<'_>]) -> String {
    let told = marks.iter().skip(marks.len().saturating_sub(TOLD)).map(|mark| {
        let taken = mark.reading.thing.now;
        let values = [
            ("time", taken.at.day_and_time().1),
            ("moment", when_words(pen, taken.when)),
            ("range", band_words(pen, &taken.band)),
            ("verdict", verdict_words(pen, mark.reading.judged.verdict)),
        ];
        pen.words.with("log-plot-reading", &values.each_ref().map(|(key, text)| (*key, text.as_str())))
    });
    let said: Vec<String> = [limit_words(pen, plan)].into_iter().chain(told).collect();
    pen.words.list(List::Semicolon, &said)
}
