//! The window as Rust sees it, generated from the `.slint` files beside this one.

slint::include_modules!();
