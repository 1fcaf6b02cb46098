//! Tint, red heat, IR readings, crayons, measuring places and photos against published
//! figures, general libraries and laws of nature.

#![allow(clippy::unwrap_used, reason = "a test stops where its input is missing")]

#[path = "tint/bench.rs"]
mod bench;
#[path = "tint/coverage.rs"]
mod coverage;
#[path = "tint/data.rs"]
mod data;
#[path = "tint/deficiency.rs"]
mod deficiency;
#[path = "tint/infrared.rs"]
mod infrared;
#[path = "tint/laws.rs"]
mod laws;
#[path = "tint/oracle.rs"]
mod oracle;
#[path = "tint/page.rs"]
mod page;
#[path = "tint/photo.rs"]
mod photo;
#[path = "tint/reading.rs"]
mod reading;
#[path = "tint/vectors.rs"]
mod vectors;
#[path = "tint/verdict.rs"]
mod verdict;

/// Is a value within a tolerance of what is expected? Names what was compared.
#[track_caller]
fn near(value: f64, expected: f64, tolerance: f64, what: &str) {
    assert!((value - expected).abs() <= tolerance, "{what}: {value} instead of {expected} ± {tolerance}");
}
