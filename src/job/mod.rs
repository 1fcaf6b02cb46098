//! A job as it is typed, its reading into figures, the session, and their store.

mod back;
mod beside_plan;
mod demo;
mod drafts;
mod exchange;
mod field_problem;
mod fields;
mod filler_fit;
mod first_start;
mod flat;
mod job_file;
mod job_text;
mod merge;
mod own_steel;
mod read_answers;
mod read_job;
mod read_part;
mod read_safety;
mod read_told;
mod read_weld;
mod saver;
mod session;
mod steel;
mod store;
pub mod typed;
mod write_units;

pub use back::SessionBack;
pub use beside_plan::{Begun, PlanSays, begun, beside_plan, cycle_of_answers, cycle_of_plan, post_heat};
pub use demo::{demo_job, is_demo, is_demo_called};
pub use drafts::Draft;
pub use exchange::PutAway;
pub use field_problem::{DefaultValue, Defaulted, Fault, FieldProblem};
pub use fields::{Field, Of, Slot};
pub use job_file::JobFileError;
pub use job_text::{JobText, Texts};
pub use own_steel::OwnSteel;
pub use read_answers::{
    AnswerFault, AnswerProblem, STEEL, read_answer, read_answers, say_refusal, shown_unit,
};
pub use read_job::{ReadJob, Reading, read_job};
pub use read_part::LOOKED_FOR;
pub use saver::{News, Saved, Saver};
pub use session::{Controls, Found, Session, TextSize, Theme};
pub use steel::{ToldSteel, find_filler, find_steel, is_other_name, several_steels};
pub use store::{Seat, Stamp, Store, StoreError};
pub use write_units::kind_of;
