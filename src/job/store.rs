//! Files that survive a kill at any moment: written beside and then renamed.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use thiserror::Error;

use crate::words::Words;

/// Prefix of a file that is being written.
const HALF_WRITTEN: &str = ".half-written-";
/// A half-written file older than this belongs to no running save.
const ABANDONED: Duration = Duration::from_secs(60);
/// The file that a window locks while it reads and writes.
const LOCK: &str = ".lock";
/// How often, and how long after each other, it tries that.
const ALONE_TRIES: u32 = 100;
const ALONE_PAUSE: Duration = Duration::from_millis(10);
/// Beginning of the files that a window locks while it runs, one for each window.
const SEAT: &str = ".window-";
/// More windows than anybody opens.
const SEATS: u32 = 100;
/// How many broken files of one name are kept aside.
const BROKEN_KEPT: u32 = 20;

/// When a file was written, and how long it is.
pub type Stamp = (SystemTime, u64);

/// The number of a window, its own while this is kept.
#[derive(Debug)]
pub struct Seat {
    /// The number.
    pub number: u32,
    _lock: Option<fs::File>,
}

impl Default for Seat {
    /// That of the only window.
    fn default() -> Self {
        Self { number: 1, _lock: None }
    }
}

fn seat_name(number: u32) -> String {
    format!("{SEAT}{number}")
}

/// Why something could not be stored or read.
#[derive(Debug, Error)]
pub enum StoreError {
    /// The folder can't be made or written.
    #[error("folder {}: {cause}", folder.display())]
    Folder {
        /// The folder.
        folder: PathBuf,
        /// What the system says.
        cause: io::Error,
    },
    /// A file can't be read or written.
    #[error("file {}: {cause}", file.display())]
    File {
        /// The file.
        file: PathBuf,
        /// What the system says.
        cause: io::Error,
    },
    /// Another window is writing, and does not end.
    #[error("folder {}: another window is writing", folder.display())]
    Busy {
        /// The folder.
        folder: PathBuf,
    },
}

impl StoreError {
    /// Key of the Fluent message.
    #[must_use]
    pub const fn key(&self) -> &'static str {
        match self {
            Self::Folder { .. } => "store-folder",
            Self::File { .. } => "store-file",
            Self::Busy { .. } => "store-busy",
        }
    }

    /// What can't be written or read, and why, in one plain line.
    #[must_use]
    pub fn say(&self, words: &Words) -> String {
        let path = self.path().display().to_string();
        match self {
            Self::Folder { cause, .. } | Self::File { cause, .. } => {
                words.with(self.key(), &[("path", &path), ("cause", &cause.to_string())])
            }
            Self::Busy { .. } => words.with(self.key(), &[("path", &path)]),
        }
    }

    /// The folder or file.
    #[must_use]
    pub fn path(&self) -> &Path {
        match self {
            Self::Folder { folder, .. } | Self::Busy { folder } => folder,
            Self::File { file, .. } => file,
        }
    }
}

/// A folder of files.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Store {
    folder: PathBuf,
}

impl Store {
    /// The folder that the desktop gives to this program; `None` where there is no home.
    /// Android hands its own folder to [`Store::open`].
    #[cfg(not(target_os = "android"))]
    #[must_use]
    pub fn desktop_folder() -> Option<PathBuf> {
        directories::ProjectDirs::from("", "", "strawblue").map(|found| found.data_dir().to_owned())
    }

    /// A store in a folder, which is made where it is missing.
    ///
    /// # Errors
    /// [`StoreError::Folder`] if it can't be made.
    pub fn open(folder: impl Into<PathBuf>) -> Result<Self, StoreError> {
        let store = Self { folder: folder.into() };
        fs::create_dir_all(&store.folder)
            .map_err(|cause| StoreError::Folder { folder: store.folder.clone(), cause })?;
        store.sweep();
        Ok(store)
    }

    /// The folder.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// The text of a file; `None` where there is none.
    ///
    /// # Errors
    /// [`StoreError::File`] if it is there and can't be read. A file that is no text is
    /// read with its bad bytes replaced, so that the reader of it can keep it aside.
    pub fn read(&self, name: &str) -> Result<Option<String>, StoreError> {
        let file = self.folder.join(name);
        match fs::read(&file) {
            Ok(bytes) => Ok(Some(String::from_utf8_lossy(&bytes).into_owned())),
            Err(cause) if cause.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(cause) => Err(StoreError::File { file, cause }),
        }
    }

    /// Writes a file whole or not at all: beside it, to the disk, and then in its place.
    ///
    /// # Errors
    /// [`StoreError`] if any step fails; the old file is then still there.
    pub fn write(&self, name: &str, text: &str) -> Result<(), StoreError> {
        self.write_if(name, text, || true).map(|_| ())
    }

    /// The same, but only upon the file that was seen; false where it is another one by now.
    pub(super) fn write_upon(&self, name: &str, text: &str, seen: Option<Stamp>) -> Result<bool, StoreError> {
        self.write_if(name, text, || self.stamp(name) == seen)
    }

