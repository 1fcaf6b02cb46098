//! Each physical question by itself: published figures, limits, laws.

mod limits;
mod properties;
mod published;
mod questions;
