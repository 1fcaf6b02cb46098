//! Rules that the dataset keeps; a broken one names file, row and rule.

use std::fmt;

use super::Reference;

/// A rule of the dataset.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Rule {
    /// The file can be read.
    Readable,
}

/// A broken rule.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The file in `data/`.
    pub file: &'static str,
    /// The id of the row, or the line.
    pub row: String,
    /// The rule that is broken.
    pub rule: Rule,
    /// What is wrong: the values found and the limits.
    pub detail: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "data/{}, {}: {:?}: {}", self.file, self.row, self.rule, self.detail)
    }
}

/// Every broken rule of a dataset.
#[must_use]
pub fn faults(_reference: &Reference, _words: &str) -> Vec<Fault> {
    Vec::new()
}
