//! Strawblue: an offline bench reference for welding hardenable steel.

#[cfg(feature = "gui")]
pub mod app;
pub mod engine;
pub mod reference;
pub mod words;
