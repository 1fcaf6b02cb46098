//! What can go wrong with the files of a log, in plain lines.

use std::path::{Path, PathBuf};

use thiserror::Error;

use crate::engine::photo::PhotoUnread;
use crate::job::StoreError;
use crate::log::{Id, LogFileError};
use crate::words::Words;

/// Why a log could not be read or written.
#[derive(Debug, Error)]
pub enum LogStoreError {
    /// The system can't.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// There is no such job.
    #[error("no job {job}")]
    NotThere {
        /// The id.
        job: Id,
    },
    /// A newer program wrote to this job: here it is read, and not written.
    #[error("{}: newer", file.display())]
    ReadOnly {
        /// The file.
        file: PathBuf,
        /// Its version.
        schema: u32,
    },
    /// A file is no picture that can be kept.
    #[error("{}: no picture", file.display())]
    NoPicture {
        /// The file.
        file: PathBuf,
        /// Why; none where its kind or its length says it.
        why: Option<PhotoUnread>,
    },
    /// A file is no log.
    #[error("{}: {why}", file.display())]
    NoLog {
        /// The file.
        file: PathBuf,
        /// Why.
        why: LogFileError,
    },
}

impl LogStoreError {
    /// What it is, in one plain line.
    #[must_use]
    pub fn say(&self, words: &Words) -> String {
        match self {
            Self::Store(error) => error.say(words),
            Self::NotThere { .. } => words.get("log-no-job"),
            Self::ReadOnly { file, .. } => words.with("log-read-only", &[("path", &shown(file))]),
            Self::NoPicture { why: Some(PhotoUnread::TooLarge), .. } => words.get("photo-too-large"),
            Self::NoPicture { file, .. } => words.with("log-no-picture", &[("path", &shown(file))]),
            Self::NoLog { file, why } => why_no_log(words, file, why),
        }
    }
}

fn shown(path: &Path) -> String {
    path.display().to_string()
}

/// Why a file is no log, in one plain line.
fn why_no_log(words: &Words, file: &Path, why: &LogFileError) -> String {
    let path = shown(file);
    match why {
        LogFileError::Empty => words.with("log-file-empty", &[("path", &path)]),
        LogFileError::TooLong => words.with("log-file-long", &[("path", &path)]),
        LogFileError::Newer { .. } => words.with("log-read-only", &[("path", &path)]),
        LogFileError::NoLog { line, .. } => {
            words.with("log-file-none", &[("path", &path), ("line", &line.to_string())])
        }
    }
}

/// What had to be said of a file while a job was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LogNote {
    /// It was damaged, and all that this device wrote is there all the same.
    Restored {
        /// The file.
        file: PathBuf,
        /// Where it is kept as it was.
        aside: Option<PathBuf>,
    },
    /// It was damaged, and some of it may be lost.
    Damaged {
        /// The file.
        file: PathBuf,
        /// Where it is kept as it was.
        aside: Option<PathBuf>,
        /// How many lines can't be read.
        lines: usize,
    },
    /// It is no log at all.
    NoLog {
        /// The file.
        file: PathBuf,
        /// Where it is kept as it was.
        aside: Option<PathBuf>,
        /// Why.
        why: LogFileError,
    },
    /// A newer program wrote it.
    Newer {
        /// The file.
        file: PathBuf,
        /// Its version.
        schema: u32,
    },
    /// The system can't read it.
    Unread {
        /// The file.
        file: PathBuf,
        /// What the system says.
        cause: String,
    },
    /// It belongs to another job, and does not count here.
    OtherJob {
        /// The file.
        file: PathBuf,
        /// Where a copy of it is kept, where it has the name of the file of this device.
        aside: Option<PathBuf>,
    },
    /// The folder of the job was gone, and is there again with all that this device knew.
    FolderBack {
        /// The folder.
        folder: PathBuf,
    },
}

impl LogNote {
    /// What it is, in one plain line; where a broken file is kept, in a second sentence.
    #[must_use]
    pub fn say(&self, words: &Words) -> String {
        let line = |key: &str, file: &Path| words.with(key, &[("path", &shown(file))]);
        let (said, aside) = match self {
            Self::Restored { file, aside } => (line("log-note-restored", file), aside.as_ref()),
            Self::Damaged { file, aside, lines } => {
                (words.count("log-note-damaged", *lines, &[("path", &shown(file))]), aside.as_ref())
            }
            Self::NoLog { file, aside, why } => (why_no_log(words, file, why), aside.as_ref()),
            Self::Newer { file, .. } => (line("log-read-only", file), None),
            Self::Unread { file, cause } => {
                (words.with("store-file", &[("path", &shown(file)), ("cause", cause)]), None)
            }
            Self::OtherJob { file, aside } => {
                let kept = aside.as_ref().map(|aside| line("log-note-copy", aside));
                let said = [Some(line("log-note-other-job", file)), kept];
                (
                    words
                        .list(crate::words::List::Sentences, &said.into_iter().flatten().collect::<Vec<_>>()),
                    None,
                )
            }
            Self::FolderBack { folder } => (line("log-note-folder", folder), None),
        };
        let kept = aside.map(|aside| words.with("log-note-aside", &[("path", &shown(aside))]));
        words.list(
            crate::words::List::Sentences,
            &[Some(said), kept].into_iter().flatten().collect::<Vec<_>>(),
        )
    }

    /// Does it mean that something may be missing?
    #[must_use]
    pub const fn is_loss(&self) -> bool {
        matches!(self, Self::Damaged { .. } | Self::NoLog { .. } | Self::Unread { .. } | Self::Newer { .. })
    }
}
