//! Looking for a caution by a word.

use super::Pen;
use crate::reference::{Caution, Harm, Role};
use crate::words::{Missing, Wanted, Words};

/// Words that mean the same, and are shown nowhere.
pub const SAME_WORDS: &str = "safety-same-words";

/// The cautions and the first aid in whose words every word of the query stands, or else the most of
/// them: the one that is called just so first, then those that have it in the title, then the worst, what
/// kills today before what kills later, then by their places. Empty for a query of nothing.
#[must_use]
pub fn cautions_with<'a>(pen: &Pen<'a>, query: &str) -> Vec<&'a Caution> {
    let asked = Wanted::of(pen.words, query, &[SAME_WORDS]);
    let all = pen.reference.cautions.iter().filter(|caution| caution.role != Role::Briefing);
    let mut found = asked.best(all.map(|caution| (missing(pen.words, caution, &asked), caution)).collect());
    found.sort_by_key(|(missing, caution)| {
        let later = caution.harm != Harm::Today;
        let other = !asked.is_whole(&pen.words.get(&caution.message()));
        let first_aid = caution.role == Role::FirstAid;
        (other, missing.in_title, first_aid, caution.severity, later, caution.harm, caution.rank)
    });
    found.into_iter().map(|(_, caution)| caution).collect()
}

fn missing(words: &Words, caution: &Caution, asked: &Wanted) -> Missing {
    let message = caution.message();
    let rest = ["trigger", "why", "do", "words"]
        .map(|part| format!("{message}.{part}"))
        .iter()
        .flat_map(|key| words.searched(key))
        .collect::<Vec<_>>()
        .join(" ");
    asked.missing(&words.searched(&message).join(" "), &rest)
}
