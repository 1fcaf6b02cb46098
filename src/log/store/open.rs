//! A job whose log is open: what is added is on the disk before anything says so.

use std::collections::{BTreeMap, HashSet};
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

use super::read::{FileRead, Seen, files, keep_aside, log_of, put_aside, seen, text_of};
use super::{LogNote, LogStoreError, Logs, make_folder};
use crate::job::{Store, StoreError};
use crate::log::file::written;
use crate::log::{Hand, Id, Log, LogFile, LogFileError, ReadLog, Record};

/// How a file is hurt.
enum Hurt {
    /// So many of its lines can't be read.
    Lines(usize),
    /// It is no log.
    All(LogFileError),
}

/// A job whose log is open.
#[derive(Debug)]
pub struct OpenLog {
    job: Id,
    device: String,
    folder: PathBuf,
    second: PathBuf,
    aside: PathBuf,
    log: Log,
    /// Every record as it is written, and whether the file of this device has it.
    lines: BTreeMap<Id, Vec<(String, bool)>>,
    /// The file of this device as it was last seen.
    own_seen: Option<Seen>,
    /// All files of the folder as they were last seen.
    files: BTreeMap<String, Seen>,
    /// A file of a newer program.
    newer: Option<(PathBuf, u32)>,
    notes: Vec<LogNote>,
}

impl OpenLog {
    pub(super) fn empty(logs: &Logs, job: Id) -> Self {
        Self {
            job,
            device: logs.device.clone(),
            folder: logs.jobs_folder(job),
            second: logs.second_folder(job),
            aside: logs.aside_folder(job),
            log: Log::default(),
            lines: BTreeMap::new(),
            own_seen: None,
            files: BTreeMap::new(),
            newer: None,
            notes: Vec::new(),
        }
    }

    /// Reads a job: all files of its folder, and what lies a second time.
    pub(super) fn read(logs: &Logs, job: Id) -> Result<Self, LogStoreError> {
        let mut open = Self::empty(logs, job);
        open.read_again()?;
        if open.log.is_empty() && open.notes.is_empty() {
            return Err(LogStoreError::NotThere { job });
        }
        Ok(open)
    }

    /// The job.
    #[must_use]
    pub const fn job(&self) -> Id {
        self.job
    }

    pub(super) fn folder(&self) -> &Path {
        &self.folder
    }

    /// Its records.
    #[must_use]
    pub const fn log(&self) -> &Log {
        &self.log
    }

    /// What had to be said of its files.
    #[must_use]
    pub fn notes(&self) -> &[LogNote] {
        &self.notes
    }

    /// Whoever writes here, now.
    #[must_use]
    pub fn hand(&self) -> Hand {
        Hand::now(&self.device).after(&self.log)
    }

    /// The whole log as the text of one file, to be handed over.
    #[must_use]
    pub fn export(&self) -> String {
        self.head().write(self.log.records())
    }

    /// Takes in what other windows and other devices wrote since; is there anything new?
    ///
    /// # Errors
    /// What can't be read of the folder itself.
    pub fn refresh(&mut self) -> Result<bool, LogStoreError> {
        if self.list()? == self.files {
            return Ok(false);
        }
        let before = self.log.len();
        self.read_again()?;
        Ok(self.log.len() != before)
    }

    /// Adds records. They are on the disk when this returns; where it fails nothing is changed.
    ///
    /// # Errors
    /// [`LogStoreError`] if they can't be written; [`LogStoreError::ReadOnly`] where a newer program wrote.
    pub fn add(&mut self, records: Vec<Record>) -> Result<(), LogStoreError> {
        self.writable()?;
        make_folder(&self.second)?;
        let second = Store::open(&self.second)?;
        // Where the system knows no locks nobody is kept out: each writer then has a file of its own.
        let alone = second.alone()?;
        let name = if alone.is_some() {
            self.own_name()
        } else {
            format!("{}-{}.ron", self.device, self.job_of_process())
        };
        self.see_own(&name)?;
        let new: Vec<(Id, String)> = records.iter().map(|record| (record.id, written(record))).collect();
        let unknown = new.iter().filter(|(id, line)| !self.has_line(*id, line));
        let lines = self.own_lines().chain(unknown.map(|(_, line)| line.as_str()));
        let text = self.head().text(lines);
        let fresh = !self.folder.is_dir();
        make_folder(&self.folder)?;
        let store = Store::open(&self.folder)?;
        store.write(&name, &text)?;
        if fresh && self.own_seen.is_some() {
            self.notes.push(LogNote::FolderBack { folder: self.folder.clone() });
        }
        for (id, line) in new {
            self.put_line(id, line, true);
        }
        self.log.extend(records);
        let file = self.folder.join(&name);
        self.own_seen = seen(&file);
        if let Some(now) = self.own_seen {
            self.files.insert(name, now);
        }
        self.write_second();
        Ok(())
    }

