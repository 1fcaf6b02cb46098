//! The list of terms: whole, in every language, and found by the own word, by the English one, and without accents.

use std::collections::BTreeSet;

use strawblue::words::{Term, TermSource, Words, terms, terms_with};

#[test]
fn every_language_but_english_has_its_terms() {
    let all = terms();
    let mut seen = BTreeSet::new();
    for term in all {
        assert!(seen.insert(term.english.to_lowercase()), "{} stands twice", term.english);
        assert!(!term.said.is_empty() && !term.english.trim().is_empty(), "{term:?}");
        for (tag, said) in &term.said {
            assert!(Words::languages().any(|known| known == tag && tag != "en"), "{tag}: {said}");
            assert!(!said.trim().is_empty() && !said.contains(['|', '\n']), "{}: {said}", term.english);
        }
        if let TermSource::Standard(named) = &term.from {
            assert!(named.chars().any(|sign| sign.is_ascii_digit()) || named == "ASME", "{named}");
        }
    }
    for tag in Words::languages() {
        let count = terms_with(tag, "").len();
        assert_eq!(count, all.iter().filter(|term| term.said.contains_key(tag)).count(), "{tag}");
        assert!(if tag == "en" { count == 0 } else { count >= 100 }, "{tag} has {count} terms");
    }
}

/// ISO 4885 in German and French, and the glossaries of the trade: the terms a welder must not mix up.
/// Recalled, not looked up.
#[test]
fn quenching_and_tempering_are_never_mixed_up() {
    let of = |tag: &str, english: &str| -> String {
        let same = |(_, term): &(&str, &Term)| term.english == english;
        terms_with(tag, english).into_iter().find(same).map(|(said, _)| said.to_owned()).unwrap_or_default()
    };
    for (tag, tempering, tempered) in [
        ("de", "Anlassen", "vergütet"),
        ("es", "revenido", "templado y revenido"),
        ("fr", "revenu", "trempé et revenu"),
        ("pt-BR", "revenimento", "temperado e revenido"),
    ] {
        assert!(of(tag, "tempering").starts_with(tempering), "{tag}: {}", of(tag, "tempering"));
        assert!(of(tag, "quenched and tempered (Q&T)").starts_with(tempered), "{tag}");
    }
}

#[test]
fn a_term_is_found_by_either_word() {
    let first =
        |tag: &str, query: &str| terms_with(tag, query).first().map(|(_, term)| term.english.as_str());
    for query in ["Schmelzlinie", "schmelzl", "fusion line", "FUSION"] {
        assert_eq!(first("de", query), Some("fusion line"), "{query}");
    }
    // A thumb leaves accents out.
    assert_eq!(first("fr", "thermocouple"), Some("thermocouple"));
    assert_eq!(first("es", "linea de fusion"), Some("fusion line"));
    assert_eq!(first("de", "xyzzy"), None);
    assert_eq!(first("en", "fusion line"), None);
}

/// The page for people is made of the same rows.
#[test]
fn the_glossary_has_the_same_terms() {
    let page = include_str!("../../data/GLOSSARY.md");
    for term in terms() {
        let line = page.lines().find(|line| line.starts_with(&format!("| {} |", term.english)));
        let line = line.unwrap_or_else(|| panic!("GLOSSARY.md lacks {}", term.english));
        for said in term.said.values() {
            assert!(line.contains(&format!("| {said} |")), "{line} lacks {said}");
        }
    }
    let rows = page.lines().filter(|line| line.starts_with("| ")).count();
    assert_eq!(rows, terms().len() + 1, "its head and a row for each term");
}
