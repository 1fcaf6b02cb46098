//! The demo job.

use super::JobText;

/// The demo job of `data/demo.ron`: bell cranks for a quarry screen, invented.
///
/// # Panics
/// Never: `tests/typed/read_job.rs` reads the embedded file.
#[must_use]
pub fn demo_job() -> JobText {
    JobText::from_ron(include_str!("../../data/demo.ron"))
        .expect("tests/typed/read_job.rs reads the embedded file")
}