    /// May this program write here?
    pub(super) fn writable(&self) -> Result<(), LogStoreError> {
        match &self.newer {
            Some((file, schema)) => Err(LogStoreError::ReadOnly { file: file.clone(), schema: *schema }),
            None => Ok(()),
        }
    }

    /// The lines of the file of this device.
    fn own_lines(&self) -> impl Iterator<Item = &str> {
        self.lines.values().flatten().filter(|(_, own)| *own).map(|(line, _)| line.as_str())
    }

    fn has_line(&self, id: Id, line: &str) -> bool {
        self.lines.get(&id).is_some_and(|lines| lines.iter().any(|(there, own)| *own && there == line))
    }

    fn put_line(&mut self, id: Id, line: String, own: bool) {
        let lines = self.lines.entry(id).or_default();
        match lines.iter_mut().find(|(there, _)| *there == line) {
            Some((_, there)) => *there |= own,
            None => lines.push((line, own)),
        }
    }

    /// Takes in what was read; the file of this device is told apart.
    fn put(&mut self, read: ReadLog, own: bool) {
        for (record, text) in read.records.iter().zip(read.texts) {
            self.put_line(record.id, text.unwrap_or_else(|| written(record)), own);
        }
        self.log.extend(read.records);
    }

    /// All that is known goes into the file of this device.
    fn own_all(&mut self) {
        self.lines.values_mut().flatten().for_each(|(_, own)| *own = true);
    }

    fn own_name(&self) -> String {
        format!("{}.ron", self.device)
    }

    /// Is a file one of this job? What names no job is.
    fn is_of_job(&self, read: &ReadLog) -> bool {
        read.head.job == self.job || read.head.job == Id::default()
    }

    fn job_of_process(&self) -> u32 {
        std::process::id()
    }

    fn head(&self) -> LogFile {
        LogFile { job: self.job, device: self.device.clone() }
    }

    fn list(&self) -> Result<BTreeMap<String, Seen>, LogStoreError> {
        let failed = |cause| StoreError::Folder { folder: self.folder.clone(), cause };
        Ok(files(&self.folder).map_err(failed)?)
    }

    /// Takes in the file of this device where another process wrote it, and all that is known where it is
    /// gone or damaged.
    fn see_own(&mut self, name: &str) -> Result<(), LogStoreError> {
        let file = self.folder.join(name);
        let now = seen(&file);
        if now == self.own_seen && now.is_some() {
            return Ok(());
        }
        if now.is_some() {
            match log_of(&file) {
                // A copy that went into the wrong folder: its records are none of this job.
                FileRead::Log(read) if !self.is_of_job(&read) => {}
                FileRead::Log(read) if read.is_whole() => {
                    self.put(read, true);
                    return Ok(());
                }
                FileRead::Log(read) => self.put(read, true),
                FileRead::NoLog(LogFileError::Newer { schema }) => {
                    self.newer = Some((file.clone(), schema));
                    return Err(LogStoreError::ReadOnly { file, schema });
                }
                FileRead::NoLog(_) | FileRead::Unread(_) => {}
            }
            put_aside(&file, &self.aside).map_err(|cause| StoreError::File { file: file.clone(), cause })?;
        }
        self.own_all();
        Ok(())
    }

