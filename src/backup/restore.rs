//! What was packed, back into a folder that may have gone its own way since.

use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, File};
use std::io::{self, BufReader, Read, Seek, Write};
use std::path::{Path, PathBuf};

use super::contents::{CONTENTS, Contents, Form, Kept, LONGEST, Packed, Room, SCHEMA, SESSION};
use super::{BackupError, at};
use crate::job::{Session, SessionBack, Store};
use crate::log::{Id, LogFile, LogStoreError, Logs};
use crate::words::Words;

/// What a restore did.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Restored {
    /// Jobs of the log that the backup has.
    pub jobs: usize,
    /// Records that were new here.
    pub records: usize,
    /// Was the session of the backup put beside one that stood here?
    pub merged: bool,
    /// Files that were kept aside: the session as it stood, and what differs from a file that stands.
    pub aside: Vec<PathBuf>,
}

impl Restored {
    /// What was done, a line each.
    #[must_use]
    pub fn say(&self, words: &Words) -> Vec<String> {
        let mut said =
            vec![words.numbers("backup-restored", &[("jobs", self.jobs), ("new", self.records)], &[])];
        if self.merged {
            said.push(words.get("backup-merged"));
        }
        let aside = |path: &PathBuf| words.with("backup-aside", &[("path", &path.display().to_string())]);
        said.extend(self.aside.iter().map(aside));
        said
    }
}

/// Restores what was packed into a folder, which is made where it is missing. Nothing of it is taken before
/// all of it was found whole; what stands in the folder is never lost.
///
/// # Errors
/// [`BackupError`]: the file is no whole backup, or something can't be written. What was taken until then is
/// whole, and the same again goes on from there.
pub fn restore(folder: &Path, from: &Path) -> Result<Restored, BackupError> {
    let mut file = File::open(from).map_err(at(from))?;
    check(&file)?;
    let mut back = Back {
        store: Store::open(folder)?,
        logs: Logs::open(folder)?,
        before: BTreeMap::new(),
        done: Restored::default(),
    };
    // What lies a second time comes last: of what the files of the jobs say nothing of it is new.
    for second in [false, true] {
        file.rewind().map_err(at(from))?;
        back.take_all(&file, from, second)?;
    }
    back.end()
}

fn name_of(entry: &tar::Entry<'_, impl Read>) -> Option<String> {
    String::from_utf8(entry.path_bytes().into_owned()).ok()
}

/// Is the archive whole, and nothing in it that is never packed?
fn check(file: &File) -> Result<(), BackupError> {
    let mut archive = tar::Archive::new(BufReader::new(file));
    let mut found = Vec::new();
    let mut list = None;
    let mut ours = false;
    let broken = |ours: bool| if ours { BackupError::Damaged } else { BackupError::NoBackup };
    for entry in archive.entries().map_err(|_| BackupError::NoBackup)? {
        let mut entry = entry.map_err(|_| broken(ours))?;
        let name = name_of(&entry).ok_or(BackupError::NoBackup)?;
        // A list that is followed by anything is not the last entry.
        if list.is_some() || !entry.header().entry_type().is_file() || entry.size() > LONGEST {
            return Err(broken(ours));
        }
        let mut bytes = Vec::new();
        entry.read_to_end(&mut bytes).map_err(|_| broken(ours))?;
        if name == CONTENTS {
            list = Some(bytes);
        } else {
            ours |= Kept::of(&name).is_some();
            found.push(Packed::of(&name, bytes.len() as u64, crc32fast::hash(&bytes)));
        }
    }
    let list = list.ok_or_else(|| broken(ours))?;
    let form: Form = serde_json::from_slice(&list).map_err(|_| broken(ours))?;
    if form.schema > SCHEMA {
        return Err(BackupError::Newer { schema: form.schema });
    }
    let contents: Contents = serde_json::from_slice(&list).map_err(|_| broken(ours))?;
    let known = found.iter().all(|file| Kept::of(&file.name).is_some());
    if known && contents.files == found { Ok(()) } else { Err(BackupError::Damaged) }
}

/// A restore while it runs.
struct Back {
    store: Store,
    logs: Logs,
    /// How many records each job had.
    before: BTreeMap<Id, usize>,
    done: Restored,
}

impl Back {
    /// Takes the files of the archive: those that lie a second time, or all others.
    fn take_all(&mut self, file: &File, from: &Path, second: bool) -> Result<(), BackupError> {
        let mut archive = tar::Archive::new(BufReader::new(file));
        for entry in archive.entries().map_err(at(from))? {
            let mut entry = entry.map_err(at(from))?;
            let name = name_of(&entry).ok_or(BackupError::Damaged)?;
            let kept = Kept::of(&name);
            if second != matches!(kept, Some(Kept::OfJob(Room::Second, ..))) {
                continue;
            }
            let mut bytes = Vec::new();
            entry.read_to_end(&mut bytes).map_err(at(from))?;
            match kept {
                Some(Kept::Session) => self.session(&bytes)?,
                Some(Kept::OldSession) => self.put_or_aside(&name, &bytes, false)?,
                Some(Kept::OfJob(room, job, file)) => self.of_job(room, job, file, &name, &bytes)?,
                None => {}
            }
        }
        Ok(())
    }

