//! Which jobs are there?

use std::collections::BTreeSet;
use std::fs;

use serde::{Deserialize, Serialize};

use super::index::{Index, Known};
use super::read::files;
use super::{JOBS, LogStoreError, Logs, OpenLog, SECOND};
use crate::log::{Id, KnownTrial, Moment, known_trials};

/// A job in a list.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct JobRow {
    /// Its id.
    pub id: Id,
    /// Its name; empty where that can't be read.
    pub name: String,
    /// Is it the example?
    pub example: bool,
    /// Was it taken back?
    pub withdrawn: bool,
    /// How many pieces it has.
    pub pieces: usize,
    /// How many of them are finished.
    pub finished: usize,
    /// How many readings it has.
    pub readings: usize,
    /// Things that two devices changed.
    pub conflicts: usize,
    /// When something was last written to it.
    pub last: Moment,
    /// Can something of it not be read?
    pub faulty: bool,
    /// What its trial pieces taught.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub trials: Vec<KnownTrial>,
}

impl JobRow {
    fn of(open: &OpenLog) -> Self {
        let (id, log) = (open.job(), open.log());
        let standing = log.standing();
        let entry = |record: &crate::log::Record| match &record.entry {
            crate::log::Entry::Job(job) => Some((job.name.clone(), job.example)),
            _ => None,
        };
        let gone = || standing.withdrawn.iter().filter_map(|(_, before)| before.and_then(entry)).next();
        let now = standing.job.as_ref().map(|job| (job.now.name.clone(), job.now.example));
        let (name, example) = now.or_else(gone).unwrap_or_default();
        Self {
            id,
            name,
            example,
            withdrawn: standing.job.is_none(),
            pieces: standing.pieces.len(),
            finished: standing.pieces.iter().filter(|piece| piece.now.finished).count(),
            readings: standing.readings.len(),
            conflicts: standing.conflicts(),
            last: log.records().map(|record| record.at).max().unwrap_or(Moment::new(0, 0)),
            faulty: open.notes().iter().any(super::LogNote::is_loss),
            trials: known_trials(id, &standing),
        }
    }
}

/// The jobs, the latest first.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Listing {
    /// The jobs whose files are as they were when they were last read.
    pub rows: Vec<JobRow>,
    /// Those that must be read first, the latest first.
    pub unread: Vec<Id>,
}

impl Logs {
    /// The jobs as far as they are known without reading a log: at once, however many there are. What is
    /// `unread` is read with [`Logs::look`].
    ///
    /// # Errors
    /// [`LogStoreError`] if the folder can't be read.
    pub fn list(&self) -> Result<Listing, LogStoreError> {
        Ok(self.listing(&Index::read(self.root.folder())))
    }

    fn listing(&self, index: &Index) -> Listing {
        let mut unread: Vec<(u64, Id)> = Vec::new();
        let mut rows = Vec::new();
        for id in self.ids() {
            let now = files(&self.jobs_folder(id)).unwrap_or_default();
            match index.jobs.get(&id) {
                Some(known) if known.files == now && !now.is_empty() => rows.push(known.row.clone()),
                _ => unread.push((now.values().map(|seen| seen.at_ns).max().unwrap_or(0), id)),
            }
        }
        rows.sort_by_key(|row| std::cmp::Reverse((row.last, row.id)));
        unread.sort_unstable_by_key(|(at_ns, id)| std::cmp::Reverse((*at_ns, *id)));
        Listing { rows, unread: unread.into_iter().map(|(_, id)| id).collect() }
    }

    /// The jobs of both rooms: one whose folder was removed is known a second time.
    fn ids(&self) -> BTreeSet<Id> {
        let of = |room: &str| {
            let entries = fs::read_dir(self.root.folder().join(room)).into_iter().flatten().flatten();
            entries.filter_map(|entry| Id::read(entry.file_name().to_str()?)).collect::<Vec<_>>()
        };
        of(JOBS).into_iter().chain(of(SECOND)).collect()
    }

    /// Reads some of the unread jobs, and keeps what they say for the next list.
    #[must_use]
    pub fn look(&self, ids: &[Id]) -> Vec<JobRow> {
        let mut index = Index::read(self.root.folder());
        let mut rows = Vec::new();
        for id in ids {
            let Ok(open) = self.job(*id) else { continue };
            let row = JobRow::of(&open);
            let files = files(&self.jobs_folder(*id)).unwrap_or_default();
            index.jobs.insert(*id, Known { files, row: row.clone() });
            rows.push(row);
        }
        if !rows.is_empty() {
            let there = self.ids();
            index.jobs.retain(|id, _| there.contains(id));
            index.write(self.root.folder());
        }
        rows
    }

    /// All jobs, the latest first; what is not known yet is read.
    ///
    /// # Errors
    /// [`LogStoreError`] if the folder can't be read.
    pub fn list_all(&self) -> Result<Vec<JobRow>, LogStoreError> {
        let Listing { mut rows, unread } = self.list()?;
        rows.extend(self.look(&unread));
        rows.sort_by_key(|row| std::cmp::Reverse((row.last, row.id)));
        Ok(rows)
    }

    /// What the trial pieces of all jobs taught, but those of the example and of jobs that were taken back.
    ///
    /// # Errors
    /// [`LogStoreError`] if the folder can't be read.
    pub fn trials(&self) -> Result<Vec<KnownTrial>, LogStoreError> {
        let rows = self.list_all()?.into_iter().filter(|row| !row.withdrawn);
        Ok(rows.flat_map(|row| row.trials).collect())
    }
}
