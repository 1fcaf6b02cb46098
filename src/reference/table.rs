//! Rows with unique ids, in the order of their file.

use std::collections::HashMap;

/// Anything that a data file holds one of per row.
pub trait Row {
    /// The stable id of the row.
    fn id(&self) -> &str;
}

/// The rows of one file, found by id without a search.
#[derive(Debug, Clone, PartialEq)]
pub struct Table<T> {
    rows: Vec<T>,
    by_id: HashMap<String, usize>,
}

impl<T: Row> Table<T> {
    /// A table of rows in their order. Of two rows with one id the first is found.
    #[must_use]
    pub fn new(rows: Vec<T>) -> Self {
        let mut by_id = HashMap::with_capacity(rows.len());
        for (place, row) in rows.iter().enumerate() {
            by_id.entry(row.id().to_owned()).or_insert(place);
        }
        Self { rows, by_id }
    }

    /// The row of an id.
    #[must_use]
    pub fn get(&self, id: &str) -> Option<&T> {
        self.by_id.get(id).map(|&place| &self.rows[place])
    }

    /// All rows in the order of the file.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.rows.iter()
    }

    /// All rows as a slice.
    #[must_use]
    pub fn rows(&self) -> &[T] {
        &self.rows
    }

    /// How many rows there are.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.rows.len()
    }

    /// Is there no row?
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }
}

impl<'a, T: Row> IntoIterator for &'a Table<T> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

/// The first of rows that rise to a border each, the last one open, whose border is not
/// below a value.
pub fn row_at<T>(rows: &[T], up_to: impl Fn(&T) -> Option<f64>, value: f64) -> Option<&T> {
    rows.iter().find(|row| up_to(row).is_none_or(|up_to| value <= up_to))
}
