//! Search.
use super::{EverydayWord, Filler, Grade, Table};

/// The index.
#[derive(Debug, Clone, Default)]
pub struct Index {}

impl Index {
    /// Builds it.
    #[must_use]
    pub fn build(_grades: &Table<Grade>, _fillers: &Table<Filler>, _words: &Table<EverydayWord>) -> Self {
        Self {}
    }
}
