//! A job is opened, at the piece that wants the welder first.

use super::kept::LogKept;
use crate::app::State;
use crate::log::{Id, OpenLog};

/// Opens a job, at the piece that something is typed for or that wants the welder first; false where it
/// can't be read, and why is kept.
pub(super) fn open_job(state: &State, id: Id) -> bool {
    let typed = !LogKept::Shows.text(state).trim().is_empty();
    let piece = LogKept::Piece.get(state).and_then(|id| Id::read(&id)).filter(|_| typed);
    open_at(state, id, piece)
}

/// The same at a piece that is wished for, where the job has it and it was open last.
pub(super) fn open_at(state: &State, id: Id, piece: Option<Id>) -> bool {
    let opened = state.log.borrow_mut().open_job(id);
    if opened {
        state.log.borrow_mut().handed.imported = None;
        let there = piece.filter(|piece| state.log.borrow().has_piece(state.reference, *piece));
        look_at(state, there.or_else(|| state.log.borrow().most_urgent(state.reference)));
    }
    opened
}

/// Looks at the piece that wants the welder first.
pub(super) fn choose_piece(state: &State) {
    let first = state.log.borrow().most_urgent(state.reference);
    look_at(state, first);
}

/// Looks at a piece of the job that is open. What was typed for another, in this run or before the program was
/// left, goes: a save would write it down for this one.
fn look_at(state: &State, piece: Option<Id>) {
    state.log.borrow_mut().piece = piece;
    let job = state.log.borrow().open.as_ref().map(OpenLog::job);
    let was = |kept: LogKept, id: Option<Id>| kept.get(state) == id.map(|id| id.to_string());
    if !was(LogKept::Job, job) {
        LogKept::forget_job(state);
    } else if !was(LogKept::Piece, piece) {
        LogKept::forget_piece(state);
    }
}
