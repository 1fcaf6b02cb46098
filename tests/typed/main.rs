//! What is typed: how it is read, answered and kept.

mod certificate_slips;
mod fillers;
mod first_start;
mod languages;
mod laws;
mod merge;
mod read_job;
mod read_part;
mod read_weld;
mod saver;
mod session;
mod tables;
mod told;
mod write_units;

#[path = "../shared/typed_job.rs"]
mod typed_job;
