//! Physical questions and their answers: pure functions, no I/O, no clock, no
//! words for display.

pub mod job;
mod outcome;
pub mod plan;

pub use outcome::{Outcome, RangeCheck, Step, Unit};
