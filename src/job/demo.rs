//! The demo job.

use std::sync::LazyLock;

use super::{Field, JobText};
use crate::packed::data;

/// The demo job of `data/demo.ron`: bell cranks for a quarry screen, invented.
///
/// # Panics
/// Never: `tests/typed/read_job.rs` reads the embedded file.
#[must_use]
pub fn demo_job() -> JobText {
    JobText::from_ron(&data!("demo.ron")).expect("tests/typed/read_job.rs reads the embedded file")
}

/// Is a job the demo's, changed or not? It is until it gets a name of its own: what nobody changed of it is invented.
#[must_use]
pub fn is_demo(job: &JobText) -> bool {
    static NAME: LazyLock<Option<String>> = LazyLock::new(|| demo_job().get(Field::Name).map(str::to_owned));
    NAME.is_some() && job.get(Field::Name) == NAME.as_deref()
}

/// Is it still the demo's under this name?
#[must_use]
pub fn is_demo_called(job: &JobText, name: &str) -> bool {
    is_demo(job) && job.get(Field::Name) == Some(name)
}
