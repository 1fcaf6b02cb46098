//! Looking for something by a word: as it is written here or there, or as it is called in the shop.

use super::Words;

/// What is looked for: the words of a query, or phrases that have their like.
pub struct Wanted {
    /// For each word or phrase all that mean the same.
    asked: Vec<Vec<String>>,
    /// Does the language write several words as one? Then a word is found within one too.
    compounds: bool,
}

/// A language that writes several words as one.
const COMPOUNDING: &str = "de";
/// A word of so many letters that it is found within another one.
const WITHIN: usize = 4;

/// How many of the wanted words something lacks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Missing {
    /// In all that is said of it.
    pub anywhere: usize,
    /// In its title.
    pub in_title: usize,
}

impl Wanted {
    /// The words of a query. Each message of `same_words` lists words that mean the same: it has `;`
    /// between groups and `,` within one.
    #[must_use]
    pub fn of(words: &Words, query: &str, same_words: &[&str]) -> Self {
        let same: Vec<Vec<String>> = same_words
            .iter()
            .flat_map(|key| words.searched(key))
            .flat_map(|listed| groups(&listed))
            .collect();
        Self { asked: wanted(&plain(query), &same), compounds: words.language() == COMPOUNDING }
    }

    /// What of it a thing lacks that is called so and of which this is said besides.
    #[must_use]
    pub fn missing(&self, title: &str, rest: &str) -> Missing {
        let (title, rest) = (plain(title), plain(rest));
        let stands = |text: &str, any: &[String]| any.iter().any(|word| self.is_in(text, word));
        let lacking = |has: &dyn Fn(&[String]) -> bool| self.asked.iter().filter(|any| !has(any)).count();
        Missing {
            anywhere: lacking(&|any| stands(&title, any) || stands(&rest, any)),
            in_title: lacking(&|any| stands(&title, any)),
        }
    }

    /// Is a thing that is called so just what is looked for, by one of its names?
    #[must_use]
    pub fn is_whole(&self, title: &str) -> bool {
        let title = plain(title);
        matches!(self.asked.as_slice(), [any] if any.contains(&title))
    }

    fn is_in(&self, text: &str, word: &str) -> bool {
        begins_in(text, word) || self.compounds && word.chars().count() >= WITHIN && text.contains(word)
    }

    /// Of some things those that have every word, or else those that have any of them, since each may be
    /// about a danger of its own; none for a query of nothing.
    #[must_use]
    pub fn best<T>(&self, mut found: Vec<(Missing, T)>) -> Vec<(Missing, T)> {
        let least = found.iter().map(|(missing, _)| missing.anywhere).min().unwrap_or(0);
        let most = if least == 0 { self.asked.len().min(1) } else { self.asked.len() };
        found.retain(|(missing, _)| missing.anywhere < most);
        found
    }
}

/// A text as it is looked for: in small letters without accents, which a thumb leaves out.
pub(super) fn plain(text: &str) -> String {
    let mut made = String::with_capacity(text.len());
    for letter in text.chars().flat_map(char::to_lowercase) {
        match letter {
            'á' | 'à' | 'â' | 'ã' | 'ä' => made.push('a'),
            'ç' => made.push('c'),
            'é' | 'è' | 'ê' | 'ë' => made.push('e'),
            'í' | 'ì' | 'î' | 'ï' => made.push('i'),
            'ł' => made.push('l'),
            'ñ' => made.push('n'),
            'ó' | 'ò' | 'ô' | 'õ' | 'ö' => made.push('o'),
            'ú' | 'ù' | 'û' | 'ü' => made.push('u'),
            'œ' => made.push_str("oe"),
            'ß' => made.push_str("ss"),
            // Of a letter that is written as two characters.
            '\u{300}'..='\u{36f}' => {}
            _ => made.push(letter),
        }
    }
    made
}

/// Does a word of the text begin so? "arc" is in "arcs" and not in "search".
fn begins_in(text: &str, word: &str) -> bool {
    text.match_indices(word)
        .any(|(at, _)| text[..at].chars().next_back().is_none_or(|before| !before.is_alphanumeric()))
}

/// Groups of words that mean the same, in lower case.
fn groups(listed: &str) -> Vec<Vec<String>> {
    let listed = plain(listed);
    listed.split(';').map(|group| group.split(',').map(|word| word.trim().to_owned()).collect()).collect()
}

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
