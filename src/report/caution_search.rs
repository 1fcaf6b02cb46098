//! Looking for a caution by a word.

use super::Pen;
use crate::reference::{Caution, Role};
use crate::words::{Missing, Wanted, Words};

/// Words that mean the same, and are shown nowhere.
pub const SAME_WORDS: &str = "safety-same-words";

/// The cautions and the first aid in whose words every word of the query stands, or else the most of
/// them: those that have it in the title first, then the worst, then by their places. Empty for a query
/// of nothing.
#[must_use]
pub fn cautions_with<'a>(pen: &Pen<'a>, query: &str) -> Vec<&'a Caution> {
    let asked = Wanted::of(pen.words, query, &[SAME_WORDS]);
    let all = pen.reference.cautions.iter().filter(|caution| caution.role != Role::Briefing);
    let mut found = asked.best(all.map(|caution| (missing(pen.words, caution, &asked), caution)).collect());
    found.sort_by_key(|(missing, caution)| {
        (missing.in_title, caution.role == Role::FirstAid, caution.severity, caution.harm, caution.rank)
    });
    found.into_iter().map(|(_, caution)| caution).collect()
}

fn missing(words: &Words, caution: &Caution, asked: &Wanted) -> Missing {
    let message = caution.message();
    let rest = ["trigger", "why", "do", "words"]
        .map(|part| format!("{message}.{part}"))
        .iter()
        .filter(|key| words.has(key))
        .map(|key| words.get(key))
        .collect::<Vec<_>>()
        .join(" ");
    asked.missing(&words.get(&message), &rest)
}
