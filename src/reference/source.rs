//! A source that figures rest on: a row of `data/sources.ron`.

use serde::{Deserialize, Serialize};

use super::Row;

/// What kind of text a source is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum SourceKind {
    /// A standard or code.
    Standard,
    /// A regulation or a government manual.
    Government,
    /// A handbook or textbook.
    Handbook,
    /// A paper or a research report.
    Paper,
    /// A maker's or stockholder's table, data sheet or manual.
    Trade,
    /// A page on the open web: forum, encyclopaedia, answers of an institute.
    Web,
}

/// How a source was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize, strum::IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum SourceRead {
    /// Its own text, in whole or in the part that `seen` names.
    #[default]
    Text,
    /// A summary of it.
    Summary,
    /// As another text quotes or copies it.
    Quoted,
    /// Its title, a text of the same content, or from memory.
    Unread,
}

impl SourceRead {
    /// The stable id; its words are the Fluent message `settings-source-ID`.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// One source, named once for the whole dataset.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Stable id in kebab-case; `Basis::Published` names it.
    pub id: String,
    /// Title as one would look it up.
    pub title: String,
    /// Year or edition, where known.
    pub edition: Option<String>,
    /// What kind of text it is.
    pub kind: SourceKind,
    /// How it was read.
    #[serde(default)]
    pub read: SourceRead,
    /// What was seen of it: "public copy of one table", "abstract" …
    pub seen: String,
    /// What to keep in mind when using it.
    pub note: Option<String>,
}

impl Row for Source {
    fn id(&self) -> &str {
        &self.id
    }
}
