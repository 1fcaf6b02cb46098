//! The page of the heat cycle as rows of the screen: pure mappers.

use slint::SharedString;

use super::chart::{self, Chart};
use super::events::phase_key;
use super::section::{self, Mark, Section, Sign, Verdict};
use super::work::Seen;
use crate::app::rows::model;
use crate::app::screen_values::float;
use crate::app::{State, ui};
use crate::engine::EngineError;
use crate::engine::heat_cycle::{Flames, Matter, NoCycle, Phase, Refusal};
use crate::questions;
use crate::report::{
    CycleTold, Pen, by_heat, flame_minutes, hydrogen_left, longest_minutes, minutes_left, no_cycle_words,
};
use crate::words::List;

/// The row of the plan that leads to the page; without words there is none.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct RowLine {
    /// What it says; empty for no row.
    pub(crate) note: String,
}

/// What the plan says of its cycle in one line.
pub(super) fn row_line(pen: &Pen<'_>, told: CycleTold<'_>) -> RowLine {
    let note = match told {
        CycleTold::None(why) => no_cycle_words(pen, why).unwrap_or_default(),
        CycleTold::Working => pen.words.get("cycle-working"),
        CycleTold::Known(flames, found) => {
            let (flame, sure) = flame_minutes(pen, found);
            let wait = longest_minutes(pen, found.wait_min());
            let key = match (sure, minutes_left(pen, found)) {
                (true, Some(_)) => by_heat(flames, "cycle-row"),
                (true, None) => by_heat(flames, "cycle-row-no-time"),
                (false, _) => "cycle-row-not-sure".to_owned(),
            };
            let left = minutes_left(pen, found).unwrap_or_default();
            pen.words.with(&key, &[("flame", &flame), ("wait", &wait), ("left", &left)])
        }
    };
    RowLine { note }
}

/// Hours and minutes since the first flame.
fn clock(pen: &Pen<'_>, minute: f64) -> String {
    let whole = minute.round().max(0.0);
    let (hours, minutes) = ((whole / 60.0).floor(), whole % 60.0);
    format!("{}:{minutes:02}", pen.show.number(hours, 0))
}

/// What the page shows at its top.
pub(super) fn fill(
    adapter: &ui::CycleAdapter<'_>,
    state: &State,
    seen: Option<&Seen>,
    why: Option<&NoCycle>,
    flames: Option<&Flames>,
) {
    let pen = state.pen();
    adapter.set_busy_text(state.word("cycle-working"));
    adapter.set_figures(model(seen.map_or_else(Vec::new, |seen| figures(&pen, state, seen))));
    adapter.set_warnings(model(seen.map_or_else(Vec::new, |seen| warnings(&pen, seen))));
    adapter.set_notes(model(seen.map_or_else(Vec::new, |seen| notes(&pen, seen))));
    let (kind, refused) = match (seen, why) {
        (Some(_), _) => (ui::CycleKind::Known, ui::FigureView::default()),
        (None, Some(NoCycle::Refused(refusal))) => (ui::CycleKind::Refused, refused(&pen, *refusal, flames)),
        (None, Some(why)) => {
            let note = no_cycle_words(&pen, why).unwrap_or_else(|| pen.words.get("cycle-nothing-to-heat"));
            (ui::CycleKind::Asks, ui::FigureView { note: note.into(), ..ui::FigureView::default() })
        }
        (None, None) => (ui::CycleKind::Working, ui::FigureView::default()),
    };
    adapter.set_refused(refused);
    adapter.set_kind(kind);
}

/// A refusal as large as an answer: where it stops, and why.
fn refused(pen: &Pen<'_>, refusal: Refusal, flames: Option<&Flames>) -> ui::FigureView {
    let said = pen.words.get(&EngineError::from(refusal).key());
    let mut view = ui::FigureView { note: said.into(), ..ui::FigureView::default() };
    let found = match refusal {
        Refusal::MinimumNotReached { coldest_c, minutes, .. }
        | Refusal::ReserveNotReached { coldest_c, minutes, .. } => Some((coldest_c, minutes)),
        _ => None,
    };
    if let Some((coldest_c, minutes)) = found {
        let both = pen.show.temperature(coldest_c.floor());
        let (figure, unit) = crate::units::parts(&both.main);
        view.figure = figure.into();
        view.unit = unit.into();
        view.second = both.second.into();
        let time = pen.show.duration(minutes * 60.0);
        view.label = pen.words.with("cycle-refused-after", &[("time", &time)]).into();
    }
    if let (Refusal::MinimumNotReached { power_w: Some(power_w), .. }, Some(flames)) = (refusal, flames) {
        let flame_w = flames.heat.flame().map(|(fuel_w, _)| fuel_w * pen.reference.fuels.efficiency.likely);
        if let Some(times) = flame_w.map(|flame_w| power_w / flame_w).filter(|times| *times > 1.0) {
            let times = pen.show.number((times * 10.0).ceil() / 10.0, 1);
            view.basis_label = pen.words.with("cycle-refused-flow", &[("times", &times)]).into();
        }
    }
    view
}