    fn session(&mut self, bytes: &[u8]) -> Result<(), BackupError> {
        let text = String::from_utf8_lossy(bytes);
        let (theirs, lost) = Session::from_ron(&text);
        if self.store.read(SESSION)?.is_none() {
            // As it was, with what a later program may read of it.
            return self.put_or_aside(SESSION, bytes, false);
        }
        if !lost.is_empty() {
            return self.put_or_aside(&format!("{SESSION}.broken"), bytes, true);
        }
        match theirs.back_into(&self.store)? {
            SessionBack::Same => {}
            SessionBack::Merged { aside } => {
                self.done.merged = true;
                self.done.aside.push(aside);
            }
        }
        Ok(())
    }

    fn of_job(
        &mut self,
        room: Room,
        job: Id,
        file: &str,
        name: &str,
        bytes: &[u8],
    ) -> Result<(), BackupError> {
        if !self.before.contains_key(&job) {
            let count = self.records(job)?;
            self.before.insert(job, count);
        }
        match room {
            Room::Aside => self.put_or_aside(name, bytes, false),
            // What that device knew: mostly what the files of the job say anyway.
            Room::Second => self.merge(job, bytes).map(|_| ()),
            Room::Jobs if self.put(name, bytes)? => Ok(()),
            // A file of this name stands: each is a set of records.
            Room::Jobs if file.ends_with(".ron") && self.merge(job, bytes)? => Ok(()),
            Room::Jobs => self.put_or_aside(&format!("log-aside/{job}/{file}"), bytes, true),
        }
    }

    /// Adds the records that a job lacks; false where not all of them could be read or written.
    fn merge(&self, job: Id, bytes: &[u8]) -> Result<bool, BackupError> {
        let Ok(read) = LogFile::read(&String::from_utf8_lossy(bytes)) else { return Ok(false) };
        if read.head.job != job {
            return Ok(false);
        }
        let whole = read.is_whole();
        match self.logs.take(job, read.records) {
            // A newer program wrote to the job: this one must not.
            Err(LogStoreError::ReadOnly { .. }) => Ok(false),
            taken => taken.map(|_| whole).map_err(BackupError::from),
        }
    }

    /// Writes a file that is not there, whole; true where it is there now, with these bytes.
    fn put(&self, name: &str, bytes: &[u8]) -> Result<bool, BackupError> {
        let path = self.store.folder().join(name);
        match fs::read(&path) {
            Ok(there) => return Ok(there == bytes),
            Err(cause) if cause.kind() == io::ErrorKind::NotFound => {}
            Err(cause) => return Err(at(&path)(cause)),
        }
        let folder = path.parent().unwrap_or(self.store.folder());
        fs::create_dir_all(folder).map_err(at(folder))?;
        let mut beside =
            tempfile::Builder::new().prefix(".half-written-").tempfile_in(folder).map_err(at(&path))?;
        beside.write_all(bytes).and_then(|()| beside.as_file().sync_all()).map_err(at(&path))?;
        match beside.persist_noclobber(&path) {
            Ok(_) => {}
            // Another window wrote it meanwhile.
            Err(error) if error.error.kind() == io::ErrorKind::AlreadyExists => return Ok(false),
            Err(error) => return Err(at(&path)(error.error)),
        }
        if let Ok(folder) = File::open(folder) {
            let _ = folder.sync_all();
        }
        Ok(true)
    }

    /// The same, under the first name that is free or has these bytes. It is told where that is another name than it
    /// had, or where it `differs` from what stands.
    fn put_or_aside(&mut self, name: &str, bytes: &[u8], differs: bool) -> Result<(), BackupError> {
        let mut free = name.to_owned();
        for count in 2.. {
            let path = self.store.folder().join(&free);
            let known = path.exists();
            if self.put(&free, bytes)? {
                if !known && (differs || free != name) {
                    self.done.aside.push(path);
                }
                break;
            }
            free = format!("{name}-{count}");
        }
        Ok(())
    }

    /// How many records a job has; none where it is not there.
    fn records(&self, job: Id) -> Result<usize, BackupError> {
        match self.logs.job(job) {
            Ok(open) => Ok(open.log().len()),
            Err(LogStoreError::NotThere { .. }) => Ok(0),
            Err(error) => Err(error.into()),
        }
    }

    fn end(mut self) -> Result<Restored, BackupError> {
        self.done.jobs = self.before.len();
        for (job, before) in &self.before {
            self.done.records += self.records(*job)?.saturating_sub(*before);
        }
        let aside: BTreeSet<PathBuf> = self.done.aside.drain(..).collect();
        self.done.aside = aside.into_iter().collect();
        Ok(self.done)
    }
}
