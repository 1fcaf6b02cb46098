//! The piece that is open: its clock, its readings, its steps.

use super::desk::LogDesk;
use super::list::sign;
use super::told;
use crate::app::rows::{model, put};
use crate::app::screen_values::place_of;
use crate::app::{State, ui};
use crate::engine::reading::Verdict;
use crate::log::{Entry, Moment, PieceStatus, PieceView, PlanCopy, ReadingView, Record, StepCopy, StepDone};
use crate::report::{
    Pen, clock_line, piece_line, piece_words, reading_line, seen_words, step_head, step_what,
};
use crate::units::parts;
use crate::words::List;

/// So many readings are shown until all are asked for.
const SHOWN: usize = 6;

/// Fills what belongs to the piece.
pub(super) fn fill(adapter: &ui::LogAdapter<'_>, state: &State, desk: &LogDesk) {
    let standing = desk.open.as_ref().map(|open| open.log().standing());
    let job = standing.as_ref().and_then(|standing| Some((standing, standing.job.as_ref()?.now)));
    let overview = job.and_then(|(standing, _)| standing.overview(state.reference, Moment::now()));
    let piece = overview
        .as_ref()
        .and_then(|overview| overview.pieces.iter().find(|piece| Some(piece.thing.id) == desk.piece));
    adapter.set_has_piece(piece.is_some());
    let (Some((_, job)), Some(piece)) = (job, piece) else { return };
    let (pen, plan) = (state.pen(), &job.plan);
    let said = piece_line(&pen, plan, piece);
    let number = said.number.to_string();
    adapter.set_piece(piece.thing.id.to_string().into());
    adapter.set_piece_title(state.words.with("log-piece-title", &[("number", &number)]).into());
    adapter.set_clock(clock(&pen, piece));
    adapter.set_alarms(model(said.alarms.into_iter().map(Into::into).collect()));
    fill_readings(adapter, &pen, plan, desk, piece);
    let own = plan.steps.iter().filter(|step| !step.is_of_job());
    put(&adapter.get_steps(), own.map(|step| step_row(&pen, plan, piece, step)).collect());
    let next = piece.next_step(plan).filter(|_| !piece.thing.now.finished);
    adapter.set_next_step(said.next.into());
    let button =
        next.map(|step| state.words.with("log-step-is-done", &[("number", &step.number.to_string())]));
    adapter.set_next_step_button(button.unwrap_or_default().into());
    adapter.set_finished(piece.thing.now.finished);
    put(&adapter.get_piece_rows(), told::rows(state, plan, piece));
    let undo = if done_to_job(desk).is_none() { undo_label(&pen, desk) } else { String::new() };
    adapter.set_undo(undo.into());
}

fn clock(pen: &Pen<'_>, piece: &PieceView<'_>) -> ui::LogClock {
    let said = clock_line(pen, &piece.clock);
    let (figure, unit) = parts(&said.left);
    // A piece that nothing runs out for shows its word alone.
    let label = if figure.is_empty() { String::new() } else { pen.words.get("log-clock-label") };
    ui::LogClock {
        label: label.into(),
        figure: figure.into(),
        unit: unit.into(),
        says: said.says.into(),
        wait: said.wait.into(),
        why: if piece.status == PieceStatus::Done { "".into() } else { said.why.into() },
        word: piece_words(pen, piece.status).into(),
        sign: sign(piece.status),
    }
}

/// The sign of a verdict.
pub(super) const fn verdict_sign(verdict: Option<Verdict>) -> ui::LogSign {
    match verdict {
        Some(Verdict::In) => ui::LogSign::Inside,
        Some(Verdict::Below) => ui::LogSign::Under,
        Some(Verdict::Over) => ui::LogSign::Over,
        Some(Verdict::CannotTell) => ui::LogSign::Unsure,
        None => ui::LogSign::None,
    }
}

fn fill_readings(
    adapter: &ui::LogAdapter<'_>,
    pen: &Pen<'_>,
    plan: &PlanCopy,
    desk: &LogDesk,
    piece: &PieceView<'_>,
) {
    let count = piece.readings.len();
    let shown = if desk.all_readings { count } else { SHOWN.min(count) };
    let mut rows: Vec<ui::LogReadingRow> = Vec::new();
    let mut day = String::new();
    for reading in piece.readings.iter().rev().take(shown) {
        let mut row = reading_row(pen, plan, desk, reading);
        if row.day.as_str() == day {
            row.day = "".into();
        } else {
            day = row.day.to_string();
        }
        rows.push(row);
    }
    put(&adapter.get_readings(), rows);
    let more = if count > shown { pen.words.count("log-all-readings", count, &[]) } else { String::new() };
    adapter.set_more_readings(more.into());
}

