//! Terms of the trade in each language, beside the English ones that they stand for.

use std::collections::BTreeMap;

use once_cell::sync::OnceCell;
use serde::Deserialize;

use super::search::plain;
use crate::packed::data;

/// A term of the trade.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Term {
    /// In English.
    pub english: String,
    /// In other languages, by tag. `(?)` stands behind one that is in doubt.
    pub said: BTreeMap<String, String>,
    /// Where the English term comes from.
    pub from: TermSource,
}

/// Where a term comes from.
#[derive(Debug, PartialEq, Eq, Deserialize)]
pub enum TermSource {
    /// Standards or laws that use it.
    Standard(String),
    /// The usage of the trade.
    Trade,
    /// Our own word.
    Ours,
}

/// All terms. They are read where somebody looks at them first, and stay.
#[must_use]
pub fn terms() -> &'static [Term] {
    static TERMS: OnceCell<Vec<Term>> = OnceCell::new();
    // The tests read the same file and name its faults; a list that can't be read is an empty one.
    TERMS.get_or_init(|| ron::from_str(&data!("terms.ron")).unwrap_or_default())
}

/// The terms of a language in which a query stands, in the order of its alphabet: those that begin with
/// it first. All of them for a query of nothing, and none for English, which needs no list.
#[must_use]
pub fn terms_with(tag: &str, query: &str) -> Vec<(&'static str, &'static Term)> {
    if tag == super::language::ENGLISH {
        return Vec::new();
    }
    let asked = plain(query.trim());
    let mut found: Vec<(bool, String, &str, &Term)> = terms()
        .iter()
        .filter_map(|term| {
            let said = term.said.get(tag)?;
            let (own, english) = (plain(said), plain(&term.english));
            (own.contains(&asked) || english.contains(&asked)).then(|| {
                let within = !own.starts_with(&asked) && !english.starts_with(&asked);
                (within, own, said.as_str(), term)
            })
        })
        .collect();
    found.sort_by(|one, other| (one.0, &one.1).cmp(&(other.0, &other.1)));
    found.into_iter().map(|(_, _, said, term)| (said, term)).collect()
}
