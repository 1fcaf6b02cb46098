//! A job is opened, at the piece that wants the welder first.

use super::kept::LogKept;
use crate::app::State;
use crate::log::{Id, OpenLog};

/// Opens a job, at the piece that wants the welder first; false where it can't be read, and why is kept.
pub(super) fn open_job(state: &State, id: Id) -> bool {
    let before = state.log.borrow().open.as_ref().map(OpenLog::job);
    let opened = state.log.borrow_mut().open_job(id);
    if opened {
        if before.is_some_and(|before| before != id) {
            LogKept::forget_job(state);
        }
        state.log.borrow_mut().handed.imported = None;
        choose_piece(state);
    }
    opened
}

/// Looks at the piece that wants the welder first.
pub(super) fn choose_piece(state: &State) {
    let first = state.log.borrow().most_urgent(state.reference);
    state.log.borrow_mut().piece = first;
}
