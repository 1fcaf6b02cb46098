//! The files of a folder, read as far as they can be read.

use std::collections::BTreeMap;
use std::fs;
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::time::UNIX_EPOCH;

use serde::{Deserialize, Serialize};

use super::LogStoreError;
use crate::job::StoreError;
use crate::log::{LogFile, LogFileError, ReadLog};

/// The longest file that is read, bytes: a hundred times what the largest job takes.
pub(super) const LONGEST: u64 = 64 << 20;
/// How the files of a log end.
const ENDING: &str = "ron";

/// Whether a file is the one that was seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Seen {
    /// When it was written, ns since 1970.
    pub(super) at_ns: u64,
    /// Its length.
    pub(super) length: u64,
}

/// The files of a folder by name, with what tells each from a later one; nothing where there is no folder.
pub(super) fn files(folder: &Path) -> io::Result<BTreeMap<String, Seen>> {
    let entries = match fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(BTreeMap::new()),
        Err(error) => return Err(error),
    };
    let mut found = BTreeMap::new();
    for entry in entries.flatten() {
        let Ok(name) = entry.file_name().into_string() else { continue };
        let ours = Path::new(&name).extension().is_some_and(|ending| ending == ENDING);
        if !ours || name.starts_with('.') {
            continue;
        }
        if let Some(seen) = seen(&entry.path()) {
            found.insert(name, seen);
        }
    }
    Ok(found)
}

/// What tells a file from a later one; none where there is none.
pub(super) fn seen(file: &Path) -> Option<Seen> {
    let found = fs::metadata(file).ok().filter(fs::Metadata::is_file)?;
    let at = found.modified().ok()?.duration_since(UNIX_EPOCH).unwrap_or_default();
    Some(Seen { at_ns: u64::try_from(at.as_nanos()).unwrap_or(u64::MAX), length: found.len() })
}

/// What came of a file.
pub(super) enum FileRead {
    /// A log, whole or in part.
    Log(ReadLog),
    /// None.
    NoLog(LogFileError),
    /// The system can't read it.
    Unread(io::Error),
}

/// Reads a file as far as it can be read. Bytes that are no text are replaced: the line that they stand in
/// is then damaged, and no other.
pub(super) fn log_of(file: &Path) -> FileRead {
    match bytes_of(file) {
        Err(error) => FileRead::Unread(error),
        Ok(None) => FileRead::NoLog(LogFileError::TooLong),
        Ok(Some(bytes)) => match LogFile::read(&String::from_utf8_lossy(&bytes)) {
            Ok(read) => FileRead::Log(read),
            Err(error) => FileRead::NoLog(error),
        },
    }
}

/// The text of a file that somebody hands over.
pub(super) fn text_of(file: &Path) -> Result<String, LogStoreError> {
    match bytes_of(file) {
        Err(cause) => Err(StoreError::File { file: file.to_owned(), cause }.into()),
        Ok(None) => Err(LogStoreError::NoLog { file: file.to_owned(), why: LogFileError::TooLong }),
        Ok(Some(bytes)) => Ok(String::from_utf8_lossy(&bytes).into_owned()),
    }
}

/// Reads a file that lies anywhere, as far as it can be read.
///
/// # Errors
/// Where the system can't read it, or it is no log.
pub fn read_log_file(file: &Path) -> Result<ReadLog, LogStoreError> {
    LogFile::read(&text_of(file)?).map_err(|why| LogStoreError::NoLog { file: file.to_owned(), why })
}

/// None where it is too long: no more than that is ever held.
fn bytes_of(file: &Path) -> io::Result<Option<Vec<u8>>> {
    let open = fs::File::open(file)?;
    if open.metadata()?.len() > LONGEST {
        return Ok(None);
    }
    let mut bytes = Vec::new();
    open.take(LONGEST + 1).read_to_end(&mut bytes)?;
    Ok((bytes.len() as u64 <= LONGEST).then_some(bytes))
}

/// Puts a file aside before another one takes its place: a copy of it, or the file itself where it is too
/// long or can't be read.
///
/// # Errors
/// What the system says where neither can be done.
pub(super) fn put_aside(file: &Path, folder: &Path) -> io::Result<PathBuf> {
    if let Some(aside) = keep_aside(file, folder) {
        return Ok(aside);
    }
    fs::create_dir_all(folder)?;
    let name = file.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let at_ns = seen(file).map_or(0, |seen| seen.at_ns);
    let aside = folder.join(format!("{name}.{at_ns:x}.broken"));
    fs::rename(file, &aside).map(|()| aside)
}

/// Keeps a copy of a file as it is, under a name by its bits, so that the same one is kept once. A file
/// that is too long to be read is not copied: it stays where it is.
pub(super) fn keep_aside(file: &Path, folder: &Path) -> Option<PathBuf> {
    let bytes = bytes_of(file).ok()??;
    let name = file.file_name()?.to_string_lossy().into_owned();
    let aside = folder.join(format!("{name}.{:08x}.broken", crc32fast::hash(&bytes)));
    if fs::read(&aside).is_ok_and(|there| there == bytes) {
        return Some(aside);
    }
    fs::create_dir_all(folder).ok()?;
    fs::write(&aside, &bytes).ok()?;
    Some(aside)
}