/// The four figures.
fn figures(pen: &Pen<'_>, state: &State, seen: &Seen) -> Vec<ui::CycleFigure> {
    let (flames, found) = (&seen.flames, &seen.found);
    let cell = |phase: &str, key: &str, figure: String, note: String| {
        let (figure, unit) = crate::units::parts(&figure);
        ui::CycleFigure {
            phase: phase.into(),
            label: pen.words.get(key).into(),
            figure: figure.into(),
            unit: unit.into(),
            note: note.into(),
        }
    };
    let (flame, sure) = flame_minutes(pen, found);
    let goal = pen.show.minimum(flames.cycle.minimum_c + flames.cycle.reserve_k, None).main;
    let most = flames.cycle.interpass_c.map(|most_c| pen.show.maximum(most_c, None).main);
    let least = pen.show.minimum(flames.cycle.minimum_c, None).main;
    let to = |key: &str, figure: &str| pen.words.with(key, &[("figure", figure)]);
    let mut cells = vec![cell(
        "heat",
        &if sure { by_heat(flames, "cycle-cell-flame") } else { "cycle-cell-flame-least".to_owned() },
        flame,
        to("cycle-cell-flame-note", &goal),
    )];
    let wait = longest_minutes(pen, found.wait_min());
    let until = most.filter(|_| found.interpass_wait_min() + 1e-9 >= found.wait_min());
    let until =
        until.map_or_else(|| pen.words.get("cycle-cell-wait-even"), |most| to("cycle-cell-wait-note", &most));
    cells.push(cell("wait", "cycle-cell-wait", wait, until));
    let left = minutes_left(pen, found).unwrap_or_else(|| pen.words.get("cycle-cell-left-none"));
    cells.push(cell("weld", "cycle-cell-left", left, to("cycle-cell-left-note", &least)));
    let austenitic = state.planned().is_some_and(|planned| planned.read.job.weld.austenitic);
    let held = flames.cycle.post_heat.hours;
    if let Some(hydrogen) = hydrogen_left(pen, flames, found, held).filter(|_| !austenitic) {
        let of = to("cycle-cell-hydrogen-note", &pen.show.hydrogen(flames.cycle.hydrogen_ml()));
        cells.push(cell("cool", "cycle-cell-hydrogen", hydrogen, of));
    }
    cells
}

/// What was assumed, and what the figures are not; what does not hold stands above.
fn notes(pen: &Pen<'_>, seen: &Seen) -> Vec<SharedString> {
    let said = questions::cycle_reply(&seen.flames, &seen.found).notes;
    let told = said.into_iter().filter(|note| !["heat-again", "heat-no-time"].contains(note));
    told.map(|note| pen.words.get(&format!("note-{note}")).into()).collect()
}

/// What does not hold.
fn warnings(pen: &Pen<'_>, seen: &Seen) -> Vec<SharedString> {
    let (flames, found) = (&seen.flames, &seen.found);
    let minimum_c = flames.cycle.minimum_c;
    let mut said = Vec::new();
    if found.weak.is_none() {
        said.push(pen.words.get("note-torch-not-sure"));
    }
    if minutes_left(pen, found).is_none() {
        said.push(pen.words.get("cycle-left-none"));
    }
    if found.cycle.passes.iter().any(|pass| pass.coldest_end_c < minimum_c) {
        said.push(pen.words.get("note-heat-again"));
    }
    said.into_iter().map(SharedString::from).collect()
}

/// The chart's words, the section's, and the slider.
pub(super) fn fill_pictures(adapter: &ui::CycleAdapter<'_>, state: &State, seen: &Seen, minute: f64) {
    let pen = state.pen();
    let chart = Chart::of(seen);
    adapter.set_chart_height(float(chart::HEIGHT));
    adapter.set_chart_labels(model(chart_labels(&pen, seen, &chart)));
    adapter.set_chart_spoken(chart_spoken(&pen, seen).into());
    adapter.set_alloyed(!seen.flames.carbon_steel);
    adapter.set_section_height(float(section::HEIGHT));
    let Some(section) = Section::of(seen, minute) else { return };
    let time = pen.show.duration(section.field.minute * 60.0);
    let phase = pen.words.get(phase_key(section.field.phase));
    let moment = pen.words.with("cycle-moment-at", &[("time", &time), ("phase", &phase)]);
    adapter.set_moment(moment.as_str().into());
    adapter.set_moment_at(float(chart.axis.x(minute)));
    adapter.set_counted(section.counted());
    adapter.set_measure(model(measure_rows(&pen, &section)));
    adapter.set_section_line(section_line(&pen, &section).into());
    adapter.set_section_spoken(section_spoken(&pen, &section, &moment).into());
    adapter.set_fills(model(fills(&pen, seen)));
}

