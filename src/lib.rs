//! Strawblue: an offline bench reference for welding hardenable steel.

#[cfg(feature = "gui")]
pub mod app;
pub mod engine;
pub mod log;
pub mod questions;
pub mod report;
pub mod reference;
pub mod units;
pub mod words;
