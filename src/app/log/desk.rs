//! What the Log works on: the logs of this device, the job that is open, and what was done last. What it
//! shows is read from the disk, and what it adds is on the disk before it is shown.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::mpsc::Receiver;
use std::time::{Duration, Instant};

use slint::Timer;

use super::handed::HandedOver;
use super::photo_kept::Photos;
use super::sheets::CardWork;
use crate::app::Device;
use crate::log::{
    Hand, Id, JobRow, KnownTrial, Listing, LogNote, LogStoreError, Logs, Moment, OpenLog, PlanCopy, Record,
    StepCopy,
};
use crate::reference::Reference;
use crate::words::Words;

/// So many jobs that nobody has read yet are read in one go.
const READ_AT_ONCE: usize = 20;
/// And fewer before the first rows are on the screen.
const READ_FIRST: usize = 12;
/// A job that was written to in so many minutes has clocks that may run.
const FRESH_MIN: f64 = 24.0 * 60.0;
/// Of so many jobs the clocks are looked at in the list.
const FRESH_JOBS: usize = 12;
/// So many jobs are shown until more are asked for.
const JOBS_SHOWN: usize = 40;
/// The list is read anew after so long.
const LIST_HOLDS: Duration = Duration::from_secs(5);

/// What the Log works on.
#[derive(Default)]
pub(crate) struct LogDesk {
    folder: Option<PathBuf>,
    logs: Option<Logs>,
    /// Why something could not be read or written.
    pub(super) trouble: Option<LogStoreError>,
    pub(super) rows: Vec<JobRow>,
    /// What the trial pieces of all jobs taught.
    known: Vec<KnownTrial>,
    /// Was anything written since they were read?
    known_old: bool,
    /// So many pages of the list are shown after the first.
    pub(super) more_jobs: usize,
    /// Jobs whose files are still to be read for the list.
    pub(super) unread: usize,
    /// Jobs of the last day, open so that the list can tell what is overdue.
    pub(super) fresh: BTreeMap<Id, OpenLog>,
    pub(super) open: Option<OpenLog>,
    pub(super) piece: Option<Id>,
    /// Readings and trial pieces that are unfolded.
    pub(super) unfolded: BTreeSet<Id>,
    pub(super) all_readings: bool,
    /// Is a trial piece being logged, and no reading?
    pub(super) of_trial: bool,
    /// What was done last in this window, and whether that was an undoing.
    last: Vec<Record>,
    pub(super) taken_back: bool,
    /// The plan of a new job, while it is copied with its heat cycle.
    pub(super) copying: Option<Receiver<Option<PlanCopy>>>,
    /// Why no job was begun.
    pub(super) new_problem: Option<&'static str>,
    /// The minute that the clocks show.
    pub(super) minute: i64,
    /// When the list was last read.
    read_at: Option<Instant>,
    pub(super) timer: Timer,
    /// The job card on the screen.
    pub(super) card: CardWork,
    /// Files that are written and taken in.
    pub(super) handed: HandedOver,
    /// Asks for news of both while there is work.
    pub(super) hand_timer: Timer,
    /// Pictures of trial pieces.
    pub(super) photos: Photos,
    /// The device around the window.
    pub(crate) device: Box<dyn Device>,
    /// Does its screen stay lit?
    pub(super) lit: bool,
}

impl LogDesk {
    /// Sets the folder that everything of this device lies in.
    pub(crate) fn set_folder(&mut self, folder: Option<PathBuf>) {
        self.folder = folder;
    }

    /// The folder that everything of this device lies in.
    pub(crate) fn folder(&self) -> Option<&Path> {
        self.folder.as_deref()
    }

    /// The name of the job that is open, and whether it is the example.
    pub(crate) fn job_name(&self) -> Option<(String, bool)> {
        let job = self.open.as_ref()?.log().standing().job?.now;
        Some((job.name.clone(), job.example))
    }

