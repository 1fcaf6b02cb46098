//! The names by which a row is searched for, and the ways in which people shorten them.

use super::search::{Item, Match};
use super::spelling::normal;

/// One way to name a row.
#[derive(Debug, Clone)]
pub(super) struct Key {
    pub(super) normal: String,
    pub(super) written: String,
    pub(super) item: Item,
    pub(super) how: Match,
}

/// Adds a name of a row to the keys, and the ways in which it is shortened.
pub(super) fn push(keys: &mut Vec<Key>, item: Item, written: &str, how: Match) {
    let form = normal(written);
    if form.is_empty() {
        return;
    }
    // A number typed without its point is still that number.
    if how <= Match::CrossReference && form.contains('.') {
        keys.push(Key {
            normal: form.replace('.', ""),
            written: written.to_owned(),
            item,
            how: Match::Similar,
        });
    }
    // A European number is typed without its leading 1 as well: 4104 is 1.4104.
    if how <= Match::CrossReference
        && let Some(short) = form.strip_prefix("1.")
        && short.len() == 4
        && short.chars().all(|letter| letter.is_ascii_digit())
    {
        let normal = short.to_owned();
        keys.push(Key { normal, written: written.to_owned(), item, how: Match::Similar });
    }
    keys.push(Key { normal: form, written: written.to_owned(), item, how });
}

/// A filler's classification without the hydrogen that it is sold with: `E7018-H4R` is an E7018.
pub(super) fn without_hydrogen(query: &str) -> Option<&str> {
    let trimmed = query.trim_end();
    let bare = trimmed.strip_suffix(['r', 'R']).unwrap_or(trimmed);
    let letters = bare.trim_end_matches(|letter: char| letter.is_ascii_digit());
    let digits = &bare[letters.len()..];
    let left = letters.strip_suffix(['h', 'H'])?.trim_end_matches(['-', ' ']);
    (matches!(digits, "2" | "4" | "5" | "8" | "10" | "15" | "16") && left.len() >= 4).then_some(left)
}

/// Parts of a designation that people use alone: with a digit, or three letters and more.
pub(super) fn parts(designation: &str) -> impl Iterator<Item = &str> {
    designation
        .split([' ', '-', ','])
        .filter(move |part| *part != designation)
        .filter(|part| part.len() >= 2)
        .filter(|part| {
            let digits = part.contains(|letter: char| letter.is_ascii_digit());
            let letters = part.contains(|letter: char| letter.is_alphabetic());
            letters && (digits || part.len() >= 3)
        })
}
