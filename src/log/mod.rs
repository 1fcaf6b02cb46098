//! What was typed and what was done: jobs, sessions, their store.

mod job_text;
mod session;
mod store;
pub mod typed;

pub use job_text::{Field, JobFileError, JobText};
pub use session::{Found, OwnSteel, Session, Theme};
pub use store::{Store, StoreError};
