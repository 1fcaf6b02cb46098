//! The log of what was done: its laws, its files, its store.

mod backup;
mod clock;
mod clock_open;
mod clock_safe;
mod curve;
mod demo;
mod faults;
mod fuzz;
mod fuzz_photo;
mod job_steps;
mod kill;
mod laws;
mod made;
mod moment;
mod shop;
mod store;
mod strange;
mod tack;
mod trials;
mod undo;
