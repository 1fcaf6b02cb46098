//! A file that somebody brings along, from the desktop or dropped on the window: what is it?

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use thiserror::Error;

use super::{LogFile, LogFileError};
use crate::job::{JobFileError, JobText};
use crate::words::Words;

/// The longest job, bytes.
const LONGEST_JOB: usize = 1 << 20;
/// So much of a file tells what it is; all of a job is in it.
const LOOKED_AT: u64 = LONGEST_JOB as u64 + 1;
/// How the head of a log begins its list. No job has one.
const RECORDS: &str = "records:";
/// First bytes of a JPEG, a PNG and a WebP, and where they stand.
const PHOTOS: [(&[u8], usize); 3] = [(&[0xff, 0xd8, 0xff], 0), (b"\x89PNG\r\n\x1a\n", 0), (b"WEBP", 8)];

/// What a file is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Brought {
    /// A job to plan.
    Job(Box<JobText>),
    /// The log of a job, to be taken in.
    Log,
    /// A picture.
    Photo,
}

/// Why a file can't be opened.
#[derive(Debug, Error)]
pub enum BroughtError {
    /// The system can't read it.
    #[error("{0}")]
    Unread(#[from] io::Error),
    /// It is nothing that can be opened.
    #[error("neither a job nor a log nor a photo")]
    Unknown,
    /// It is nearly a job.
    #[error(transparent)]
    NoJob(JobFileError),
    /// A newer program wrote it.
    #[error("a newer log")]
    Newer,
}

impl Brought {
    /// Looks what a file is, by what it holds.
    ///
    /// # Errors
    /// [`BroughtError`] where it is nothing that the program opens.
    pub fn read(file: &Path) -> Result<Self, BroughtError> {
        let mut bytes = Vec::new();
        File::open(file)?.take(LOOKED_AT).read_to_end(&mut bytes)?;
        if PHOTOS.iter().any(|(sign, at)| bytes.get(*at..).is_some_and(|rest| rest.starts_with(sign))) {
            return Ok(Self::Photo);
        }
        let text = String::from_utf8_lossy(&bytes);
        if text.contains(RECORDS) {
            // Only its head and some of its records may be here: enough to tell.
            return match LogFile::read(&text) {
                Ok(_) => Ok(Self::Log),
                Err(LogFileError::Newer { .. }) => Err(BroughtError::Newer),
                Err(_) => Err(BroughtError::Unknown),
            };
        }
        if bytes.len() > LONGEST_JOB || std::str::from_utf8(&bytes).is_err() {
            return Err(BroughtError::Unknown);
        }
        match JobText::from_ron(&text) {
            Ok(job) if job.typed().is_empty() => Err(BroughtError::Unknown),
            Ok(job) => Ok(Self::Job(Box::new(job))),
            Err(problem) if text.trim_start().starts_with(['(', '/']) => Err(BroughtError::NoJob(problem)),
            Err(_) => Err(BroughtError::Unknown),
        }
    }
}

impl BroughtError {
    /// Why, in one plain line.
    #[must_use]
    pub fn say(&self, words: &Words) -> String {
        match self {
            Self::Unread(cause) => words.with("cli-file-unread", &[("cause", &cause.to_string())]),
            Self::Unknown => words.get("brought-unknown"),
            Self::NoJob(JobFileError { line, unknown_field: Some(field), .. }) => {
                words.with("cli-file-field", &[("line", &line.to_string()), ("field", field)])
            }
            Self::NoJob(JobFileError { line, detail, .. }) => {
                words.with("cli-file-no-job", &[("line", &line.to_string()), ("detail", detail)])
            }
            Self::Newer => words.get("cli-card-newer"),
        }
    }
}
