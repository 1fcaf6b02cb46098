//! What stands of a log: of each thing the records that no other one has replaced.

use std::collections::{BTreeMap, BTreeSet};

use super::entry::{JobEntry, PieceEntry, ReadingTaken, StepDone, TrialPiece, Used};
use super::{Entry, Id, Log, Record};

/// A thing that stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Thing<'a, T> {
    /// Its id.
    pub id: Id,
    /// What stands of it: the latest where several do.
    pub now: &'a T,
    /// The record that says so.
    pub record: &'a Record,
    /// What else stands of it, because two devices changed it and neither saw the other: all are shown, and
    /// a record that replaces all of them settles it.
    pub others: Vec<&'a Record>,
}

impl<T> Thing<'_, T> {
    /// Do several records stand?
    #[must_use]
    pub fn in_conflict(&self) -> bool {
        !self.others.is_empty()
    }

    /// The records that a change of it takes the place of.
    #[must_use]
    pub fn stands(&self) -> Vec<Id> {
        [self.record.id].into_iter().chain(self.others.iter().map(|record| record.id)).collect()
    }
}

/// What stands of a log.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Standing<'a> {
    /// The job; none where it is withdrawn or not there.
    pub job: Option<Thing<'a, JobEntry>>,
    /// Further jobs in the same log, which no program writes.
    pub more_jobs: Vec<Thing<'a, JobEntry>>,
    /// Its pieces, by number.
    pub pieces: Vec<Thing<'a, PieceEntry>>,
    /// Steps done, in the order of time.
    pub steps: Vec<Thing<'a, StepDone>>,
    /// Readings, in the order of time.
    pub readings: Vec<Thing<'a, ReadingTaken>>,
    /// Trial pieces, in the order of time.
    pub trials: Vec<Thing<'a, TrialPiece>>,
    /// What was used, in the order of time.
    pub used: Vec<Thing<'a, Used>>,
    /// What was taken back: the record that did it, and the last one before it that said something.
    pub withdrawn: Vec<(&'a Record, Option<&'a Record>)>,
}

impl<'a> Standing<'a> {
    pub(super) fn of(log: &'a Log) -> Self {
        let mut things: BTreeMap<Id, Vec<&'a Record>> = BTreeMap::new();
        for record in log.records() {
            things.entry(record.thing).or_default().push(record);
        }
        let mut found = Self::default();
        for (id, records) in &things {
            found.put(*id, records);
        }
        found.pieces.sort_by_key(|piece| (piece.now.number, piece.id));
        found.steps.sort_by_key(|step| (step.now.at, step.id));
        found.readings.sort_by_key(|reading| (reading.now.at, reading.id));
        found.trials.sort_by_key(|trial| (trial.now.at, trial.id));
        found.used.sort_by_key(|used| (used.now.at, used.id));
        found.more_jobs.sort_by_key(|job| job.id);
        found.job = (!found.more_jobs.is_empty()).then(|| found.more_jobs.remove(0));
        found
    }

    fn put(&mut self, id: Id, records: &[&'a Record]) {
        let mut heads = heads(records);
        heads.sort_by_key(|record| record.id);
        // Where one device took a thing back and another changed it, the change is shown.
        let said = heads.iter().rposition(|record| record.entry != Entry::Withdrawn);
        let Some(said) = said else {
            let last = records.iter().filter(|record| record.entry != Entry::Withdrawn);
            let last = last.max_by_key(|record| record.id).copied();
            self.withdrawn.extend(heads.last().map(|record| (*record, last)));
            return;
        };
        let record = heads.remove(said);
        let others = heads;
        match &record.entry {
            Entry::Job(now) => self.more_jobs.push(Thing { id, now, record, others }),
            Entry::Piece(now) => self.pieces.push(Thing { id, now, record, others }),
            Entry::Step(now) => self.steps.push(Thing { id, now, record, others }),
            Entry::Reading(now) => self.readings.push(Thing { id, now, record, others }),
            Entry::Trial(now) => self.trials.push(Thing { id, now, record, others }),
            Entry::Used(now) => self.used.push(Thing { id, now, record, others }),
            Entry::Withdrawn => {}
        }
    }

    /// The things of which several records stand, with these records.
    #[must_use]
    pub fn in_conflict(&self) -> Vec<(Id, Vec<&'a Record>)> {
        fn of<'a, T>(things: &[Thing<'a, T>]) -> impl Iterator<Item = (Id, Vec<&'a Record>)> {
            things.iter().filter(|thing| thing.in_conflict()).map(|thing| {
                (thing.id, [thing.record].into_iter().chain(thing.others.iter().copied()).collect())
            })
        }
        of(self.job.as_slice())
            .chain(of(&self.pieces))
            .chain(of(&self.steps))
            .chain(of(&self.readings))
            .chain(of(&self.trials))
            .chain(of(&self.used))
            .collect()
    }

    /// The numbers that more than one piece has, since two devices added it: neither is lost, and one of them
    /// wants another number.
    #[must_use]
    pub fn same_numbers(&self) -> Vec<u32> {
        let numbers: Vec<u32> = self.pieces.iter().map(|piece| piece.now.number).collect();
        let mut found: Vec<u32> =
            numbers.windows(2).filter(|pair| pair[0] == pair[1]).map(|pair| pair[0]).collect();
        found.dedup();
        found
    }

    /// How many things are in conflict.
    #[must_use]
    pub fn conflicts(&self) -> usize {
        self.in_conflict().len()
    }
}

/// The records that no other one of the same thing has replaced. Records that replace each other in a
/// circle, which no program writes, stand too: nothing may vanish.
fn heads<'a>(records: &[&'a Record]) -> Vec<&'a Record> {
    let mut by_id: BTreeMap<Id, Vec<&'a Record>> = BTreeMap::new();
    for record in records {
        by_id.entry(record.id).or_default().push(record);
    }
    let replaced = |record: &&&'a Record| record.replaces.iter().filter(|id| **id != record.id);
    let gone: BTreeSet<Id> = records.iter().flat_map(|record| replaced(&record)).copied().collect();
    let mut seen: BTreeSet<Id> = by_id.keys().filter(|id| !gone.contains(id)).copied().collect();
    let mut found: Vec<&'a Record> = seen.iter().flat_map(|id| by_id[id].clone()).collect();
    let mut open: Vec<Id> = seen.iter().copied().collect();
    while let Some(id) = open.pop() {
        for before in by_id.get(&id).into_iter().flatten().flat_map(|record| &record.replaces) {
            if by_id.contains_key(before) && seen.insert(*before) {
                open.push(*before);
            }
        }
    }
    found.extend(by_id.iter().filter(|(id, _)| !seen.contains(id)).flat_map(|(_, records)| records.clone()));
    found
}
