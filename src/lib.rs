//! Strawblue: an offline bench reference for welding hardenable steel.

pub mod cli;
#[cfg(feature = "gui")]
pub mod app;
pub mod engine;
pub mod log;
pub mod questions;
pub mod report;
pub mod reference;
pub mod units;
pub mod words;

pub use cli::run;
