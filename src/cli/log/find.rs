//! Which job is meant?

use crate::log::{Id, JobRow, LogStoreError, Logs, OpenLog};
use crate::words::{List, Words};

/// So many signs of an id are enough to name a job.
const ID_SIGNS: usize = 4;

/// Why no job is found.
pub(in crate::cli) enum NotFound {
    /// The logs can't be read.
    Store(LogStoreError),
    /// There is none of that name or id.
    None,
    /// Several have that name.
    Several(Vec<Id>),
}

impl NotFound {
    /// In one plain line.
    pub(in crate::cli) fn say(&self, words: &Words) -> String {
        match self {
            Self::Store(error) => error.say(words),
            Self::None => words.get("log-no-job"),
            Self::Several(ids) => {
                let ids: Vec<String> = ids.iter().map(Id::to_string).collect();
                words.with("cli-log-several", &[("ids", &words.list(List::Comma, &ids))])
            }
        }
    }
}

/// A job by its name, or by the beginning or the end of its id.
pub(super) fn job(logs: &Logs, named: &str) -> Result<Id, NotFound> {
    let rows = logs.list_all().map_err(NotFound::Store)?;
    let text = named.trim();
    let by_id = |row: &&JobRow| {
        let id = row.id.to_string();
        text.len() >= ID_SIGNS && (id.starts_with(text) || id.ends_with(text))
    };
    let by_name: Vec<&JobRow> = rows.iter().filter(|row| row.name == text).collect();
    let found = if by_name.is_empty() { rows.iter().filter(by_id).collect() } else { by_name };
    match found.as_slice() {
        [one] => Ok(one.id),
        [] => Err(NotFound::None),
        several => Err(NotFound::Several(several.iter().map(|row| row.id).collect())),
    }
}

/// The job that is meant, open for reading; where nothing was ever logged there is none.
pub(in crate::cli) fn named(named: &str) -> Result<OpenLog, NotFound> {
    let logs = super::folder().and_then(|folder| Logs::to_read(&folder)).ok_or(NotFound::None)?;
    let id = job(&logs, named)?;
    logs.job(id).map_err(NotFound::Store)
}
