//! What was typed and what was done: jobs, sessions, their store.

pub mod typed;
