//! Looking for a caution by a word: as it is written here or there, or as it is called in the shop.

use super::Pen;
use crate::reference::{Caution, Role};
use crate::words::Words;

/// Words that mean the same: the message that lists them has `;` between groups and `,` within one.
const SAME_WORDS: &str = "safety-same-words";

/// The cautions and the first aid in whose words every word of the query stands, or else the most of
/// them: those that have it in the title first, then the worst, then by their places. Empty for a query
/// of nothing.
#[must_use]
pub fn cautions_with<'a>(pen: &Pen<'a>, query: &str) -> Vec<&'a Caution> {
    let asked = wanted(&query.to_lowercase(), &same_words(pen.words));
    let mut found: Vec<(Missing, &Caution)> = pen
        .reference
        .cautions
        .iter()
        .filter(|caution| caution.role != Role::Briefing)
        .map(|caution| (missing(pen.words, caution, &asked), caution))
        .filter(|(missing, _)| missing.anywhere < asked.len())
        .collect();
    let least = found.iter().map(|(missing, _)| missing.anywhere).min().unwrap_or(0);
    found.retain(|(missing, _)| missing.anywhere == least);
    found.sort_by_key(|(missing, caution)| {
        (missing.in_title, caution.role == Role::FirstAid, caution.severity, caution.harm, caution.rank)
    });
    found.into_iter().map(|(_, caution)| caution).collect()
}

/// How many of the wanted words a caution lacks.
struct Missing {
    anywhere: usize,
    in_title: usize,
}

fn missing(words: &Words, caution: &Caution, asked: &[Vec<String>]) -> Missing {
    let message = caution.message();
    let title = words.get(&message).to_lowercase();
    let rest = ["trigger", "why", "do", "words"]
        .map(|part| format!("{message}.{part}"))
        .iter()
        .filter(|key| words.has(key))
        .map(|key| words.get(key))
        .collect::<Vec<_>>()
        .join(" ")
        .to_lowercase();
    let stands = |text: &str, any: &[String]| any.iter().any(|word| begins_in(text, word));
    let lacking = |has: &dyn Fn(&[String]) -> bool| asked.iter().filter(|any| !has(any)).count();
    Missing {
        anywhere: lacking(&|any| stands(&title, any) || stands(&rest, any)),
        in_title: lacking(&|any| stands(&title, any)),
    }
}

/// Does a word of the text begin so? "arc" is in "arcs" and not in "search".
fn begins_in(text: &str, word: &str) -> bool {
    text.match_indices(word)
        .any(|(at, _)| text[..at].chars().next_back().is_none_or(|before| !before.is_alphanumeric()))
}

/// Groups of words that mean the same, in lower case.
fn same_words(words: &Words) -> Vec<Vec<String>> {
    words
        .get(SAME_WORDS)
        .to_lowercase()
        .split(';')
        .map(|group| group.split(',').map(|word| word.trim().to_owned()).collect())
        .collect()
}

/// What is looked for: for each word of the query, or each phrase that has its like, all that mean
/// the same.
fn wanted(query: &str, same: &[Vec<String>]) -> Vec<Vec<String>> {
    let mut rest = query.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut asked = Vec::new();
    let mut phrases: Vec<(&String, &Vec<String>)> =
        same.iter().flat_map(|group| group.iter().map(move |word| (word, group))).collect();
    // The longest first, so that "gas bottle" is not taken for "bottle".
    phrases.sort_by_key(|(word, _)| std::cmp::Reverse(word.len()));
    for (phrase, group) in phrases {
        if let Some(at) = whole(&rest, phrase) {
            asked.push(group.clone());
            rest.replace_range(at..at + phrase.len(), " ");
        }
    }
    asked.extend(rest.split_whitespace().map(|word| vec![word.to_owned()]));
    asked
}

/// Where a phrase stands in the text as whole words.
fn whole(text: &str, phrase: &str) -> Option<usize> {
    let letter = |sign: Option<char>| sign.is_some_and(char::is_alphanumeric);
    text.match_indices(phrase).map(|(at, _)| at).find(|at| {
        !letter(text[..*at].chars().next_back()) && !letter(text[at + phrase.len()..].chars().next())
    })
}
