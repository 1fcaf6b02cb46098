//! Strawblue: an offline bench reference for welding hardenable steel.

pub mod engine;
pub mod questions;
pub mod reference;
pub mod words;
