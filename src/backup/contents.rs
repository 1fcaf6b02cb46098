//! What is in a backup: which files of a person's folder, and the list of them.

use serde::{Deserialize, Serialize};

use crate::log::Id;

/// The last entry of the archive.
pub(super) const CONTENTS: &str = "contents.json";
/// Raised where a program of before could not restore what is packed.
pub(super) const SCHEMA: u32 = 1;
/// The longest single file that is packed or restored, bytes: as long as the longest log that is read.
pub(super) const LONGEST: u64 = 64 << 20;
/// The session, and what was kept of it.
pub(super) const SESSION: &str = "session.ron";
/// The rooms of the logs, each with a folder for each job.
pub(super) const ROOMS: [(&str, Room); 3] =
    [("log", Room::Jobs), ("log-second", Room::Second), ("log-aside", Room::Aside)];

/// Where a file of a job lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Room {
    /// Among the jobs.
    Jobs,
    /// What one device knew of the job, a second time.
    Second,
    /// What was kept aside.
    Aside,
}

/// What a file in a backup is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Kept<'a> {
    /// The session.
    Session,
    /// A session that was kept aside.
    OldSession,
    /// A file of a job.
    OfJob(Room, Id, &'a str),
}

impl<'a> Kept<'a> {
    /// What a name stands for; none where nothing of that name is ever packed, so that no name leads out of the
    /// folder.
    pub(super) fn of(name: &'a str) -> Option<Self> {
        if name == SESSION {
            return Some(Self::Session);
        }
        if let Some(rest) = name.strip_prefix(SESSION) {
            return (rest.starts_with('.') && is_plain(rest.trim_start_matches('.')))
                .then_some(Self::OldSession);
        }
        let (room, rest) = name.split_once('/')?;
        let (job, file) = rest.split_once('/')?;
        let room = ROOMS.iter().find(|(folder, _)| *folder == room)?.1;
        let id = Id::read(job).filter(|id| id.to_string() == job)?;
        is_plain(file).then_some(Self::OfJob(room, id, file))
    }
}

/// A name of a file in its folder: it hides from nobody and leads nowhere.
fn is_plain(name: &str) -> bool {
    !name.is_empty() && !name.starts_with('.') && !name.contains(['/', '\\', ':', '\0'])
}

/// A file in the archive.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Packed {
    pub(super) name: String,
    pub(super) length: u64,
    /// CRC-32, eight hexadecimal figures.
    pub(super) sum: String,
}

impl Packed {
    pub(super) fn of(name: &str, length: u64, sum: u32) -> Self {
        Self { name: name.to_owned(), length, sum: format!("{sum:08x}") }
    }
}

/// The list of all that is in the archive.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Contents {
    /// The form of this list and of what it lists.
    pub(super) schema: u32,
    /// The program that made it.
    pub(super) program: String,
    pub(super) files: Vec<Packed>,
}

/// The form alone, of a list that may be of a later one.
#[derive(Deserialize)]
pub(super) struct Form {
    pub(super) schema: u32,
}
