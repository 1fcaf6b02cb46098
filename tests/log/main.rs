//! The log of what was done: its laws, its files, its store.

mod backup;
mod clock;
mod curve;
mod demo;
mod faults;
mod fuzz;
mod fuzz_photo;
mod job_steps;
mod kill;
mod laws;
mod made;
mod shop;
mod store;