    fn write_if(&self, name: &str, text: &str, may: impl Fn() -> bool) -> Result<bool, StoreError> {
        let file = self.folder.join(name);
        let at_folder = |cause| StoreError::Folder { folder: self.folder.clone(), cause };
        let mut beside =
            tempfile::Builder::new().prefix(HALF_WRITTEN).tempfile_in(&self.folder).map_err(at_folder)?;
        let written = beside.write_all(text.as_bytes()).and_then(|()| beside.as_file().sync_all());
        written.map_err(|cause| StoreError::File { file: file.clone(), cause })?;
        if !may() {
            return Ok(false);
        }
        beside.persist(&file).map_err(|failed| StoreError::File { file, cause: failed.error })?;
        // The rename itself reaches the disk too, where the system can do that to a folder.
        if let Ok(folder) = fs::File::open(&self.folder) {
            let _ = folder.sync_all();
        }
        Ok(true)
    }

    /// When a file was written, and how long it is; none where there is none.
    #[must_use]
    pub fn stamp(&self, name: &str) -> Option<Stamp> {
        let found = fs::metadata(self.folder.join(name)).ok()?;
        Some((found.modified().ok()?, found.len()))
    }

    /// Keeps every other window out until this is dropped, so that none writes between the reading
    /// and the writing of another; nothing where the folder knows no locks.
    ///
    /// # Errors
    /// [`StoreError::Busy`] if another window does not let go in a moment.
    pub(crate) fn alone(&self) -> Result<Option<fs::File>, StoreError> {
        let Ok(file) = self.lock_file(LOCK) else { return Ok(None) };
        for _ in 0..ALONE_TRIES {
            match file.try_lock() {
                Ok(()) => return Ok(Some(file)),
                Err(fs::TryLockError::WouldBlock) => std::thread::sleep(ALONE_PAUSE),
                Err(fs::TryLockError::Error(_)) => return Ok(None),
            }
        }
        Err(StoreError::Busy { folder: self.folder.clone() })
    }

    /// The number of a window while it runs, from 1 on: the first one that no other has.
    #[must_use]
    pub fn seat(&self) -> Seat {
        for number in 1..SEATS {
            match self.lock_file(&seat_name(number)).map(|file| (file.try_lock(), file)) {
                Ok((Ok(()), file)) => return Seat { number, _lock: Some(file) },
                Ok((Err(fs::TryLockError::WouldBlock), _)) => {}
                // Where there are no locks every window is the first.
                Ok((Err(fs::TryLockError::Error(_)), _)) | Err(_) => break,
            }
        }
        Seat { number: 1, _lock: None }
    }

    /// Does a window of this number run?
    #[must_use]
    pub fn is_seated(&self, number: u32) -> bool {
        // A look makes no file: where none is, no window was.
        let file = fs::File::open(self.folder.join(seat_name(number)));
        file.is_ok_and(|file| matches!(file.try_lock(), Err(fs::TryLockError::WouldBlock)))
    }

    fn lock_file(&self, name: &str) -> io::Result<fs::File> {
        fs::File::options().create(true).append(true).open(self.folder.join(name))
    }

    /// Keeps a copy of a file aside as `NAME.broken`, `NAME.broken-2` …
    ///
    /// # Errors
    /// [`StoreError::File`] if the copy can't be made.
    pub fn keep_aside(&self, name: &str) -> Result<PathBuf, StoreError> {
        self.keep_as(name, "broken")
    }

    /// Keeps a copy of a file aside as `NAME.WHY`, `NAME.WHY-2` …
    pub(super) fn keep_as(&self, name: &str, why: &str) -> Result<PathBuf, StoreError> {
        let free = (1..=BROKEN_KEPT)
            .map(|count| match count {
                1 => self.folder.join(format!("{name}.{why}")),
                count => self.folder.join(format!("{name}.{why}-{count}")),
            })
            .find(|aside| !aside.exists());
        // With all taken the last one is written over: the first ones hold what was lost first.
        let aside = free.unwrap_or_else(|| self.folder.join(format!("{name}.{why}-{BROKEN_KEPT}")));
        fs::copy(self.folder.join(name), &aside)
            .map_err(|cause| StoreError::File { file: aside.clone(), cause })?;
        Ok(aside)
    }

    /// Removes what a killed save left behind. A failure here harms nothing.
    fn sweep(&self) {
        let Ok(entries) = fs::read_dir(&self.folder) else { return };
        for entry in entries.flatten() {
            let ours = entry.file_name().to_string_lossy().starts_with(HALF_WRITTEN);
            let age =
                entry.metadata().and_then(|found| found.modified()).ok().and_then(|at| at.elapsed().ok());
            if ours && age.is_some_and(|age| age > ABANDONED) {
                let _ = fs::remove_file(entry.path());
            }
        }
    }
}
