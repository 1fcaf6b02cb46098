//! The window as Rust sees it, generated from `ui/*.slint` in a package of its own.

pub use strawblue_ui::*;
