//! Strawblue: an offline bench reference for welding hardenable steel.

#[cfg(feature = "window")]
pub mod app;
pub mod cli;
pub mod engine;
pub mod log;
pub mod questions;
pub mod reference;
pub mod report;
pub mod units;
pub mod words;

pub use cli::run;
