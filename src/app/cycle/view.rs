//! The page of the heat cycle as rows of the screen: pure mappers.

use slint::SharedString;

use super::seen::Seen;
use super::{chart, chart_words, events, figures, section};
use crate::app::form::parts::result_part;
use crate::app::rows::{model, put};
use crate::app::screen_values::float;
use crate::app::{State, ui};
use crate::engine::EngineError;
use crate::engine::heat_cycle::{FlowLever, NoCycle, Refusal};
use crate::questions;
use crate::report::{
    CycleTold, Pen, by_heat, flame_minutes, in_both, is_preliminary, longest_minutes, minutes_between,
    minutes_left, no_cycle_words, turn_lines,
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
            let said = pen.words.with(&key, &[("flame", &flame), ("wait", &wait), ("left", &left)]);
            if is_preliminary(flames) {
                pen.words.list(List::Sentences, &[pen.words.get("cycle-working-finer"), said])
            } else {
                said
            }
        }
    };
    RowLine { note }
}

/// What the page shows at its top.
pub(super) fn fill(
    adapter: &ui::CycleAdapter<'_>,
    state: &State,
    seen: Option<&Seen>,
    why: Option<&NoCycle>,
) {
    let pen = state.pen();
    // Figures of the coarse grid stand while the fine one is worked out, and are not the last word.
    adapter.set_busy_text(state.word(if seen.is_some() { "cycle-working-finer" } else { "cycle-working" }));
    put(&adapter.get_figures(), seen.map_or_else(Vec::new, |seen| figures::figures(state, seen)));
    adapter.set_warnings(model(
        seen.map_or_else(Vec::new, |seen| warnings(&pen, seen)).into_iter().map(SharedString::from).collect(),
    ));
    adapter.set_notes(model(seen.map_or_else(Vec::new, |seen| notes(&pen, seen))));
    let (kind, refused) = match (seen, why) {
        (Some(_), _) => (ui::CycleKind::Known, ui::FigureView::default()),
        (None, Some(NoCycle::Refused(refusal))) => (ui::CycleKind::Refused, refused(&pen, *refusal)),
        (None, Some(why)) => {
            let note = no_cycle_words(&pen, why).unwrap_or_else(|| pen.words.get("cycle-nothing-to-heat"));
            (ui::CycleKind::Asks, ui::FigureView { note: note.into(), ..ui::FigureView::default() })
        }
        (None, None) => (ui::CycleKind::Working, ui::FigureView::default()),
    };
    adapter.set_refused(refused);
    adapter.set_kind(kind);
    let cycle = state.cycle.borrow();
    let helps = if kind == ui::CycleKind::Refused { cycle.levers() } else { &[] };
    adapter
        .set_levers(model(helps.iter().enumerate().map(|(at, lever)| lever_row(&pen, at, lever)).collect()));
}

/// A refusal as large as an answer: where it stops, and why.
fn refused(pen: &Pen<'_>, refusal: Refusal) -> ui::FigureView {
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
    view
}

/// A flow that gets there, with its minutes.
fn lever_row(pen: &Pen<'_>, at: usize, lever: &FlowLever) -> ui::PartRow {
    let flow = in_both(pen, &pen.show.gas_flow(lever.flow_m3_per_h));
    let key = if at == 0 { "cycle-lever-flow" } else { "cycle-lever-flow.twice" };
    let minutes = minutes_between(pen, lever.quick_min, lever.slow_min);
    let cylinders = lever
        .cylinders
        .map_or_else(String::new, |count| pen.words.count("cycle-lever-cylinders", count, &[]));
    result_part(&format!("lever-{at}"), pen.words.with(key, &[("flow", &flow)]), minutes, cylinders)
}

/// What was assumed, and what the figures are not; what does not hold stands above.
fn notes(pen: &Pen<'_>, seen: &Seen) -> Vec<SharedString> {
    let said = questions::cycle_reply(&seen.flames, &seen.found).notes;
    let told = said.into_iter().filter(|note| !["heat-again", "heat-no-time"].contains(note));
    told.map(|note| pen.words.get(&format!("note-{note}")).into()).collect()
}

/// What does not hold.
fn warnings(pen: &Pen<'_>, seen: &Seen) -> Vec<String> {
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
    said
}

/// The words of the pictures that are the same at every moment.
pub(super) fn fill_pictures(adapter: &ui::CycleAdapter<'_>, state: &State, seen: &Seen) {
    let pen = state.pen();
    let unit = pen.show.units.temperature.symbol();
    adapter.set_axes(pen.words.with("cycle-axes", &[("unit", unit)]).into());
    adapter.set_chart_height(float(chart::HEIGHT));
    adapter.set_hydrogen_head_at(float(chart::WET_HEAD_AT));
    let line = row_line(&pen, CycleTold::Known(&seen.flames, &seen.found)).note;
    adapter.set_chart_spoken(chart_words::spoken(&pen, seen, line, warnings(&pen, seen)).into());
    let turns = turn_lines(&pen, &seen.flames, &seen.found);
    adapter.set_turns(model(turns.into_iter().map(SharedString::from).collect()));
    adapter.set_alloyed(!seen.flames.carbon_steel);
    adapter.set_section_height(float(section::HEIGHT));
    adapter.set_small_height(float(section::SMALL_HEIGHT));
    adapter.set_fills(model(fills(&pen, seen)));
    let axis = chart::Chart::of(seen, pen.show.units.temperature).axis;
    let shown = events::shown(seen).into_iter().map(|shown| ui::ShownMoment {
        label: pen.words.with(shown.key, &[("run", &pen.show.number(shown.run as f64, 0))]).into(),
        time: pen.show.duration(shown.minute * 60.0).into(),
        at: float(axis.x(shown.minute)),
    });
    put(&adapter.get_shown(), shown.collect());
    let query = &seen.flames.cycle;
    let degrees = pen.show.minimum(query.post_heat.at_c, None).main;
    let put_in = pen.show.hydrogen(query.hydrogen_ml());
    let values = [("temperature", degrees.as_str()), ("put", &put_in)];
    adapter.set_held_note(pen.words.with("cycle-held-note", &values).into());
    adapter.set_held(model(figures::held(state, seen)));
    adapter.set_held_plan(figures::held_plan(state));
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
