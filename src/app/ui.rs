//! The window as Rust sees it, generated from `ui/*.slint`.

slint::include_modules!();
