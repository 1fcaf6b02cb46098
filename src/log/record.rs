//! One line of a log: written once, never changed.

use std::fmt;

use serde::{Deserialize, Serialize};
use uuid::{NoContext, Timestamp, Uuid};

use super::{Entry, Moment};

/// What tells a record, or a thing that records speak of, from every other one on any device.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Id(pub Uuid);

impl Id {
    /// A new one.
    #[must_use]
    pub fn new() -> Self {
        Self(Uuid::now_v7())
    }

    /// A new one that is greater than another, whatever the clock says: what a device writes comes after
    /// what it has seen, also where its clock was set back.
    #[must_use]
    pub fn after(last: Self) -> Self {
        let new = Uuid::now_v7();
        let next_ms = last.ms().saturating_add(1);
        if new > last.0 || next_ms > LAST_MS {
            return Self(new);
        }
        let (seconds, ms) = (next_ms / 1000, next_ms % 1000);
        let nanos = u32::try_from(ms * 1_000_000).unwrap_or(0);
        Self(Uuid::new_v7(Timestamp::from_unix(NoContext, seconds, nanos)))
    }

    /// Milliseconds that it was made of.
    fn ms(self) -> u64 {
        u64::try_from(self.0.as_u128() >> 80).unwrap_or(u64::MAX)
    }

    /// The id that a text is; none for anything else.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        Uuid::parse_str(text.trim()).ok().map(Self)
    }
}

impl fmt::Display for Id {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.as_hyphenated().fmt(formatter)
    }
}

/// An id has no room for later milliseconds.
const LAST_MS: u64 = (1 << 48) - 2;

/// One line of a log.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Record {
    /// Its id.
    pub id: Id,
    /// What it speaks of: the id of the first record of that thing.
    pub thing: Id,
    /// The device that wrote it.
    pub device: String,
    /// When, by that device's clock.
    pub at: Moment,
    /// The records of the same thing that it takes the place of.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub replaces: Vec<Id>,
    /// What it says.
    pub entry: Entry,
}

impl Record {
    /// Is it the first of its thing?
    #[must_use]
    pub fn begins(&self) -> bool {
        self.id == self.thing
    }
}
