//! What belongs to the job as a whole: its own steps, and pieces that are added later.

use slint::{ComponentHandle, SharedString};
use std::rc::Rc;

use super::desk::LogDesk;
use super::entry::Wrong;
use super::form::{alone, field};
use super::kept::LogKept;
use super::piece::{check_row, done_to_job, step_id, undo_label};
use super::write::write;
use super::{photos, plot, told, used};
use crate::app::calls::{calls, calls_pair, calls_plain};
use crate::app::form::parts::plain_row;
use crate::app::rows::{model, put};
use crate::app::shell::refresh_screen;
use crate::app::{State, ui};
use crate::log::{Entry, Id, Moment, PieceEntry, PlanCopy, Standing};
use crate::units::{self, Within};

/// A job has at most so many pieces.
const MOST: usize = 1000;
const MORE: [LogKept; 3] = [LogKept::More, LogKept::MoreHeatA, LogKept::MoreHeatB];

/// Wires it, and what else belongs to the job.
pub(super) fn connect(window: &ui::AppWindow, state: &Rc<State>) {
    used::connect(window, state);
    photos::connect(window, state);
    let adapter = window.global::<ui::LogWork>();
    adapter.set_steps(model(Vec::new()));
    adapter.set_today(model(Vec::new()));
    adapter.set_more_rows(model(Vec::new()));
    adapter.on_step_toggled(calls(window, state, |window, state, id: SharedString| {
        turn_step(state, &id);
        refresh_screen(window, state);
    }));
    adapter.on_more_asked(calls_plain(window, state, |window, state| {
        add_pieces(state);
        refresh_screen(window, state);
    }));
    adapter.on_part_told(calls_pair(window, state, |window, state, id: SharedString, part: i32| {
        if let (Some(id), Ok(part)) = (Id::read(&id), u32::try_from(part)) {
            told::part_of_reading(state, id, part);
        }
        refresh_screen(window, state);
    }));
}

/// Fills what belongs to the job: its steps and pieces, amounts, photos, and the chart of the piece that is open.
pub(super) fn fill_all(window: &ui::AppWindow, state: &State) {
    {
        let desk = state.log.borrow();
        fill(&window.global::<ui::LogWork>(), state, &desk);
        used::fill(&window.global::<ui::LogUsed>(), state, &desk);
        plot::fill(window, state, &desk);
    }
    photos::fill(window, state, &mut state.log.borrow_mut());
}

fn fill(adapter: &ui::LogWork<'_>, state: &State, desk: &LogDesk) {
    let standing = desk.open.as_ref().map(|open| open.log().standing());
    let Some((standing, job)) = standing.as_ref().and_then(|of| Some((of, of.job.as_ref()?))) else { return };
    let plan = &job.now.plan;
    let pen = state.pen();
    let steps = standing.job_steps(Moment::now());
    let row = |step: &crate::log::JobStep<'_>| {
        let word = if step.step.is_daily() { state.words.get("log-each-day") } else { String::new() };
        ui::LogStepRow {
            head: "".into(),
            ..check_row(&pen, plan, step.step, step.done.first().map(|done| done.now), &word)
        }
    };
    put(&adapter.get_steps(), steps.iter().map(row).collect());
    let open = steps.iter().filter(|step| step.step.is_daily() && step.done.is_empty());
    put(&adapter.get_today(), open.map(row).collect());
    let done = done_to_job(desk);
    adapter.set_undo_of(done.unwrap_or_default().into());
    adapter.set_undo(if done.is_some() { undo_label(&state.pen(), desk) } else { String::new() }.into());
    let count = count(state, standing.pieces.len());
    let wrong = count.as_ref().err().map(|says| (LogKept::More, says.clone()));
    let row = more_row(state, plan, &wrong.into_iter().collect());
    adapter.set_more_open(row.open);
    put(&adapter.get_more_rows(), vec![row]);
    adapter.set_can_more(count.is_ok());
    let label = state.words.count("log-more-add", count.unwrap_or(1), &[]);
    adapter.set_more_label(label.into());
    if plan.members.len() > 1 {
        let names = plan.members.iter().enumerate();
        let names = names
            .map(|(nth, of)| crate::app::screen_values::choice(&nth.to_string(), of.name.as_str(), "", ""));
        let names: Vec<ui::ChoiceRow> = names.collect();
        if !slint::Model::iter(&adapter.get_parts()).eq(names.iter().cloned()) {
            adapter.set_parts(model(names));
        }
    } else {
        adapter.set_parts(model(Vec::new()));
    }
}