fn label(x: f64, y: f64, text: String, side: ui::LabelSide) -> ui::CycleLabel {
    ui::CycleLabel { x: float(x), y: float(y), text: text.into(), side, strong: false, stops: false }
}

/// The words on the chart, placed.
fn chart_labels(pen: &Pen<'_>, seen: &Seen, chart: &Chart<'_>) -> Vec<ui::CycleLabel> {
    let (query, cycle) = (&seen.flames.cycle, &seen.found.cycle);
    let unit = pen.show.units.temperature;
    let degrees = |at_c: f64| pen.show.number(unit.from_c(at_c), 0);
    let mut labels = Vec::new();
    let limits: Vec<f64> = [Some(query.minimum_c), query.interpass_c].into_iter().flatten().collect();
    for &limit_c in &limits {
        let label = label(0.0, chart.y_c(limit_c), degrees(limit_c), ui::LabelSide::Before);
        labels.push(ui::CycleLabel { strong: true, ..label });
    }
    let mut at_c = 0.0;
    while at_c <= chart.top_c {
        // A limit's own figure comes first.
        if limits.iter().all(|limit_c| (chart.y_c(*limit_c) - chart.y_c(at_c)).abs() > 13.0) {
            labels.push(label(0.0, chart.y_c(at_c), degrees(at_c), ui::LabelSide::Before));
        }
        at_c += 100.0;
    }
    if let Some(ceiling_c) = query.ceiling_c {
        let figure = pen.show.maximum(ceiling_c, None).main;
        let text = pen.words.with("window-ceiling", &[("figure", &figure)]);
        let label = label(1.0, chart.y_c(ceiling_c) + 10.0, text, ui::LabelSide::EndsAt);
        labels.push(ui::CycleLabel { stops: true, ..label });
    }
    let mut ml = 0.01;
    while ml <= chart.most_ml {
        labels.push(label(0.0, chart.y_ml(ml), pen.show.number(ml, 2), ui::LabelSide::Before));
        ml *= 10.0;
    }
    for (number, pass) in cycle.passes.iter().enumerate() {
        let middle = chart.axis.x(pass.start_min + pass.arc_min / 2.0);
        let wide = chart.axis.x(pass.start_min + pass.arc_min) - chart.axis.x(pass.start_min);
        if wide > 0.025 {
            let text = pen.show.number((number + 1) as f64, 0);
            labels.push(ui::CycleLabel { strong: true, ..label(middle, 8.0, text, ui::LabelSide::OnInk) });
        }
    }
    for part in &chart.axis.parts {
        let y = chart::HEIGHT + 10.0;
        let first = part.from_min <= 0.0;
        if first {
            labels.push(label(part.left, y, clock(pen, part.from_min), ui::LabelSide::StartsAt));
        }
        labels.push(label(part.right, y, clock(pen, part.to_min), ui::LabelSide::EndsAt));
    }
    labels
}

fn chart_spoken(pen: &Pen<'_>, seen: &Seen) -> String {
    let (flames, found) = (&seen.flames, &seen.found);
    let line = row_line(pen, CycleTold::Known(flames, found)).note;
    let runs = found.cycle.passes.len();
    let end = pen.show.duration(found.cycle.end_of_weld_min * 60.0);
    let cold = found.cycle.moments.last().map_or(0.0, |moment| moment.minute);
    let cold = pen.show.duration(cold * 60.0);
    let rest = pen.words.count("cycle-spoken", runs, &[("end", &end), ("cold", &cold)]);
    let mut said = vec![line, rest];
    said.extend(warnings(pen, seen).iter().map(ToString::to_string));
    pen.words.list(List::Sentences, &said)
}

