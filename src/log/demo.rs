//! The example: bell cranks for a quarry screen, invented.

use once_cell::sync::Lazy;

use super::{Log, LogFile};
use crate::packed::data;

static READ: Lazy<super::ReadLog> =
    Lazy::new(|| LogFile::read(&data!("demo_log.ron")).expect("tests/log reads the embedded file"));

/// The id of the example's job.
pub static DEMO_JOB: Lazy<super::Id> = Lazy::new(|| READ.head.job);

/// The log of the example: some pieces done, one under way, two trial pieces. It is marked as an example.
#[must_use]
pub fn demo_log() -> Log {
    READ.records.iter().cloned().collect()
}
