//! Physical questions and their answers: pure functions, no I/O, no clock, no
//! words for display.
//!
//! `plan` stands above `evidence`, which stands above the methods, the families and the
//! analysis; all answer with an [`Outcome`].

pub mod acetylene;
pub mod carbon_equivalent;
pub mod certificate;
pub mod chemistry;
pub mod combined_thickness;
mod contradiction;
pub mod cooling_time;
pub mod crack;
pub mod crayon;
pub mod electrode_exposure;
pub(crate) mod error;
pub mod evidence;
pub mod family;
pub mod file_test;
pub mod fit;
pub mod hardness;
pub mod hardness_conversion;
pub mod heat_cycle;
pub mod heat_input;
pub mod hydrogen;
pub mod infrared;
pub mod inspection;
pub mod instrument;
pub mod job;
pub mod lumped;
pub mod measuring;
mod named;
mod outcome;
pub mod part;
pub mod photo;
pub mod plan;
pub mod post_heat;
pub mod reading;
pub mod red_heat;
pub mod rhythm;
pub mod room_air;
pub mod safety_facts;
pub mod slow_cooling;
mod solve;
pub mod tempering;
pub mod thermal;
pub mod tint;
pub mod torch;
pub mod transformation;
pub mod treatment;
pub mod two_readings;
pub mod unmarked;
pub mod weld;
pub mod weld_of_job;

pub use crate::reference::Unit;
pub use error::EngineError;
pub use outcome::{Checked, Ends, Outcome, Says, Step};