    /// The number of the piece that is open.
    pub(crate) fn piece_number(&self) -> Option<u32> {
        let standing = self.open.as_ref()?.log().standing();
        standing.pieces.iter().find(|piece| Some(piece.id) == self.piece).map(|piece| piece.now.number)
    }

    /// Is a trial piece being logged?
    pub(crate) const fn logs_trial(&self) -> bool {
        self.of_trial
    }

    /// The logs, opened at the first need; none where there is no folder, or it can't be used.
    pub(super) fn logs(&mut self) -> Option<Logs> {
        if self.logs.is_none() {
            match Logs::open(self.folder.clone()?) {
                Ok(logs) => self.logs = Some(logs),
                Err(error) => self.trouble = Some(error),
            }
        }
        self.logs.clone()
    }

    /// What the trial pieces of all jobs taught, as far as the list was read.
    pub(crate) fn known(&self) -> &[KnownTrial] {
        &self.known
    }

    /// Something was written, here or elsewhere, that a plan may have to be told.
    pub(super) const fn known_is_old(&mut self) {
        self.known_old = true;
    }

    /// What the trial pieces taught, read anew where anything was written since.
    pub(crate) fn read_known(&mut self) {
        if self.known_old {
            self.read_list();
        }
    }

    /// Was anything ever logged on this device? Looking makes no folder.
    pub(super) fn has_any(&self) -> bool {
        self.folder.as_deref().is_some_and(|folder| Logs::to_read(folder).is_some())
    }

    /// Is there a folder to keep anything in?
    pub(super) const fn can_keep(&self) -> bool {
        self.folder.is_some()
    }

    /// Reads the list anew. Of many jobs that nobody has read some are left for the next time.
    pub(crate) fn read_list(&mut self) {
        let Some(logs) = self.logs() else { return };
        self.read_at = Some(Instant::now());
        self.known_old = false;
        match logs.list() {
            Ok(Listing { mut rows, unread }) => {
                let most = if self.rows.is_empty() && rows.is_empty() { READ_FIRST } else { READ_AT_ONCE };
                let now = unread.len().min(most);
                rows.extend(logs.look(&unread[..now]));
                rows.sort_by_key(|row| std::cmp::Reverse((row.last, row.id)));
                self.unread = unread.len() - now;
                let counts = rows.iter().filter(|row| !row.withdrawn);
                self.known = counts.flat_map(|row| row.trials.iter().cloned()).collect();
                self.rows = rows;
            }
            Err(error) => self.trouble = Some(error),
        }
        let now = Moment::now();
        let runs = |row: &&JobRow| {
            !row.withdrawn && row.finished < row.pieces && now.minutes_since(row.last) < FRESH_MIN
        };
        let wanted: Vec<Id> = self.rows.iter().filter(runs).take(FRESH_JOBS).map(|row| row.id).collect();
        self.fresh.retain(|id, _| wanted.contains(id));
        for id in wanted {
            if let Some(open) = self.fresh.get_mut(&id) {
                // What can't be read now is said where the job is opened.
                let _ = open.refresh();
            } else if let Ok(open) = logs.job(id) {
                self.fresh.insert(id, open);
            }
        }
    }

    /// Opens a job; false where it can't be read, and why is kept.
    pub(super) fn open_job(&mut self, id: Id) -> bool {
        let Some(logs) = self.logs() else { return false };
        match logs.job(id) {
            Ok(open) => {
                self.take(open);
                true
            }
            Err(error) => {
                self.trouble = Some(error);
                false
            }
        }
    }

    /// A job is open from now on.
    pub(super) fn take(&mut self, open: OpenLog) {
        self.open = Some(open);
        self.piece = None;
        self.trouble = None;
        self.all_readings = false;
        self.forget_last();
    }

    /// Another piece is looked at: what was done last on another is no more offered to be undone.
    pub(super) fn forget_last(&mut self) {
        self.unfolded.clear();
        self.last.clear();
        self.taken_back = false;
    }

    /// Whoever writes, now.
    pub(super) fn hand(&self) -> Option<Hand> {
        self.open.as_ref().map(OpenLog::hand)
    }

