//! Which languages there are words of, and which one is spoken.

use unic_langid::LanguageIdentifier;

/// The tag of the language that stands behind all others.
pub(super) const ENGLISH: &str = "en";

/// Every language, by its tag: each `data/LANGUAGE.ftl`, packed by the build.
const PACKED: &[(&str, &[u8])] = include!(concat!(env!("OUT_DIR"), "/languages.rs"));

/// The tags of all languages, English first.
pub(super) fn tags() -> impl Iterator<Item = &'static str> {
    let others = PACKED.iter().map(|(tag, _)| *tag).filter(|tag| *tag != ENGLISH);
    std::iter::once(ENGLISH).chain(others)
}

/// The messages of a language; those of English where there is no such language.
pub(super) fn messages(tag: &str) -> String {
    let packed =
        |tag| PACKED.iter().find(|(known, _)| *known == tag).map(|(_, packed)| crate::packed::text(packed));
    packed(tag).or_else(|| packed(ENGLISH)).unwrap_or_default()
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
