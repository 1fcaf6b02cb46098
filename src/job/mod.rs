//! What was typed and what was done: jobs, sessions, their store.

mod demo;
mod field_problem;
mod job_text;
mod read_answers;
mod read_job;
mod read_part;
mod read_weld;
mod session;
mod steel;
mod store;
pub mod typed;
mod write_units;

pub use demo::demo_job;
pub use field_problem::{DefaultValue, Defaulted, Fault, FieldProblem};
pub use job_text::{Field, JobFileError, JobText};
pub use read_answers::{AnswerFault, AnswerProblem, STEEL, read_answers, say_refusal, shown_unit};
pub use read_job::{ReadJob, Reading, read_job};
pub use read_part::LOOKED_FOR;
pub use session::{Found, OwnSteel, Session, Theme};
pub use steel::{find_filler, find_steel, is_other_name, several_steels};
pub use store::{Store, StoreError};
