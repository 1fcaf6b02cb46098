//! What the Bench keeps while the window is open: the lines of its list, and what was added to the plan.

use std::collections::BTreeMap;

use crate::job::{Session, Slot};

/// What a question says on the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Line {
    /// Its answer; empty where it has none.
    pub(crate) answer: String,
    /// What it takes, or why there is no answer.
    pub(crate) note: String,
    /// Does the answer rest on the plan's figures alone?
    pub(crate) of_plan: bool,
    /// Is its figure outside the range of its method: to compare, not to weld by?
    pub(crate) rough: bool,
}

/// An answer that was added to the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Pushed {
    /// Where.
    pub(super) slot: Slot,
    /// What was put there.
    pub(super) text: String,
    /// What stood there, and in the fields that say the same.
    pub(super) before: Vec<(Slot, Option<String>)>,
}

/// What a line follows from: the session, the minutes of the flame by the plan's heat cycle, and whether
/// these are still to come.
pub(super) type LinesOf = (Session, Option<(f64, f64)>, bool);

/// What is kept.
#[derive(Debug, Default)]
pub(crate) struct Kept {
    /// The lines, and what they were made for.
    pub(super) lines: Option<(LinesOf, BTreeMap<&'static str, Line>)>,
    /// What was added, by the id of the button.
    pub(super) pushed: BTreeMap<String, Pushed>,
}

impl Kept {
    /// Another job begins: nothing was added to it yet.
    pub(crate) fn begin_job(&mut self) {
        self.pushed.clear();
    }
}
