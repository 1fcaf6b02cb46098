//! Physical questions and their answers: pure functions, no I/O, no clock, no
//! words for display.

mod outcome;

pub use outcome::{Outcome, RangeCheck, Step, Unit};
