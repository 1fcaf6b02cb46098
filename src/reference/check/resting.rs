//! How many rows rest on each source, on memory, and on practice.

use std::collections::{BTreeMap, HashMap, HashSet};

use super::sources::{Named, On, named};
use crate::reference::Reference;

/// The rows that name one source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Resting {
    /// Rows of data.
    pub rows: usize,
    /// Those of them in which something else is from memory.
    pub partly_memory: usize,
}

/// What the rows of the dataset rest on.
#[derive(Debug)]
pub struct RowsOfSources<'a> {
    /// Rows by the id of a source.
    pub sources: HashMap<&'a str, Resting>,
    /// Rows by the work that something of them is remembered from.
    pub works: BTreeMap<&'a str, usize>,
    /// Rows with something from memory.
    pub memory: usize,
    /// Rows with something from common practice.
    pub practice: usize,
}

/// Counts the rows; a row that names a thing twice counts once.
#[must_use]
pub fn rows_of_sources(reference: &Reference) -> RowsOfSources<'_> {
    let named = named(reference, &mut Vec::new());
    let mut rows: HashMap<(&str, &str), Vec<On<'_>>> = HashMap::new();
    for Named { file, row, on } in &named {
        rows.entry((*file, row.as_str())).or_default().push(*on);
    }
    let mut made = RowsOfSources { sources: HashMap::new(), works: BTreeMap::new(), memory: 0, practice: 0 };
    for all in rows.values() {
        let memory = all.iter().any(|on| matches!(on, On::Memory(_) | On::MemoryPart));
        made.memory += usize::from(memory);
        made.practice += usize::from(all.iter().any(|on| matches!(on, On::Practice)));
        let sources: HashSet<&str> =
            all.iter().filter_map(|on| if let On::Source(id) = on { Some(*id) } else { None }).collect();
        for source in sources {
            let resting = made.sources.entry(source).or_default();
            resting.rows += 1;
            resting.partly_memory += usize::from(memory);
        }
        let works: HashSet<&str> =
            all.iter().filter_map(|on| if let On::Memory(of) = on { Some(*of) } else { None }).collect();
        for work in works {
            *made.works.entry(work).or_default() += 1;
        }
    }
    made
}
