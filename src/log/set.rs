//! The records of one job, as a set.

use std::collections::BTreeMap;

use super::{Id, Record, Standing};

/// The records of one job. Two logs merge by taking the records of both: in any order, any number of
/// times, and nothing is lost.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Log {
    /// By id; nearly always one. Where a file was tampered with, two that differ share an id: both stay.
    records: BTreeMap<Id, Vec<Record>>,
}

impl Log {
    /// The same with one more record; false where it was there already.
    pub fn add(&mut self, record: Record) -> bool {
        let same_id = self.records.entry(record.id).or_default();
        if same_id.iter().any(|there| is_same(there, &record)) {
            return false;
        }
        same_id.push(record);
        // The order in which they came must not show.
        if same_id.len() > 1 {
            same_id.sort_by_cached_key(super::file::line_of);
        }
        true
    }

    /// Takes the records of another log; how many were new.
    pub fn merge(&mut self, other: &Self) -> usize {
        other.records().filter(|record| self.add((*record).clone())).count()
    }

    /// The records in the order of their ids, which is that of time on one device.
    pub fn records(&self) -> impl Iterator<Item = &Record> {
        self.records.values().flatten()
    }

    /// The greatest id.
    #[must_use]
    pub fn last(&self) -> Option<Id> {
        self.records.last_key_value().map(|(id, _)| *id)
    }

    /// Is this very record there?
    #[must_use]
    pub fn has(&self, record: &Record) -> bool {
        self.records.get(&record.id).is_some_and(|there| there.iter().any(|one| is_same(one, record)))
    }

    /// The first record of an id.
    #[must_use]
    pub fn get(&self, id: Id) -> Option<&Record> {
        self.records.get(&id)?.first()
    }

    /// How many records there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.records.values().map(Vec::len).sum()
    }

    /// Is there none?
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.records.is_empty()
    }

    /// What stands.
    #[must_use]
    pub fn standing(&self) -> Standing<'_> {
        Standing::of(self)
    }
}

/// Do they say the same? What is no number equals itself here.
fn is_same(one: &Record, other: &Record) -> bool {
    one == other || super::file::line_of(one) == super::file::line_of(other)
}

impl FromIterator<Record> for Log {
    fn from_iter<T: IntoIterator<Item = Record>>(records: T) -> Self {
        let mut log = Self::default();
        for record in records {
            log.add(record);
        }
        log
    }
}

impl Extend<Record> for Log {
    fn extend<T: IntoIterator<Item = Record>>(&mut self, records: T) {
        for record in records {
            self.add(record);
        }
    }
}
