//! Tint, red heat, IR readings, crayons, measuring places and photos against published
//! figures, general libraries and laws of nature.

#![allow(clippy::unwrap_used, reason = "a test stops where its input is missing")]

mod bench;
mod coupon;
mod coverage;
mod data;
mod deficiency;
mod infrared;
mod laws;
mod oracle;
mod page;
mod photo;
mod reading;
mod vectors;
mod verdict;

/// Is a value within a tolerance of what is expected? Names what was compared.
#[track_caller]
fn near(value: f64, expected: f64, tolerance: f64, what: &str) {
    assert!((value - expected).abs() <= tolerance, "{what}: {value} instead of {expected} ± {tolerance}");
}
