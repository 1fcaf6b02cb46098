//! A job that was read, with its plan.

use crate::engine::plan::Plan;
use crate::job::ReadJob;

/// A job that was read, with its plan.
pub struct Planned {
    /// The job as read, with what was put where nothing was typed.
    pub read: ReadJob,
    /// Its plan.
    pub plan: Plan,
}
