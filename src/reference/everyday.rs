//! Words of the shop that find steels and fillers: `data/everyday_words.ron`.

use serde::{Deserialize, Serialize};

use super::Row;

/// One everyday word and what it stands for. It lists, it never selects.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EverydayWord {
    /// The word, or words, as people type them.
    pub word: String,
    /// Other spellings and words of the same meaning.
    #[serde(default)]
    pub also: Vec<String>,
    /// Grades that it may mean, the likeliest first.
    #[serde(default)]
    pub grades: Vec<String>,
    /// Groups of grades that it may mean.
    #[serde(default)]
    pub groups: Vec<String>,
    /// Fillers that it may mean.
    #[serde(default)]
    pub fillers: Vec<String>,
    /// Fluent message with a warning that goes with the word.
    pub note: Option<String>,
}

impl Row for EverydayWord {
    fn id(&self) -> &str {
        &self.word
    }
}