/// How many pieces are added, or what is wrong with what is typed.
fn count(state: &State, there: usize) -> Result<usize, String> {
    let text = LogKept::More.text(state);
    let most = MOST.saturating_sub(there).max(1);
    if text.trim().is_empty() {
        return Ok(1);
    }
    let count = units::count(&text, Within { low: 1.0, high: most as f64 });
    count.map(|count| usize::try_from(count).unwrap_or(1)).map_err(|problem| problem.say(&state.words))
}

fn more_row(state: &State, plan: &PlanCopy, wrong: &Wrong) -> ui::FormRow {
    let optional = state.word("form-optional");
    let number = ui::FieldRow { hint: "1".into(), ..field(state, LogKept::More, "log-form-pieces", wrong) };
    let heats = plan.members.iter().zip([LogKept::MoreHeatA, LogKept::MoreHeatB]).map(|(member, kept)| {
        let label = state.words.with("log-heat-of", &[("part", &member.name)]).into();
        let row = field(state, kept, "log-form-note", wrong);
        alone(ui::FieldRow { label, hint: optional.clone(), ..row })
    });
    let parts = [alone(number)].into_iter().chain(heats).collect();
    let row = plain_row(state, "log-more", String::new(), parts);
    ui::FormRow { problem: wrong.first().map(|(_, says)| says.clone()).unwrap_or_default().into(), ..row }
}

/// Adds pieces to the job that is open, numbered on.
fn add_pieces(state: &State) {
    let heats: Vec<String> =
        [LogKept::MoreHeatA, LogKept::MoreHeatB].map(|kept| kept.text(state).trim().to_owned()).to_vec();
    let heats = if heats.iter().all(String::is_empty) { Vec::new() } else { heats };
    let done = write(state, |standing, hand| {
        let Ok(count) = count(state, standing.pieces.len()) else { return Vec::new() };
        let first = next_number(standing);
        let numbers = first..first.saturating_add(u32::try_from(count).unwrap_or(1));
        let piece = |number| PieceEntry { number, heat_numbers: heats.clone(), ..PieceEntry::default() };
        numbers.map(|number| hand.begin(Entry::Piece(piece(number)))).collect()
    });
    if done {
        LogKept::set_all(state, &MORE.map(|kept| (kept, None)));
        state.open.borrow_mut().rows.remove("log-more");
    }
}

fn next_number(standing: &Standing<'_>) -> u32 {
    // A piece that was taken back keeps its number to itself: it may be put back.
    let gone = standing.withdrawn.iter().filter_map(|(_, said)| match said.map(|said| &said.entry) {
        Some(Entry::Piece(piece)) => Some(piece.number),
        _ => None,
    });
    standing.pieces.iter().map(|piece| piece.now.number).chain(gone).max().unwrap_or(0).saturating_add(1)
}

/// A step of the job is done, or is not after all.
fn turn_step(state: &State, id: &str) {
    write(state, |standing, hand| {
        let Some(job) = &standing.job else { return Vec::new() };
        let steps = standing.job_steps(hand.at);
        let step = steps.iter().find(|step| step_id(step.step) == id);
        step.map(|step| hand.turn_job_step(job.id, step)).unwrap_or_default()
    });
}