    /// Reads all files anew; what is in memory stays.
    fn read_again(&mut self) -> Result<(), LogStoreError> {
        self.notes.clear();
        self.newer = None;
        let listed = self.list()?;
        let own_name = self.own_name();
        let (mut hurt, mut own_strange) = (Vec::new(), false);
        for name in listed.keys() {
            let file = self.folder.join(name);
            let own = *name == own_name;
            match log_of(&file) {
                FileRead::Log(read) if !self.is_of_job(&read) => {
                    own_strange |= own;
                    let aside = own.then(|| keep_aside(&file, &self.aside)).flatten();
                    self.notes.push(LogNote::OtherJob { file, aside });
                }
                FileRead::Log(read) => {
                    if !read.is_whole() {
                        hurt.push((file, own, Hurt::Lines(read.damaged.len().max(1))));
                    }
                    self.put(read, own);
                }
                FileRead::NoLog(LogFileError::Newer { schema }) => {
                    self.newer = Some((file.clone(), schema));
                    self.notes.push(LogNote::Newer { file, schema });
                }
                FileRead::NoLog(why) => hurt.push((file, own, Hurt::All(why))),
                FileRead::Unread(cause) => {
                    own_strange |= own;
                    self.notes.push(LogNote::Unread { file, cause: cause.to_string() });
                }
            }
        }
        // What is under the name of the file of this device and was not taken in is looked at again, and put
        // aside, before anything is written over it.
        self.own_seen = listed.get(&own_name).copied().filter(|_| !own_strange);
        let lost_folder = listed.is_empty();
        self.files = listed;
        let before = self.log.len();
        let back = self.put_second();
        let missing = self.log.len() != before;
        let hurt_own = hurt.iter().any(|(_, own, _)| *own);
        for (file, own, how) in hurt {
            let aside = keep_aside(&file, &self.aside);
            self.notes.push(match how {
                _ if own && back => LogNote::Restored { file, aside },
                Hurt::Lines(lines) => LogNote::Damaged { file, aside, lines },
                Hurt::All(why) => LogNote::NoLog { file, aside, why },
            });
        }
        if self.newer.is_none() && (hurt_own || missing) {
            self.heal(lost_folder && missing);
        }
        Ok(())
    }

    /// Writes all that is known into the file of this device, where that was hurt.
    fn heal(&mut self, lost_folder: bool) {
        if self.device.is_empty() {
            return;
        }
        self.own_seen = None;
        self.own_all();
        let notes = std::mem::take(&mut self.notes);
        let done = self.add(Vec::new());
        self.notes = notes;
        if done.is_ok() && lost_folder {
            self.notes.push(LogNote::FolderBack { folder: self.folder.clone() });
        }
    }

    /// Takes in what lies a second time; false where that is not whole. Where nothing of it is new, which is
    /// nearly always, no record of it is read.
    fn put_second(&mut self) -> bool {
        let Ok(text) = text_of(&self.second.join(self.own_name())) else { return false };
        let known: HashSet<&str> = self.lines.values().flatten().map(|(line, _)| line.trim()).collect();
        let mut unknown =
            text.lines().map(str::trim).filter(|line| line.starts_with("(sum") && !known.contains(line));
        if unknown.next().is_none() && text.trim_end().ends_with("\n)") {
            return true;
        }
        // It is written over with all that is known: what is not whole, or of another job, is kept as it is.
        let whole = match LogFile::read(&text) {
            Ok(read) if read.head.job == self.job => {
                let whole = read.is_whole();
                self.put(read, false);
                whole
            }
            _ => false,
        };
        if !whole {
            keep_aside(&self.second.join(self.own_name()), &self.aside);
        }
        whole
    }

    /// Lays all that is known down a second time. It is for a file that breaks, so that a crash need not
    /// find it whole, and nobody waits for it.
    fn write_second(&self) {
        let file = self.second.join(self.own_name());
        let beside = self.second.join(format!(".{}.new", self.device));
        let lines = self.lines.values().flatten().map(|(line, _)| line.as_str());
        let text = self.head().text(lines);
        let made = fs::File::create(&beside).and_then(|mut open| open.write_all(text.as_bytes()));
        if made.and_then(|()| fs::rename(&beside, &file)).is_err() {
            let _ = fs::remove_file(&beside);
        }
    }
}
