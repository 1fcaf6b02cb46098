//! Looking for a question by a word: as it is asked, as it is called, or as the shop calls the thing.

use crate::questions::{self, Question};
use crate::report::SAME_WORDS as SAFETY_SAME_WORDS;
use crate::words::{Wanted, Words};

/// Words that mean the same, and are shown nowhere.
const SAME_WORDS: &str = "bench-same-words";

/// The questions in whose words every word of the query stands, or else the most of them: those that
/// have it in their own words first, then in the order of the work. Empty for a query of nothing.
#[must_use]
pub fn questions_with(words: &Words, query: &str) -> Vec<&'static Question> {
    let asked = Wanted::of(words, query, &[SAFETY_SAME_WORDS, SAME_WORDS]);
    let all = questions::ALL.iter().copied().map(|question| {
        let key = format!("question-{}", question.name);
        let of = |key: &str| words.searched(key).join(" ");
        let title = [of(&key), of(&format!("{key}.asked"))].join(" ");
        let group = of(&format!("work-{}", question.work.id()));
        let rest = [of(&format!("{key}.about")), of(&format!("{key}.words")), group].join(" ");
        (asked.missing(&title, &rest), question)
    });
    let mut found = asked.best(all.collect());
    found.sort_by_key(|(missing, question)| (missing.in_title, question.work));
    found.into_iter().map(|(_, question)| question).collect()
}
