//! The figures of the cycle's page, each with what it rests on: the four of the answer, the hydrogen
//! after so many hours of post-heat, and the plan's own post-heat.

use super::seen::Seen;
use crate::app::form::parts::result_part;
use crate::app::screen_values::basis_kind;
use crate::app::{Planned, State, ui};
use crate::engine::Outcome;
use crate::engine::post_heat::{Hold, outcomes};
use crate::questions::{self, Reply};
use crate::report::{
    BasisSheet, Figure, Pen, answer_sheet, basis_mark, by_heat, flame_minutes, held_rows, hydrogen_left,
    longest_minutes, minutes_left, range,
};
use crate::units::{Both, parts};

/// The answer of a plan's post-heat that its basis is asked for.
const HELD: &str = "post-heat-time";

/// One of the four figures.
struct Cell {
    phase: &'static str,
    /// The answer of the question that it is.
    answer: &'static str,
    label: String,
    figure: String,
    note: String,
}

fn cells(pen: &Pen<'_>, seen: &Seen, austenitic: bool) -> Vec<Cell> {
    let (flames, found) = (&seen.flames, &seen.found);
    let cell = |phase, answer, key: &str, figure, note| Cell {
        phase,
        answer,
        label: pen.words.get(key),
        figure,
        note,
    };
    let (flame, sure) = flame_minutes(pen, found);
    let goal = pen.show.minimum(flames.cycle.minimum_c + flames.cycle.reserve_k, None).main;
    let most = flames.cycle.interpass_c.map(|most_c| pen.show.maximum(most_c, None).main);
    let least = pen.show.minimum(flames.cycle.minimum_c, None).main;
    let to = |key: &str, figure: &str| pen.words.with(key, &[("figure", figure)]);
    let label =
        if sure { by_heat(&seen.flames, "cycle-cell-flame") } else { "cycle-cell-flame-least".to_owned() };
    let mut cells = vec![cell("heat", "heat-minutes", &label, flame, to("cycle-cell-flame-note", &goal))];
    let wait = longest_minutes(pen, found.wait_min());
    let until = most.filter(|_| found.interpass_wait_min() + 1e-9 >= found.wait_min());
    let until =
        until.map_or_else(|| pen.words.get("cycle-cell-wait-even"), |most| to("cycle-cell-wait-note", &most));
    cells.push(cell("wait", "heat-wait", "cycle-cell-wait", wait, until));
    let left = minutes_left(pen, found).unwrap_or_else(|| pen.words.get("cycle-cell-left-none"));
    cells.push(cell("weld", "heat-weld-by", "cycle-cell-left", left, to("cycle-cell-left-note", &least)));
    let held = flames.cycle.post_heat.hours;
    if let Some(hydrogen) = hydrogen_left(pen, flames, found, held).filter(|_| !austenitic) {
        let of = to("cycle-cell-hydrogen-note", &pen.show.hydrogen(flames.cycle.hydrogen_ml()));
        let answer = if held > 0.0 { "heat-hydrogen-held" } else { "heat-hydrogen-none" };
        cells.push(cell("cool", answer, "cycle-cell-hydrogen", hydrogen, of));
    }
    cells
}

fn reply(seen: &Seen) -> Reply {
    questions::cycle_reply(&seen.flames, &seen.found)
}

fn austenitic(state: &State) -> bool {
    state.planned().is_some_and(|planned| planned.read.job.weld.austenitic)
}

/// The four figures.
pub(super) fn figures(state: &State, seen: &Seen) -> Vec<ui::CycleFigure> {
    let (pen, reply) = (state.pen(), reply(seen));
    let row = |cell: Cell| {
        let (figure, unit) = parts(&cell.figure);
        let mark =
            reply.answer(cell.answer).map(|outcome| basis_mark(&pen, outcome.basis(&pen.reference.methods)));
        let mark = mark.unwrap_or_default();
        ui::CycleFigure {
            id: cell.answer.into(),
            phase: cell.phase.into(),
            label: cell.label.into(),
            figure: figure.into(),
            unit: unit.into(),
            note: cell.note.into(),
            basis_kind: basis_kind(&mark),
            basis_label: mark.label.into(),
        }
    };
    cells(&pen, seen, austenitic(state)).into_iter().map(row).collect()
}

/// What each hold leaves; none where the weld metal keeps its hydrogen.
pub(super) fn held(state: &State, seen: &Seen) -> Vec<ui::HeldRow> {
    if austenitic(state) {
        return Vec::new();
    }
    let rows = held_rows(&state.pen(), &seen.flames, &seen.found);
    let row = |row: crate::report::HeldRow| ui::HeldRow {
        label: row.held.into(),
        figure: row.left.into(),
        planned: row.planned,
    };
    rows.into_iter().map(row).collect()
}

/// The hold of the plan, by its published rules.
fn hold(planned: &Planned) -> Option<&Hold> {
    planned.plan.side.as_ref()?.post_heat.as_ref()?.answer.main.as_ref()
}

fn hold_words(pen: &Pen<'_>, hold: &Hold) -> String {
    let hours = pen.show.with_unit(hold.shown_h(), 1, "h");
    let (low, high) = (pen.show.minimum(hold.low_c, None).main, pen.show.maximum(hold.high_c, None).main);
    let values = [("hours", hours.as_str()), ("range", &range(pen, &low, &high))];
    pen.words.with("cycle-held-plan-figure", &values)
}

fn hold_outcome(pen: &Pen<'_>, planned: &Planned) -> Option<Outcome> {
    let answer = &planned.plan.side.as_ref()?.post_heat.as_ref()?.answer;
    outcomes(pen.reference, answer).into_iter().find(|outcome| outcome.name == HELD)
}

/// The plan's own post-heat beside them; empty where it has none.
pub(super) fn held_plan(state: &State) -> ui::PartRow {
    let pen = state.pen();
    let made = state.planned().and_then(|planned| {
        let (hold, outcome) = (hold(&planned)?, hold_outcome(&pen, &planned)?);
        let mark = basis_mark(&pen, outcome.basis(&pen.reference.methods));
        let part = result_part(HELD, pen.words.get("cycle-held-plan"), hold_words(&pen, hold), String::new());
        Some(ui::PartRow { basis_kind: basis_kind(&mark), basis_label: mark.label.into(), ..part })
    });
    made.unwrap_or_default()
}

/// The sheet of a figure.
pub(super) fn sheet(state: &State, seen: &Seen, name: &str) -> Option<BasisSheet> {
    let pen = state.pen();
    if name == HELD {
        let planned = state.planned()?;
        let outcome = hold_outcome(&pen, &planned)?;
        let mark = basis_mark(&pen, outcome.basis(&pen.reference.methods));
        let label = pen.words.get("cycle-held-plan");
        let words = hold_words(&pen, hold(&planned)?);
        return Some(answer_sheet(&pen, &outcome, Figure::in_words(HELD, label, words, String::new(), mark)));
    }
    let cell = cells(&pen, seen, austenitic(state)).into_iter().find(|cell| cell.answer == name)?;
    let reply = reply(seen);
    let outcome = reply.answer(name)?;
    let mark = basis_mark(&pen, outcome.basis(&pen.reference.methods));
    let both = Both { main: cell.figure, second: String::new() };
    let figure = Figure::new(outcome.name, cell.label, both, mark);
    let sheet = answer_sheet(&pen, outcome, Figure { note: cell.note, ..figure });
    Some(BasisSheet { sentence: pen.words.get("cycle-basis"), ..sheet })
}
