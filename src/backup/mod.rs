//! All that a person keeps, in one file and back: the session with its steels, the logs with their
//! pictures, and what was kept aside.
//!
//! The file is a plain tar archive, which other programs open too. Its last entry lists every file with its
//! length and its sum, so that a cut or damaged archive is known before anything of it is taken. What belongs to
//! the machine (the id of the device, the list of jobs, locks) stays out of it.
//!
//! A restore is no copying over: a log gets the records that it lacks, a session is merged, and a file that
//! differs from the one that stands is kept aside. Done twice it is done once.

mod contents;
mod pack;
mod restore;

pub use pack::{Packed, pack};
pub use restore::{Restored, restore};

use std::io;
use std::path::{Path, PathBuf};

use thiserror::Error;

use crate::job::StoreError;
use crate::log::LogStoreError;
use crate::words::Words;

/// Why nothing could be packed or restored.
#[derive(Debug, Error)]
pub enum BackupError {
    /// The file can't be written or read.
    #[error("file {}: {cause}", file.display())]
    File {
        /// The file.
        file: PathBuf,
        /// What the system says.
        cause: io::Error,
    },
    /// There is a file of this name.
    #[error("file {}: there already", file.display())]
    Taken {
        /// The file.
        file: PathBuf,
    },
    /// The file is no backup.
    #[error("no backup")]
    NoBackup,
    /// It is one, and not whole.
    #[error("a damaged backup")]
    Damaged,
    /// A newer program made it.
    #[error("backup of schema {schema}")]
    Newer {
        /// Its schema.
        schema: u32,
    },
    /// What is kept can't be read or written.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// A log can't be.
    #[error(transparent)]
    Log(#[from] LogStoreError),
}

impl BackupError {
    /// Why, in one plain line.
    #[must_use]
    pub fn say(&self, words: &Words) -> String {
        match self {
            Self::File { file, cause } => {
                let path = file.display().to_string();
                words.with("store-file", &[("path", &path), ("cause", &cause.to_string())])
            }
            Self::Taken { .. } => words.get("backup-taken"),
            Self::NoBackup => words.get("backup-none"),
            Self::Damaged => words.get("backup-damaged"),
            Self::Newer { .. } => words.get("backup-newer"),
            Self::Store(error) => error.say(words),
            Self::Log(error) => error.say(words),
        }
    }
}

/// An error of the system, with its file.
fn at(file: &Path) -> impl Fn(io::Error) -> BackupError + '_ {
    move |cause| BackupError::File { file: file.to_owned(), cause }
}
