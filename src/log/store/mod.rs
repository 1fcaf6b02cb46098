//! Where logs lie on the disk: a folder for each job, in it a file for each device. A device writes its own
//! file alone, so that any file sync may carry the folder; a job is all files of its folder together. What a
//! device knows lies a second time beside, so that one broken file takes nothing with it.

mod faults;
mod index;
mod list;
mod open;
mod photo;
mod read;

pub use faults::{LogNote, LogStoreError};
pub use list::{JobRow, Listing};
pub use open::OpenLog;
pub use photo::PhotoFile;
pub use read::read_log_file;

use std::fs;
use std::path::{Path, PathBuf};

use uuid::Uuid;

use super::{Id, LogFile, LogFileError, Record, demo_log};
use crate::job::{Store, StoreError};

/// The folder of the jobs: this one may be shared.
const JOBS: &str = "log";
/// The folder of what lies a second time: it belongs to this device.
const SECOND: &str = "log-second";
/// The folder of what can't be read.
const ASIDE: &str = "log-aside";
/// The file of the device's own id.
const DEVICE: &str = "device";

/// The logs of a person on this device.
#[derive(Debug, Clone)]
pub struct Logs {
    root: Store,
    device: String,
}

/// What an import did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Imported {
    /// The job.
    pub job: Id,
    /// Records that were new.
    pub new: usize,
    /// Records that were there already.
    pub known: usize,
    /// Lines that could not be read, counted from 1.
    pub damaged: Vec<usize>,
    /// Does the end of the file miss?
    pub cut: bool,
    /// Things that two devices changed, now that both are known.
    pub conflicts: usize,
}

impl Logs {
    /// The logs in the program's own folder, which is made where it is missing.
    ///
    /// # Errors
    /// [`LogStoreError`] if the folder can't be made, or the device can't be given its id.
    pub fn open(folder: impl Into<PathBuf>) -> Result<Self, LogStoreError> {
        let root = Store::open(folder)?;
        let device = device_of(&root)?;
        Ok(Self { root, device })
    }

    /// The same for reading alone: no folder is made, and no id is given.
    #[must_use]
    pub fn to_read(folder: &Path) -> Option<Self> {
        let there = folder.join(JOBS).is_dir() || folder.join(SECOND).is_dir();
        let root = if there { Store::open(folder).ok()? } else { return None };
        let device = root.read(DEVICE).ok().flatten().map(|text| text.trim().to_owned());
        Some(Self { root, device: device.filter(|text| is_device(text)).unwrap_or_default() })
    }

    /// The id of this device.
    #[must_use]
    pub fn device(&self) -> &str {
        &self.device
    }

    /// The folder that a file sync may carry.
    #[must_use]
    pub fn shared_folder(&self) -> PathBuf {
        self.root.folder().join(JOBS)
    }

    /// The log of a job, with what had to be said of its files.
    ///
    /// # Errors
    /// [`LogStoreError::NotThere`] where there is no such job; what can't be read of the folder itself.
    pub fn job(&self, job: Id) -> Result<OpenLog, LogStoreError> {
        OpenLog::read(self, job)
    }

    /// Begins a job from its first records; it is on the disk when this returns.
    ///
    /// # Errors
    /// [`LogStoreError`] if it can't be written.
    pub fn begin(&self, records: Vec<Record>) -> Result<OpenLog, LogStoreError> {
        let job = records.iter().find(|record| record.begins() && record.entry.kind() == "job");
        let job = job.map(|record| record.id).ok_or(LogStoreError::NotThere { job: Id::default() })?;
        let mut open = OpenLog::empty(self, job);
        open.add(records)?;
        Ok(open)
    }

    /// Takes in a log from the text of a file: a job that is here already is merged with it.
    ///
    /// # Errors
    /// [`LogStoreError`] if it is no log, or can't be written.
    pub fn import(&self, file: &Path) -> Result<Imported, LogStoreError> {
        let text = read::text_of(file)?;
        let read = LogFile::read(&text).map_err(|why| LogStoreError::NoLog { file: file.to_owned(), why })?;
        // Records without a job to put them to are no log.
        if read.head.job == Id::default() {
            let why = LogFileError::NoLog { line: 1, detail: String::new() };
            return Err(LogStoreError::NoLog { file: file.to_owned(), why });
        }
        let mut imported = self.take(read.head.job, read.records)?;
        (imported.damaged, imported.cut) = (read.damaged, read.cut);
        Ok(imported)
    }

    /// Loads the example; an example that was loaded is as it was, with what was done in it.
    ///
    /// # Errors
    /// [`LogStoreError`] if it can't be written.
    pub fn load_example(&self) -> Result<Imported, LogStoreError> {
        self.take(*super::DEMO_JOB, demo_log().records().cloned().collect())
    }

    /// Adds what a job lacks of these records; a job that is not there yet is begun.
    pub(crate) fn take(&self, job: Id, records: Vec<Record>) -> Result<Imported, LogStoreError> {
        let mut open = match self.job(job) {
            Err(LogStoreError::NotThere { .. }) => OpenLog::empty(self, job),
            found => found?,
        };
        let all = records.len();
        let new: Vec<Record> = records.into_iter().filter(|record| !open.log().has(record)).collect();
        let count = new.len();
        if count > 0 {
            open.add(new)?;
        }
        let conflicts = open.log().standing().conflicts();
        Ok(Imported { job, new: count, known: all - count, damaged: Vec::new(), cut: false, conflicts })
    }

    fn folder_of(&self, room: &str, job: Id) -> PathBuf {
        self.root.folder().join(room).join(job.to_string())
    }

    fn jobs_folder(&self, job: Id) -> PathBuf {
        self.folder_of(JOBS, job)
    }

    fn second_folder(&self, job: Id) -> PathBuf {
        self.folder_of(SECOND, job)
    }

    fn aside_folder(&self, job: Id) -> PathBuf {
        self.folder_of(ASIDE, job)
    }
}

/// Ids of devices are letters and figures: they name files.
fn is_device(text: &str) -> bool {
    (4..=40).contains(&text.len()) && text.bytes().all(|sign| sign.is_ascii_alphanumeric())
}

/// The id of this device: made once, and kept.
fn device_of(root: &Store) -> Result<String, StoreError> {
    let _alone = root.alone()?;
    if let Some(text) = root.read(DEVICE)?.map(|text| text.trim().to_owned()).filter(|text| is_device(text)) {
        return Ok(text);
    }
    let new = Uuid::now_v7().simple().to_string();
    let device = new.get(new.len() - 12..).unwrap_or(&new).to_owned();
    root.write(DEVICE, &device)?;
    Ok(device)
}

/// Makes a folder, and has the one above it know it on the disk.
fn make_folder(folder: &Path) -> Result<(), StoreError> {
    if folder.is_dir() {
        return Ok(());
    }
    let failed = |cause| StoreError::Folder { folder: folder.to_owned(), cause };
    fs::create_dir_all(folder).map_err(failed)?;
    let mut above = folder.parent();
    for _ in 0..2 {
        let Some(parent) = above else { break };
        if let Ok(open) = fs::File::open(parent) {
            let _ = open.sync_all();
        }
        above = parent.parent();
    }
    Ok(())
}
