//! What the id of a steel in the list stands for: made and read here alone.

use std::fmt::{self, Display, Formatter};

/// What stands before the name of an own steel.
const OWN: &str = "own:";

/// A steel of the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SteelId<'a> {
    /// A grade, by its id.
    Grade(&'a str),
    /// A steel of the reader's own, by its name.
    Own(&'a str),
}

impl<'a> SteelId<'a> {
    /// The steel of an id.
    #[must_use]
    pub fn read(id: &'a str) -> Self {
        id.strip_prefix(OWN).map_or(Self::Grade(id), Self::Own)
    }

    /// What is typed for it in a job.
    pub(super) const fn typed(self) -> &'a str {
        match self {
            Self::Grade(name) | Self::Own(name) => name,
        }
    }
}

impl Display for SteelId<'_> {
    fn fmt(&self, out: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::Grade(id) => out.write_str(id),
            Self::Own(name) => write!(out, "{OWN}{name}"),
        }
    }
}