fn reading_row(
    pen: &Pen<'_>,
    plan: &PlanCopy,
    desk: &LogDesk,
    reading: &ReadingView<'_>,
) -> ui::LogReadingRow {
    let said = reading_line(pen, plan, reading);
    let reasons = pen.words.list(List::Sentences, &said.reasons);
    let steel = pen.words.with("log-entry-steel", &[("range", &said.steel)]);
    let spoken: Vec<String> = [&said.time, &said.shown, &said.verdict_word, &said.when, &said.instrument]
        .into_iter()
        .filter(|text| !text.is_empty())
        .cloned()
        .collect();
    ui::LogReadingRow {
        id: reading.thing.id.to_string().into(),
        day: said.day.into(),
        time: said.time.into(),
        what: said.when.into(),
        place: pen.words.list(List::Comma, &[said.instrument, said.place]).into(),
        shown: said.shown.into(),
        steel: steel.into(),
        word: said.verdict_word.into(),
        reasons: reasons.into(),
        note: said.note.into(),
        sign: verdict_sign(reading.judged.verdict),
        open: desk.unfolded.contains(&reading.thing.id),
        part: place_of(reading.thing.now.member.and_then(|nth| usize::try_from(nth).ok())),
        spoken: pen.words.list(List::Comma, &spoken).into(),
    }
}

/// The id of a step on the screen.
pub(super) fn step_id(step: &StepCopy) -> String {
    format!("{}/{}", step.number, step.branch)
}

fn step_row(pen: &Pen<'_>, plan: &PlanCopy, piece: &PieceView<'_>, step: &StepCopy) -> ui::LogStepRow {
    let done =
        piece.steps.iter().find(|done| done.now.number == step.number && done.now.branch == step.branch);
    check_row(pen, plan, step, done.map(|done| done.now), &step.figure)
}

/// A step with its mark; where it is not done, with a figure or a word.
pub(super) fn check_row(
    pen: &Pen<'_>,
    plan: &PlanCopy,
    step: &StepCopy,
    done: Option<&StepDone>,
    figure: &str,
) -> ui::LogStepRow {
    ui::LogStepRow {
        id: step_id(step).into(),
        head: step_head(pen.words, plan, step).into(),
        number: step.number.to_string().into(),
        what: step_what(pen.words, plan, step).into(),
        figure: figure.into(),
        phase: step.phase.as_str().into(),
        done: done.is_some(),
        time: done.map(|done| done.at.day_and_time().1).unwrap_or_default().into(),
    }
}

/// What was done last here: the record, or what it took back.
fn done_last(desk: &LogDesk) -> Option<&Record> {
    let record = desk.last()?;
    let log = desk.open.as_ref().map(crate::log::OpenLog::log);
    let before = record.replaces.first().and_then(|id| log?.get(*id));
    if record.entry == Entry::Withdrawn { before } else { Some(record) }
}

/// The kind of what was done last here, where it was done to the job and to none of its pieces.
pub(super) fn done_to_job(desk: &LogDesk) -> Option<&'static str> {
    let record = done_last(desk)?;
    let job = desk.open.as_ref().map(crate::log::OpenLog::job);
    let of_job = match &record.entry {
        Entry::Trial(_) | Entry::Used(_) => true,
        Entry::Piece(_) => record.begins(),
        Entry::Step(step) => Some(step.piece) == job,
        _ => false,
    };
    of_job.then(|| record.entry.kind())
}

/// What the button names that takes back what was done last here; empty where nothing was.
pub(super) fn undo_label(pen: &Pen<'_>, desk: &LogDesk) -> String {
    let what = match done_last(desk).map(|record| &record.entry) {
        Some(Entry::Reading(reading)) => {
            pen.words.with("log-what-reading", &[("figure", &seen_words(pen, &reading.seen))])
        }
        Some(Entry::Step(step)) => pen.words.with("log-step-number", &[("number", &step.number.to_string())]),
        Some(other) => pen.words.get(&format!("log-kind-{}", other.kind())),
        None => return String::new(),
    };
    let key = if desk.taken_back { "log-undo.back" } else { "log-undo" };
    pen.words.with(key, &[("what", &what)])
}
