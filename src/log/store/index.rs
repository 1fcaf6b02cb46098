//! A list of the jobs that is quick: what each job's files said when they were last read. It is made anew
//! where a file differs, and nothing is lost with it.

use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::path::Path;

use serde::{Deserialize, Serialize};

use super::JobRow;
use super::read::Seen;
use crate::log::Id;

/// The file.
const FILE: &str = "log-index.json";
/// The version of what is written; one of another version is made anew.
const VERSION: u32 = 2;

/// A job as it was last read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct Known {
    /// Its files.
    pub(super) files: BTreeMap<String, Seen>,
    /// What they said.
    pub(super) row: JobRow,
}

/// All jobs as they were last read.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub(super) struct Index {
    version: u32,
    pub(super) jobs: BTreeMap<Id, Known>,
}

impl Index {
    /// What is there; nothing where there is none that can be read.
    pub(super) fn read(root: &Path) -> Self {
        let text = fs::read(root.join(FILE)).unwrap_or_default();
        let read: Option<Self> = serde_json::from_slice(&text).ok();
        read.filter(|index| index.version == VERSION).unwrap_or_default()
    }

    /// Writes it. A failure harms nothing: it is made anew then.
    pub(super) fn write(&self, root: &Path) {
        let with_version = Self { version: VERSION, jobs: self.jobs.clone() };
        let Ok(text) = serde_json::to_vec(&with_version) else { return };
        let Ok(mut beside) = tempfile::Builder::new().prefix(".half-written-").tempfile_in(root) else {
            return;
        };
        if beside.write_all(&text).is_ok() {
            let _ = beside.persist(root.join(FILE));
        }
    }
}