/// The marks of a section with their figures.
pub(super) fn section_marks(pen: &Pen<'_>, marks: &[Mark], minimum_c: f64) -> Vec<ui::SectionMark> {
    let unit = pen.show.units.temperature;
    let mut number = 0;
    let mark = |mark: &Mark| {
        let text = if mark.sign == Sign::Dot {
            number += 1;
            pen.show.number(f64::from(number), 0)
        } else {
            // A minimum is judged by its cold end, a maximum by its hot end.
            let at_c = match mark.sign {
                Sign::Coldest => mark.at_c.floor(),
                Sign::Hottest => mark.at_c.ceil(),
                Sign::Level | Sign::Dot => mark.at_c,
            };
            pen.show.number(unit.from_c(at_c), 0)
        };
        ui::SectionMark {
            x: float(mark.at.0),
            y: float(mark.at.1),
            text: text.into(),
            sign: match mark.sign {
                Sign::Level => ui::SectionSign::Level,
                Sign::Dot => ui::SectionSign::Dot,
                Sign::Coldest => ui::SectionSign::Coldest,
                Sign::Hottest => ui::SectionSign::Hottest,
            },
            // The hottest stands only where it is above its maximum.
            stops: match mark.sign {
                Sign::Coldest => mark.at_c < minimum_c,
                Sign::Hottest => true,
                Sign::Level | Sign::Dot => false,
            },
        }
    };
    marks.iter().map(mark).collect()
}

fn measure_rows(pen: &Pen<'_>, section: &Section<'_>) -> Vec<ui::MeasureRow> {
    let keys = ["cycle-measure-top", "cycle-measure-foot"];
    let rows = section.dots_mm().into_iter().zip(keys).enumerate().map(|(at, (place, key))| ui::MeasureRow {
        number: pen.show.number((at + 1) as f64, 0).into(),
        place: pen.words.get(key).into(),
        figure: pen.show.temperature(section.at_c(place).round()).main.into(),
    });
    rows.collect()
}

const fn verdict_key(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::None => "cycle-fill-none",
        Verdict::Below => "cycle-fill-below",
        Verdict::Inside => "cycle-fill-inside",
        Verdict::Above => "cycle-fill-above",
        Verdict::Ceiling => "cycle-fill-ceiling",
    }
}

const fn matter_key(matter: Matter) -> &'static str {
    match matter {
        Matter::Second => "cycle-part-second",
        Matter::Weld => "cycle-part-weld",
        Matter::First | Matter::Void => "cycle-part-first",
    }
}

/// The coldest that counts, where, and what it is held against.
fn section_line(pen: &Pen<'_>, section: &Section<'_>) -> String {
    let Some((_, at_c, matter)) = section.extreme(true) else { return String::new() };
    let figure = pen.show.temperature(at_c.floor()).main;
    let (place, verdict) =
        (pen.words.get(matter_key(matter)), pen.words.get(verdict_key(section.verdict(at_c))));
    let values = [("figure", figure.as_str()), ("place", &place), ("verdict", &verdict)];
    pen.words.with("cycle-section-coldest", &values)
}

fn section_spoken(pen: &Pen<'_>, section: &Section<'_>, moment: &str) -> String {
    let mut said =
        vec![pen.words.with("cycle-section-at", &[("moment", moment)]), section_line(pen, section)];
    if let Some((_, at_c, _)) =
        section.extreme(false).filter(|_| !matches!(section.field.phase, Phase::Arc(_)))
    {
        let figure = pen.show.temperature(at_c.ceil()).main;
        said.push(pen.words.with("cycle-section-hottest", &[("figure", &figure)]));
    }
    let points = measure_rows(pen, section).into_iter().map(|row| {
        let values = [("number", row.number.as_str()), ("place", &row.place), ("figure", &row.figure)];
        pen.words.with("cycle-section-point", &values)
    });
    said.extend(points);
    pen.words.list(List::Sentences, &said)
}

/// What each fill says, with its limit.
fn fills(pen: &Pen<'_>, seen: &Seen) -> Vec<ui::FillRow> {
    let query = &seen.flames.cycle;
    let row = |fill, key: &str, figure: String| ui::FillRow {
        fill,
        label: pen.words.get(key).into(),
        figure: figure.into(),
    };
    let least = pen.show.minimum(query.minimum_c, None).main;
    let most = query.interpass_c.map(|most_c| pen.show.maximum(most_c, None).main);
    let mut rows = vec![row(ui::FillKind::Below, "cycle-fill-below", least)];
    rows.push(row(ui::FillKind::Inside, "cycle-fill-inside", String::new()));
    rows.extend(most.map(|most| row(ui::FillKind::Above, "cycle-fill-above", most)));
    let ceiling = query.ceiling_c.map(|ceiling_c| pen.show.maximum(ceiling_c, None).main);
    rows.extend(ceiling.map(|ceiling| row(ui::FillKind::Ceiling, "cycle-fill-ceiling", ceiling)));
    rows
}
