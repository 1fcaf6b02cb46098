//! Who writes: a device at a moment. Every change, and its undoing, is one more record.

use std::cell::Cell;

use super::{Entry, Id, Log, Moment, Record, Thing};

/// So much a clock may be behind itself: it is set right now and then, s.
const LENIENT_S: i64 = 90;

/// A device that writes, at a moment.
#[derive(Debug, Clone)]
pub struct Hand {
    /// The device.
    pub device: String,
    /// The moment.
    pub at: Moment,
    /// The greatest id that it has seen: its own come after that.
    last: Cell<Id>,
}

impl Hand {
    /// A device, now.
    #[must_use]
    pub fn now(device: &str) -> Self {
        Self::at(device, Moment::now())
    }

    /// A device, at a moment.
    #[must_use]
    pub fn at(device: &str, at: Moment) -> Self {
        Self { device: device.to_owned(), at, last: Cell::new(Id::default()) }
    }

    /// The same once it has seen a log: what it writes comes after all of that.
    #[must_use]
    pub fn after(self, log: &Log) -> Self {
        if let Some(last) = log.last() {
            self.last.set(last.max(self.last.get()));
        }
        self
    }

    /// Is the clock of this device behind what it wrote itself? Times that it writes then are wrong.
    #[must_use]
    pub fn is_set_back(&self, log: &Log) -> bool {
        let own = log.records().filter(|record| record.device == self.device);
        own.map(|record| record.at.utc_s).max().is_some_and(|last_s| last_s > self.at.utc_s + LENIENT_S)
    }

    /// The first record of a new thing.
    #[must_use]
    pub fn begin(&self, entry: Entry) -> Record {
        let id = self.new_id();
        self.record(id, id, Vec::new(), entry)
    }

    /// A record in place of all that stands of a thing: it changes it, and settles what was in conflict.
    #[must_use]
    pub fn change<T>(&self, thing: &Thing<'_, T>, entry: Entry) -> Record {
        self.record(self.new_id(), thing.id, thing.stands(), entry)
    }

    /// A record in place of one that was seen, where another one stands by now: neither is lost, both stand
    /// until somebody chooses.
    #[must_use]
    pub fn change_seen(&self, seen: &Record, entry: Entry) -> Record {
        self.record(self.new_id(), seen.thing, vec![seen.id], entry)
    }

    /// The record that takes a thing back.
    #[must_use]
    pub fn withdraw<T>(&self, thing: &Thing<'_, T>) -> Record {
        self.change(thing, Entry::Withdrawn)
    }

    /// The records that undo the last one that this device wrote and that still stands; none where there
    /// is none. What began a reading, a step, a trial piece or an amount is withdrawn, what changed or withdrew
    /// anything is put back.
    #[must_use]
    pub fn undo_last(&self, log: &Log) -> Vec<Record> {
        // A job and its pieces are not begun by a slip of the thumb: they are taken back by name.
        let by_name = |record: &Record| record.begins() && matches!(record.entry.kind(), "job" | "piece");
        let standing = |record: &&Record| {
            record.device == self.device
                && !by_name(record)
                && !log.records().any(|later| later.replaces.contains(&record.id))
        };
        // An undoing is undone by what puts back what it took.
        let last = log.records().filter(standing).max_by_key(|record| record.id);
        last.map(|last| self.undo(log, last)).unwrap_or_default()
    }

    /// The records that undo one that stands: all that it took the place of stands again, each for itself,
    /// so that a conflict that was settled is one again. What an undoing put back goes as one.
    #[must_use]
    pub fn undo(&self, log: &Log, record: &Record) -> Vec<Record> {
        let of_one_hand = |other: &&Record| {
            let same = other.thing == record.thing && other.device == record.device && other.at == record.at;
            same && other.id != record.id && !record.replaces.is_empty() && other.replaces == record.replaces
        };
        let stands = |other: &&Record| !log.records().any(|later| later.replaces.contains(&other.id));
        let others = log.records().filter(of_one_hand).filter(stands).map(|other| other.id);
        let replaces: Vec<Id> = [record.id].into_iter().chain(others).collect();
        let before = record.replaces.iter().filter_map(|id| log.get(*id));
        let mut entries: Vec<Entry> =
            before.filter(|before| before.thing == record.thing).map(|before| before.entry.clone()).collect();
        if entries.is_empty() {
            entries.push(Entry::Withdrawn);
        }
        let one = |entry| self.record(self.new_id(), record.thing, replaces.clone(), entry);
        entries.into_iter().map(one).collect()
    }

    /// The records that undo what was written at once; what is undone with another of them is not undone twice.
    #[must_use]
    pub fn undo_all<'a>(&self, log: &Log, records: impl IntoIterator<Item = &'a Record>) -> Vec<Record> {
        let mut undone: Vec<Record> = Vec::new();
        for record in records {
            if !undone.iter().any(|known| known.replaces.contains(&record.id)) {
                undone.extend(self.undo(log, record));
            }
        }
        undone
    }

    /// The records of a new job: the job itself, and a piece for each of its number.
    #[must_use]
    pub fn begin_job(&self, job: super::JobEntry) -> Vec<Record> {
        let pieces = job.pieces;
        let first = self.begin(Entry::Job(Box::new(job)));
        [first].into_iter().chain(self.begin_pieces(1..=pieces)).collect()
    }

    /// The records of further pieces of these numbers.
    #[must_use]
    pub fn begin_pieces(&self, numbers: std::ops::RangeInclusive<u32>) -> Vec<Record> {
        let piece = |number| super::PieceEntry { number, ..super::PieceEntry::default() };
        numbers.map(|number| self.begin(Entry::Piece(piece(number)))).collect()
    }

    fn new_id(&self) -> Id {
        let id = Id::after(self.last.get());
        self.last.set(id);
        id
    }

    fn record(&self, id: Id, thing: Id, replaces: Vec<Id>, entry: Entry) -> Record {
        Record { id, thing, device: self.device.clone(), at: self.at, replaces, entry }
    }
}
