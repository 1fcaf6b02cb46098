//! Which languages there are words of, and which one is spoken.

use std::borrow::Cow;

use unic_langid::LanguageIdentifier;

/// The tag of the language that stands behind all others.
pub(super) const ENGLISH: &str = "en";

/// Its messages lie open, so that a start need not unpack them.
const ENGLISH_WORDS: &str = include_str!("../../data/en.ftl");

/// Every other language, by its tag: each `data/LANGUAGE.ftl`, packed by the build.
const PACKED: &[(&str, &[u8])] = include!(concat!(env!("OUT_DIR"), "/languages.rs"));

/// The tags of all languages, English first.
pub(super) fn tags() -> impl Iterator<Item = &'static str> {
    std::iter::once(ENGLISH).chain(PACKED.iter().map(|(tag, _)| *tag))
}

/// The messages of a language; those of English where there is no such language.
pub(super) fn messages(tag: &str) -> Cow<'static, str> {
    let packed = PACKED.iter().find(|(known, _)| *known == tag);
    let unpacked = packed.and_then(|(_, packed)| {
        let bytes = miniz_oxide::inflate::decompress_to_vec(packed).ok()?;
        String::from_utf8(bytes).ok()
    });
    unpacked.map_or(Cow::Borrowed(ENGLISH_WORDS), Cow::Owned)
}

/// The language that there are words of for a tag: the same one, or its language with another region
/// or none.
pub(super) fn known(tag: &str) -> Option<&'static str> {
    let asked: LanguageIdentifier = tag.parse().ok()?;
    let same = |known: &&str| known.parse().is_ok_and(|known: LanguageIdentifier| known == asked);
    let near =
        |known: &&str| known.parse().is_ok_and(|known: LanguageIdentifier| known.language == asked.language);
    tags().find(same).or_else(|| tags().find(near))
}

/// The first language of a list that there are words of; English where there is none.
pub(super) fn first_known(tags: impl IntoIterator<Item = String>) -> &'static str {
    tags.into_iter().find_map(|tag| known(&tag)).unwrap_or(ENGLISH)
}
