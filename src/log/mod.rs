//! What was done: jobs, pieces, readings, trial pieces. A log is a set of records to which records are
//! only added; what stands follows from the set, so that logs of several devices merge by taking both.
//!
//! - [`Record`] and [`Entry`]: what is written, once and for good.
//! - [`Log`]: the records of one job; [`Log::standing`] says what stands.
//! - [`Standing`], [`PieceView`], [`Clock`]: pieces, readings with verdicts, minutes left.
//! - [`Hand`]: makes records, for a change and its undoing too.

mod brought;
mod clock;
mod demo;
mod entry;
mod file;
mod hand;
mod job_steps;
mod moment;
mod piece;
mod plan_copy;
mod record;
mod set;
mod standing;
mod store;
mod together;
mod trials;

pub use brought::{Brought, BroughtError};
pub use clock::{Clock, ClockWhy};
pub use demo::{DEMO_JOB, demo_log};
pub use entry::{
    Cooled, CrackOutcome, Entry, Face, JobEntry, PieceEntry, ReadingTaken, StepDone, TrialPiece, Used,
};
pub use file::{LogFile, LogFileError, ReadLog, SCHEMA};
pub use hand::Hand;
pub use job_steps::JobStep;
pub use moment::{Moment, TimeWrong};
pub use piece::{Overview, PieceStatus, PieceView, ReadingView, UsedOf};
pub use plan_copy::{
    CautionCopy, CurvePoint, LimitCopy, LineCopy, MemberCopy, Need, PlanCopy, StepCopy, TurnCopy,
};
pub use record::{Id, Record};
pub use set::Log;
pub use standing::{Standing, Thing};
pub use store::{Imported, JobRow, Listing, LogNote, LogStoreError, Logs, OpenLog, PhotoFile, read_log_file};
pub use trials::{Bounds, KnownTrial, SteelAsked, bounds, cracked_above, known_trials};