    /// Writes records down. They are on the disk where it is true; where it is false nothing was changed,
    /// and why is kept.
    pub(super) fn add(&mut self, records: Vec<Record>) -> bool {
        let Some(open) = &mut self.open else { return false };
        if records.is_empty() {
            return false;
        }
        let kept = records.clone();
        match open.add(records) {
            Ok(()) => {
                self.trouble = None;
                self.last = kept;
                self.taken_back = false;
                self.known_old = true;
                true
            }
            Err(error) => {
                self.trouble = Some(error);
                false
            }
        }
    }

    /// What was done last here.
    pub(super) fn last(&self) -> Option<&Record> {
        self.last.last()
    }

    /// Takes back what was done last, or puts back what was taken.
    pub(super) fn undo(&mut self) {
        let (Some(hand), Some(open)) = (self.hand(), &self.open) else { return };
        let back = !self.taken_back;
        let records: Vec<Record> = hand.undo_all(open.log(), &self.last);
        if self.add(records) {
            self.taken_back = back;
        }
    }

    /// How many jobs the list shows.
    pub(super) const fn jobs_shown(&self) -> usize {
        (self.more_jobs + 1) * JOBS_SHOWN
    }

    /// Is the list on the screen to be read anew?
    pub(super) fn list_is_old(&self, shown: bool) -> bool {
        shown && self.read_at.is_none_or(|at| at.elapsed() > LIST_HOLDS)
    }

    /// A step of the plan of the job that is open.
    pub(super) fn step(&self, is_it: impl Fn(&StepCopy) -> bool) -> Option<StepCopy> {
        let standing = self.open.as_ref()?.log().standing();
        standing.job?.now.plan.steps.iter().find(|step| is_it(step)).cloned()
    }

    /// The next step of the piece that is open.
    pub(super) fn next_step(&self, reference: &Reference) -> Option<StepCopy> {
        let standing = self.open.as_ref()?.log().standing();
        let overview = standing.overview(reference, Moment::now())?;
        let piece = overview.pieces.iter().find(|piece| Some(piece.thing.id) == self.piece)?;
        piece.next_step(&standing.job.as_ref()?.now.plan).cloned()
    }

    /// Has the job that is open this piece?
    pub(super) fn has_piece(&self, reference: &Reference, piece: Id) -> bool {
        let standing = self.open.as_ref().map(|open| open.log().standing());
        let overview = standing.as_ref().and_then(|standing| standing.overview(reference, Moment::now()));
        overview.is_some_and(|overview| overview.pieces.iter().any(|of| of.thing.id == piece))
    }

    /// The piece of the job that is open that wants the welder first.
    pub(super) fn most_urgent(&self, reference: &Reference) -> Option<Id> {
        let standing = self.open.as_ref()?.log().standing();
        let overview = standing.overview(reference, Moment::now())?;
        Some(overview.pieces.get(*overview.urgent.first()?)?.thing.id)
    }

    /// What went wrong with the files, in plain lines: the last fault, then what is known of the files of the
    /// job that is open.
    pub(super) fn troubles(&self, words: &Words) -> Vec<String> {
        if !self.can_keep() {
            return vec![words.get("log-no-folder")];
        }
        let mut lines: Vec<String> = self.trouble.iter().map(|error| error.say(words)).collect();
        if let Some(open) = &self.open {
            if open.hand().is_set_back(open.log()) {
                lines.push(words.get("log-set-back"));
            }
            lines.extend(open.notes().iter().map(|note: &LogNote| note.say(words)));
        }
        lines
    }

    /// Takes in what others wrote to the job that is open; was there anything?
    pub(super) fn hear(&mut self) -> bool {
        let Some(open) = &mut self.open else { return false };
        match open.refresh() {
            Ok(news) => {
                self.known_old |= news;
                news
            }
            Err(error) => {
                let new = self.trouble.is_none();
                self.trouble = Some(error);
                new
            }
        }
    }
}
